// A day of light as pictures and tables want it: in wall time, in whole words, hour by hour.
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { DayOfLight } from './day.calc.js';
import { WEATHERS } from './exposure.calc.js';
import type { LightWindow } from './window.calc.js';
import { degreesInWords, secondsInShort } from './words.calc.js';

interface WallStretch {
  from: Temporal.PlainDateTime;
  /** 00:00 of the next day where light lasts until midnight. */
  until: Temporal.PlainDateTime;
}

export function lightOnTheWall(zone: string, window: LightWindow | null): WallStretch | null {
  return window && { from: instantToWall(zone, window.start), until: instantToWall(zone, window.end) };
}

/** The sun's height over the minutes of the day's clock, from rise to set. */
export function sunPath(
  zone: string,
  { times, moments }: DayOfLight,
): { minute: number; altitude: number }[] {
  const wallMinute = (at: Temporal.Instant) => {
    const { hour, minute } = instantToWall(zone, at);
    return hour * 60 + minute;
  };
  const points = moments
    .filter(({ altitude }) => altitude > 0)
    .map(({ at, altitude }) => ({ minute: wallMinute(at), altitude }));
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return [];
  const rise = times.sunrise && wallMinute(times.sunrise);
  const set = times.sunset && wallMinute(times.sunset);
  return [
    ...(rise !== null && rise < first.minute ? [{ minute: rise, altitude: 0 }] : []),
    ...points,
    ...(set !== null && set > last.minute ? [{ minute: set, altitude: 0 }] : []),
  ];
}

/** When and how high the sun stands highest. */
export function highestSun(zone: string, { times }: DayOfLight) {
  const { hour, minute } = instantToWall(zone, times.solarNoon.round('minute'));
  return { altitude: times.noonAltitude, hour, minute };
}

export const exposureHeads = ({ daylight: { table } }: Words = wordsFor(LANGUAGE_OF_DESK)) => [
  { head: table.time },
  { head: table.sun, figures: true },
  ...WEATHERS.map((weather) => ({ head: table.weather[weather], figures: true })),
];

/** A row for each full hour with the sun up: time, the sun's height, seconds in each weather. */
export function exposureRows(zone: string, { moments }: DayOfLight): string[][] {
  return moments.flatMap(({ at, altitude, exposure }) => {
    const wall = instantToWall(zone, at);
    if (!exposure || wall.minute !== 0) return [];
    const seconds = WEATHERS.map((weather) => secondsInShort(exposure[weather]));
    return [[timeInWords(wall), degreesInWords(altitude), ...seconds]];
  });
}
