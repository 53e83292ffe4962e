// One civil day of light at a place: rise, noon and set, the light window, and how long a plate would take in
// each weather, step by step through the day. Gathers what sun, window and exposure say; decides nothing.
import { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { exposureRange, type Range, type StudioLight, WEATHERS, type Weather } from './exposure.calc.js';
import { type Place, type SunPosition, type SunTimes, sunAt, sunTimes } from './sun.calc.js';
import { type LightWindow, lightWindow } from './window.calc.js';

/**
 * Dates at both ends of which rise and set are within 15 seconds of a reference library up to 60 degrees; from 1972
 * on the offsets of all zones are whole minutes. Laws of zones far ahead may change.
 */
export const FIRST_DATE = Temporal.PlainDate.from('1972-01-01');
export const LAST_DATE = Temporal.PlainDate.from('2099-12-31');

/** Degrees; assumption, where a studio has not set its own. Where period writers give hours, the sun was 10 to 15 high. */
export const USUAL_FLOOR = 10;
/** Assumption, where no reference is given: seconds of a good plate, the sun so many degrees high. */
export const USUAL_REFERENCE = { seconds: 6, altitude: 45 } as const;

export type ByWeather = Record<Weather, Range>;

export interface Moment extends SunPosition {
  at: Temporal.Instant;
  /** Seconds in each weather; null with the sun below the horizon. */
  exposure: ByWeather | null;
}

export interface DayOfLight {
  times: SunTimes;
  window: LightWindow | null;
  moments: Moment[];
}

/**
 * A day with floor and studio reference; moments lie `stepMinutes` apart, the first at the day's start and the
 * last before its end: 48 of half an hour, but 46 or 50 when clocks change by an hour.
 */
export function dayOfLight(
  place: Place,
  date: Temporal.PlainDate,
  floor: number,
  studio: StudioLight,
  stepMinutes = 30,
): DayOfLight {
  const { start, end } = dayBounds(place.zone, date);
  const moments: Moment[] = [];
  for (let at = start; at.epochMilliseconds < end.epochMilliseconds; at = at.add({ minutes: stepMinutes })) {
    const sun = sunAt(place, at);
    moments.push({ at, ...sun, exposure: exposureAt(studio, sun.altitude) });
  }
  return { times: sunTimes(place, date), window: lightWindow(place, date, floor), moments };
}

/** Seconds in each weather at an altitude of the sun, or null when it is below the horizon. */
export function exposureAt(studio: StudioLight, altitude: number): ByWeather | null {
  const found = {} as ByWeather;
  for (const weather of WEATHERS) {
    const range = exposureRange(studio, { from: altitude, to: altitude }, weather);
    if (!range) return null;
    found[weather] = range;
  }
  return found;
}
