// How a quantity is written on a screen and read from what somebody types.
// It knows units, not languages: a decimal point going out, a point or a comma coming in.
import {
  divide,
  MG_PER_DRACHM,
  MG_PER_GRAIN,
  MG_PER_OUNCE_APOTHECARIES,
  MG_PER_OUNCE_AVOIRDUPOIS,
  MG_PER_SCRUPLE,
  type Ratio,
  type Rounding,
  UL_PER_IMPERIAL_FLUID_DRACHM,
  UL_PER_IMPERIAL_FLUID_OUNCE,
  UL_PER_US_FLUID_DRACHM,
  UL_PER_US_FLUID_OUNCE,
  type Unit,
} from './units.js';

/** From this size on, amounts are rounded to `step` and written in a unit that holds `per` of the small one. */
interface Scale {
  from: bigint;
  step: bigint;
  per: bigint;
  name: string;
}

const MASS: readonly Scale[] = [
  { from: 1_000_000n, step: 1_000n, per: 1_000_000n, name: 'kg' },
  { from: 100_000n, step: 1_000n, per: 1_000n, name: 'g' },
  { from: 10_000n, step: 100n, per: 1_000n, name: 'g' },
  { from: 1_000n, step: 10n, per: 1_000n, name: 'g' },
  { from: 0n, step: 1n, per: 1n, name: 'mg' },
];
const VOLUME: readonly Scale[] = [
  { from: 1_000_000n, step: 1_000n, per: 1_000_000n, name: 'L' },
  { from: 100_000n, step: 1_000n, per: 1_000n, name: 'mL' },
  { from: 10_000n, step: 100n, per: 1_000n, name: 'mL' },
  { from: 1_000n, step: 10n, per: 1_000n, name: 'mL' },
  { from: 0n, step: 1n, per: 1_000n, name: 'mL' },
];
const SMALLEST: Scale = { from: 0n, step: 1n, per: 1n, name: '' };

/**
 * "1.25 L", "340 mL", "12 g", "9 sheets". Rounded to the nearest by default, about three figures; 'up' for what is
 * needed; 'exact' for a form, so that parseQuantity gives the same amount back. Below zero it starts with a minus.
 */
export function formatQuantity(amount: bigint, unit: Unit, rounding: Rounding | 'exact' = 'nearest'): string {
  const sign = amount < 0n ? '\u2212' : '';
  const size = amount < 0n ? -amount : amount;
  if (unit === 'sheet' || unit === 'piece') return `${sign}${size} ${unit}${size === 1n ? '' : 's'}`;
  const scales = unit === 'mg' ? MASS : VOLUME;
  const scaleOf = (n: bigint): Scale => scales.find(({ from }) => n >= from) ?? SMALLEST;
  const { step } = scaleOf(size);
  const shown = rounding === 'exact' ? size : divide(size, step, rounding) * step;
  const { per, name } = scaleOf(shown); // rounding 999.9 mL has made a litre of it
  return `${sign}${decimal(shown, per)} ${name}`;
}

function decimal(amount: bigint, per: bigint): string {
  const places = per.toString().length - 1;
  const fraction = (amount % per).toString().padStart(places, '0').replace(/0+$/, '');
  return places > 0 && fraction !== '' ? `${amount / per}.${fraction}` : `${amount / per}`;
}

export type QuantityProblem =
  | 'empty'
  | 'not a number'
  | 'below zero'
  | 'unit missing'
  | 'unit unknown'
  | 'other kind of unit' // a weight where a volume is asked for, or the like
  | 'which ounce' // American and imperial differ by 4 %, and weight ounces exist besides
  | 'comma or thousands' // "1,250 ml" may be 1.25 mL or 1250 mL
  | 'too fine' // finer than one milligram, microlitre or whole sheet
  | 'too much';

export type ParsedQuantity =
  | { ok: true; amount: bigint; exact: boolean }
  | { ok: false; reason: QuantityProblem };

/** A thousand kilograms, litres or a million million sheets: past every shelf, well inside the database's range. */
const GREATEST = 1_000_000_000_000n;
const plain = (num: bigint): Ratio => ({ num, den: 1n });
const UNITS = new Map<string, { unit: Unit; ratio: Ratio; metric: boolean }>();
const spell = (unit: Unit, ratio: Ratio, metric: boolean, spellings: string): void => {
  for (const spelling of spellings.split('|')) UNITS.set(spelling, { unit, ratio, metric });
};
spell('mg', plain(1n), true, 'mg|milligram|milligrams|milligramme|milligrammes');
spell('mg', plain(1_000n), true, 'g|gram|grams|gramme|grammes');
spell('mg', plain(1_000_000n), true, 'kg|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes');
spell('mg', MG_PER_GRAIN, false, 'grain|grains');
spell('mg', MG_PER_SCRUPLE, false, 'scruple|scruples');
spell('mg', MG_PER_DRACHM, false, 'drachm|drachms|dram|drams');
spell('mg', MG_PER_OUNCE_AVOIRDUPOIS, false, 'av oz|oz av|avoirdupois oz|oz avoirdupois');
spell('mg', MG_PER_OUNCE_APOTHECARIES, false, 'ap oz|oz ap|apothecaries oz|oz apothecaries|troy oz|oz troy');
spell('uL', plain(1n), true, 'ul|µl|μl|microlitre|microlitres|microliter|microliters');
spell('uL', plain(1_000n), true, 'ml|cc|cm3|millilitre|millilitres|milliliter|milliliters');
spell('uL', plain(10_000n), true, 'cl');
spell('uL', plain(1_000_000n), true, 'l|litre|litres|liter|liters');
spell('uL', UL_PER_US_FLUID_OUNCE, false, 'us fl oz|us oz');
spell('uL', UL_PER_IMPERIAL_FLUID_OUNCE, false, 'imp fl oz|imp oz|imperial fl oz|imperial oz|uk fl oz|uk oz');
spell('uL', UL_PER_US_FLUID_DRACHM, false, 'us fl dr|us fl drachm|us fl drachms|us fl dram|us fl drams');
spell(
  'uL',
  UL_PER_IMPERIAL_FLUID_DRACHM,
  false,
  'imp fl dr|imp fl drachm|imp fl drachms|imperial fl drachms',
);
spell('sheet', plain(1n), true, 'sheet|sheets');
spell('piece', plain(1n), true, 'piece|pieces|pc|pcs');

const OUNCE = /^(fl )?(oz|ounces?)$/;

/**
 * Reads "1,5 l", "250 ml", "0.18 g", "40 grains", "9" into whole mg, uL, sheets or pieces of the unit asked for.
 * A number alone is taken for sheets and pieces only. Old units are rounded to the nearest (exact: false);
 * a metric amount finer than the unit is refused. "gr" is refused: it is a grain to some and a gram to others.
 */
export function parseQuantity(text: string, unit: Unit): ParsedQuantity {
  const no = (reason: QuantityProblem): ParsedQuantity => ({ ok: false, reason });
  const typed = text.trim().replace(/\s+/g, ' ').toLowerCase();
  if (typed === '') return no('empty');
  if (/^[-\u2212]/.test(typed)) return no('below zero');
  const parts = /^(\d[\d.,' ]*?)(?:\s*([a-zµμ][a-zµμ0-9. ]*))?$/.exec(typed);
  if (!parts?.[1]) return no('not a number');
  const name = (parts[2] ?? '').replaceAll('.', '').trim();

  if (name === '' && unit !== 'sheet' && unit !== 'piece') return no('unit missing');
  if (OUNCE.test(name)) return no(unit === 'mg' || unit === 'uL' ? 'which ounce' : 'other kind of unit');
  const known = name === '' ? { unit, ratio: plain(1n), metric: true } : UNITS.get(name);
  if (!known) return no('unit unknown');
  if (known.unit !== unit) return no('other kind of unit');

  const number = readNumber(parts[1]);
  if (typeof number === 'string') return no(number);
  const amount = number.num * known.ratio.num;
  const den = number.den * known.ratio.den;
  const exact = amount % den === 0n;
  const whole = divide(amount, den, 'nearest');
  if (!exact && (known.metric || whole === 0n)) return no('too fine');
  return whole > GREATEST ? no('too much') : { ok: true, amount: whole, exact };
}

/** Digits with a point or comma for the decimals, and spaces or apostrophes between groups of three. */
function readNumber(text: string): Ratio | 'not a number' | 'comma or thousands' {
  if (/^[1-9]\d{0,2},\d{3}$/.test(text)) return 'comma or thousands';
  const parts = /^(\d+|\d{1,3}(?:[ ']\d{3})+)(?:[.,](\d+))?$/.exec(text);
  if (!parts?.[1] || text.length > 30) return 'not a number';
  const fraction = parts[2] ?? '';
  return { num: BigInt(parts[1].replace(/[ ']/g, '') + fraction), den: 10n ** BigInt(fraction.length) };
}
