// What a place is worth for somebody, part by part, by what the owner says matters. Whole points, so that two plans
// are never equal but for a fraction. All figures are assumptions.

export const MATTERS = ['not', 'some', 'much'] as const;
export type Matters = (typeof MATTERS)[number];

/** What the owner weighs, and how much each matters. */
export const WEIGHED = ['order', 'person', 'light', 'stock', 'gaps'] as const;
export type Weighed = (typeof WEIGHED)[number];

export const TOGETHER = ['always', 'rather', 'no matter'] as const;

export interface Weights extends Record<Weighed, Matters> {
  /** Those who travel together: always one day or none, rather one day, or it does not matter. */
  together: (typeof TOGETHER)[number];
}

export const DEFAULT_WEIGHTS: Weights = {
  order: 'much',
  person: 'some',
  light: 'much',
  stock: 'some',
  gaps: 'some',
  together: 'always',
};

const FACTOR: Record<Matters, number> = { not: 0, some: 1, much: 3 };
/** Each part has at most so many points, times its factor. */
const FULL = 100;
/** That somebody has a place at all; more than opening a day can cost, so that nobody is left out to save a day. */
export const PLACE = 400;

/** What of a place and a person the points depend on. */
export interface Judged {
  /** From 1, among so many. */
  position: number;
  of: number;
  /** Days from the first that could be given to this one, and to the last one. */
  daysOn: number;
  daysInAll: number;
  /** They can be there and home again in waking hours. */
  easyJourney: boolean;
  /** Seconds to hold still at most, under a clear sky and on a dull day, and how long all on the plates can. */
  clear: number;
  dull: number;
  limit: number;
  /** All they need is there; or it is still to be mixed or ordered. */
  onShelf: boolean;
  /** Minutes that the room is empty afterwards, until the day's next start. */
  idleMinutes: number;
}

export type Part = { part: 'place' | Weighed; points: number };

/** Idle minutes from which on a gap is as bad as it gets. */
const WORST_GAP = 120;

/** The parts that count, in a fixed order; they sum up to the points of the place. */
export function pointsOf(judged: Judged, weights: Weights): Part[] {
  const shares: Record<Weighed, number> = {
    order: (judged.of - judged.position + 1) / Math.max(1, judged.of),
    person: soonness(judged) * (judged.easyJourney ? 1 : 0.5),
    light: lightShare(judged),
    stock: judged.onShelf ? 1 : 0.5,
    gaps: 1 - Math.min(WORST_GAP, judged.idleMinutes) / WORST_GAP,
  };
  const parts: Part[] = [{ part: 'place', points: PLACE }];
  for (const part of WEIGHED) {
    const points = Math.round(FULL * within(shares[part])) * FACTOR[weights[part]];
    if (points > 0) parts.push({ part, points });
  }
  return parts;
}

export const sumOf = (parts: readonly Part[]): number => parts.reduce((sum, { points }) => sum + points, 0);

/** Points that opening an empty day costs, and that a party on one day brings. */
export const openingPoints = (weights: Weights): number => 60 * FACTOR[weights.gaps];
export const TOGETHER_POINTS = 150;

/** The next day is best, the last one worth half. */
const soonness = ({ daysOn, daysInAll }: Judged): number => 1 - daysOn / Math.max(1, daysInAll) / 2;

/** All of it where they can hold still even on a dull day, half where only just under a clear sky, none beyond. */
function lightShare({ clear, dull, limit }: Judged): number {
  if (Math.round(clear) > limit) return 0;
  if (dull <= limit) return 1;
  return 0.5 + (0.5 * (limit - clear)) / Math.max(1e-9, dull - clear);
}

const within = (share: number) => Math.min(1, Math.max(0, share));
