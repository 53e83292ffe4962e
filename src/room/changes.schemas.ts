// What an owner may change of the room's rules and the studio's light and booking, checked field by field.
// Used by the settings pages and by the API alike; dates and times are ISO 8601, minutes are whole.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { KEEPS_PLATE, OFFERED } from './rules.schemas.js';

const whole = (least: number, most: number) => {
  const say = `Please give a whole number from ${least} to ${most}.`;
  return z.int(say).min(least, say).max(most, say);
};
const some = (least: number, most: number) => {
  const say = `Please give a number from ${least} to ${most}.`;
  return z.number(say).min(least, say).max(most, say);
};
const line = (most: number) =>
  z
    .string()
    .transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`));

const DATE = 'Please give a date, day, month and year.';
const isoDate = (from: (text: string) => Temporal.PlainDate, say: string) =>
  z.string(say).transform((text, context) => {
    try {
      if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) throw new RangeError();
      return from(text);
    } catch {
      context.addIssue({ code: 'custom', message: say });
      return z.NEVER;
    }
  });
const readDate = (text: string) => Temporal.PlainDate.from(text, { overflow: 'reject' });
const date = isoDate(readDate, DATE);

const TIME = 'Please give a time like 14:30.';
const time = z
  .string(TIME)
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, TIME)
  .transform((text) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3)));

const STARTS = 'Please give times like 09:30, 11:15.';
const starts = z
  .array(time, STARTS)
  .min(1, 'Please give at least one time at which a sitting may start.')
  .max(48, 'A day has at most 48 starts.')
  .refine((all) => new Set(all).size === all.length, 'Each time stands here once.')
  .transform((all) => [...all].sort((a, b) => a - b));

const breaks = z
  .array(z.object({ from: time, until: time }))
  .max(12, 'A day has at most twelve breaks.')
  .refine((all) => all.every((one) => one.from < one.until), 'A break ends after it begins.')
  .transform((all) => all.flatMap(({ from, until }) => [from, until]));

const weekday = whole(1, 7);
const weekdays = z.array(weekday).transform((all) => [...new Set(all)].sort((a, b) => a - b));

const lengths = {
  firstPlateMinutes: whole(5, 720),
  furtherPlateMinutes: whole(0, 720),
  furtherSitterMinutes: whole(0, 720),
  changeoverMinutes: whole(0, 240),
  breaks,
  mostSittings: whole(1, 48),
  mostSittingsWithHelper: whole(1, 48),
  mostPlates: whole(1, 200),
  heldBack: whole(0, 48),
  heldBackDays: whole(0, 365),
};

const rhythm = z
  .object({
    do: z.literal('rhythm'),
    weekday,
    starts,
    ...lengths,
    from: date,
    until: date.nullable(),
  })
  .refine((one) => one.until === null || Temporal.PlainDate.compare(one.from, one.until) <= 0, {
    path: ['until'],
    message: 'The last day must not be before the first.',
  });

/** No sitting on a weekday after a date; extra days stay. */
const endWeekday = z.object({ do: z.literal('end weekday'), weekday, last: date });
/** A date with starts of its own; all else is as in the rhythm of that weekday, or of the studio's first. */
const extraDay = z.object({ do: z.literal('extra day'), date, starts });
const dropRhythm = z.object({ do: z.literal('drop rhythm'), rhythmId: z.uuid() });

/** Whole days, or from a time on the first day until a time on the last; without a last day one day. */
const close = z
  .object({
    do: z.literal('close'),
    title: line(120).default(''),
    from: date,
    fromTime: time.nullable().default(null),
    until: date.nullable().default(null),
    untilTime: time.nullable().default(null),
  })
  .transform((one) => ({ ...one, until: one.until ?? one.from }))
  .refine((one) => Temporal.PlainDate.compare(one.from, one.until) <= 0, {
    path: ['until'],
    message: 'The last day must not be before the first.',
  })
  .refine(
    (one) => !one.from.equals(one.until) || one.fromTime === null || (one.untilTime ?? 1440) > one.fromTime,
    { path: ['untilTime'], message: 'The end must be after the beginning.' },
  )
  .refine((one) => one.from.until(one.until).days < 1100, {
    path: ['until'],
    message: 'A closure lasts at most three years.',
  });
const reopen = z.object({ do: z.literal('reopen'), closureId: z.uuid() });

const kind = z.object({
  do: z.literal('kind'),
  /** Null for a new one. */
  kindId: z.uuid().nullable(),
  name: line(80).pipe(z.string().min(1, 'Please give it a name.')),
  offered: z.enum(OFFERED, 'Please choose to whom it is offered.'),
  firstPlateMinutes: whole(5, 720).nullable(),
  plates: whole(1, 6),
  fee: line(200).default(''),
  deposit: line(200).default(''),
  keepsPlate: z.enum(KEEPS_PLATE, 'Please choose who keeps the plate.'),
  weekdays,
  yearlyQuota: whole(0, 1000).nullable(),
});

const DAYS = 'Please give one date a line, like 14 May 2027.';
const singleDays = z
  .array(isoDate(readDate, DAYS))
  .max(400, 'At most 400 single days can be kept.')
  .transform((all) => [...new Set(all.map(String))].sort());
const people = z.object({
  do: z.literal('people'),
  ownerWeekdays: weekdays,
  ownerAlso: singleDays,
  ownerAway: singleDays,
  helperWeekdays: weekdays,
  helperAlso: singleDays,
  helperAway: singleDays,
});

const seconds = some(0.5, 300);
const pose = z.object({
  do: z.literal('pose'),
  under8: seconds,
  from8To14: seconds,
  adult: seconds,
  headRest: seconds,
  groupOf3: seconds,
});

const light = z.object({
  do: z.literal('light'),
  windowKind: z.enum(['north window', 'open shade', 'glass room'], 'Please choose the kind of window.'),
  lightFloorDegrees: some(0, 60),
  referenceSeconds: some(0.1, 600),
  referenceAltitudeDegrees: some(1, 90),
  exposureCapSeconds: some(0.5, 600),
});
const booking = z.object({
  do: z.literal('booking'),
  horizonMonths: whole(1, 24),
  leastNoticeDays: whole(0, 365),
});

export const change = z.discriminatedUnion('do', [
  rhythm,
  endWeekday,
  extraDay,
  dropRhythm,
  close,
  reopen,
  kind,
  people,
  pose,
  light,
  booking,
]);
export type Change = z.output<typeof change>;
