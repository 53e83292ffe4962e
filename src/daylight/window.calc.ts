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

/**
 * The light window of a civil day, or null when the sun stays below the floor: an ordinary answer in
 * winter. The floor is an altitude in degrees as seen (refraction included); useful from 0 to 60. Where the
 * sun is above it all night too, the window begins or ends with the civil day.
 */
export function lightWindow(place: Place, date: Temporal.PlainDate, floor: number): LightWindow | null {
  const { at: solarNoon, altitude: noonAltitude } = solarNoonOf(place, date);
  if (noonAltitude < floor) return null;
  const { before, after } = crossingsAround(place, solarNoon, floor);
  if (before && after) return { start: before, end: after, solarNoon, noonAltitude };
  const day = dayBounds(place.zone, date);
  return { start: before ?? day.start, end: after ?? day.end, solarNoon, noonAltitude };
}
