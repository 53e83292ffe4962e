// Letters about a sitting, to sign in and to join: what happened and the page's address in, a letter out. Pure.
import { Temporal } from 'temporal-polyfill';
import { readWall } from '../lib/stored-times.js';
import { fill } from '../lib/wording.js';
import type { SuitingDays } from '../sittings/sittings.schemas.js';
import { daysInWords } from '../sittings/words.calc.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import {
  momentIn,
  ownOr,
  pageIn,
  placeValues,
  untilWords,
  type Values,
  worded,
} from './letter-parts.calc.js';
import {
  isToOwner,
  type Letter,
  type LetterPlace,
  type SignInLetter,
  type SittingKind,
  type SittingLetter,
} from './letters.schemas.js';
import type { OwnWording } from './own-wording.schemas.js';
import { ownerWording } from './owner-letters.calc.js';
import { type About, sittingWording } from './sitting-words.calc.js';

/** The letter about a sitting. `url` is the contact's own page, or for the owner the request's page. */
export function sittingLetterIn(kind: SittingKind, about: About, url: string): Letter {
  const toOwner = isToOwner(kind);
  const passedOn = about.passOn !== '';
  const language = toOwner || passedOn ? LANGUAGE_OF_DESK : (about.language ?? LANGUAGE_OF_DESK);
  const words = wordsFor(language);
  const { letters } = words;
  const ours = toOwner ? ownerWording(kind, about) : sittingWording(kind, about, words);
  const asKind = kind === 'waiting' && about.owedSince !== null ? 'owed' : kind;
  const wording =
    toOwner || passedOn
      ? ours
      : ownOr(ours, asKind, about.onPaper ? unattached(about.wording, letters) : about.wording);
  const { subject, paragraphs } = worded(wording, sittingValues(about, words));
  return {
    language,
    subject: !passedOn ? subject : `To pass on to ${about.contactName}: ${subject}`,
    greeting: toOwner || passedOn ? '' : fill(letters.dear, { name: about.contactName }),
    paragraphs: passedOn ? [about.passOn, ...paragraphs] : paragraphs,
    facts: [
      ...(about.place
        ? placeFacts(about.place, words)
        : [{ term: letters.facts.days, detail: daysOf(about, words) }]),
      // ours say it in a sentence; whatever an owner writes, it is told
      ...(wording !== ours && kind === 'offered'
        ? [{ term: words.lettersTeaching.facts.held, detail: untilWords(words, about) }]
        : []),
      ...whoFacts(about, words),
    ],
    action: passedOn
      ? null
      : { label: toOwner ? 'Look at the request' : letters.yourPage, url: pageIn(language, url) },
    closing: closing(about.studio),
  };
}

/** An owner's words without our sentences about what is attached: to paper nothing is. */
function unattached(own: OwnWording | undefined, { takesOut, sitting }: Words['letters']) {
  const sentences = [takesOut, sitting.moved.entry, sitting.confirmed.entry];
  return own && { ...own, body: sentences.reduce((body, one) => body.replaceAll(one, ''), own.body) };
}

/** The letter with a sign-in link, good for `minutes`. */
export function signInLetterIn(about: SignInLetter, url: string, minutes: number): Letter {
  const { letters } = wordsFor(LANGUAGE_OF_DESK);
  const { subject, once, action } = letters.signIn;
  return {
    language: LANGUAGE_OF_DESK,
    subject: fill(subject, { studio: about.studio.name }),
    greeting: fill(letters.dear, { name: about.name }),
    paragraphs: [fill(once, { minutes: `${minutes}` })],
    facts: [],
    action: { label: action, url },
    closing: about.studio.name,
  };
}

/** The letter to somebody who is to work at the studio, with a link good for `days`. */
export function invitedLetterIn(about: SignInLetter, url: string, days: number): Letter {
  const { letters } = wordsFor(LANGUAGE_OF_DESK);
  const { subject, work, once, action } = letters.invited;
  const values = { studio: about.studio.name, days: `${days}` };
  return {
    language: LANGUAGE_OF_DESK,
    subject: fill(subject, values),
    greeting: fill(letters.dear, { name: about.name }),
    paragraphs: [fill(work, values), fill(once, values)],
    facts: [],
    action: { label: action, url },
    closing: closing(about.studio),
  };
}

export function letterText(letter: Letter): string {
  const facts = letter.facts.map(({ term, detail }) => `${term}: ${detail}`);
  const action = letter.action ? `${letter.action.label}:\n${letter.action.url}` : '';
  return `${[letter.greeting, ...letter.paragraphs, facts.join('\n'), action, letter.closing].filter((part) => part !== '').join('\n\n')}\n`;
}

/** What can be put in for a variable in a letter about a sitting. */
export function sittingValues(about: SittingLetter, words: Words): Values {
  return {
    name: about.contactName,
    studio: about.studio.name,
    ...placeValues(words, about.place),
    until: untilWords(words, about),
    was: about.was === null ? '' : momentIn(words, readWall(about.was)),
    since: about.owedSince === null ? '' : words.dates.day(Temporal.PlainDate.from(about.owedSince)),
    ring: about.studio.telephone || about.studio.email,
  };
}

function placeFacts(place: LetterPlace, { dates, letters: { facts } }: Words): Letter['facts'] {
  const start = readWall(place.wallStart);
  const end = readWall(place.wallEnd);
  const hours = { from: dates.time(start), until: dates.time(end), zone: place.zone };
  return [
    { term: facts.day, detail: dates.day(start) },
    { term: facts.time, detail: fill(facts.hours, hours) },
  ];
}

function daysOf({ suits, days }: SittingLetter, words: Words): string {
  if (!suits) return days;
  const date = (text: string) => Temporal.PlainDate.from(text);
  const read: SuitingDays =
    suits.kind === 'any'
      ? { kind: 'any', from: date(suits.from), until: date(suits.until) }
      : { kind: 'these', days: suits.days.map(date) };
  return daysInWords(read, words);
}

function whoFacts(about: SittingLetter, { letters: { facts } }: Words): Letter['facts'] {
  return [
    { term: about.sitters.length === 1 ? facts.sitter : facts.sitters, detail: about.sitters.join(', ') },
    { term: about.plates.length === 1 ? facts.plate : facts.plates, detail: about.plates.join('; ') },
    { term: facts.where, detail: about.studio.address },
  ];
}

const closing = (studio: SittingLetter['studio']) =>
  [studio.name, studio.address, studio.telephone, studio.email].filter((line) => line !== '').join('\n');
