// What a letter's words are put together from, and what is put in for the variables in them. Pure.
import { Temporal } from 'temporal-polyfill';
import { readInstant, readWall } from '../lib/stored-times.js';
import { fill } from '../lib/wording.js';
import { abbreviation, instantToWall } from '../lib/zoned-time.js';
import { LANGUAGE_OF_DESK, type Language } from '../words/languages.js';
import type { OwnWording } from './own-wording.schemas.js';
import type { Words } from '../words/words-for.js';

/** A template, or something told as it is, which no wording leaves out. */
export type Part = string | { told: string };
export interface Wording {
  subject: string;
  parts: Part[];
}
export type Values = Readonly<Record<string, string>>;

/** The owner's own words in place of ours, if they are for this kind; what is told stays whatever they say. */
export function ownOr(ours: Wording, kind: string, own: OwnWording | undefined): Wording {
  if (own?.kind !== kind) return ours;
  const paragraphs = own.body.split(/\n\s*\n/).map((one) => one.replace(/\s*\n\s*/g, ' ').trim());
  const told = ours.parts.filter((part) => typeof part !== 'string');
  return { subject: own.subject, parts: [...paragraphs.filter((one) => one !== ''), ...told] };
}

export const worded = ({ subject, parts }: Wording, values: Values) => ({
  subject: fill(subject, values),
  paragraphs: parts.map((part) => (typeof part === 'string' ? fill(part, values) : part.told)),
});

/** Several sentences as one paragraph, those that do not apply left out. */
export const joined = (...sentences: string[]): string => sentences.filter((one) => one !== '').join(' ');

/** What the studio says in its own words. */
export const said = ({ message }: { message: string }): Part[] => (message === '' ? [] : [{ told: message }]);

/** "Friday 5 March 2027, 09:30". */
export const momentIn = ({ dates, letters }: Words, wall: Temporal.PlainDateTime): string =>
  fill(letters.moment, { day: dates.day(wall), time: dates.time(wall) });

/** The variables that tell of a place: its begin by the clock of the studio; empty where there is none. */
export function placeValues(words: Words, place: { wallStart: string } | null) {
  if (!place) return { place: '', day: '', time: '' };
  const start = readWall(place.wallStart);
  return { place: momentIn(words, start), day: words.dates.day(start), time: words.dates.time(start) };
}

/** "Monday 7 December 2026, 18:00", on the clock of the studio; '' where nothing is offered. */
export function untilWords(
  words: Words,
  { openUntil, place }: { openUntil: string | null; place: { zone: string } | null },
): string {
  if (!openUntil || !place) return '';
  return momentIn(words, instantToWall(place.zone, readInstant(openUntil)));
}

/** "Leave home by Friday 5 March 2027, 07:15 (your time, GMT)." Nothing where nobody knows. */
export function leaveWords(
  words: Words,
  about: { leaveBy: string | null; homeZone: string | null },
  template = words.letters.leave,
): string[] {
  const { leaveBy, homeZone } = about;
  if (!leaveBy || !homeZone) return [];
  const at = readInstant(leaveBy);
  const leave = momentIn(words, instantToWall(homeZone, at));
  return [fill(template, { leave, zone: abbreviation(homeZone, at) })];
}

/** The address of a page, so that it opens in the language of the letter. */
export const pageIn = (language: Language, url: string): string =>
  language === LANGUAGE_OF_DESK ? url : `${url}?lang=${language}`;

export const told = (paragraphs: readonly string[]): Part[] => paragraphs.map((one) => ({ told: one }));
