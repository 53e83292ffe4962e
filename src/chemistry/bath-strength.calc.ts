// How a silver bath loses strength and volume to the plates that pass through it, when it must be topped up and
// by how much. It knows no ledger and no calendar, and does not tell how a strength is measured (bath-density.calc.ts).
import { UM2_PER_SQUARE_INCH } from './plate-sizes.calc.js';

/** What is in a bath: microlitres, and milligrams of silver nitrate in a litre (not rounded). */
export interface BathLevel {
  volume: bigint;
  strength: number;
}

/** What a square inch of plate takes out of a bath. */
export interface BathLoss {
  /** Milligrams of silver nitrate that the halides of the film take up, whatever the strength. */
  filmMg: number;
  /** Microlitres of the bath itself that cling to the plate, with the silver in them. */
  dragOutUl: number;
}

export type Take = 'most' | 'likely' | 'least';

/*
 * Film: 150, 200, 250 microlitres of collodion stay on a square inch (from memory: 3 to 5 mL on 4 x 5 in) and take up
 * 12.9, 15.8, 18.7 mg of silver nitrate in each millilitre (by stoichiometry: E. M. Estabrooke, Photography in the
 * Studio and in the Field, p. 29, tetrahydrate; E. L. Wilson, Wilson's Photographics (1881), par. 131, anhydrous;
 * the middle).
 * Drag-out: Wilson's 80 oz bath was "about a third" less after 180 plates of 7 1/2 x 7 1/2 in. 25 oz (imperial 70,
 * American 73) to 26.7 oz (American 78) over 10,125 square inches; evaporation and filtering are in it.
 */
export const DEFAULT_LOSS: Record<Take, BathLoss> = {
  most: { filmMg: 4.675, dragOutUl: 78 },
  likely: { filmMg: 3.16, dragOutUl: 73 },
  least: { filmMg: 1.935, dragOutUl: 70 },
};

const inches = (um2: bigint): number => Number(um2) / Number(UM2_PER_SQUARE_INCH);

/**
 * A bath after so much area of plates. The drops carried off take silver and water alike, so only the film makes it
 * weaker: dV/dA = -dragOut and V dc/dA = -film, which is solved exactly. A bath poured dry is empty: both zero.
 * @param areaUm2 square micrometres, every try counted
 */
export function levelAfterPlates(
  { volume, strength }: BathLevel,
  areaUm2: bigint,
  take: Take | BathLoss,
): BathLevel {
  const { filmMg, dragOutUl } = lossOf(take);
  const before = Number(volume);
  const out = dragOutUl * inches(areaUm2);
  if (before <= 0 || out >= before) return { volume: 0n, strength: 0 };
  const each = out === 0 ? inches(areaUm2) / before : -Math.log1p(-out / before) / dragOutUl; // per microlitre
  return {
    volume: BigInt(Math.round(before - out)),
    strength: Math.max(0, strength - filmMg * each * 1e6),
  };
}

/** What comes into a bath. The crystals' own volume is passed over: under 1 % of a top-up, and one fills to a mark. */
export interface TopUp {
  /** Milligrams of silver nitrate. */
  crystals: bigint;
  /** Microlitres of water, or of a solution of `fill` mg in a litre. */
  volume: bigint;
}

export function levelAfterTopUp(level: BathLevel, { crystals, volume }: TopUp, fill = 0): BathLevel {
  const total = level.volume + volume;
  if (total <= 0n) return { volume: 0n, strength: 0 };
  const mg = silverMg(level) + Number(crystals) + silverMg({ volume, strength: fill });
  return { volume: total, strength: (mg / Number(total)) * 1e6 };
}

/**
 * What brings a bath to this volume and strength: liquid up to the volume, crystals for the strength; each rounded up.
 * For the least that lets it work again give its least volume and strength. Never takes anything out: a fuller
 * bath keeps its volume, and one too strong gets no crystals and stays stronger.
 * @param fill mg of silver nitrate in a litre of what it is filled up with; 0 for water
 */
export function topUpFor(level: BathLevel, target: BathLevel, fill = 0): TopUp {
  const volume = target.volume > level.volume ? target.volume - level.volume : 0n;
  const wanted = (Number(level.volume + volume) / 1e6) * target.strength;
  const missing = wanted - silverMg(level) - silverMg({ volume, strength: fill });
  return { crystals: BigInt(Math.max(0, Math.ceil(missing - 1e-6))), volume };
}

export interface LastPlate {
  /** Whole plates it still takes; 0 when it is at its least already. */
  plates: number;
  /** What it would be short of after one more. */
  shortOf: 'strength' | 'volume';
}

/**
 * How many plates of one size a bath takes before it is weaker or lower than its least, and which comes first.
 * Null when nothing is lost, so that it never is.
 */
export function platesUntil(
  level: BathLevel,
  least: BathLevel,
  plateUm2: bigint,
  take: Take | BathLoss,
): LastPlate | null {
  const { filmMg, dragOutUl } = lossOf(take);
  const volume = Number(level.volume);
  const fall = (level.strength - least.strength) / 1e6; // mg in a microlitre
  const byVolume = dragOutUl > 0 ? (volume - Number(least.volume)) / dragOutUl : Number.POSITIVE_INFINITY;
  const weaker = dragOutUl > 0 ? -Math.expm1((-fall * dragOutUl) / filmMg) / dragOutUl : fall / filmMg;
  const byStrength = filmMg > 0 ? volume * weaker : Number.POSITIVE_INFINITY;
  const area = Math.min(byVolume, byStrength);
  if (!Number.isFinite(area)) return null;
  const plates = Math.max(0, Math.floor(area / inches(plateUm2) + 1e-9));
  return { plates, shortOf: byStrength <= byVolume ? 'strength' : 'volume' };
}

export interface PlannedTopUp extends LastPlate {
  /** How the bath stands after those plates. */
  before: BathLevel;
  /** What it wants then. */
  add: TopUp;
}

/** When to top a bath up that is used for one size, and by how much then. Null as for platesUntil. */
export function whenToTopUp(
  level: BathLevel,
  bath: { least: BathLevel; full: BathLevel; fill?: number },
  plateUm2: bigint,
  take: Take | BathLoss,
): PlannedTopUp | null {
  const last = platesUntil(level, bath.least, plateUm2, take);
  if (last === null) return null;
  const before = levelAfterPlates(level, plateUm2 * BigInt(last.plates), take);
  return { ...last, before, add: topUpFor(before, bath.full, bath.fill) };
}

/** Milligrams of silver nitrate in a bath. */
const silverMg = ({ volume, strength }: BathLevel): number => (Number(volume) / 1e6) * strength;

const lossOf = (take: Take | BathLoss): BathLoss => (typeof take === 'string' ? DEFAULT_LOSS[take] : take);
