// What the daylight calculator is asked, checked with a plain sentence for each mistake, and what it answers.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { dayInWords } from '../lib/words.js';
import { isZone } from '../lib/zoned-time.js';
import { FIRST_DATE, LAST_DATE, USUAL_FLOOR, USUAL_REFERENCE } from './day.calc.js';
import { WEATHERS } from './exposure.calc.js';

export const WINDOW_KINDS = ['north window', 'open shade', 'glass room'] as const;

/** A number written out, with a point or comma; `refusal` is said for anything else and beyond the limits. */
export const written = (min: number, max: number, refusal: string) =>
  z
    .string(refusal)
    .trim()
    .max(30, refusal)
    .regex(/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/, refusal)
    .transform((text) => Number(text.replace(',', '.')))
    .refine((value) => value >= min && value <= max, refusal);

/** An empty answer of a form is no answer: then `usual` holds. */
const orUsual = <S extends z.ZodType>(schema: S, usual: string) =>
  z.preprocess((sent) => (sent === undefined || sent === '' ? usual : sent), schema);

const REACH = `from ${dayInWords(FIRST_DATE)} to ${dayInWords(LAST_DATE)}`;
const DATE = `Please give the date as year, month and day, ${REACH}.`;

export const plainDateText = z.string(DATE).transform((text, context) => {
  const refuse = (message: string) => {
    context.addIssue({ code: 'custom', message });
    return z.NEVER;
  };
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return refuse(DATE);
  let date: Temporal.PlainDate;
  try {
    date = Temporal.PlainDate.from(text, { overflow: 'reject' });
  } catch {
    return refuse('There is no such day in the calendar.');
  }
  const { compare } = Temporal.PlainDate;
  if (compare(date, FIRST_DATE) < 0 || compare(date, LAST_DATE) > 0)
    return refuse(`The reckoning is good for dates ${REACH} only.`);
  return date;
});

const WINDOW = `The window is one of: ${WINDOW_KINDS.join(', ')}.`;
const window = z
  .string(WINDOW)
  .transform((text) => text.replace(/-/g, ' '))
  .pipe(z.enum(WINDOW_KINDS, WINDOW));

export const daylightQuery = z.object({
  lat: written(-90, 90, 'The latitude is a number of degrees from -90 to 90; south is negative.'),
  lon: written(-180, 180, 'The longitude is a number of degrees from -180 to 180; west is negative.'),
  zone: z
    .string('The time zone is needed: a name such as Europe/London.')
    .refine(isZone, 'This time zone is not known. It is a name such as Europe/London, written just so.'),
  date: plainDateText,
  floor: orUsual(
    written(0, 60, 'The least height of the sun is a number of degrees from 0 to 60.'),
    String(USUAL_FLOOR),
  ),
  window: orUsual(window, 'north window'),
  referenceSeconds: orUsual(
    written(0.01, 3600, 'The exposure is a number of seconds, above 0 and at most 3600.'),
    String(USUAL_REFERENCE.seconds),
  ),
  referenceAltitude: orUsual(
    written(1, 90, 'The height of the sun at that exposure is a number of degrees from 1 to 90.'),
    String(USUAL_REFERENCE.altitude),
  ),
});
export type DaylightQuery = z.output<typeof daylightQuery>;

const seconds = z.object({ from: z.number(), to: z.number() });
const time = z.string().describe('RFC 3339 with the offset of the zone');

export const daylightAnswer = z.object({
  lat: z.number(),
  lon: z.number(),
  zone: z.string(),
  date: z.iso.date(),
  sunrise: time.nullable(),
  solarNoon: time,
  noonAltitude: z.number(),
  sunset: time.nullable(),
  state: z.enum(['rises or sets', 'up all day', 'down all day']),
  floor: z.number(),
  lightWindow: z.object({ start: time, end: time }).nullable(),
  window: z.enum(WINDOW_KINDS),
  reference: z.object({ seconds: z.number(), altitude: z.number(), assumed: z.boolean() }),
  halfHours: z.array(
    z.object({
      at: time,
      altitude: z.number(),
      azimuth: z.number(),
      exposure: z.object(Object.fromEntries(WEATHERS.map((one) => [one, seconds]))).nullable(),
    }),
  ),
  skyCoefficientsConfirmed: z.boolean(),
  notes: z.array(z.string()),
});
