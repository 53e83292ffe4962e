// How long a person can hold still, and whether a place asks more than that. A warning, never a bar.
// The limits are common practice, no source; each studio sets its own.
import type { Sitter } from '../people/people.schemas.js';

/** Seconds. */
export interface PoseLimits {
  under8: number;
  from8To14: number;
  /** An adult without a head rest ... */
  adult: number;
  /** ... and with one. */
  headRest: number;
  /** Three people or more on one plate: the least steady of them decides. */
  groupOf3: number;
}

export const DEFAULT_POSE_LIMITS: PoseLimits = {
  under8: 4,
  from8To14: 8,
  adult: 10,
  headRest: 20,
  groupOf3: 6,
};

/** People on one plate from which on they are a group. */
export const GROUP = 3;

/** What of a sitter it depends on. */
export type Poser = Pick<Sitter, 'ageBand' | 'headRest'>;

/** Seconds that one person holds still; a head rest helps adults only. */
function limitOf(person: Poser, limits: PoseLimits): number {
  if (person.ageBand === 'under 8') return limits.under8;
  if (person.ageBand === '8 to 14') return limits.from8To14;
  return person.headRest ? limits.headRest : limits.adult;
}

/** Seconds that all on the plates of a sitting hold still: the least of them. Infinity for nobody. */
export function limitOfPlates(plates: Poser[][], limits: PoseLimits): number {
  const each = plates.flatMap((people) => [
    ...people.map((person) => limitOf(person, limits)),
    ...(people.length >= GROUP ? [limits.groupOf3] : []),
  ]);
  return Math.min(...each);
}

/** Whether a place asks for more than the limit under a clear sky, by more than rounding. */
export function tooLong(clear: { to: number }, limit: number): boolean {
  return Math.round(clear.to) > limit;
}
