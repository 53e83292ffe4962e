// What the chemistry calculator is asked, by programs and through the form, with a plain sentence for each mistake,
// and what it answers programs.
import { z } from 'zod';
import { LEAST_KEEPER_SHARE } from './attempts.calc.js';
import { MOST_KEEPERS } from './estimate.calc.js';
import { MAKERS } from './learning.calc.js';
import { GREATEST_SIDE_MM, LEAST_SIDE_MM, STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import type { Chemical, Recipe } from './raw-chemicals.calc.js';
import { STARTER_FORMULAS } from './starter-formulas.calc.js';
import { HALIDE_SALTS } from './stoichiometry.calc.js';
import { SOLUTION_KINDS } from './use-per-area.calc.js';

export const SURFACES = ['glass', 'metal'] as const;
const MOST_SIZES = 12;
const MOST_LINES = 20;
/** In millilitres and grams; a thousand litres or kilograms. */
const MOST_AMOUNT = 1_000_000;

const thousandths = (amount: number): bigint => BigInt(Math.round(amount * 1000));

const sizeKeys = STARTER_PLATE_SIZES.map(({ key }) => key);
const SIDE = `A side is a number of millimetres from ${LEAST_SIDE_MM} to ${GREATEST_SIDE_MM}.`;
const KEEPERS = `How many are to be kept is a whole number from 1 to ${MOST_KEEPERS}.`;
const side = z.number(SIDE).min(LEAST_SIDE_MM, SIDE).max(GREATEST_SIDE_MM, SIDE);
export const keepers = z.int(KEEPERS).min(1, KEEPERS).max(MOST_KEEPERS, KEEPERS);

const SIZE = `A size is one of: ${sizeKeys.join(', ')}; or give widthMm and heightMm.`;
const plates = z
  .object({
    size: z.enum(sizeKeys as [string, ...string[]], SIZE).optional(),
    widthMm: side.optional(),
    heightMm: side.optional(),
    surface: z.enum(SURFACES, 'The surface is glass or metal.').default('glass'),
    keepers,
  })
  .check((context) => {
    const { size, widthMm, heightMm } = context.value;
    const measured = widthMm !== undefined && heightMm !== undefined;
    if ((size !== undefined) === (widthMm !== undefined || heightMm !== undefined) || !(size || measured))
      context.issues.push({ code: 'custom', input: context.value, path: ['size'], message: SIZE });
  });

const AMOUNT = `An amount is a number from 0 to ${MOST_AMOUNT}.`;
const amount = z.number(AMOUNT).min(0, AMOUNT).max(MOST_AMOUNT, AMOUNT);
const line = z
  .object({
    ingredient: z.string('Please name the ingredient.').trim().min(1, 'Please name the ingredient.').max(120),
    grams: amount.optional(),
    mL: amount.optional(),
  })
  .refine(
    ({ grams, mL }) => (grams === undefined) !== (mL === undefined),
    'Please give the amount as grams or as mL, one of them.',
  )
  .transform(
    ({ ingredient, grams, mL }): Chemical =>
      grams === undefined
        ? { ingredient, unit: 'uL', quantity: thousandths(mL ?? 0) }
        : { ingredient, substance: ingredient, unit: 'mg', quantity: thousandths(grams) },
  );
const BATCH = `The batch is a number of millilitres, above 0 and at most ${MOST_AMOUNT}.`;
/** The printed formulas of what is poured on plates. */
export const PRINTED = STARTER_FORMULAS.flatMap(({ kind, ...told }) =>
  kind === 'bath' ? [] : [{ ...told, kind }],
);
export const recipeOf = ({ kind, batch, lines }: (typeof PRINTED)[number]): Recipe => ({
  solution: kind,
  batchUl: batch,
  lines: lines.map(({ ingredient, substance, unit, quantity }) => ({
    ingredient,
    unit,
    quantity,
    ...(substance ? { substance } : {}),
  })),
});

const ONE_OF_BOTH =
  'Please give solution, batchMl and lines of a formula, or the key of a printed one as starter.';
const UNKNOWN_STARTER = `A printed formula is one of: ${PRINTED.map(({ key }) => key).join(', ')}.`;
const formula = z
  .object({
    starter: z.enum(PRINTED.map(({ key }) => key) as [string, ...string[]], UNKNOWN_STARTER).optional(),
    solution: z.enum(SOLUTION_KINDS, `The solution is one of: ${SOLUTION_KINDS.join(', ')}.`).optional(),
    batchMl: z.number(BATCH).min(0.001, BATCH).max(MOST_AMOUNT, BATCH).optional(),
    lines: z
      .array(line, 'Please give the lines of the formula.')
      .min(1, 'A formula has at least one line.')
      .max(MOST_LINES, `At most ${MOST_LINES} lines of a formula are read.`)
      .optional(),
  })
  .transform(({ starter, ...own }, context): Recipe => {
    const { solution, batchMl, lines } = own;
    const printed = PRINTED.find(({ key }) => key === starter);
    if (printed && Object.values(own).every((part) => part === undefined)) return recipeOf(printed);
    if (!printed && solution && batchMl !== undefined && lines)
      return { solution, batchUl: thousandths(batchMl), lines };
    context.addIssue({ code: 'custom', message: ONE_OF_BOTH, path: ['starter'] });
    return z.NEVER;
  });

const SHARE = `The share of plates kept is a number from ${LEAST_KEEPER_SHARE} to 1.`;
const STOP = 'One stops after a whole number of tries, 1 to 20; null goes on.';
export const estimateBody = z.object({
  plates: z
    .array(plates, 'Please say which plates: a list of sizes, each with how many are to be kept.')
    .min(1, 'Please name at least one size.')
    .max(MOST_SIZES, `At most ${MOST_SIZES} sizes are reckoned together.`),
  madeBy: z.enum(MAKERS, `madeBy is one of: ${MAKERS.join(', ')}.`).default('sittings'),
  keeperShare: z.number(SHARE).min(LEAST_KEEPER_SHARE, SHARE).max(1, SHARE).optional(),
  stopAfter: z.int(STOP).min(1, STOP).max(20, STOP).nullable().optional(),
  formulas: z
    .array(formula)
    .max(SOLUTION_KINDS.length, 'One formula for each solution is enough.')
    .refine(
      (all) => new Set(all.map(({ solution }) => solution)).size === all.length,
      'One formula for each solution is enough.',
    )
    .default([])
    .describe(
      `The collodion's salts, when named as here, tell the silver in the film: ${Object.keys(HALIDE_SALTS).join('; ')}`,
    ),
});
export type EstimateBody = z.output<typeof estimateBody>;

const spread = { low: z.number(), likely: z.number(), ninety: z.number(), high: z.number() };
const inUnit = (unit: 'mL' | 'g') => z.object({ unit: z.literal(unit), ...spread });
export const estimateAnswer = z.object({
  attempts: z.object({
    keeperShare: z.number(),
    stopAfter: z.int().nullable(),
    source: z.string(),
  }),
  plates: z.array(
    z.object({
      widthMm: z.number(),
      heightMm: z.number(),
      surface: z.enum(SURFACES),
      keepers: z.int(),
      sheets: z.object(spread),
    }),
  ),
  solutions: z.object({
    collodion: inUnit('mL'),
    developer: inUnit('mL'),
    fixer: inUnit('mL'),
    varnish: inUnit('mL'),
  }),
  silverNitrate: z.object({
    total: inUnit('g'),
    inFilm: inUnit('g').describe('The part of the total that the halides take up, by molar masses'),
  }),
  chemicals: z
    .array(z.object({ ingredient: z.string(), unit: z.enum(['g', 'mL', 'piece']), ...spread }))
    .describe('Silver nitrate, and what the formulas given come down to'),
  sources: z.array(z.object({ of: z.string(), source: z.string() })),
  notes: z.array(z.string()),
});
