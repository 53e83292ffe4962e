// What a formula of the starter library is, and how its lines are written down: an ingredient with its amount as
// the book has it.
import type { Ounce } from './bath-density.calc.js';
import { grainsToTheOunce, type OldWeight, oldVolume, oldWeight } from './old-amounts.calc.js';
import { SUBSTANCES, type SubstanceKey } from './substances.calc.js';

export interface StarterLine {
  ingredient: string;
  /** Null for what the catalogue of substances does not hold. */
  substance: SubstanceKey | null;
  quantity: bigint;
  unit: 'mg' | 'uL' | 'piece';
  asWritten: string;
  note: string;
}

export type MixedKind = 'collodion' | 'bath' | 'developer' | 'fixer' | 'varnish';

export interface StarterFormula {
  /** Stable; stored with what is made of it. */
  key: string;
  kind: MixedKind;
  name: string;
  lines: StarterLine[];
  /** Microlitres: the sum of the liquids, as ether and alcohol shrink a little together. */
  batch: bigint;
  batchAsWritten: string;
  ripenDays: number;
  /** Null: not told, and kept until it looks wrong. */
  lifeDays: number | null;
  source: string;
  /** The order of mixing, a step each. */
  method: string[];
  /** What is assumed, what the books disagree about, where ripening and life are from. */
  note: string;
}

const line = (
  substance: SubstanceKey,
  converted: Pick<StarterLine, 'quantity' | 'unit' | 'asWritten'>,
  note = '',
): StarterLine => ({ ingredient: SUBSTANCES[substance].name, substance, ...converted, note });

export const grains = (substance: SubstanceKey, amount: string, note?: string) =>
  line(substance, oldWeight(amount, 'grain'), note);

export const weighed = (substance: SubstanceKey, amount: string, unit: OldWeight, note?: string) =>
  line(substance, oldWeight(amount, unit), note);

/** So many grains to each fluid ounce of a batch of so many. */
export const toTheOunce = (substance: SubstanceKey, amount: string, ounces: string, note?: string) =>
  line(substance, grainsToTheOunce(amount, ounces), note);

export const ounces = (ounce: Ounce) => (substance: SubstanceKey, amount: string, note?: string) =>
  line(substance, oldVolume(amount, 'fluid ounce', ounce), note);

export const drachms = (ounce: Ounce) => (substance: SubstanceKey, amount: string, note?: string) =>
  line(substance, oldVolume(amount, 'fluid drachm', ounce), note);

export const grams = (substance: SubstanceKey, amount: number, note?: string) =>
  line(substance, { quantity: BigInt(amount) * 1000n, unit: 'mg', asWritten: `${amount} g` }, note);

export const millilitres = (substance: SubstanceKey, amount: number, note?: string) =>
  line(substance, { quantity: BigInt(amount) * 1000n, unit: 'uL', asWritten: `${amount} mL` }, note);

/** The sum of the liquids of some lines, in microlitres. */
export const liquidOf = (lines: readonly StarterLine[]): bigint =>
  lines.reduce((sum, { unit, quantity }) => (unit === 'uL' ? sum + quantity : sum), 0n);
