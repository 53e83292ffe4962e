// Amounts of the old books in milligrams and microlitres, each told again as it was written, with the ounce that
// was assumed. What an ounce is depends on what is weighed or poured and on where the book was printed.
import {
  divide,
  MG_PER_DRACHM,
  MG_PER_GRAIN,
  MG_PER_OUNCE_APOTHECARIES,
  MG_PER_OUNCE_AVOIRDUPOIS,
  MG_PER_SCRUPLE,
  type Ratio,
  UL_PER_IMPERIAL_FLUID_DRACHM,
  UL_PER_IMPERIAL_FLUID_OUNCE,
  UL_PER_IMPERIAL_MINIM,
  UL_PER_US_FLUID_DRACHM,
  UL_PER_US_FLUID_OUNCE,
  UL_PER_US_MINIM,
} from '../lib/units.js';
import type { Ounce } from './bath-density.calc.js';

export type OldWeight = 'grain' | 'scruple' | 'drachm' | 'ounce avoirdupois' | 'ounce apothecaries';
export type OldVolume = 'fluid ounce' | 'fluid drachm' | 'minim';

/** In the unit of the shelf, and as it was written. */
export interface Converted {
  quantity: bigint;
  unit: 'mg' | 'uL';
  asWritten: string;
}

const WEIGHTS: Record<OldWeight, { mg: Ratio; written: string }> = {
  grain: { mg: MG_PER_GRAIN, written: 'gr' },
  scruple: { mg: MG_PER_SCRUPLE, written: 'scruples' },
  drachm: { mg: MG_PER_DRACHM, written: 'drachms' },
  'ounce avoirdupois': { mg: MG_PER_OUNCE_AVOIRDUPOIS, written: 'oz (avoirdupois assumed)' },
  'ounce apothecaries': { mg: MG_PER_OUNCE_APOTHECARIES, written: 'oz (apothecaries’ assumed)' },
};
const VOLUMES: Record<OldVolume, Record<Ounce, Ratio> & { written: string }> = {
  'fluid ounce': { US: UL_PER_US_FLUID_OUNCE, imperial: UL_PER_IMPERIAL_FLUID_OUNCE, written: 'fl oz' },
  'fluid drachm': { US: UL_PER_US_FLUID_DRACHM, imperial: UL_PER_IMPERIAL_FLUID_DRACHM, written: 'fl dr' },
  minim: { US: UL_PER_US_MINIM, imperial: UL_PER_IMPERIAL_MINIM, written: 'minims' },
};

/**
 * A weight of `amount` ('60', '1.5', '1/4', '1 1/2') to the nearest milligram.
 * Throws RangeError for an amount that is not written so.
 */
export function oldWeight(amount: string, unit: OldWeight): Converted {
  const { mg, written } = WEIGHTS[unit];
  return { quantity: multiply(readAmount(amount), mg), unit: 'mg', asWritten: `${amount} ${written}` };
}

/** A volume to the nearest microlitre, by the ounce that is assumed. Throws RangeError as oldWeight does. */
export function oldVolume(amount: string, unit: OldVolume, ounce: Ounce): Converted {
  const { written, ...per } = VOLUMES[unit];
  const quantity = multiply(readAmount(amount), per[ounce]);
  return { quantity, unit: 'uL', asWritten: `${amount} ${written} (${ounce} assumed)` };
}

/** So many grains to each of so many fluid ounces, as one weight. Throws RangeError as oldWeight does. */
export function grainsToTheOunce(grains: string, ounces: string): Converted {
  const each = readAmount(grains);
  const times = readAmount(ounces);
  const quantity = multiply({ num: each.num * times.num, den: each.den * times.den }, MG_PER_GRAIN);
  return { quantity, unit: 'mg', asWritten: `${grains} gr to the fl oz` };
}

/** '60', '1.5', '1/4' and '1 1/2' as exact ratios. Throws RangeError for anything else. */
export function readAmount(text: string): Ratio {
  const parts = /^(?:(\d+)(?:\.(\d+))?)?(?:(?:^|(?<=\d) )(\d+)\/(\d+))?$/.exec(text);
  if (!parts || text === '') throw new RangeError(`"${text}" is not an amount.`);
  const [, whole = '0', decimals = '', over = '0', under = '1'] = parts;
  if (Number(under) === 0) throw new RangeError(`"${text}" divides by nothing.`);
  const tens = 10n ** BigInt(decimals.length);
  return { num: BigInt(whole + decimals) * BigInt(under) + BigInt(over) * tens, den: tens * BigInt(under) };
}

const multiply = (a: Ratio, b: Ratio): bigint => divide(a.num * b.num, a.den * b.den, 'nearest');
