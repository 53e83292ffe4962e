// A journey in plain words, the same on every page that tells it. Dates and hours are by the clock at home.
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import type { Crossing } from './crossing.calc.js';
import type { Range } from './distance.calc.js';
import type { Journey, NightReason, Travel } from './journey.calc.js';
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

export const MODE_LABELS: Record<Mode, string> = {
  walk: 'On foot',
  car: 'Car',
  coach: 'Coach or bus',
  train: 'Train',
  ferry: 'Ferry, with or without a car',
  flight: 'Flight',
};

/** "45 minutes", "2 h", "1 h 45", "2 h to 3 h 30"; days where it is longer than two. */
export function durationInWords({ from, to }: Range): string {
  return from === to ? minutesInWords(to) : `${minutesInWords(from)} to ${minutesInWords(to)}`;
}

function minutesInWords(minutes: number): string {
  if (minutes < 60) return counted(minutes, 'minute');
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return rest === 0 ? `${hours}\u00a0h` : `${hours}\u00a0h\u00a0${rest}`;
}

const kilometres = new Intl.NumberFormat('en');

/** "under 1 km", "67 km", "5,460 km": to tens from a hundred on, since a town's middle is no address. */
export function kmInWords(km: number): string {
  const step = km < 100 ? 1 : 10;
  return km < 1 ? 'under 1\u00a0km' : `${kilometres.format(Math.round(km / step) * step)}\u00a0km`;
}

/** "Thursday 13 May 2027, 16:05". */
export const leaveByInWords = ({ leaveByWall }: Pick<Journey, 'leaveByWall'>): string =>
  `${dayInWords(leaveByWall)}, ${timeInWords(leaveByWall)}`;

/** Null where no water is known to lie between. */
export function crossingInWords({ kind, railKm, from, to, water }: Crossing): string | null {
  if (kind === 'sea')
    return `A sea is on the way from ${from} to ${to}${railKm === null ? ': a ferry or a flight is needed' : '; trains cross it'}.`;
  if (kind === 'round')
    return `The straight line crosses ${water}. The way round it may be long; a ferry may be shorter.`;
  if (kind === 'perhaps') return `Both are among ${from}: a ferry may be needed.`;
  return null;
}

const WHY_NIGHT: Record<NightReason, string> = {
  'they say': 'as you say',
  'by air': 'a flight can be late, and a plate waits for nobody',
  'too long for a day': 'out, sitting and back would be longer than a day',
  'leaves at night': 'you would have to leave before six in the morning',
  none: '',
};

/** "A night’s stay before it is wise: ..." or that there and back fit into one day. */
export function nightInWords({
  night,
  nightReason,
  own,
}: Pick<Travel, 'night' | 'nightReason' | 'own'>): string {
  if (own.night)
    return night ? 'You stay the night before, as you say.' : 'You come and go in one day, as you say.';
  return night
    ? `A night’s stay before it is wise: ${WHY_NIGHT[nightReason]}.`
    : 'There and back fit into one day.';
}

/** "Clocks at the studio are 1 h behind yours that day."; null where they agree. */
export function clocksInWords({ clockDifference }: Pick<Journey, 'clockDifference'>): string | null {
  if (clockDifference === 0) return null;
  const size = minutesInWords(Math.abs(clockDifference));
  return `Clocks at the studio are ${size} ${clockDifference > 0 ? 'ahead of' : 'behind'} yours that day.`;
}

/** How it was reckoned, for "How was this reckoned?". */
export const JOURNEY_RECKONING: readonly string[] = [
  'The distance is the shortest line over the earth (Karney, Journal of Geodesy 87, 2013), from the middle of the town.',
  'Roads are 1.2 to 1.4 times as long as that line, with 15 % to either side: of motorways in several countries 1.3 was found (Wang and others, npj Complexity 1:22, 2024).',
  'Drives have a quarter of an hour of rest after every two hours (Highway Code of the United Kingdom, rule 91). Speeds, waits and changes are assumptions.',
  'Where a sea lies is told by larger islands, drawn from memory; small islands are not known. No line, timetable or ferry is known here.',
  'You leave early enough for the longest time, and are there 30 minutes before the start. All of it gives way to what you say yourself.',
];
