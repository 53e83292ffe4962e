// What is in a silver bath now, by its ledger: from the last measured strength through what was poured and added.
// The chemistry of a plate is chemistry/bath-strength.calc.ts; which day takes which bath is bath-days.calc.ts.
import type { Temporal } from 'temporal-polyfill';
import { type LearnedLoss, learnLoss, type MeasuredRun } from '../chemistry/bath-loss.calc.js';
import {
  type BathLevel,
  levelAfterPlates,
  levelAfterTopUp,
  type Take,
} from '../chemistry/bath-strength.calc.js';
import type { Bath, BathEvent, EventKind } from './baths.schemas.js';

/** How strong it is by how much its plates took: most gives the weakest. */
export type Band = Record<Take, BathLevel>;

export interface BathNow {
  bath: Bath;
  /** Null until a strength was ever told. */
  level: Band | null;
  /** The last time its strength was told. */
  measured: BathEvent | null;
  /** Poured since then. */
  plates: number;
  /** Square micrometres poured since it was last sunned or filtered. */
  areaSinceCare: bigint;
  cared: BathEvent | null;
  acidity: BathEvent | null;
  /** What its plates take, by its own measurements where there are any. */
  loss: LearnedLoss;
}

const CARES: readonly EventKind[] = ['sunned', 'filtered'];

/** The lines that count: slips that were taken back are left out, and what took them back. */
export function standing(events: readonly BathEvent[]): BathEvent[] {
  const gone = new Set(events.map((one) => one.takesBack));
  return events.filter((one) => one.kind !== 'taken back' && !gone.has(one.id));
}

/** @param events its ledger, in the order in which things happened */
export function bathNow(bath: Bath, events: readonly BathEvent[]): BathNow {
  const now: BathNow = {
    bath,
    level: null,
    measured: null,
    plates: 0,
    areaSinceCare: 0n,
    cared: null,
    acidity: null,
    loss: learnLoss(runsOf(events)),
  };
  return standing(events).reduce(after, now);
}

/** The stretches of a ledger between two measurements in which plates were poured and nothing was added. */
export function runsOf(events: readonly BathEvent[]): (MeasuredRun & { volumeMeasured: boolean })[] {
  const runs: ReturnType<typeof runsOf> = [];
  let from: { strength: number; volume: bigint } | null = null;
  let areaUm2 = 0n;
  for (const { kind, area, strength, volume } of standing(events)) {
    if (kind === 'poured') areaUm2 += area ?? 0n;
    if (kind === 'topped up') from = null;
    if (strength === null) continue;
    const before = from;
    if (before !== null && areaUm2 > 0n)
      runs.push({
        areaUm2,
        before,
        after: { strength, volume: volume ?? before.volume },
        volumeMeasured: volume !== null,
      });
    from = volume === null ? null : { strength, volume };
    areaUm2 = 0n;
  }
  return runs;
}

/** A bath after one more line of its ledger. */
export function after(now: BathNow, event: BathEvent): BathNow {
  if (event.strength !== null) {
    const volume = event.volume ?? now.level?.likely.volume ?? now.bath.volume;
    const level = { volume, strength: event.strength };
    return { ...now, level: { most: level, likely: level, least: level }, measured: event, plates: 0 };
  }
  if (event.kind === 'poured' && event.area !== null)
    return { ...poured(now, event.area), plates: now.plates + (event.plates ?? 0) };
  if (event.kind === 'topped up' && now.level !== null) {
    const added = { crystals: event.crystals ?? 0n, volume: event.volume ?? 0n };
    return toppedUp(now, added);
  }
  if (CARES.includes(event.kind)) return { ...now, cared: event, areaSinceCare: 0n };
  return event.kind === 'acidity' ? { ...now, acidity: event } : now;
}

/** A bath after so much area of plates. */
export function poured(now: BathNow, area: bigint): BathNow {
  const areaSinceCare = now.areaSinceCare + area;
  if (now.level === null) return { ...now, areaSinceCare };
  return {
    ...now,
    areaSinceCare,
    level: eachTake((take) => levelAfterPlates(levelOf(now, take), area, now.loss.loss[take])),
  };
}

/** A bath after crystals (milligrams) and liquid (microlitres) were added. */
export function toppedUp(now: BathNow, added: { crystals: bigint; volume: bigint }): BathNow {
  if (now.level === null) return now;
  return { ...now, level: eachTake((take) => levelAfterTopUp(levelOf(now, take), added)) };
}

/** A point of the chart of strength against plates. */
export interface ChartPoint {
  /** Plates poured since the bath was made, or since its ledger begins. */
  plates: number;
  day: Temporal.PlainDate;
  /** Milligrams in a litre: told, or reckoned from what was told before. */
  strength: Record<Take, number>;
  kind: 'measured' | 'reckoned' | 'ahead';
}

/** The whole ledger as points, then the plates booked, which `ahead` gives as area and number by day. */
export function chartOf(
  bath: Bath,
  events: readonly BathEvent[],
  ahead: readonly { date: Temporal.PlainDate; area: bigint; plates: number }[],
): ChartPoint[] {
  let now = { ...bathNow(bath, []), loss: learnLoss(runsOf(events)) };
  let plates = 0;
  const points: ChartPoint[] = [];
  const add = (day: Temporal.PlainDate, kind: ChartPoint['kind']) => {
    if (now.level === null) return;
    const { most, likely, least } = now.level;
    const strength = { most: most.strength, likely: likely.strength, least: least.strength };
    points.push({ plates, day, strength, kind });
  };
  for (const event of standing(events)) {
    now = after(now, event);
    plates += event.plates ?? 0;
    if (event.strength !== null) add(event.day, 'measured');
    else if (event.kind === 'poured' || event.kind === 'topped up') add(event.day, 'reckoned');
  }
  for (const day of ahead) {
    now = poured(now, day.area);
    plates += day.plates;
    add(day.date, 'ahead');
  }
  return points;
}

const eachTake = (levelOfTake: (take: Take) => BathLevel): Band => ({
  most: levelOfTake('most'),
  likely: levelOfTake('likely'),
  least: levelOfTake('least'),
});

function levelOf({ level }: BathNow, take: Take): BathLevel {
  if (level === null) throw new Error('A bath of unknown strength has no level.');
  return level[take];
}
