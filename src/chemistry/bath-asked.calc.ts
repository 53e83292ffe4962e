// What the bath calculator answers: the strength in every measure, what brings the bath to its full strength, and how
// many plates it takes until it must be topped up.
import {
  mgPerLitreOf,
  type Strength,
  strengthByChloride,
  strengthByDensity,
  strengthByTitration,
  strengthByVolume,
  strengthByWeight,
  type Titration,
} from './bath-density.calc.js';
import {
  type BathLevel,
  levelAfterPlates,
  type PlannedTopUp,
  platesUntil,
  type Take,
  topUpFor,
  type TopUp,
  whenToTopUp,
} from './bath-strength.calc.js';
import { plateAreaUm2 } from './plate-sizes.calc.js';

export const MEASURES = [
  'grams in a litre',
  'grams in 100 mL',
  'grams in 100 g',
  'grains in a US fluid ounce',
  'grains in an imperial fluid ounce',
] as const;
export type Measure = (typeof MEASURES)[number];

export type Reading =
  | { way: 'hydrometer'; density: number; celsius: number }
  | { way: 'strength'; amount: number; measure: Measure }
  | ({ way: 'titration' } & Titration)
  | { way: 'chloride'; chlorideG: number; sampleMl: number };

export type NoStrength =
  | 'lighter than water'
  | 'heavier than the table'
  | 'too cold or warm'
  | 'beyond the table';

export type ReadStrength = { ok: true; strength: Strength } | { ok: false; reason: NoStrength };

/** A reading as a strength. Readings come checked for being above zero. */
export function strengthOf(reading: Reading): ReadStrength {
  if (reading.way === 'hydrometer') {
    const answer = strengthByDensity(reading.density, reading.celsius);
    return answer.ok ? { ok: true, strength: answer.strength } : answer;
  }
  const strength =
    reading.way === 'strength' && reading.measure === 'grams in 100 g'
      ? strengthByWeight(reading.amount)
      : strengthByVolume(mgPerLitre(reading) ?? -1);
  return strength ? { ok: true, strength } : { ok: false, reason: 'beyond the table' };
}

function mgPerLitre(reading: Exclude<Reading, { way: 'hydrometer' }>): number | null {
  if (reading.way === 'titration') return strengthByTitration(reading);
  if (reading.way === 'chloride') return strengthByChloride(reading.chlorideG, reading.sampleMl);
  const { amount, measure } = reading;
  if (measure === 'grains in a US fluid ounce') return mgPerLitreOf(amount, 'US');
  if (measure === 'grains in an imperial fluid ounce') return mgPerLitreOf(amount, 'imperial');
  return amount * (measure === 'grams in a litre' ? 1000 : 10_000);
}

/** The bath that is asked about: microlitres, and milligrams in a litre. */
export interface AskedBath {
  volume: bigint;
  full: BathLevel;
  least: BathLevel;
  plate: { widthMm: number; heightMm: number };
}

export interface BathAnswer {
  /** What brings it to its full volume and strength now. */
  add: TopUp;
  /** How many plates until then, by how much each takes; null when it is below its least already. */
  plates: Record<Take, number> | null;
  /** When it must be topped up and by how much then, as is likely. */
  planned: PlannedTopUp | null;
}

/** How it goes on from this strength, and by what its plates take as usual. */
export function reckonBath({ volume, full, least, plate }: AskedBath, mgInLitre: number): BathAnswer {
  const level = { volume, strength: mgInLitre };
  const area = plateAreaUm2(plate.widthMm, plate.heightMm);
  const until = (take: Take) => platesUntil(level, least, area, take)?.plates ?? 0;
  const enough = volume >= least.volume && mgInLitre >= least.strength;
  return {
    add: topUpFor(level, full),
    plates: enough ? { most: until('most'), likely: until('likely'), least: until('least') } : null,
    planned: enough ? whenToTopUp(level, { least, full }, area, 'likely') : null,
  };
}

/** The bath after each of some numbers of plates, for a table. */
export const bathAt = ({ volume, plate }: AskedBath, mgInLitre: number, plates: number): BathLevel =>
  levelAfterPlates(
    { volume, strength: mgInLitre },
    plateAreaUm2(plate.widthMm, plate.heightMm) * BigInt(plates),
    'likely',
  );
