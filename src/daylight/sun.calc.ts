// Where the sun stands over a place, and when it rises, culminates and sets on a civil day there.
// Positions are suncalc's (Meeus, Astronomical Algorithms, ch. 25): good to about 0.01 degrees and half a
// minute for this century. Hills, buildings and the height of the place are not considered.
import { getPosition, getTimes } from 'suncalc';
import { Temporal } from 'temporal-polyfill';
import { offsetMinutes } from '../lib/zoned-time.js';

/** Degrees north and east; the IANA zone says which civil day is meant. */
export interface Place {
  lat: number;
  lon: number;
  zone: string;
}

export interface SunPosition {
  /** Degrees above the horizon as seen, refraction included. */
  altitude: number;
  /** Degrees from true north by east. */
  azimuth: number;
}

export interface SunTimes {
  /** Upper limb on a level horizon; null when the sun does not cross it before (after) that noon. */
  sunrise: Temporal.Instant | null;
  sunset: Temporal.Instant | null;
  solarNoon: Temporal.Instant;
  noonAltitude: number;
  /** With "up all day" and "down all day" both times are null; as a polar day begins or ends, one of them. */
  state: 'rises or sets' | 'up all day' | 'down all day';
}

/** The instants, before and after a solar noon, at which the sun stands at an altitude. */
export interface Crossings {
  before: Temporal.Instant | null;
  after: Temporal.Instant | null;
}

const HALF_DAY = 12 * 3_600_000;
const DEGREE = Math.PI / 180;
/** Of the sine of the altitude: a hundred-thousandth of a degree, about 2 ms in middle latitudes. */
const NEAR_ENOUGH = 1e-5 * DEGREE;

/** Refraction at the horizon, degrees, which suncalc adds to every altitude below it (Meeus 16.4 at 0). */
const HORIZON_REFRACTION = 0.0002967 / Math.tan(0.00312536 / 0.08901179) / DEGREE;
/** Rise and set: centre 50' below the horizon without refraction (34' refraction, 16' half disc), as USNO. */
const RISE_ALTITUDE = -0.833 + HORIZON_REFRACTION;

/** Altitude and azimuth at an instant. */
export function sunAt(place: Place, at: Temporal.Instant): SunPosition {
  return getPosition(new Date(at.epochMilliseconds), place.lat, place.lon);
}

/**
 * Sunrise, solar noon and sunset of a civil day at the place. They belong together: the sunrise before and
 * the sunset after the solar noon nearest to 12:00 on its clocks, so a sunset after midnight in high summer
 * is given with the day that it ends. Within a degree of a pole the sun's height hardly follows the
 * hours, and the answer is that of its height at noon and midnight.
 */
export function sunTimes(place: Place, date: Temporal.PlainDate): SunTimes {
  const { at: solarNoon, altitude: noonAltitude } = solarNoonOf(place, date);
  const { before: sunrise, after: sunset } = crossingsAround(place, solarNoon, RISE_ALTITUDE);
  let state: SunTimes['state'] = 'rises or sets';
  if (!sunrise && !sunset) state = noonAltitude >= RISE_ALTITUDE ? 'up all day' : 'down all day';
  return { sunrise, sunset, solarNoon, noonAltitude, state };
}

/** The sun's highest point on a civil day: the solar noon nearest to 12:00 on the clocks of the place. */
export function solarNoonOf(
  place: Place,
  date: Temporal.PlainDate,
): { at: Temporal.Instant; altitude: number } {
  const noonAsUtc = Date.UTC(date.year, date.month - 1, date.day, 12);
  // on a day when clocks change this offset may be an hour out, which leaves the same noon the nearest
  const offset = offsetMinutes(place.zone, Temporal.Instant.fromEpochMilliseconds(noonAsUtc));
  const { solarNoon } = getTimes(new Date(noonAsUtc - offset * 60_000), place.lat, place.lon);
  const at = Temporal.Instant.fromEpochMilliseconds(Math.round(solarNoon.getTime()));
  return { at, altitude: sunAt(place, at).altitude };
}

/**
 * When the sun passes an altitude (degrees, as seen) in the half days before and after a solar noon. Each
 * is null when the sun stays on one side of it; at the instants given the sun is not below the altitude.
 */
export function crossingsAround(place: Place, solarNoon: Temporal.Instant, altitude: number): Crossings {
  const noon = solarNoon.epochMilliseconds;
  const limit = Math.sin(altitude * DEGREE);
  const above = (at: number) =>
    Math.sin(getPosition(new Date(at), place.lat, place.lon).altitude * DEGREE) - limit;
  return { before: toInstant(crossing(above, noon, -1)), after: toInstant(crossing(above, noon, 1)) };
}

function toInstant(milliseconds: number | null): Temporal.Instant | null {
  return milliseconds === null ? null : Temporal.Instant.fromEpochMilliseconds(milliseconds);
}

/**
 * Where `above` (sine of the sun's height less that of the limit) passes zero between a noon and the
 * midnight on one side of it, or null when it is negative at noon or not negative at midnight. In the
 * cosine of the hour angle that sine is almost a straight line, so a few steps of regula falsi (with the
 * Illinois rule) find the root; the bracket never loses it, also where the sun only grazes the limit.
 */
function crossing(above: (at: number) => number, noon: number, side: -1 | 1): number | null {
  const timeAt = (cosine: number) => noon + (side * HALF_DAY * Math.acos(cosine)) / Math.PI;
  let bright = 1;
  let brightValue = above(noon);
  let dark = -1;
  let darkValue = above(noon + side * HALF_DAY);
  if (brightValue < 0 || darkValue >= 0) return null;
  let last = 0;
  for (let round = 0; round < 50; round++) {
    const cosine = dark + ((bright - dark) * darkValue) / (darkValue - brightValue);
    const value = above(timeAt(cosine));
    if (Math.abs(value) < NEAR_ENOUGH) return onTheBrightSide(above, timeAt(cosine), side);
    const sign = Math.sign(value);
    if (sign > 0) {
      bright = cosine;
      brightValue = value;
      if (sign === last) darkValue /= 2;
    } else {
      dark = cosine;
      darkValue = value;
      if (sign === last) brightValue /= 2;
    }
    last = sign;
  }
  return onTheBrightSide(above, timeAt(bright), side);
}

/** Whole milliseconds, moved towards noon until the sun is not below the limit. */
function onTheBrightSide(above: (at: number) => number, near: number, side: -1 | 1): number {
  let at = Math.round(near);
  for (let step = 1; above(at) < 0 && step < HALF_DAY; step *= 2) at -= step * side;
  return at;
}
