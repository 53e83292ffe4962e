// The owner's letter about the day ahead: when it is due, whether there is anything to tell, and its words. Pure.
import { Temporal } from 'temporal-polyfill';
import { readWall } from '../lib/stored-times.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantOf, instantToWall } from '../lib/zoned-time.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import type { Comes, DayLetter, DayLetterRule } from './day-letter.schemas.js';
import type { Letter } from './letters.schemas.js';

/** A letter so late is not sent any more: by then it tells of hours that are past. Assumption. */
export const STALE_HOURS = 5;

/** When the letter of a date goes; of an hour the clock skips the one after it. @throws RangeError for a zone that is none */
export function dueAt({ hour }: DayLetterRule, zone: string, day: Temporal.PlainDate): Temporal.Instant {
  return instantOf(zone, day.toPlainDateTime({ hour }));
}

/** The date of the first letter that is due after an instant. */
export function nextDay(rule: DayLetterRule, zone: string, now: Temporal.Instant): Temporal.PlainDate {
  const today = instantToWall(zone, now).toPlainDate();
  return Temporal.Instant.compare(dueAt(rule, zone, today), now) > 0 ? today : today.add({ days: 1 });
}

/** Whether the letter of a date goes now, by the rule as it is now. One that is late is left out. */
export function standsNow(
  rule: DayLetterRule,
  zone: string,
  day: Temporal.PlainDate,
  now: Temporal.Instant,
): 'send' | 'too early' | 'too late' | 'off' {
  if (!rule.on) return 'off';
  const due = dueAt(rule, zone, day);
  if (Temporal.Instant.compare(now, due) < 0) return 'too early';
  return Temporal.Instant.compare(now, due.add({ hours: STALE_HOURS })) > 0 ? 'too late' : 'send';
}

/**
 * Whether there is anything that cannot wait: somebody comes, is to be rung, an offer runs out, or something is due by
 * tomorrow. What is due later in the week goes along, and is no reason for a letter every day.
 */
export const isNews = ({ day, today, tomorrow, due, offers, calls }: DayLetter): boolean =>
  today.length + tomorrow.length + offers.length + calls.length > 0 ||
  due.some(({ by }) => Temporal.PlainDate.compare(by, Temporal.PlainDate.from(day).add({ days: 1 })) <= 0);

/** @param desk the desk's address */
export function dayLetterIn(about: DayLetter, desk: string): Letter {
  const { studio, evening, today, tomorrow, due, offers, calls } = about;
  const day = Temporal.PlainDate.from(about.day);
  const next = day.add({ days: 1 });
  const shown = evening || (today.length === 0 && tomorrow.length > 0) ? next : day;
  return {
    language: LANGUAGE_OF_DESK,
    subject: evening
      ? `Tomorrow at ${studio.name}: ${dayInWords(next)}`
      : `This morning at ${studio.name}: ${dayInWords(day)}`,
    greeting: '',
    paragraphs: [headline(about)],
    facts: [
      ...listed('Today', today.map(comesInWords)),
      ...listed('Tomorrow', tomorrow.map(comesInWords)),
      ...listed(
        'To be done',
        due.map(({ what, by }) => `${what}, ${byInWords(day, by)}`),
      ),
      ...listed(
        'Offers that run out',
        offers.map(({ name, until }) => `${name}, ${untilInWords(day, until)}`),
      ),
      ...listed(
        'To telephone or write to',
        calls.map(({ name, telephone }) =>
          telephone === null ? `${name}, by letter` : `${name}, ${telephone || 'no number known'}`,
        ),
      ),
    ],
    action:
      today.length + tomorrow.length > 0
        ? { label: `The sheet of ${dayInWords(shown)}`, url: `${desk}/days/${shown.toString()}` }
        : { label: 'Your desk', url: desk },
    closing: studio.name,
  };
}

const listed = (term: string, lines: string[]): Letter['facts'] =>
  lines.length === 0 ? [] : [{ term, detail: lines.join('; ') }];

function headline({ today, tomorrow, evening }: DayLetter): string {
  const some = (all: Comes[], when: string) =>
    all.length === 0
      ? `${when} nobody comes.`
      : `${when} ${counted(all.length, 'place')}, from ${all[0]?.at}.`;
  return evening ? some(tomorrow, 'Tomorrow') : `${some(today, 'Today')} ${some(tomorrow, 'Tomorrow')}`;
}

const comesInWords = ({ at, name, learn }: Comes): string =>
  learn === null ? `${at} ${name}` : `${at} ${name}, ${counted(learn, 'student')}`;

function byInWords(day: Temporal.PlainDate, by: string): string {
  const days = day.until(Temporal.PlainDate.from(by), { largestUnit: 'days' }).days;
  if (days < 0) return 'late';
  return days === 0 ? 'today' : days === 1 ? 'by tomorrow' : `by ${dayInWords(Temporal.PlainDate.from(by))}`;
}

function untilInWords(day: Temporal.PlainDate, until: string): string {
  const wall = readWall(until);
  return `${wall.toPlainDate().equals(day) ? 'today' : 'tomorrow'} at ${timeInWords(wall)}`;
}
