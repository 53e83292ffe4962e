// A closure takes the room in pieces around the places that still stand, so that it never takes one away.
import type { Temporal } from 'temporal-polyfill';

export interface Stretch {
  from: Temporal.Instant;
  until: Temporal.Instant;
}

/** Whether two stretches share time; touching is not sharing. */
export const overlap = (a: Stretch, b: Stretch): boolean =>
  a.from.epochMilliseconds < b.until.epochMilliseconds &&
  b.from.epochMilliseconds < a.until.epochMilliseconds;

/** What of a stretch is left between those that stand, in order of time; they may overlap one another. */
export function piecesAround(whole: Stretch, standing: Stretch[]): Stretch[] {
  const inside = standing
    .filter((one) => overlap(one, whole))
    .sort((a, b) => a.from.epochMilliseconds - b.from.epochMilliseconds);
  const pieces: Stretch[] = [];
  let { from } = whole;
  for (const one of inside) {
    if (one.from.epochMilliseconds > from.epochMilliseconds) pieces.push({ from, until: one.from });
    if (one.until.epochMilliseconds > from.epochMilliseconds) from = one.until;
  }
  if (from.epochMilliseconds < whole.until.epochMilliseconds) pieces.push({ from, until: whole.until });
  return pieces;
}
