// What is typed into the forms of preparation, checked, with a plain sentence for each mistake.
import { z } from 'zod';
import { plainDateText, written } from '../daylight/daylight.schemas.js';
import { AMOUNTS, CONDITIONS, FOR_DAYS } from './preparation.schemas.js';

/** Control characters go, line breaks stay. */
export const textOf = (most: number) =>
  z
    .string('Please write something.')
    .transform((text) => text.replace(/[^\P{Cc}\n\t]/gu, '').trim())
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`));

export const whole = (min: number, max: number, refusal: string) =>
  written(min, max, refusal).refine((value) => Number.isInteger(value), refusal);

const orNothing = <S extends z.ZodType>(schema: S) =>
  z.preprocess((sent) => (sent === undefined || sent === '' ? null : sent), schema.nullable());
export { orNothing };

const yes = z
  .literal('yes')
  .optional()
  .transform((sent) => sent === 'yes');

const task = { day: plainDateText, rule: z.uuid('This task is not known here.') };

export const tickForm = z.object({
  ...task,
  done: z.enum(['yes', 'no']).transform((sent) => sent === 'yes'),
});

/** An empty day lets the rule find one again. */
export const moveForm = z.object({ ...task, to: orNothing(plainDateText) });

export const ruleForm = z.object({
  what: textOf(120).pipe(z.string().min(1, 'Please say what is to be done.')),
  forDay: z.enum(FOR_DAYS, 'Please choose for which days.'),
  daysBefore: whole(0, 30, 'Please give whole days, 0 to 30.'),
  minutes: whole(1, 600, 'Please give whole minutes, 1 to 600.'),
  minutesEach: z.preprocess(
    (sent) => (sent === undefined || sent === '' ? '0' : sent),
    whole(0, 60, 'Please give whole minutes, 0 to 60.'),
  ),
  darkroom: yes,
  notWith: orNothing(z.uuid('Please choose one of the rules.')),
  condition: z.enum(CONDITIONS, 'Please choose when.'),
  amount: z.enum(AMOUNTS, 'Please choose what is counted.'),
  note: textOf(500),
});

export const dayForm = z.object({
  day: plainDateText,
  roomTemperature: orNothing(written(-20, 50, 'Please give degrees Celsius, -20 to 50.')),
  humidity: orNothing(whole(0, 100, 'Please give whole per cent, 0 to 100.')),
  note: textOf(1000),
});

/** Amounts come beside it, one field an item, and are read by the item's unit. */
export const takesForm = z.object({
  testPlates: whole(0, 10, 'Please give a number of plates, 0 to 10.'),
  testSizeId: orNothing(z.uuid('Please choose a plate size.')),
});
