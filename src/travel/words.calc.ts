// A journey in plain words, the same on every page that tells it. Dates and hours are by the clock at home.
import { type Words, wordsFor } from '../words/words-for.js';
import type { Crossing } from './crossing.calc.js';
import type { Range } from './distance.calc.js';
import type { Journey, Travel } from './journey.calc.js';
import type { Mode } from './modes.calc.js';

/** "they come by train". */
export const MODE_WORDS: Record<Mode, string> = {
  walk: 'on foot',
  car: 'by car',
  coach: 'by coach',
  train: 'by train',
  ferry: 'by ferry',
  flight: 'by air',
};

/** For choosing one, at the desk and in calendars. */
export const MODE_LABELS: Record<Mode, string> = wordsFor('en').journey.modes;

/** "45 minutes", "2 h", "1 h 45", "2 h to 3 h 30"; days where it is longer than two. */
export function durationInWords({ from, to }: Range, words: Words = wordsFor('en')): string {
  const [least, most] = [minutesInWords(from, words), minutesInWords(to, words)];
  return from === to ? most : words.journey.range(least, most);
}

function minutesInWords(minutes: number, { journey }: Words): string {
  if (minutes < 60) return journey.minutes(minutes);
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return rest === 0 ? `${hours}\u00a0h` : `${hours}\u00a0h\u00a0${rest}`;
}

/** "under 1 km", "67 km", "5,460 km": to tens from a hundred on, since a town's middle is no address. */
export function kmInWords(km: number, { journey }: Words = wordsFor('en')): string {
  const step = km < 100 ? 1 : 10;
  return km < 1 ? journey.underKm : `${journey.number(Math.round(km / step) * step)}\u00a0km`;
}

/** "Thursday 13 May 2027, 16:05". */
export const leaveByInWords = (
  { leaveByWall }: Pick<Journey, 'leaveByWall'>,
  { dates, journey }: Words = wordsFor('en'),
): string => journey.dayAt(dates.day(leaveByWall), dates.time(leaveByWall));

/** Null where no water is known to lie between. */
export function crossingInWords(
  { kind, railKm, from, to, water }: Crossing,
  { journey: { crossing } }: Words = wordsFor('en'),
): string | null {
  if (kind === 'sea') return railKm === null ? crossing.sea(from, to) : crossing.byRail(from, to);
  if (kind === 'round') return crossing.round(water);
  return kind === 'perhaps' ? crossing.perhaps(from) : null;
}

/** "A night’s stay before it is wise: ..." or that there and back fit into one day. */
export function nightInWords(
  { night, nightReason, own }: Pick<Travel, 'night' | 'nightReason' | 'own'>,
  { journey }: Words = wordsFor('en'),
): string {
  if (own.night) return night ? journey.night.own : journey.night.ownNone;
  return night ? journey.night.wise(journey.night.why[nightReason]) : journey.night.none;
}

/** "Clocks at the studio are 1 h behind yours that day."; null where they agree. */
export function clocksInWords(
  { clockDifference }: Pick<Journey, 'clockDifference'>,
  words: Words = wordsFor('en'),
): string | null {
  if (clockDifference === 0) return null;
  return words.journey.clocks(minutesInWords(Math.abs(clockDifference), words), clockDifference > 0);
}

/** How it was reckoned, for "How was this reckoned?". */
export const JOURNEY_RECKONING: readonly string[] = wordsFor('en').journey.reckoning;
