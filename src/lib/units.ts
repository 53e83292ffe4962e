// Exact arithmetic on whole milligrams, microlitres, sheets and pieces, and the old units they are told in.
// Every rounding is asked for by name: what is needed is rounded up, what is shown or typed to the nearest.

export type Unit = 'mg' | 'uL' | 'sheet' | 'piece';

/** 'up' is away from zero. 'nearest' takes halves away from zero. */
export type Rounding = 'up' | 'down' | 'nearest';

/** An exact factor. The denominator is above zero. */
export interface Ratio {
  readonly num: bigint;
  readonly den: bigint;
}

/** The exact ratio of a decimal: '64.79891' is 6479891/100000. Throws RangeError when it is not plain digits. */
export function decimalRatio(decimal: string): Ratio {
  const parts = /^(\d+)(?:\.(\d+))?$/.exec(decimal);
  if (!parts) throw new RangeError(`"${decimal}" is not a plain decimal.`);
  const fraction = parts[2] ?? '';
  return { num: BigInt(`${parts[1]}${fraction}`), den: 10n ** BigInt(fraction.length) };
}

const over = ({ num, den }: Ratio, divisor: bigint): Ratio => ({ num, den: den * divisor });
const times = ({ num, den }: Ratio, factor: bigint): Ratio => ({ num: num * factor, den });

/** Quotient with the rounding named. Throws RangeError when the divisor is not above zero. */
export function divide(amount: bigint, by: bigint, rounding: Rounding): bigint {
  if (by <= 0n) throw new RangeError('The divisor has to be above zero.');
  const size = amount < 0n ? -amount : amount;
  const down = size / by;
  const rest = size % by;
  const upwards = rounding === 'up' ? rest > 0n : rounding === 'nearest' && rest * 2n >= by;
  const quotient = upwards ? down + 1n : down;
  return amount < 0n ? -quotient : quotient;
}

/** amount x ratio, rounded once, at the end. Throws RangeError when the denominator is not above zero. */
export const scale = (amount: bigint, ratio: Ratio, rounding: Rounding): bigint =>
  divide(amount * ratio.num, ratio.den, rounding);

/*
 * Old weights in milligrams. One grain is 64.79891 mg exactly; the scruple is of 20 grains, the drachm (dram) the
 * apothecaries' of 60.
 * The avoirdupois ounce is 437.5 grains, the apothecaries' and troy ounce 480. NIST Handbook 44, Appendix C.
 */
export const MG_PER_GRAIN = decimalRatio('64.79891');
export const MG_PER_SCRUPLE = times(MG_PER_GRAIN, 20n);
export const MG_PER_DRACHM = times(MG_PER_GRAIN, 60n);
export const MG_PER_OUNCE_AVOIRDUPOIS = over(times(MG_PER_GRAIN, 4375n), 10n);
export const MG_PER_OUNCE_APOTHECARIES = times(MG_PER_GRAIN, 480n);

/*
 * Fluid ounces in microlitres, never simply "ounce": the American is 29.5735295625 mL exactly (gallon of 231 cubic
 * inches / 128; NIST Handbook 44, Appendix C), the imperial 28.4130625 mL exactly (gallon of 4.54609 L / 160;
 * United Kingdom, Units of Measurement Regulations 1995). A fluid drachm is an eighth of its ounce, a minim a
 * sixtieth of that.
 */
export const UL_PER_US_FLUID_OUNCE = decimalRatio('29573.5295625');
export const UL_PER_IMPERIAL_FLUID_OUNCE = decimalRatio('28413.0625');
export const UL_PER_US_FLUID_DRACHM = over(UL_PER_US_FLUID_OUNCE, 8n);
export const UL_PER_IMPERIAL_FLUID_DRACHM = over(UL_PER_IMPERIAL_FLUID_OUNCE, 8n);
export const UL_PER_US_MINIM = over(UL_PER_US_FLUID_OUNCE, 480n);
export const UL_PER_IMPERIAL_MINIM = over(UL_PER_IMPERIAL_FLUID_OUNCE, 480n);
