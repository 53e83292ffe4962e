// From when until when a natural-light room has good light on a day: while the sun stands at or above the
// altitude floor that the studio chose. Weather, trees and the house opposite are not considered.
import type { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { crossingsAround, type Place, solarNoonOf } from './sun.calc.js';

export interface LightWindow {
  start: Temporal.Instant;
  end: Temporal.Instant;
  solarNoon: Temporal.Instant;
  /** Degrees: the sun's greatest height that day. */
  noonAltitude: number;
}

/** A window shorter than this around any solar noon (at most four hours off 12:00) ends before midnight. */
const SURELY_WITHIN_A_DAY = 16 * 3_600_000;

/**
 * The light window of a civil day, or null when the sun stays below the floor: an ordinary answer in
 * winter. The floor is an altitude in degrees as seen (refraction included); useful from 0 to 60. The window
 * lies within the civil day and around its solar noon: where the sun is above the floor past midnight, or
 * all night, it begins or ends with the day.
 */
export function lightWindow(place: Place, date: Temporal.PlainDate, floor: number): LightWindow | null {
  const { at: solarNoon, altitude: noonAltitude } = solarNoonOf(place, date);
  if (noonAltitude < floor) return null;
  const { before, after } = crossingsAround(place, solarNoon, floor);
  if (before && after && after.epochMilliseconds - before.epochMilliseconds < SURELY_WITHIN_A_DAY) {
    return { start: before, end: after, solarNoon, noonAltitude };
  }
  const day = dayBounds(place.zone, date);
  const start = before && before.epochMilliseconds > day.start.epochMilliseconds ? before : day.start;
  const end = after && after.epochMilliseconds < day.end.epochMilliseconds ? after : day.end;
  return { start, end, solarNoon, noonAltitude };
}
