// What the journey calculator is asked by programs, with a plain sentence for each mistake, and what it answers.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { isZone } from '../lib/zoned-time.js';
import { MODES } from './modes.calc.js';
import { travelPlan } from './plan.schemas.js';

const LATITUDE = 'The latitude is a number of degrees from -90 to 90; south is negative.';
const LONGITUDE = 'The longitude is a number of degrees from -180 to 180; west is negative.';
const ZONE = 'This time zone is not known. It is a name such as Europe/London, written just so.';
const ONE_WAY_OF_SAYING = 'Please give a place, a placeId, or lat and lon.';

const spot = {
  place: z.string('A place is a text.').trim().max(100, 'A place has at most 100 characters.').optional(),
  placeId: z.int('A placeId is a whole number.').positive('A placeId is a whole number.').optional(),
  lat: z.number(LATITUDE).min(-90, LATITUDE).max(90, LATITUDE).optional(),
  lon: z.number(LONGITUDE).min(-180, LONGITUDE).max(180, LONGITUDE).optional(),
  zone: z
    .string(ZONE)
    .refine(isZone, ZONE)
    .optional()
    .describe('Instead of the zone of the place, or of the town nearest to the point'),
};
type Said = { [key in 'place' | 'placeId' | 'lat' | 'lon']?: unknown };
const isSaidByPlace = ({ place, placeId, lat, lon }: Said) => {
  const byPoint = lat !== undefined && lon !== undefined;
  const byName = place !== undefined || placeId !== undefined;
  return byPoint !== byName && (byPoint || (lat === undefined && lon === undefined));
};

const from = z.object(spot).refine(isSaidByPlace, { path: ['place'], message: ONE_WAY_OF_SAYING });
const to = z
  .object({ ...spot, studio: z.string('A studio is named as in its address.').max(60).optional() })
  .refine((said) => (said.studio === undefined) === isSaidByPlace(said), {
    path: ['place'],
    message: 'Please give a studio, a place, a placeId, or lat and lon.',
  });

const WALL = 'Please give the start by the clock there, such as 2027-05-14T10:00.';
const wall = z.string(WALL).transform((text, context) => {
  if (/^(19[7-9]\d|20\d\d)-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text))
    try {
      return Temporal.PlainDateTime.from(text, { overflow: 'reject' });
    } catch {
      // no such day or hour
    }
  context.addIssue({ code: 'custom', message: WALL });
  return z.NEVER;
});

export const estimateBody = z.object({
  from,
  to,
  startsAt: wall
    .optional()
    .describe('By the clock where one goes to, from 1970 to 2099; without it only the way itself is told'),
  lastsMinutes: z
    .int('It lasts a whole number of minutes.')
    .min(1, 'It lasts at least a minute.')
    .max(1440, 'It lasts at most a day.')
    .default(120),
  plan: travelPlan.default(travelPlan.parse({})).describe('What is known better; it wins over each figure'),
});

export const ESTIMATE_EXAMPLES = {
  'a drive to a studio': {
    from: { place: 'York, United Kingdom' },
    to: { studio: 'kittiwake-yard' },
    startsAt: '2027-05-14T10:00',
  },
  'a flight over the date line, with a plan of one’s own': {
    from: { lat: 34.05, lon: -118.24 },
    to: { place: 'Auckland, New Zealand' },
    startsAt: '2027-01-15T10:00',
    plan: { mode: 'flight', minutes: 1200, night: 'yes', marginMinutes: 60 },
  },
};

const range = z.object({ from: z.number(), to: z.number() });
const moment = z.string().describe('ISO 8601 with the offset in force then and there');
const end = z.object({ name: z.string(), lat: z.number(), lon: z.number(), zone: z.string() });

export const estimateAnswer = z.object({
  from: end,
  to: end,
  straightKm: z.number(),
  crossing: z.object({
    kind: z.enum(['none', 'sea', 'round', 'perhaps']),
    byRail: z.boolean(),
    words: z.string().nullable(),
  }),
  ways: z.array(z.object({ mode: z.enum(MODES), km: range.nullable(), minutes: range })),
  mode: z.enum(MODES),
  minutes: range.describe('From door to door, one way'),
  own: z.array(z.enum(['mode', 'minutes', 'night', 'margin'])).describe('What was said in the plan'),
  night: z.object({ before: z.boolean(), words: z.string() }),
  bookDaysBefore: z.int().nullable(),
  day: z
    .object({
      leaveBy: moment,
      leaveByInWords: z.string(),
      thereBy: moment,
      atStudioBy: moment,
      homeBy: moment,
      nightsOnTheWay: z.int(),
      nightAfter: z.boolean(),
      hoursOutAndBack: z.number(),
      clockDifferenceMinutes: z.int().describe('Clocks where one goes to, ahead of those at home'),
    })
    .nullable(),
  notes: z.array(z.string()),
});
