// The light in words, the same on every page: seconds, degrees, weather, and what the figures rest on.
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import {
  type Range,
  skyCoefficientsConfirmed,
  type StudioLight,
  type Weather,
  type WindowKind,
} from './exposure.calc.js';
import type { Place } from './sun.calc.js';

const desk = wordsFor(LANGUAGE_OF_DESK).daylight;

/** As the desk reads them; visitors read those of their own language. */
export const WEATHER_WORDS: Record<Weather, string> = desk.table.weather;
export const WINDOW_WORDS: Record<WindowKind, string> = desk.windows;

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
export const predictionNote = ({ daylight: { note } }: Words = wordsFor(LANGUAGE_OF_DESK)): string =>
  skyCoefficientsConfirmed ? note.confirmed : note.unconfirmed;

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
export const RECKONING: readonly string[] = desk.reckoning;
