// After a zone's law changed: the wall times people were promised stay, the instants follow. Pure.
// Where two places now clash, the one booked earlier keeps the room; the other is to be moved by the owner.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import type { Occupancy } from './occupancy.schemas.js';

export interface Rederived {
  place: Occupancy;
  /** The same place with its instants (and end of wall time) by today's law. */
  now: Occupancy;
  /** `clock gap`: the wall time no longer exists, or exists twice, so the old instant was kept. */
  outcome: 'moved' | 'clash' | 'clock gap';
}

/**
 * What changes among a studio's future places that hold the room, closures left out. Unchanged places are left
 * out too, unless one of them has to give way to a place that was booked before it. A place in a clock gap
 * keeps its instant and its room, whatever was booked before.
 */
export function rederive(places: Occupancy[]): Rederived[] {
  const all = [...places].sort(bookedFirst).map((place) => ({ place, now: byPresentLaw(place) }));
  const accepted = all.filter(({ now }) => now === null).map(({ place }) => place);
  const changed: Rederived[] = [];
  for (const { place, now } of all) {
    if (now === null) changed.push({ place, now: place, outcome: 'clock gap' });
    else if (accepted.some((other) => clashes(other, now))) changed.push({ place, now, outcome: 'clash' });
    else {
      accepted.push(now);
      if (!now.startsAt.equals(place.startsAt)) changed.push({ place, now, outcome: 'moved' });
    }
  }
  return changed;
}

/** Null where the wall time falls into a gap or an overlap of the clock. */
function byPresentLaw(place: Occupancy): Occupancy | null {
  const start = wallToInstant(place.zone, place.wallStart);
  if (!start.ok) return null;
  const after = (end: Temporal.Instant) => start.instant.add(place.startsAt.until(end));
  const endsAt = after(place.endsAt);
  const busyUntil = after(place.busyUntil);
  return { ...place, startsAt: start.instant, endsAt, busyUntil, wallEnd: instantToWall(place.zone, endsAt) };
}

/** Whether a piece of a closure no longer lies between the wall times that it was laid for. */
export function isMislaid(piece: Occupancy): boolean {
  const ends = [
    [piece.wallStart, piece.startsAt],
    [piece.wallEnd, piece.endsAt],
  ] as const;
  return ends.some(([wall, at]) => {
    const now = wallToInstant(piece.zone, wall);
    return now.ok && !now.instant.equals(at);
  });
}

const clashes = (a: Occupancy, b: Occupancy) =>
  a.resource === b.resource &&
  a.startsAt.epochMilliseconds < b.busyUntil.epochMilliseconds &&
  b.startsAt.epochMilliseconds < a.busyUntil.epochMilliseconds;

function bookedFirst(a: Occupancy, b: Occupancy): number {
  return a.createdAt.epochMilliseconds - b.createdAt.epochMilliseconds || (a.id < b.id ? -1 : 1);
}
