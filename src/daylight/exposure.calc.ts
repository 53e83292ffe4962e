// How long a plate must be exposed under a sun of some height and in some weather, relative to the studio's
// own reference exposure. It knows the light only: lens, plate and developer are inside the reference.
// Direct sun follows Bunsen and Roscoe's photochemical law (Phil. Trans. 1859), whose constants reproduce
// the table for 25 March printed by Chapman Jones. The sky coefficients of the same authors are from memory.
import type { Temporal } from 'temporal-polyfill';
import { type Place, sunAt } from './sun.calc.js';
import type { LightWindow } from './window.calc.js';

/** Which light falls on the sitter: sky alone, or sky and sun. A north window is a south one down under. */
export type WindowKind = 'north window' | 'open shade' | 'glass room';

/** The studio's own measure. A studio's row has these fields and more. */
export interface StudioLight {
  windowKind: WindowKind;
  /** Seconds that gave a good plate under a clear sky ... */
  referenceSeconds: number;
  /** ... with the sun at this altitude, in degrees; above 0. */
  referenceAltitudeDegrees: number;
}

/** False: the three sky coefficients are unconfirmed, from memory. Every page that shows a prediction says so. */
export const skyCoefficientsConfirmed: boolean = false;

export const WEATHERS = ['clear', 'broken', 'bright overcast', 'dull', 'heavy'] as const;
export type Weather = (typeof WEATHERS)[number];

/** From the shorter to the longer. */
export interface Range {
  from: number;
  to: number;
}

/**
 * Exposure as a multiple of that under a clear sky, the same at every altitude of the sun (cloud dims
 * ultraviolet and blue about equally at all heights). Broken: sunlit white clouds brighten the sky, passing
 * ones dim it. Bright overcast, dull, heavy: "sun not shining" about 3 times, a leaden pall 4 to 8 times or
 * more (Dictionary of Photography, 1890s, p. 393); up to 16 in a thunderstorm on Setala's weather scale.
 */
export const WEATHER_FACTORS: Readonly<Record<Weather, Range>> = {
  clear: { from: 1, to: 1 },
  broken: { from: 0.8, to: 1.2 },
  'bright overcast': { from: 3, to: 3 },
  dull: { from: 4, to: 4 },
  heavy: { from: 8, to: 16 },
};

/** Whether a slot has light enough, and if not, the first reason why; instants and seconds to say it with. */
export type SlotLight =
  | { ok: true; clear: Range }
  | { ok: false; reason: 'no light that day' }
  | { ok: false; reason: 'starts before good light'; goodFrom: Temporal.Instant }
  | { ok: false; reason: 'light ends first'; goodUntil: Temporal.Instant }
  | { ok: false; reason: 'exposure above cap'; seconds: number };

const sine = (degrees: number) => Math.sin((degrees * Math.PI) / 180);
/** Sine of the altitude (61.5 degrees) at which the sky formula is at its summit. */
const SKY_SUMMIT = 80.849 / (2 * 45.996);

/**
 * Chemical intensity of the direct sun on level ground, in Bunsen and Roscoe's units, for a clear day at
 * sea level (760 mm). 0 with the sun on or below the horizon.
 */
export function directLight(altitude: number): number {
  if (altitude <= 0) return 0;
  return 318.3 * sine(altitude) * 10 ** ((-0.4758 * 0.76) / sine(altitude));
}

/**
 * Chemical intensity of the whole clear sky on level ground, in the same units. Unconfirmed, from memory:
 * see skyCoefficientsConfirmed. Held at its summit above 61.5 degrees, where the fitted curve would turn
 * down. 0 with the sun below the horizon, since twilight is not modelled.
 */
export function skyLight(altitude: number): number {
  if (altitude < 0) return 0;
  const s = Math.min(sine(altitude), SKY_SUMMIT);
  return 2.776 + 80.849 * s - 45.996 * s * s;
}

/** Light on the sitter; only the ratio of two of them means anything. */
export function lightAt(kind: WindowKind, altitude: number): number {
  return kind === 'glass room' ? skyLight(altitude) + directLight(altitude) : skyLight(altitude);
}

/** Exposure at an altitude as a multiple of the reference exposure; null with the sun below the horizon. */
export function exposureMultiplier(studio: StudioLight, altitude: number): number | null {
  const light = lightAt(studio.windowKind, altitude);
  return light > 0 ? lightAt(studio.windowKind, studio.referenceAltitudeDegrees) / light : null;
}

/**
 * Seconds in some weather while the sun's altitude is within a range (equal ends for one moment), or null
 * when it is below the horizon in any part of it. Both causes of spread are in it: altitude and weather.
 */
export function exposureRange(
  studio: StudioLight,
  altitude: Range,
  weather: Weather,
  factors: Readonly<Record<Weather, Range>> = WEATHER_FACTORS,
): Range | null {
  const shortest = exposureMultiplier(studio, altitude.to);
  const longest = exposureMultiplier(studio, altitude.from);
  if (shortest === null || longest === null) return null;
  const factor = factors[weather];
  return {
    from: studio.referenceSeconds * shortest * factor.from,
    to: studio.referenceSeconds * longest * factor.to,
  };
}

/**
 * Lowest and highest altitude of the sun between two instants of one day, in degrees. `day` gives the
 * noon of that day; the interval must not reach past midnight on either side.
 */
export function altitudesDuring(
  place: Place,
  day: Pick<LightWindow, 'solarNoon' | 'noonAltitude'>,
  slot: { start: Temporal.Instant; end: Temporal.Instant },
): Range {
  const atStart = sunAt(place, slot.start).altitude;
  const atEnd = sunAt(place, slot.end).altitude;
  const noon = day.solarNoon.epochMilliseconds;
  const spansNoon = slot.start.epochMilliseconds <= noon && noon <= slot.end.epochMilliseconds;
  return {
    from: Math.min(atStart, atEnd),
    to: spansNoon ? day.noonAltitude : Math.max(atStart, atEnd),
  };
}

/**
 * Judges a slot (start before end) of a day whose window is given: it must lie within good light and its
 * longest clear-sky exposure must not pass the cap, in seconds. At the very edge it is still open.
 */
export function slotLight(
  place: Place,
  studio: StudioLight,
  window: LightWindow | null,
  slot: { start: Temporal.Instant; end: Temporal.Instant },
  capSeconds: number,
): SlotLight {
  if (!window) return { ok: false, reason: 'no light that day' };
  if (slot.start.epochMilliseconds < window.start.epochMilliseconds) {
    return { ok: false, reason: 'starts before good light', goodFrom: window.start };
  }
  if (slot.end.epochMilliseconds > window.end.epochMilliseconds) {
    return { ok: false, reason: 'light ends first', goodUntil: window.end };
  }
  const clear = exposureRange(studio, altitudesDuring(place, window, slot), 'clear');
  if (!clear) return { ok: false, reason: 'no light that day' };
  return clear.to > capSeconds
    ? { ok: false, reason: 'exposure above cap', seconds: clear.to }
    : { ok: true, clear };
}
