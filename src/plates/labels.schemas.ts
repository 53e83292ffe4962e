// The sheet that labels are printed on, as it is kept and as its form sends it; and which plates are to be printed.
import { z } from 'zod';
import { plainDateText, written } from '../daylight/daylight.schemas.js';
import { orNothing, whole } from '../stock/preparation-forms.schemas.js';
import type { LabelSheet } from './labels.calc.js';

export const sheetRow = z.object({
  paper: z.enum(['A4', 'Letter']),
  width: z.number(),
  height: z.number(),
  across: z.number(),
  margin: z.number(),
  gap: z.number(),
});

/** Kept in tenths of a millimetre. */
export const toSheet = (row: z.output<typeof sheetRow>): LabelSheet => ({
  paper: row.paper,
  width: row.width / 10,
  height: row.height / 10,
  across: row.across,
  margin: row.margin / 10,
  gap: row.gap / 10,
});

const mm = (least: number, most: number) =>
  written(least, most, `Please give millimetres, ${least} to ${most}.`).transform(
    (value) => Math.round(value * 10) / 10,
  );

export const sheetForm = z.object({
  paper: z.enum(['A4', 'Letter'], 'Please choose the paper.'),
  width: mm(20, 210),
  height: mm(10, 290),
  across: whole(1, 10, 'Please give a whole number, 1 to 10.'),
  margin: mm(0, 50),
  gap: mm(0, 20),
});

export const MOST_LABELS = 300;
const choice = <S extends z.ZodType>(schema: S) => orNothing(schema).catch(null);

/** Which plates; what cannot be read is not looked for. Ticked ones go before a day or a series. */
export const labelQuery = z.object({
  plate: z.preprocess(
    (sent) => (sent === undefined ? [] : [sent].flat()),
    z.array(z.coerce.number().int().min(1)).max(MOST_LABELS).catch([]),
  ),
  day: choice(plainDateText),
  series: choice(z.uuid()),
});
export type LabelQuery = z.output<typeof labelQuery>;
