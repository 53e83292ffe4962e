// What is typed into the forms of a bath, checked, with a plain sentence for each mistake. A number alone is
// in the unit that stands beside its box: grams, millilitres, grams in a litre; of an amount another may be written.
import { z } from 'zod';
import { parseQuantity, type QuantityProblem } from '../lib/quantity-text.js';
import { plainDateText, written } from '../daylight/daylight.schemas.js';
import { FAULTS, HELPED, METHODS, TANKS } from './baths.schemas.js';
import { orNothing, textOf, whole } from './preparation-forms.schemas.js';
import { amountProblem } from './words.calc.js';

/** An amount as at the shelf: "25" or "25 g" as milligrams, "2100" or "2.1 L" as microlitres. `most` in grams or millilitres. */
const typed = (unit: 'mg' | 'uL', least: number, most: number, refusal: string) =>
  z.string(refusal).transform((text, context) => {
    const alone = /^[\d.,' ]+$/.test(text.trim());
    const read = parseQuantity(alone ? `${text} ${unit === 'mg' ? 'g' : 'ml'}` : text, unit);
    const within = read.ok && read.amount >= BigInt(least) * 1000n && read.amount <= BigInt(most) * 1000n;
    if (within) return read.amount;
    const message = !read.ok && UNCLEAR.has(read.reason) ? amountProblem(read.reason, unit) : refusal;
    context.addIssue({ code: 'custom', message });
    return z.NEVER;
  });
const UNCLEAR = new Set<QuantityProblem>(['which ounce', 'comma or thousands', 'below zero', 'too fine']);
/** Nothing typed is nothing. */
const amount = (unit: 'mg' | 'uL', most: number, refusal: string) =>
  z.preprocess((sent) => (sent === undefined || sent === '' ? '0' : sent), typed(unit, 0, most, refusal));
const millilitres = (refusal: string) => typed('uL', 1, 200_000, refusal);
/** Grams in a litre as milligrams in a litre. */
const strength = written(1, 500, 'Please give grams in a litre, 1 to 500: 9 per cent is 90.').transform(
  (value) => Math.round(value * 1000),
);
const note = textOf(1000);
const optionalNote = z.preprocess((sent) => sent ?? '', note);

export const bathForm = z.object({
  name: textOf(80).pipe(z.string().min(1, 'Please give it a name.')),
  tank: z.enum(TANKS, 'Please choose what it stands in.'),
  plateSizeId: z.uuid('Please choose the largest plate.'),
  volume: millilitres('Please give millilitres, such as 2000.'),
  leastVolume: millilitres('Please give millilitres, such as 1500.'),
  targetStrength: strength,
  leastStrength: strength,
  careAfterPlates: whole(1, 1000, 'Please give a number of plates, 1 to 1000.'),
  lotId: orNothing(z.uuid('Please choose a bottle of crystals.')),
  note: optionalNote,
});

/** What is in a bath when it is entered. */
export const newBathForm = z.object({
  strength,
  inIt: orNothing(millilitres('Please give millilitres, such as 2000.')),
});

const day = { day: plainDateText };
const SAY = 'Please choose what happened.';

export const measuredForm = z.object({
  ...day,
  method: z.enum(METHODS, 'Please choose how it was measured.'),
  volume: orNothing(millilitres('Please give millilitres, such as 1800, or leave it empty.')),
  note: optionalNote,
});
export const hydrometerForm = z.object({
  /** Many a hydrometer shows 1070 for 1.070. */
  density: z.preprocess(
    (sent) =>
      typeof sent === 'string' && /^\s*(9|1\d)\d\d\s*$/.test(sent) ? String(Number(sent) / 1000) : sent,
    written(0.9, 2, 'Please give the density, such as 1.075.'),
  ),
  temperature: written(5, 35, 'Please give degrees Celsius, 5 to 35.'),
});
export const titrationForm = z.object({
  thiocyanateMl: written(0, 1000, 'Please give the millilitres used.'),
  normality: written(0.001, 5, 'Please give the strength of the thiocyanate, such as 0.1.'),
  sampleMl: written(0.1, 1000, 'Please give the millilitres of bath taken.'),
});
export const toppedUpForm = z
  .object({
    ...day,
    crystals: amount('mg', 20_000, 'Please give grams, such as 25.'),
    volume: amount('uL', 200_000, 'Please give millilitres, such as 300.'),
    fromLot: z
      .literal('yes')
      .optional()
      .transform((sent) => sent === 'yes'),
    note: optionalNote,
  })
  .refine(({ crystals, volume }) => crystals > 0n || volume > 0n, {
    path: ['crystals'],
    message: 'Please say what was added.',
  });
export const pouredForm = z.object({
  ...day,
  plateSizeId: z.uuid('Please choose the size.'),
  plates: whole(1, 500, 'Please give a number of plates, 1 to 500.'),
  note: optionalNote,
});
export const caredForm = z.object({
  ...day,
  care: z.enum(['sunned', 'filtered', 'rested'], SAY),
  note: optionalNote,
});
export const stateForm = z.object({
  ...day,
  state: z.enum(['working', 'sunning', 'resting', 'filtering', 'retired'], 'Please choose what it does.'),
  until: orNothing(plainDateText),
  note: optionalNote,
});
export const acidityForm = z.object({
  ...day,
  ph: written(0, 14, 'Please give the pH, such as 4.5.'),
  note: optionalNote,
});
export const noteForm = z.object({
  ...day,
  note: note.pipe(z.string().min(1, 'Please write something.')),
});

/** What is off where nobody knows yet: the day's test plate failed, and nothing is put aside. */
export const TEST_PLATE = 'test plate';

/** "bath:ID", "bottle:ID" or the test plate, as the page's own list gives it. */
export const offForm = z.object({
  what: z
    .string('Please choose the bath or the bottle.')
    .regex(/^((bath|bottle):[0-9a-f-]{36}|test plate)$/, 'Please choose the bath or the bottle.'),
  seen: z.enum(FAULTS, 'Please choose what was seen.'),
  note: optionalNote,
});

export const faultForm = z.object({
  changed: optionalNote,
  helped: z.enum(HELPED, 'Please choose whether it helped.'),
});
