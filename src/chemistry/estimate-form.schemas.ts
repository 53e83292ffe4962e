// The calculator's form: a few lines of plates, each a size or a measure of one's own, all text as a form sends it.
import type { FieldProblem } from '../platform/problems.js';
import { tooManyOfASize } from './asked.calc.js';
import { type EstimateBody, estimateBody, PRINTED, recipeOf } from './estimate.schemas.js';
import { GREATEST_SIDE_MM, isPlateSide, LEAST_SIDE_MM, STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import { SOLUTION_KINDS } from './use-per-area.calc.js';

export const FORM_LINES = 4;
/** The choice of a measure of one's own in place of a size. */
export const OWN_SIZE = 'own';

export const FIRST_ANSWERS: Record<string, unknown> = { madeBy: 'sittings' };

export type ReadForm = { ok: true; asked: EstimateBody } | { ok: false; problems: FieldProblem[] };

/** Lines left empty are passed over; the first is needed. Fields of line 2 are size-2, keepers-2, width-2, height-2;
 * formula-collodion and so on name a printed formula, or none. */
export function readEstimateForm(sent: Record<string, unknown>): ReadForm {
  const problems: FieldProblem[] = [];
  const plates: EstimateBody['plates'] = [];
  const lineOf: number[] = [];
  for (let line = 1; line <= FORM_LINES; line += 1) {
    const read = readLine(sent, line);
    if (read === null) continue;
    if (Array.isArray(read)) problems.push(...read);
    else {
      plates.push(read);
      lineOf.push(line);
    }
  }
  if (plates.length === 0 && problems.length === 0)
    problems.push(
      { field: 'size-1', message: 'Please choose a size.' },
      { field: 'keepers-1', message: 'Please say how many plates you want to keep.' },
    );
  const parsed = estimateBody.shape.madeBy.safeParse(textOf(sent.madeBy) || undefined);
  if (!parsed.success) problems.push({ field: 'madeBy', message: 'Please say who makes the plates.' });
  const formulas = SOLUTION_KINDS.flatMap((kind) => {
    const key = textOf(sent[`formula-${kind}`]);
    const printed = PRINTED.find((one) => one.key === key && one.kind === kind);
    if (key !== '' && !printed)
      problems.push({ field: `formula-${kind}`, message: 'Please choose a formula, or none.' });
    return printed ? [recipeOf(printed)] : [];
  });
  const at = problems.length === 0 ? tooManyOfASize({ plates }) : null;
  if (at !== null)
    problems.push({
      field: `keepers-${lineOf[at]}`,
      message: 'So many of one size are not reckoned together.',
    });
  if (problems.length > 0 || !parsed.success) return { ok: false, problems };
  return { ok: true, asked: { plates, madeBy: parsed.data, formulas } };
}

/** Null for an empty line; the problems of one that is not right. */
function readLine(
  sent: Record<string, unknown>,
  line: number,
): EstimateBody['plates'][number] | FieldProblem[] | null {
  const [size, keepers, width, height] = ['size', 'keepers', 'width', 'height'].map((name) =>
    textOf(sent[`${name}-${line}`]),
  ) as [string, string, string, string];
  if (!size && !keepers && !width && !height) return null;
  const problems: FieldProblem[] = [];
  const refuse = (name: string, message: string) => problems.push({ field: `${name}-${line}`, message });
  const count = /^\d{1,4}$/.test(keepers) ? Number(keepers) : 0;
  if (!(count >= 1 && count <= 1000)) refuse('keepers', 'Please give a whole number of plates, 1 to 1000.');
  if (size === OWN_SIZE || (!size && (width || height))) {
    const sides = [width, height].map(millimetres);
    for (const [at, name] of ['width', 'height'].entries())
      if (!isPlateSide(sides[at] ?? Number.NaN))
        refuse(name, `Please give millimetres, ${LEAST_SIDE_MM} to ${GREATEST_SIDE_MM}.`);
    if (problems.length > 0) return problems;
    return { widthMm: sides[0], heightMm: sides[1], surface: 'glass', keepers: count };
  }
  if (!STARTER_PLATE_SIZES.some(({ key }) => key === size)) refuse('size', 'Please choose a size.');
  return problems.length > 0 ? problems : { size, surface: 'glass', keepers: count };
}

/** What a line is called in the answer: its name, or its measure. */
export function nameOfSize(widthMm: number, heightMm: number): string {
  const starter = STARTER_PLATE_SIZES.find((one) => one.widthMm === widthMm && one.heightMm === heightMm);
  return starter?.name ?? `${widthMm} x ${heightMm} mm`;
}

const millimetres = (text: string): number =>
  /^\d{1,4}([.,]\d{1,3})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
const textOf = (answer: unknown): string => (typeof answer === 'string' ? answer.trim() : '');
