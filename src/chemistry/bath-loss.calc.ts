// What one bath's own plates take out of it, by its measurements, weighed against the usual loss by a stated rule.
// It is told runs between two measurements; which lines of a ledger make a run is not its business.
import { type BathLevel, type BathLoss, DEFAULT_LOSS, type Take } from './bath-strength.calc.js';
import { UM2_PER_SQUARE_INCH } from './plate-sizes.calc.js';

/** A stretch of a bath's life between two measurements, with nothing added in it. */
export interface MeasuredRun {
  areaUm2: bigint;
  before: BathLevel;
  after: BathLevel;
}

export type FittedLoss =
  | { ok: true; loss: BathLoss; areaUm2: bigint; runs: number }
  | { ok: false; reason: 'no plates' | 'not weaker' | 'not less' };

/**
 * The loss per area that the studio's own measurements tell: of each run the model's loss is solved for, and the
 * runs are taken together by their area. Silver lost to filtering, spills and reduction counts as if the film had
 * taken it. Where a volume was not measured, `dragOutUl` is given and only the film is fitted.
 */
export function fitLoss(runs: readonly MeasuredRun[], dragOutUl?: number): FittedLoss {
  const poured = runs.filter(({ areaUm2 }) => areaUm2 > 0n);
  const areaUm2 = poured.reduce((sum, run) => sum + run.areaUm2, 0n);
  if (areaUm2 === 0n) return { ok: false, reason: 'no plates' };
  const area = inches(areaUm2);
  const lost = poured.reduce((sum, { before, after }) => sum + Number(before.volume - after.volume), 0);
  const dragOut = dragOutUl ?? lost / area;
  if (dragOut < 0) return { ok: false, reason: 'not less' };
  const film = poured.reduce((sum, run) => sum + filmOf(run, dragOut), 0) / area;
  if (!(film >= 0)) return { ok: false, reason: 'not weaker' };
  return { ok: true, loss: { filmMg: film, dragOutUl: dragOut }, areaUm2, runs: poured.length };
}

/** Milligrams the film took in a run, by the solution of levelAfterPlates turned round. */
function filmOf({ areaUm2, before, after }: MeasuredRun, dragOutUl: number): number {
  const fall = (before.strength - after.strength) / 1e6;
  const out = dragOutUl * inches(areaUm2);
  const volume = Number(before.volume);
  return out === 0 ? fall * volume : (fall * out) / -Math.log1p(-out / volume);
}

/**
 * What the usual loss counts as, in square inches: some 45 whole plates. Assumption: a hydrometer is read to about a gram
 * in a litre, which over so many plates from two litres is a fifth of what they take.
 */
export const USUAL_LOSS_AREA = 2500;

export interface LearnedLoss {
  loss: Record<Take, BathLoss>;
  /** The bath's own alone; null while its measurements tell nothing that can be. */
  own: BathLoss | null;
  /** Square inches it is told by. */
  area: number;
  runs: number;
  /** The share that the usual loss has in it, 0 to 1. */
  usualWeight: number;
}

/**
 * A bath's own loss: figure = (k x usual + A x own) / (k + A) with k = USUAL_LOSS_AREA and A the area of its runs. Most and
 * least keep the proportions of the usual range. Runs whose volume was not measured at both ends tell of the film
 * only. A bath that by its measurements got stronger, or fuller, keeps to the usual loss.
 */
export function learnLoss(runs: readonly (MeasuredRun & { volumeMeasured: boolean })[]): LearnedLoss {
  const usual: LearnedLoss = { loss: DEFAULT_LOSS, own: null, area: 0, runs: 0, usualWeight: 1 };
  const full = fitLoss(runs.filter(({ volumeMeasured }) => volumeMeasured));
  const dragOutUl = full.ok ? full.loss.dragOutUl : DEFAULT_LOSS.likely.dragOutUl;
  const fitted = fitLoss(runs, dragOutUl);
  if (!fitted.ok) return usual;
  const area = inches(fitted.areaUm2);
  const weigh = (usualPart: number, own: number, of: number) =>
    (USUAL_LOSS_AREA * usualPart + of * own) / (USUAL_LOSS_AREA + of);
  const { most, likely, least } = DEFAULT_LOSS;
  const film = weigh(likely.filmMg, fitted.loss.filmMg, area) / likely.filmMg;
  const dragOut = weigh(likely.dragOutUl, dragOutUl, full.ok ? inches(full.areaUm2) : 0) / likely.dragOutUl;
  const scaled = (loss: BathLoss): BathLoss => ({
    filmMg: loss.filmMg * film,
    dragOutUl: loss.dragOutUl * dragOut,
  });
  return {
    loss: { most: scaled(most), likely: scaled(likely), least: scaled(least) },
    own: fitted.loss,
    area,
    runs: fitted.runs,
    usualWeight: USUAL_LOSS_AREA / (USUAL_LOSS_AREA + area),
  };
}

const inches = (um2: bigint): number => Number(um2) / Number(UM2_PER_SQUARE_INCH);
