// From what a browser sends to the changes that room/changes.schemas.ts checks, and back to what a form
// shows. Field names are those of the change, so that a problem finds its field; texts stay as typed where
// they cannot be read, and the schema then tells the mistake.
import type { Temporal } from 'temporal-polyfill';
import { monthName } from '../../lib/words.js';
import type { Kind, Rhythm, RoomRules } from '../../room/rules.schemas.js';
import { breaksInWords, startsInWords } from '../../room/words.calc.js';
import type { Studio } from '../../studios/studios.schemas.js';

export type Answers = Record<string, unknown>;
type ReadDate = (name: string) => string;

/** The change a form asks for; which one stands in its hidden field `do`. */
export function toChange(answers: Answers, readDate: ReadDate): unknown {
  const doing = text(answers.do);
  const fields: Record<string, () => object> = {
    rhythm: () => ({
      weekday: number(answers.weekday),
      starts: listed(answers.starts),
      ...Object.fromEntries(RHYTHM_NUMBERS.map((name) => [name, number(answers[name])])),
      breaks: breaks(answers.breaks),
      from: readDate('from'),
      until: readDate('until') || null,
    }),
    'end weekday': () => ({ weekday: number(answers.weekday), last: readDate('last') }),
    'extra day': () => ({ date: readDate('date'), starts: listed(answers.starts) }),
    'drop rhythm': () => ({ rhythmId: answers.rhythmId }),
    close: () => ({
      title: text(answers.title),
      from: readDate('from'),
      fromTime: time(answers.fromTime) || null,
      until: readDate('until') || null,
      untilTime: time(answers.untilTime) || null,
    }),
    reopen: () => ({ closureId: answers.closureId }),
    kind: () => ({
      kindId: text(answers.kindId) || null,
      name: text(answers.name),
      offered: answers.offered,
      firstPlateMinutes: numberOrNull(answers.firstPlateMinutes),
      plates: number(answers.plates),
      fee: text(answers.fee),
      deposit: text(answers.deposit),
      keepsPlate: answers.keepsPlate,
      weekdays: list(answers.weekdays).map(number),
      yearlyQuota: numberOrNull(answers.yearlyQuota),
    }),
    people: () => ({
      ownerWeekdays: list(answers.ownerWeekdays).map(number),
      ownerAlso: dates(answers.ownerAlso),
      ownerAway: dates(answers.ownerAway),
      helperWeekdays: list(answers.helperWeekdays).map(number),
      helperAlso: dates(answers.helperAlso),
      helperAway: dates(answers.helperAway),
    }),
    pose: () => numbers(answers, POSE_NUMBERS),
    light: () => ({ windowKind: answers.windowKind, ...numbers(answers, LIGHT_NUMBERS) }),
    booking: () => numbers(answers, BOOKING_NUMBERS),
  };
  return { do: doing, ...(Object.hasOwn(fields, doing) ? fields[doing]?.() : {}) };
}

const RHYTHM_NUMBERS = [
  'firstPlateMinutes',
  'furtherPlateMinutes',
  'furtherSitterMinutes',
  'changeoverMinutes',
  'mostSittings',
  'mostSittingsWithHelper',
  'mostPlates',
  'heldBack',
  'heldBackDays',
] as const;
const POSE_NUMBERS = ['under8', 'from8To14', 'adult', 'headRest', 'groupOf3'] as const;
const LIGHT_NUMBERS = [
  'lightFloorDegrees',
  'referenceSeconds',
  'referenceAltitudeDegrees',
  'exposureCapSeconds',
] as const;
const BOOKING_NUMBERS = ['horizonMonths', 'leastNoticeDays'] as const;

const numbers = (answers: Answers, names: readonly string[]) =>
  Object.fromEntries(names.map((name) => [name, number(answers[name])]));

/** A problem of a list as a whole or of one of its items is told at the one field that holds the list. */
export const fieldOnForm = (field: string): string => field.split('/')[0] ?? '';

/** What the form of a rhythm shows first: `like` with its own dates, or as a new one from `from`. */
export function rhythmAnswers(
  like: Omit<Rhythm, 'id' | 'effectiveFrom' | 'effectiveUntil'>,
  from: Temporal.PlainDate,
): Answers {
  return {
    weekday: String(like.weekday),
    starts: startsInWords(like.starts),
    ...Object.fromEntries(RHYTHM_NUMBERS.map((name) => [name, String(like[name])])),
    breaks: breaksInWords(like.breaks, '-'),
    ...dateAnswers('from', from),
  };
}

export function kindAnswers(kind: Kind): Answers {
  return {
    ...kind,
    kindId: kind.id,
    weekdays: kind.weekdays.map(String),
    firstPlateMinutes: kind.firstPlateMinutes ?? '',
    yearlyQuota: kind.yearlyQuota ?? '',
  };
}

export function peopleAnswers({ owner, helper }: RoomRules): Answers {
  return {
    ownerWeekdays: owner.weekdays.map(String),
    ownerAlso: owner.also.join('\n'),
    ownerAway: owner.away.join('\n'),
    helperWeekdays: helper.weekdays.map(String),
    helperAlso: helper.also.join('\n'),
    helperAway: helper.away.join('\n'),
  };
}

export const poseAnswers = ({ limits }: RoomRules): Answers => ({ ...limits });
export const lightAnswers = (studio: Studio): Answers => ({
  windowKind: studio.windowKind,
  ...Object.fromEntries([...LIGHT_NUMBERS, ...BOOKING_NUMBERS].map((name) => [name, String(studio[name])])),
});

function dateAnswers(name: string, date: Temporal.PlainDate): Answers {
  return {
    [`${name}-day`]: String(date.day),
    [`${name}-month`]: monthName(date.month),
    [`${name}-year`]: String(date.year),
  };
}

const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');
const list = (value: unknown): unknown[] => (value === undefined ? [] : [value].flat());

/** A decimal comma is taken as well; what is no number stays what it is. */
function number(value: unknown): unknown {
  const typed = text(value).replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : typed;
}
const numberOrNull = (value: unknown): unknown => (text(value) === '' ? null : number(value));

/** "9.30", "9:30" and "0930" are all "09:30"; what is no time stays what it is. */
function time(value: unknown): string {
  const typed = text(value);
  const found = /^(\d{1,2})(?:[:.]?([0-5]\d))?$/.exec(typed);
  return found ? `${(found[1] ?? '').padStart(2, '0')}:${found[2] ?? '00'}` : typed;
}

/** Times between commas, semicolons or spaces. */
const listed = (value: unknown): string[] =>
  text(value)
    .split(/[\s,;]+/)
    .filter((one) => one !== '')
    .map(time);

/** "12:30-13:00, 15:00 to 15:20". */
const breaks = (value: unknown): { from: string; until: string }[] =>
  text(value)
    .split(/[,;\n]+/)
    .filter((one) => one.trim() !== '')
    .map((one) => {
      const [from, until] = one.split(/\s*(?:-|–|to|until)\s*/);
      return { from: time(from), until: time(until) };
    });

/** One date a line, "2027-05-14" or "14 May 2027". */
const dates = (value: unknown): string[] =>
  text(value)
    .split(/[\n,;]+/)
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map(isoDate);

function isoDate(typed: string): string {
  const [day = '', month = '', year = ''] = typed.split(/[\s.]+/).filter((part) => part !== '');
  const position = Array.from({ length: 12 }, (_, at) => monthName(at + 1).toLowerCase()).findIndex(
    (name) => month.length >= 3 && name.startsWith(month.toLowerCase()),
  );
  if (!/^\d{1,2}$/.test(day) || !/^\d{4}$/.test(year) || position < 0) return typed;
  return `${year}-${String(position + 1).padStart(2, '0')}-${day.padStart(2, '0')}`;
}
