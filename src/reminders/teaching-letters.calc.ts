// Letters about teaching: what happened and the page's address in, a letter out. Pure.
import { Temporal } from 'temporal-polyfill';
import type { CalendarEntry } from '../calendar/ics.calc.js';
import { readInstant, readWall } from '../lib/stored-times.js';
import { fill } from '../lib/wording.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import {
  ownOr,
  pageIn,
  placeValues,
  untilWords,
  type Values,
  type Wording,
  worded,
} from './letter-parts.calc.js';
import { isTeachingReminder, type Letter, type LetterPlace, type TeachingLetter } from './letters.schemas.js';
import { teachingReminderWording } from './teaching-reminder-words.calc.js';

/** How the owner is told what they hear. */
const HEARS: Record<NonNullable<TeachingLetter['hears']>, (name: string) => string> = {
  'by mail': (name) => `To ${name} we have written`,
  'by telephone': (name) => `Please tell ${name} on the telephone`,
  'by letter': (name) => `Please write to ${name}`,
  'told already': (name) => `${name} was told on the telephone`,
};

/** The letter to who signed up, or to the studio. `url` is their page, or the owner's. */
export function teachingLetterIn(about: TeachingLetter, url: string, toOwner: boolean): Letter {
  const passedOn = about.passOn !== '' && !toOwner;
  const inEnglish = toOwner || about.passOn !== '';
  const language = inEnglish ? LANGUAGE_OF_DESK : (about.language ?? LANGUAGE_OF_DESK);
  const words = wordsFor(language);
  const ours = teachingWording(about, words);
  const wording = passedOn ? ours : ownOr(ours, `teaching: ${about.change}`, about.wording);
  const { subject, paragraphs } = worded(wording, teachingValues(about, words));
  const toThem = !inEnglish;
  const message = about.message === '' ? [] : [about.message];
  return {
    language,
    subject: toOwner
      ? `Teaching: ${about.contactName}, ${about.change}`
      : passedOn
        ? `To pass on to ${about.contactName}: ${subject}`
        : subject,
    greeting: toThem ? fill(words.letters.dear, { name: about.contactName }) : '',
    paragraphs: toOwner
      ? [`${HEARS[about.hears ?? 'by mail'](about.contactName)}: ${paragraphs.join(' ')}`, ...message]
      : passedOn
        ? [about.passOn, ...paragraphs, ...message]
        : [...paragraphs, ...message],
    facts: facts(about, words),
    action: passedOn
      ? null
      : { label: toOwner ? 'Look at it' : words.letters.yourPage, url: pageIn(language, url) },
    closing: [about.studio.name, about.studio.address, about.studio.telephone].filter(Boolean).join('\n'),
  };
}

export function teachingWording(about: TeachingLetter, words: Words): Wording {
  if (isTeachingReminder(about.change)) return teachingReminderWording(about.change, about, words);
  const { subject, says } = words.lettersTeaching.change[about.change];
  return { subject, parts: [says] };
}

/** What can be put in for a variable in a letter about teaching. */
export function teachingValues(about: TeachingLetter, words: Words): Values {
  const place = placeValues(words, about.place);
  const oneLine = (text: string) => text.replace(/\s+/g, ' ');
  return {
    name: about.contactName,
    studio: about.studio.name,
    course: about.course,
    ...place,
    place: place.place === '' ? about.course : `${about.course}, ${place.place}`,
    until: untilWords(words, about),
    bring: oneLine(about.bring),
    wear: oneLine(about.wear),
    ring: about.studio.telephone || about.studio.email,
  };
}

function facts(about: TeachingLetter, words: Words): Letter['facts'] {
  const { facts: terms } = words.lettersTeaching;
  const until = untilWords(words, about);
  return [
    { term: terms.day, detail: about.course },
    { term: terms.when, detail: when(about, words) },
    ...(until ? [{ term: terms.held, detail: until }] : []),
    { term: terms.who, detail: about.students.join(', ') },
    ...(about.change === 'signed' && about.bring !== '' ? [{ term: terms.bring, detail: about.bring }] : []),
    ...(about.change === 'signed' && about.wear !== '' ? [{ term: terms.wear, detail: about.wear }] : []),
  ];
}

/** The entry that an invitation or cancellation carries; the same as their own calendar feed has, by its uid. */
export function teachingInvitation(
  about: TeachingLetter,
  place: LetterPlace,
  method: 'REQUEST' | 'CANCEL',
): CalendarEntry {
  const language = about.language ?? LANGUAGE_OF_DESK;
  const { calendar } = wordsFor(language);
  const lines = [
    calendar.learns(about.students.join(', ')),
    about.bring && calendar.bring(about.bring),
    about.wear && calendar.wear(about.wear),
    about.parts.map(({ at, title, where }) => calendar.part(at, title, where)).join('\n'),
  ];
  return {
    language,
    uid: place.uid,
    sequence: place.sequence,
    revisedAt: readInstant(place.revisedAt),
    createdAt: readInstant(place.createdAt),
    status: method === 'CANCEL' ? 'CANCELLED' : 'CONFIRMED',
    zone: place.zone,
    start: readWall(place.wallStart),
    end: readWall(place.wallEnd),
    startInstant: readInstant(place.startsAt),
    endInstant: readInstant(place.endsAt),
    summary: calendar.course(about.course, about.studio.name),
    description: lines.filter(Boolean).join('\n\n'),
    location: about.studio.address,
    geo: { lat: about.studio.lat, lon: about.studio.lon },
  };
}

function when({ place, wantedOn }: TeachingLetter, { dates, lettersTeaching }: Words): string {
  if (place) {
    const start = readWall(place.wallStart);
    const end = readWall(place.wallEnd);
    const values = { day: dates.day(start), from: dates.time(start), until: dates.time(end) };
    return fill(lettersTeaching.hours, values);
  }
  if (wantedOn === null) return lettersTeaching.notFixed;
  return fill(lettersTeaching.askedFor, { day: dates.day(Temporal.PlainDate.from(wantedOn)) });
}
