// Reading what is typed into a formula: an ingredient by its name on the shelf or in the catalogue of substances, an
// amount in metric or old units beside how it was written; and what must never be mixed at all.
import { incompatiblePairs, propertiesOf } from '../chemistry/incompatible.calc.js';
import { SUBSTANCES, type SubstanceKey, substanceOf } from '../chemistry/substances.calc.js';
import { formatQuantity, parseQuantity, type QuantityProblem } from '../lib/quantity-text.js';
import { scale, type Unit } from '../lib/units.js';
import { ingredientOf, type Substances } from './cautions.calc.js';
import type { Formula, FormulaLine, FormulaVersion, LineUnit } from './formulas.schemas.js';
import type { Item } from './stock.schemas.js';

/** A formula may have as many lines. */
export const MOST_LINES = 24;

export interface TypedLine {
  ingredient: string;
  amount: string;
  note: string;
  /** The exact amount that stood in the form and how it was first written: kept as long as it is not changed. */
  was: string;
  written: string;
}

export type LineProblem =
  | { field: 'ingredient'; reason: 'missing' | 'which cadmium bromide' | 'too long' }
  | { field: 'amount'; reason: QuantityProblem | 'nothing'; unit: Unit };

export type ReadLine = { ok: true; line: FormulaLine } | ({ ok: false } & LineProblem);

const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/** The substance that goes by a name or key, in any case of letters; null for none. */
export function substanceNamed(name: string): SubstanceKey | null {
  const keys = Object.keys(SUBSTANCES) as SubstanceKey[];
  return keys.find((key) => same(key, name) || same(SUBSTANCES[key].name, name)) ?? null;
}

/** What is on the shelf of an ingredient: by its name, or by its substance in the same unit; null for nothing. */
export function itemFor(
  items: readonly Item[],
  wanted: { ingredient: string; substance: string | null; unit: LineUnit },
): Item | null {
  const kept = items.filter((item) => !item.archived && item.unit === wanted.unit);
  return (
    kept.find((item) => wanted.substance !== null && item.substance === wanted.substance) ??
    kept.find((item) => same(item.name, wanted.ingredient)) ??
    null
  );
}

/** One line as it was typed. A bare "cadmium bromide" is refused: with its water it holds 21 % less bromide. */
export function readLine(typed: TypedLine, items: readonly Item[]): ReadLine {
  const { ingredient, amount, note } = typed;
  if (ingredient === '') return { ok: false, field: 'ingredient', reason: 'missing' };
  if (ingredient.length > 120) return { ok: false, field: 'ingredient', reason: 'too long' };
  if (same(ingredient, 'cadmium bromide') || same(ingredient, 'bromide of cadmium'))
    return { ok: false, field: 'ingredient', reason: 'which cadmium bromide' };
  const kept = items.find((item) => !item.archived && item.unit !== 'sheet' && same(item.name, ingredient));
  const substance = kept?.substance ?? substanceNamed(ingredient);
  const unit = (kept?.unit as LineUnit | undefined) ?? substanceOf(substance)?.unit ?? null;
  const read = readAmountOf(amount, unit, substanceOf(substance)?.gPerMl ?? null);
  if (!read.ok) return { ok: false, field: 'amount', reason: read.reason, unit: read.unit };
  const line = { ingredient, substance, quantity: read.quantity, unit: read.unit, note };
  const asWritten = amount === typed.was && typed.written !== '' ? typed.written : amount;
  return { ok: true, line: { ...line, itemId: itemFor(items, line)?.id ?? null, asWritten } };
}

type ReadAmount =
  | { ok: true; quantity: bigint; unit: LineUnit }
  | { ok: false; reason: QuantityProblem | 'nothing'; unit: Unit };

/** In the unit that is known of the ingredient, else in the one that was typed. A liquid may be weighed. */
function readAmountOf(amount: string, unit: LineUnit | null, gPerMl: number | null): ReadAmount {
  const tried: LineUnit[] = unit ? [unit] : /[a-z]/i.test(amount) ? ['mg', 'uL', 'piece'] : ['mg'];
  let reason: QuantityProblem = 'unit unknown';
  for (const one of tried) {
    const read = parseQuantity(amount, one);
    if (read.ok && read.amount === 0n) return { ok: false, reason: 'nothing', unit: one };
    if (read.ok) return { ok: true, quantity: read.amount, unit: one };
    if (read.reason !== 'other kind of unit' || unit) reason = read.reason;
  }
  const weighed = unit === 'uL' && gPerMl !== null ? parseQuantity(amount, 'mg') : null;
  if (weighed?.ok && weighed.amount > 0n && gPerMl !== null) {
    const perMl = { num: 1000n, den: BigInt(Math.round(gPerMl * 1000)) };
    return { ok: true, quantity: scale(weighed.amount, perMl, 'nearest'), unit: 'uL' };
  }
  return { ok: false, reason, unit: tried[0] ?? 'mg' };
}

/** The lines of a form that are not left empty, with their numbers, from 1. */
export function typedLines(sent: Record<string, unknown>): (TypedLine & { number: number })[] {
  const text = (name: string) => {
    const value = sent[name];
    return typeof value === 'string' ? value.replace(/[\p{Cc}\s]+/gu, ' ').trim() : '';
  };
  return Array.from({ length: MOST_LINES }, (_, at) => at + 1).flatMap((number) => {
    const [ingredient, amount, note] = ['ingredient', 'amount', 'note'].map((one) =>
      text(`${one}-${number}`),
    );
    if (!ingredient && !amount && !note) return [];
    const [was = '', written = ''] = [text(`was-${number}`), text(`written-${number}`)];
    const line = { ingredient: ingredient ?? '', amount: amount ?? '', note: (note ?? '').slice(0, 300) };
    return [{ number, ...line, was, written: written.slice(0, 200) }];
  });
}

/** What a form to change a version holds at first. */
export function formValues(formula: Formula, version: FormulaVersion): Record<string, string> {
  const values: Record<string, string> = {
    name: formula.name,
    kind: formula.kind,
    batch: formatQuantity(version.batch, 'uL', 'exact'),
    ripenDays: String(version.ripenDays),
    lifeDays: version.lifeDays === null ? '' : String(version.lifeDays),
    source: version.source,
    method: version.method.join('\n'),
    note: version.note,
  };
  for (const [at, line] of version.lines.entries()) {
    const exact = formatQuantity(line.quantity, line.unit, 'exact');
    Object.assign(values, {
      [`ingredient-${at + 1}`]: line.ingredient,
      [`amount-${at + 1}`]: exact,
      [`was-${at + 1}`]: exact,
      [`written-${at + 1}`]: line.asWritten,
      [`note-${at + 1}`]: line.note,
    });
  }
  return values;
}

/** Whether a form that was filled with a version comes back as it was filled. */
export function unchanged(sent: Record<string, unknown>, formula: Formula, version: FormulaVersion): boolean {
  const { kind: _, ...filled } = formValues(formula, version);
  const lines = Array.from({ length: MOST_LINES }, (_, at) => at + 1);
  const fields = lines.flatMap((number) => ['ingredient', 'amount', 'note'].map((one) => `${one}-${number}`));
  const names = new Set([...Object.keys(filled).filter((name) => !/^(was|written)-/.test(name)), ...fields]);
  const text = (value: unknown) => (typeof value === 'string' ? value.replace(/\r\n?/g, '\n').trim() : '');
  return [...names].every((name) => text(sent[name]) === text(filled[name]));
}

/** The sum of the liquids, in microlitres. */
export const liquidOf = (lines: readonly FormulaLine[]): bigint =>
  lines.reduce((sum, { unit, quantity }) => (unit === 'uL' ? sum + quantity : sum), 0n);

/** The line whose acid or cyanide meets the other in one bottle, from 0; null when none does. It is never mixed. */
export function cyanideMeetsAcid(
  kind: string,
  lines: readonly FormulaLine[],
  items: readonly Item[],
  substances: Substances,
): number | null {
  const things = lines.map((line) => ingredientOf(line, items, substances));
  const whole = { name: kind, has: propertiesOf({ kind, substance: null, hCodes: [] }) };
  const met = incompatiblePairs([...things, whole]).some(
    ({ rule }) => rule.one === 'cyanide' && rule.other === 'acid',
  );
  return met ? things.findIndex(({ has }) => has.includes('cyanide')) : null;
}
