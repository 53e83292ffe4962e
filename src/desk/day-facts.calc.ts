// What a studio day asks of whoever works on it: a helper, a plan for dull weather, the studio days beside it. Pure.
import { Temporal } from 'temporal-polyfill';
import { needsHelper } from '../room/attendance.calc.js';
import { type HoldStill, rhythmOn } from '../room/openings.calc.js';
import type { Rhythm } from '../room/rules.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { PlateSize } from '../stock/stock.schemas.js';

type Plates = Pick<SittingView, 'plates'>['plates'];

/** Whether one of the plates is a group's, or larger than a whole plate. */
export function asksForHelper(plates: Plates, sizes: readonly PlateSize[]): boolean {
  return plates.some(({ plateSizeId, sitterIds }) => {
    const size = sizes.find((one) => one.id === plateSizeId);
    return size !== undefined && needsHelper({ ...size, people: sitterIds.length });
  });
}

/** What to do where the sky is dull and they would have to hold still longer than they can. */
export interface DullPlan {
  /** Seconds that the dull sky would ask, at most, and that they can hold. */
  asks: number;
  holds: number;
  /** Whole stops of light that are missing: by so many the lens is opened, or a faster one taken. */
  stops: number;
  /** The next smaller size the studio has; null where theirs is the smallest. */
  smaller: string | null;
  /** Make one plate instead of several: each takes as many minutes more. */
  fewer: boolean;
}

/**
 * The plan for a dull day; null where they can hold still for as long as a dull sky asks. `holds` in seconds, infinite
 * for nobody. Smaller plate, wider lens, fewer plates: common practice, no source.
 */
export function dullPlan(
  { dull }: HoldStill,
  holds: number,
  plates: Plates,
  sizes: readonly PlateSize[],
): DullPlan | null {
  if (Math.round(dull.to) <= holds) return null;
  const area = ({ widthMm, heightMm }: PlateSize) => widthMm * heightMm;
  const theirs = sizes.filter(({ id }) => plates.some(({ plateSizeId }) => plateSizeId === id)).map(area);
  const least = Math.min(...theirs);
  const smaller = sizes.filter((one) => one.offered && area(one) < least).sort((a, b) => area(b) - area(a));
  return {
    asks: Math.round(dull.to),
    holds,
    stops: Math.ceil(Math.log2(dull.to / holds)),
    smaller: smaller[0]?.name ?? null,
    fewer: plates.length > 1,
  };
}

/** How far the studio days beside one are looked for. Assumption: a summer's closing. */
export const LOOK_DAYS = 70;

/**
 * The studio days before and after a date: days of the rhythm, and those on which somebody has a place. Null where
 * there is none within LOOK_DAYS.
 */
export function daysBeside(date: Temporal.PlainDate, rhythms: Rhythm[], held: readonly Temporal.PlainDate[]) {
  const taken = new Set(held.map(String));
  const isOne = (day: Temporal.PlainDate) => taken.has(day.toString()) || rhythmOn(rhythms, day) !== null;
  const look = (step: 1 | -1): Temporal.PlainDate | null => {
    for (let far = 1; far <= LOOK_DAYS; far++) {
      const day = date.add({ days: far * step });
      if (isOne(day)) return day;
    }
    return null;
  };
  return { before: look(-1), after: look(1) };
}
