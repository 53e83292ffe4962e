// A bench rota in words for students and the teacher: their turns, what holds a day up, and what would help. Plain
// language only; it decides nothing.
import { counted } from '../lib/words.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { NoRota, Rota } from './rota.calc.js';
import type { Bottleneck } from './rota-bounds.calc.js';
import type { Change } from './rota-changes.calc.js';
import type { Line } from './rota-timetable.calc.js';

/** Names on screen by ids: of students, and of sizes. */
export type NameOf = (id: string) => string;

/** "10:22", to the nearest minute: the end of one line and the beginning of the next are the same. */
export const clockTime = (seconds: number): string => hoursAndMinutes(Math.round(seconds / 60));

/** The same of the end of a day: upwards, so that nobody leaves too soon. */
export const clockEnd = (seconds: number): string => hoursAndMinutes(Math.ceil(seconds / 60));

const hoursAndMinutes = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** "Make your first plate; Ada sits for you." */
export function lineInWords(
  { doing, step, round, with: other }: Line,
  nameOf: NameOf,
  { student }: Words = wordsFor(LANGUAGE_OF_DESK),
): string {
  const { turns } = student;
  const own = round ?? 0;
  if (doing === 'plate') return turns.plate(own, other === null ? null : nameOf(other));
  if (doing === 'sit') return (step === 'expose' ? turns.holdStill : turns.sit)(nameOf(other ?? ''));
  if (doing === 'varnish') return turns.varnish(own);
  if (doing === 'break') return turns.break;
  if (step === 'clean' || step === 'fix') return turns[step](own);
  return turns.step(step ?? 'work', own);
}

/** The rows of a table of somebody's day: when and what. */
export const timetableRows = (
  lines: readonly Line[],
  nameOf: NameOf,
  words: Words = wordsFor(LANGUAGE_OF_DESK),
): [string, string][] =>
  lines.map((line) => [
    words.student.turns.stretch(clockTime(line.from), clockTime(line.until)),
    lineInWords(line, nameOf, words),
  ]);

/** One of a station, several, and all that there are. */
const STATION_WORDS: Record<string, { one: string; several: string; all: string }> = {
  teacher: {
    one: 'teacher or trained helper',
    several: 'teachers or trained helpers',
    all: 'the teacher’s hands',
  },
  tank: { one: 'silver tank', several: 'silver tanks', all: 'the silver tank' },
  camera: { one: 'camera', several: 'cameras', all: 'the cameras' },
  holder: { one: 'plate holder', several: 'plate holders', all: 'the plate holders' },
  'darkroom place': placed('in the darkroom'),
  'pouring place': placed('to pour at'),
  'cleaning place': placed('to clean glass at'),
  'washing place': placed('to wash plates'),
  'rack place': placed('on the drying rack'),
  sink: { one: 'sink', several: 'sinks', all: 'the sink' },
  'fixing tray': { one: 'fixing tray', several: 'fixing trays', all: 'the fixing trays' },
};

function placed(where: string) {
  return { one: `place ${where}`, several: `places ${where}`, all: `the places ${where}` };
}

const moreOf = (station: string, count: number) => {
  const words = STATION_WORDS[station];
  return count === 1
    ? `one more ${words?.one ?? station}`
    : `${count} more ${words?.several ?? `${station}s`}`;
};

/** "Ada, Bo and Cy". */
export const together = (all: readonly string[]): string =>
  all.length < 2 ? (all[0] ?? '') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;

/** "The silver tank and the teacher’s hands hold the day up most." */
export function bottleneckInWords(by: Bottleneck, nameOf: NameOf, teams: readonly string[][]): string {
  if (by.what === 'stations')
    return `What holds the day up most: ${together(by.stations.map((id) => STATION_WORDS[id]?.all ?? id))}.`;
  if (by.what === 'student') return `What holds the day up most: ${nameOf(by.student)}’s own time.`;
  return `What holds the day up most: the turns of ${together((teams[by.team] ?? []).map(nameOf))}.`;
}

/** "One more camera.", "Half plate instead of whole plate." */
export function changeInWords(change: Change, nameOf: NameOf): string {
  switch (change.what) {
    case 'more': {
      const counts = new Map<string, number>();
      for (const id of change.stations) counts.set(id, (counts.get(id) ?? 0) + 1);
      return `${capital(together([...counts].map(([id, count]) => moreOf(id, count))))}.`;
    }
    case 'smaller':
      return `${capital(nameOf(change.to))} instead of ${nameOf(change.from)}.`;
    case 'without plates':
      return `${capital(counted(change.plates.length, 'plate'))} fewer.`;
    case 'fewer each':
      return `${capital(counted(change.by, 'plate'))} fewer for each student.`;
    case 'without students':
      return `${capital(counted(change.students.length, 'student'))} fewer.`;
  }
}

/** "The day fits and ends by 12:47, at best by 12:42." */
export function outcomeInWords({ fits, end, bound, over, unplaced }: Rota): string {
  if (unplaced.length > 0)
    return `${capital(counted(unplaced.length, 'plate'))} cannot have a turn: the good light or the day is over before.`;
  const best =
    bound !== null && bound < end ? ` No order of turns could end before ${clockTime(bound)}.` : '';
  if (fits)
    return `The day fits: all is done by ${clockEnd(end)} even if every step takes its longest.${best}`;
  return `The day does not fit: it would end at ${clockEnd(end)}, ${counted(Math.ceil(over / 60), 'minute')} too late.${best}`;
}

/** Why nothing could be planned at all. */
export function refusalInWords(no: NoRota, nameOf: NameOf): string {
  switch (no.reason) {
    case 'clock':
      return no.worst === null
        ? 'A plate would have to wait while it is wet.'
        : `The steps while a plate is wet may take ${counted(no.worst, 'second')} and no more than ${no.most} are allowed: shorten them by ${no.worst - no.most}.`;
    case 'wait':
      return `A plate may have to wait ${counted(no.worst, 'second')} for the next step and no more than ${no.most} are allowed.`;
    case 'too large':
      return `A ${nameOf(no.size)} is too large for every ${STATION_WORDS[no.station]?.one ?? no.station} there is.`;
    case 'no stretch':
      return no.without === 'light'
        ? 'There is no stretch of good light between the breaks that is long enough for one plate.'
        : 'No stretch between the breaks is long enough for one plate.';
  }
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
