// Formulas as their tables hold them, and what an owner types to enter or change one. Amounts and ingredients are
// text here; formulas.calc.ts reads them.
import { z } from 'zod';
import { written } from '../daylight/daylight.schemas.js';
import { instant } from '../platform/db/row.js';
import { type Item, type ItemKind, itemKind } from './stock.schemas.js';

export const formulaRow = z.object({
  formula_id: z.uuid(),
  item_kind: itemKind,
  name: z.string(),
  own: z.boolean(),
  starter_key: z.string().nullable(),
  current_version: z.number(),
  archived: z.boolean(),
});

export const versionRow = z.object({
  version: z.number(),
  created_at: instant,
  who: z.string(),
  batch_quantity: z.bigint(),
  batch_as_written: z.string(),
  ripen_days: z.number(),
  life_days: z.number().nullable(),
  source: z.string(),
  method: z.string(),
  note: z.string(),
});

const lineUnit = z.enum(['mg', 'uL', 'piece']);
export type LineUnit = z.output<typeof lineUnit>;

export const lineRow = z.object({
  version: z.number(),
  ingredient: z.string(),
  substance: z.string().nullable(),
  item_id: z.uuid().nullable(),
  quantity: z.bigint(),
  unit: lineUnit,
  as_written: z.string(),
  note: z.string(),
});

export interface Formula {
  id: string;
  kind: ItemKind;
  name: string;
  /** Written by the owner; otherwise it was taken from the library under `starterKey`. */
  own: boolean;
  starterKey: string | null;
  currentVersion: number;
  archived: boolean;
}

export interface FormulaLine {
  ingredient: string;
  /** Its key in chemistry/substances.calc.ts. */
  substance: string | null;
  /** The thing on the shelf that it is taken from. */
  itemId: string | null;
  quantity: bigint;
  unit: LineUnit;
  /** "4 gr to the fl oz (US assumed)". */
  asWritten: string;
  note: string;
}

/** What one version says; it is never changed. */
export interface FormulaText {
  /** Microlitres. */
  batch: bigint;
  batchAsWritten: string;
  ripenDays: number;
  lifeDays: number | null;
  source: string;
  /** The order of mixing, a step each. */
  method: string[];
  note: string;
  lines: FormulaLine[];
}
export interface FormulaVersion extends FormulaText {
  version: number;
  createdAt: z.output<typeof instant>;
  who: string;
}

/** An item with the formula it is mixed by. */
export interface Mixed {
  item: Item;
  formulaName: string;
  text: FormulaVersion;
}

export const toFormula = (row: z.output<typeof formulaRow>): Formula => ({
  id: row.formula_id,
  kind: row.item_kind,
  name: row.name,
  own: row.own,
  starterKey: row.starter_key,
  currentVersion: row.current_version,
  archived: row.archived,
});

export const toVersion = (row: z.output<typeof versionRow>, lines: FormulaLine[]): FormulaVersion => ({
  version: row.version,
  createdAt: row.created_at,
  who: row.who,
  batch: row.batch_quantity,
  batchAsWritten: row.batch_as_written,
  ripenDays: row.ripen_days,
  lifeDays: row.life_days,
  source: row.source,
  method: row.method.split('\n').filter((step) => step !== ''),
  note: row.note,
  lines,
});

export const toLine = (row: z.output<typeof lineRow>): FormulaLine => ({
  ingredient: row.ingredient,
  substance: row.substance,
  itemId: row.item_id,
  quantity: row.quantity,
  unit: row.unit,
  asWritten: row.as_written,
  note: row.note,
});

/** Control characters go, line breaks stay. */
const said = (most: number) =>
  z.preprocess(
    (sent) => sent ?? '',
    z
      .string('Please write something.')
      .transform((typed) =>
        typed
          .replace(/\r\n?/g, '\n')
          .replace(/[^\P{Cc}\n]/gu, '')
          .trim(),
      )
      .pipe(z.string().max(most, `Please keep this under ${most} characters.`)),
  );
const days = (least: number, most: number) => {
  const message = `Please give whole days, ${least} to ${most}.`;
  return written(least, most, message).refine(Number.isInteger, message);
};
const nothing = (sent: unknown) => (sent === undefined || sent === '' ? null : sent);

/** What can be mixed by a formula. */
export const mixedKind = z.enum(['collodion', 'bath', 'developer', 'fixer', 'varnish', 'chemical']);

/** The answers about a formula as a whole; its lines are ingredient-1, amount-1, note-1 and so on. */
export const formulaForm = z
  .object({
    name: said(120).pipe(z.string().min(1, 'Please give it a name.')),
    kind: z.enum(mixedKind.options, 'Please choose what it makes.'),
    batch: said(60),
    ripenDays: z.preprocess((sent) => nothing(sent) ?? '0', days(0, 730)),
    lifeDays: z.preprocess(nothing, days(1, 36_500).nullable()),
    source: said(500),
    method: said(4000),
    note: said(2000),
  })
  .refine(({ ripenDays, lifeDays }) => lifeDays === null || lifeDays > ripenDays, {
    path: ['lifeDays'],
    message: 'It has to keep longer than it ripens; leave it empty when it does not run out.',
  });

export const takeForm = z.object({
  starterKey: z.string('Please choose a formula.'),
  /** Which cadmium bromide stands on the shelf; the library is written for anhydrous. */
  bromide: z.preprocess(nothing, z.enum(['anhydrous', 'tetrahydrate']).nullable()),
  /** What is mixed by it from now on; null for something new on the shelf, "study" for nothing yet. */
  itemId: z.preprocess(
    nothing,
    z.union([z.literal('study'), z.uuid()], 'This is not kept on the shelf.').nullable(),
  ),
});
