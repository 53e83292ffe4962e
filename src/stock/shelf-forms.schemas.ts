// What is typed at the shelf or sent to its API, with a plain sentence for each mistake. Amounts are text with
// their unit ("250 ml"), read by the item's unit in the service; calculations may give them exactly.
import { STARTER_PLATE_SIZES } from '../chemistry/plate-sizes.calc.js';
import { z } from 'zod';
import { plainDateText, written } from '../daylight/daylight.schemas.js';
import { itemKind, lotClass, surface, unit } from './stock.schemas.js';

/** Control characters go, line breaks stay. */
const text = (most: number) =>
  z
    .string('Please write something.')
    .transform((typed) => typed.replace(/[^\P{Cc}\n\t]/gu, '').trim())
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`));
const needed = (most: number, missing: string) => text(most).pipe(z.string().min(1, missing));
const said = (most: number) => z.preprocess((sent) => sent ?? '', text(most));
/** An empty answer of a form is none. */
const orNull = <S extends z.ZodType>(schema: S) =>
  z.preprocess((sent) => (sent === undefined || sent === '' ? null : sent), schema.nullable());
const days = (most: number) =>
  orNull(
    written(0, most, `Please give whole days, 0 to ${most}, or nothing.`).refine(
      Number.isInteger,
      `Please give whole days, 0 to ${most}, or nothing.`,
    ),
  );
const id = (missing: string) => z.uuid(missing);
const yes = z.preprocess((sent) => sent === 'yes' || sent === true, z.boolean());

export const amount = z.union([z.bigint(), z.string()], 'Please say how much.');
export type Amount = z.output<typeof amount>;

const bottle = {
  label: said(120),
  class: z.preprocess((sent) => (sent === '' ? undefined : sent), lotClass.default('ordinary')),
  speedFactor: orNull(written(0.05, 50, 'Please give a number such as 1.3, or nothing.')),
  colour: said(60),
  usableUntil: orNull(plainDateText),
  peroxideCheckedOn: orNull(plainDateText),
  note: said(500),
};

export const receiveForm = z.object({
  itemId: id('Please choose what it is.'),
  quantity: amount,
  ...bottle,
  usableFrom: orNull(plainDateText),
});
/** An order that has come; what is not said is as ordered. */
export const arriveForm = z.object({
  quantity: orNull(amount),
  label: said(120),
  usableUntil: orNull(plainDateText),
});
export const countForm = z.object({ quantity: amount, reason: said(200) });
export const takeForm = z.object({ quantity: amount, reason: said(200) });
export const reasonForm = z.object({ reason: said(200) });
export const suspectForm = z.object({ note: needed(200, 'Please say what was seen, in a word or two.') });
export const correctForm = z.object({
  ...bottle,
  label: needed(120, 'Please give it a name.'),
  reason: needed(200, 'Please say why.'),
});
const parts = z
  .array(z.object({ lotId: id('This bottle is not known here.'), quantity: amount }))
  .max(40, 'So many bottles are not poured together.');
export const blendForm = z.object({
  parts,
  label: needed(120, 'Please give the new bottle a name.'),
  class: bottle.class,
  note: said(500),
});
export const decantForm = z.object({
  quantity: amount,
  label: needed(120, 'Please give the new bottle a name.'),
  note: said(500),
});
export const thinForm = z.object({
  solventLotId: orNull(id('This bottle is not known here.')),
  quantity: amount,
  reason: said(200),
});
/** A batch: of the item, or of the one item that the formula is for. */
export const mixForm = z.object({
  itemId: orNull(id('This is not known here.')),
  formulaId: orNull(id('This formula is not known here.')),
  quantity: amount,
  label: said(120),
  note: said(500),
  from: parts,
});
export const orderForm = z.object({
  itemId: id('Please choose what was ordered.'),
  supplierId: orNull(id('This supplier is not known here.')),
  quantity: amount,
  orderedOn: orNull(plainDateText),
  expectedOn: orNull(plainDateText),
});
export const chooseForm = z.object({
  heldFor: id('This is not known here.'),
  itemId: id('This is not known here.'),
  neededOn: plainDateText,
  class: z.enum(['fresh', 'any', 'old']),
  lotId: orNull(id('This bottle is not known here.')),
});

export const supplierForm = z.object({
  name: needed(120, 'Please give a name.'),
  contact: said(500),
  leadDays: days(730),
  note: said(500),
});

/** Of a kind, unit and plate size that stay as they were first entered. */
const settings = {
  name: needed(120, 'Please give it a name.'),
  substance: orNull(text(120)),
  leadDays: days(730),
  ripenDays: days(730),
  lifeDays: days(36_500),
  openedLifeDays: days(36_500),
  supplierId: orNull(id('This supplier is not known here.')),
  packQuantity: orNull(amount),
  leastPacks: z.preprocess(
    (sent) => (sent === undefined || sent === '' ? '1' : sent),
    written(1, 10_000, 'Please give a whole number of packs.').refine(
      Number.isInteger,
      'Please give a whole number of packs.',
    ),
  ),
  heel: orNull(amount),
  leastPour: orNull(amount),
  mostOnHand: orNull(amount),
  noPost: yes,
  hCodes: z.preprocess(
    (sent) => (typeof sent === 'string' ? sent.split(/[\s,;]+/).filter((code) => code !== '') : (sent ?? [])),
    z
      .array(z.string())
      .max(30, 'These are too many codes.')
      .transform((codes) => codes.map((code) => code.toUpperCase()))
      .refine(
        (codes) => codes.every((code) => /^(EUH|H)\d{3}[A-Z]{0,3}$/.test(code)),
        'Codes are like H225 H319, with spaces between.',
      ),
  ),
  hazardNote: said(500),
  storage: said(300),
  archived: yes,
  usual: yes,
};
export const editItemForm = z.object(settings);
export const addItemForm = z.object({
  ...settings,
  kind: z.enum(itemKind.options, 'Please choose what kind of thing it is.'),
  unit: z.enum(unit.options, 'Please choose how it is measured.'),
  /** A size the studio has, or the key of one it begins with this glass. */
  plateSizeId: orNull(
    z
      .string()
      .refine(
        (text) => z.uuid().safeParse(text).success || STARTER_PLATE_SIZES.some(({ key }) => key === text),
        'Please choose a plate size.',
      ),
  ),
  surface: orNull(z.enum(surface.options, 'Please choose what the plate is made of.')),
});
export type ItemSettings = z.output<typeof editItemForm>;
