// The light in words, the same on every page: seconds, degrees, weather, and what the figures rest on.
import {
  type Range,
  skyCoefficientsConfirmed,
  type StudioLight,
  type Weather,
  type WindowKind,
} from './exposure.calc.js';
import type { Place } from './sun.calc.js';

export const WEATHER_WORDS: Record<Weather, string> = {
  clear: 'Clear',
  broken: 'Broken cloud',
  'bright overcast': 'Bright overcast',
  dull: 'Dull',
  heavy: 'Heavy cloud',
};

export const WINDOW_WORDS: Record<WindowKind, string> = {
  'north window': 'A window to the sky alone, away from the sun',
  'open shade': 'Open shade out of doors',
  'glass room': 'A glass room, or outdoors in the sun',
};

/** "8", "8 to 12", "1.5": tenths below two seconds, otherwise whole seconds. */
export function secondsInWords({ from, to }: Range): string {
  const [shortest, longest] = [shortSeconds(from), shortSeconds(to)];
  return shortest === longest ? shortest : `${shortest} to ${longest}`;
}

/** The same for narrow columns: "8–12". */
export const secondsInShort = (range: Range): string => secondsInWords(range).replace(' to ', '–');

/** "8", "1.5", "0.3"; never "0". */
function shortSeconds(seconds: number): string {
  return seconds < 1.95 ? String(Math.max(0.1, Math.round(seconds * 10) / 10)) : String(Math.round(seconds));
}

/** "38°", "-4°". */
export const degreesInWords = (degrees: number): string => `${Math.round(degrees) + 0}°`;

/** What every page with predicted seconds says beneath them. */
export const PREDICTION_NOTE = skyCoefficientsConfirmed
  ? 'Seconds are predictions from the height of the sun.'
  : 'Seconds are predictions from the height of the sun; the figures for the light of the sky are not confirmed.';

/** The address of the public calculator with a studio's own place and measure. */
export function calculatorHref(studio: Place & StudioLight & { lightFloorDegrees: number }): string {
  const asked = {
    lat: String(studio.lat),
    lon: String(studio.lon),
    zone: studio.zone,
    window: studio.windowKind,
    floor: String(studio.lightFloorDegrees),
    referenceSeconds: String(studio.referenceSeconds),
    referenceAltitude: String(studio.referenceAltitudeDegrees),
  };
  return `/daylight?${Object.entries(asked)
    .map(([name, value]) => `${name}=${encodeURIComponent(value)}`)
    .join('&')}`;
}

/** What the figures rest on, a sentence each. */
export const RECKONING: readonly string[] = [
  'The height of the sun is reckoned after Meeus, Astronomical Algorithms, as it is seen on a level horizon, refraction included. Hills, houses and trees are not known here.',
  'Good light is while the sun stands at or above the least height that is set. Ten degrees is an assumption; where period writers give hours, the sun stood at 10 to 15 degrees.',
  'Seconds grow as the light for blue-sensitive plates falls. Direct sun follows Bunsen and Roscoe (Philosophical Transactions, 1859), whose constants give the table for 25 March that Chapman Jones printed.',
  'Light from the sky alone follows the same authors, from memory: those three figures are not confirmed by a source.',
  'Weather is a factor on a clear sky: broken cloud 0.8 to 1.2, bright overcast 3, dull 4, heavy 8 to 16. “Sun not shining” about 3, a leaden pall 4 to 8 or more is from the Dictionary of Photography, p. 393; 16 is the thunderstorm of Setälä’s weather scale.',
];
