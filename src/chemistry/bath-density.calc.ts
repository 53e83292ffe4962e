// The strength of a silver bath from a hydrometer or a titration, and one measure of strength in another.
// The table is of clean silver nitrate in water: a used bath holds alcohol, which reads low, and nitrates, which
// read high, so that a hydrometer in it is only a guide (from memory).
import {
  MG_PER_GRAIN,
  type Ratio,
  UL_PER_IMPERIAL_FLUID_OUNCE,
  UL_PER_US_FLUID_OUNCE,
} from '../lib/units.js';
import { NITRATE_PER_CHLORIDE, SILVER_NITRATE_G_PER_MOL } from './stoichiometry.calc.js';

/** Kilograms in a litre of water, 0 to 40 degrees Celsius. M. Tanaka et al., Metrologia 38 (2001) 301, p. 305. */
function waterDensity(celsius: number): number {
  const t = celsius;
  return 0.99997495 * (1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881)));
}

/**
 * Grams of silver nitrate in 100 g of solution, and its density at 20 degrees: engineeringtoolbox.com, "Density of
 * aqueous solutions of inorganic salts" (page d_1958). The line of pure water is Tanaka's.
 */
const TABLE: readonly { byWeight: number; density: number }[] = [
  { byWeight: 0, density: waterDensity(20) },
  { byWeight: 1, density: 1.007 },
  { byWeight: 5, density: 1.0417 },
  { byWeight: 10, density: 1.0882 },
  { byWeight: 20, density: 1.1942 },
  { byWeight: 30, density: 1.3204 },
  { byWeight: 40, density: 1.4743 },
];

/** A strength in the ways it is told. */
export interface Strength {
  /** Milligrams of silver nitrate in a litre: what is stored. */
  mgPerLitre: number;
  /** Grams in 100 mL ("9 per cent" of a formula). */
  byVolume: number;
  /** Grams in 100 g. */
  byWeight: number;
  /** Of clean solution at 20 degrees. */
  density: number;
  grainsPerUsOunce: number;
  grainsPerImperialOunce: number;
}

/** What a hydrometer may be read at, in degrees Celsius. Assumption: a room one works in. */
export const COLDEST_READING = 5;
export const WARMEST_READING = 35;

export type HydrometerAnswer =
  | { ok: true; strength: Strength /** At 20 degrees. */; density: number }
  | { ok: false; reason: 'lighter than water' | 'heavier than the table' | 'too cold or warm' };

/**
 * The strength of a clean bath by its density (kg in a litre, as the hydrometer shows it). A reading away from 20
 * degrees is carried over as if the bath swelled like water; a bath swells somewhat more, so the further from 20 the
 * rougher. Between two lines of the table volumes are taken to add: 1/density is interpolated.
 */
export function strengthByDensity(reading: number, celsius: number): HydrometerAnswer {
  if (!(celsius >= COLDEST_READING && celsius <= WARMEST_READING))
    return { ok: false, reason: 'too cold or warm' };
  const density = (reading * waterDensity(20)) / waterDensity(celsius);
  const first = TABLE[0]?.density ?? 0;
  if (!(density >= first - 0.0005)) return { ok: false, reason: 'lighter than water' };
  for (const [at, upper] of TABLE.entries()) {
    const lower = TABLE[at - 1];
    if (!lower || density > upper.density + 1e-9) continue;
    const share = between(1 / Math.max(density, first), 1 / lower.density, 1 / upper.density);
    const byWeight = lower.byWeight + share * (upper.byWeight - lower.byWeight);
    return { ok: true, strength: told(byWeight, density), density };
  }
  return { ok: false, reason: 'heavier than the table' };
}

/** A strength by weight, 0 to 40 g in 100 g; null beyond the table. */
export function strengthByWeight(byWeight: number): Strength | null {
  for (const [at, upper] of TABLE.entries()) {
    const lower = TABLE[at - 1];
    if (!lower || !(byWeight >= lower.byWeight) || byWeight > upper.byWeight) continue;
    const share = between(byWeight, lower.byWeight, upper.byWeight);
    return told(byWeight, 1 / (1 / lower.density + share * (1 / upper.density - 1 / lower.density)));
  }
  return null;
}

/** A strength by volume, milligrams in a litre; null beyond the table (about 590 g). Solved by halving. */
export function strengthByVolume(mgPerLitre: number): Strength | null {
  const most = strengthByWeight(40)?.mgPerLitre ?? 0;
  if (!(mgPerLitre >= 0) || mgPerLitre > most) return null;
  let [low, high] = [0, 40];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if ((strengthByWeight(middle)?.mgPerLitre ?? 0) < mgPerLitre) low = middle;
    else high = middle;
  }
  const found = strengthByWeight((low + high) / 2);
  return found && { ...found, mgPerLitre, byVolume: mgPerLitre / 10_000 };
}

export type Ounce = 'US' | 'imperial';
const asNumber = ({ num, den }: Ratio): number => Number(num) / Number(den);
/** What one grain in the fluid ounce is. */
const MG_PER_LITRE: Record<Ounce, number> = {
  US: (asNumber(MG_PER_GRAIN) / asNumber(UL_PER_US_FLUID_OUNCE)) * 1_000_000,
  imperial: (asNumber(MG_PER_GRAIN) / asNumber(UL_PER_IMPERIAL_FLUID_OUNCE)) * 1_000_000,
};

/** Milligrams in a litre of so many grains in a fluid ounce: 4 % apart by which ounce is meant. */
export const mgPerLitreOf = (grains: number, ounce: Ounce): number => grains * MG_PER_LITRE[ounce];

/** Volhard's titration with thiocyanate and a ferric indicator: one mole of it to one of silver. */
export interface Titration {
  /** Millilitres used up to the lasting colour. */
  thiocyanateMl: number;
  /** Moles in a litre. */
  normality: number;
  /** Millilitres of bath that were taken. */
  sampleMl: number;
}

/** Milligrams of silver nitrate in a litre; null unless sample and normality are above zero and the rest not below. */
export function strengthByTitration({ thiocyanateMl, normality, sampleMl }: Titration): number | null {
  if (!(sampleMl > 0 && normality > 0 && thiocyanateMl >= 0)) return null;
  return ((thiocyanateMl * normality * SILVER_NITRATE_G_PER_MOL) / sampleMl) * 1000;
}

/**
 * Milligrams of silver nitrate in a litre by the dried silver chloride (g) that so many millilitres of bath gave.
 * The ratio is that of the molar masses, 1.185; old books have 1.18. Null as for a titration.
 */
export function strengthByChloride(chlorideG: number, sampleMl: number): number | null {
  if (!(sampleMl > 0 && chlorideG >= 0)) return null;
  return ((chlorideG * NITRATE_PER_CHLORIDE) / sampleMl) * 1_000_000;
}

function told(byWeight: number, density: number): Strength {
  const mgPerLitre = byWeight * density * 10_000;
  return {
    mgPerLitre,
    byVolume: mgPerLitre / 10_000,
    byWeight,
    density,
    grainsPerUsOunce: mgPerLitre / MG_PER_LITRE.US,
    grainsPerImperialOunce: mgPerLitre / MG_PER_LITRE.imperial,
  };
}

const between = (value: number, from: number, to: number): number => (value - from) / (to - from);
