// The words of every letter. Pure: what happened and the page's address in, words out.
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import type { Letter, LetterKind, LetterPlace, SignInLetter, SittingLetter } from './letters.schemas.js';

type SittingKind = Exclude<LetterKind, 'sign-in'>;

/** The letter about a sitting. `url` is the contact's own page, or for the owner the request's page. */
export function sittingLetterIn(kind: SittingKind, about: SittingLetter, url: string): Letter {
  const words = WORDS[kind](about);
  const toOwner = kind.startsWith('owner');
  const passedOn = about.passOn !== '';
  return {
    subject: !passedOn ? words.subject : `To pass on to ${about.contactName}: ${words.subject}`,
    greeting: toOwner || passedOn ? '' : `Dear ${about.contactName},`,
    paragraphs: passedOn ? [about.passOn, ...words.paragraphs] : words.paragraphs,
    facts: [
      ...(about.place ? placeFacts(about.place) : [{ term: 'Days that suit', detail: about.days }]),
      ...whoFacts(about),
    ],
    action: passedOn ? null : { label: toOwner ? 'Look at the request' : 'Your page', url },
    closing: closing(about.studio),
  };
}

/** The letter with a sign-in link, good for `minutes`. */
export function signInLetterIn(about: SignInLetter, url: string, minutes: number): Letter {
  return {
    subject: `Sign in to ${about.studio.name}`,
    greeting: `Dear ${about.name},`,
    paragraphs: [
      `This link signs you in once, within ${minutes} minutes. If you did not ask for it, leave it be: nothing happens.`,
    ],
    facts: [],
    action: { label: 'Sign in', url },
    closing: about.studio.name,
  };
}

export function letterText(letter: Letter): string {
  const facts = letter.facts.map(({ term, detail }) => `${term}: ${detail}`);
  const action = letter.action ? `${letter.action.label}:\n${letter.action.url}` : '';
  return `${[letter.greeting, ...letter.paragraphs, facts.join('\n'), action, letter.closing].filter((part) => part !== '').join('\n\n')}\n`;
}

const WORDS: Record<SittingKind, (about: SittingLetter) => { subject: string; paragraphs: string[] }> = {
  asked: (about) => ({
    subject: `Your request to sit at ${about.studio.name}`,
    paragraphs: [
      'Thank you, your request has reached us. The studio reads every one and answers; nothing is fixed yet.',
      ...withPage(
        about,
        'Your own page shows where it stands. There you can also withdraw it. Please keep the link to yourself.',
      ),
    ],
  }),
  confirmed: (about) => ({
    subject: `Your place at ${about.studio.name}: ${placeWords(about.place)}`,
    paragraphs: [
      `We are glad to tell you that you have a place.${attached(about, ' The calendar entry is attached.')}`,
      about.passOn === ''
        ? 'If you cannot come, please give the place back on your page: someone else has been waiting for it.'
        : 'If you cannot come, please tell us as soon as you know: someone else has been waiting for it.',
    ],
  }),
  declined: (about) => ({
    subject: `Your request to sit at ${about.studio.name}`,
    paragraphs: ['We are sorry, we cannot give you a place.', about.message],
  }),
  withdrawn: (about) => ({
    subject: `Your request to ${about.studio.name} is withdrawn`,
    paragraphs: [
      'You have withdrawn your request, and nothing is kept open for you. You are welcome to ask again.',
    ],
  }),
  released: (about) => ({
    subject: `Your place at ${about.studio.name} is given back: ${placeWords(about.place)}`,
    paragraphs: [
      'You have given your place back, and someone else may have it now. Thank you for telling us.',
      `${attached(about, 'The attached calendar entry takes the day out of your calendar. ')}You are welcome to ask again.`,
    ],
  }),
  'owner: asked': (about) => ({
    subject: `A request from ${about.contactName}`,
    paragraphs: [`${about.contactName} asks for a sitting.`],
  }),
  'owner: given up': (about) => ({
    subject: `${about.contactName} has given up ${about.place ? placeWords(about.place) : 'the request'}`,
    paragraphs: about.place ? ['The room and what was set aside are free again.'] : [],
  }),
};

/** Nothing is attached to a letter that is passed on by telephone or post. */
const withPage = (about: SittingLetter, words: string) => (about.passOn === '' ? [words] : []);
const attached = (about: SittingLetter, words: string) => (about.passOn === '' ? words : '');

function placeFacts(place: LetterPlace): Letter['facts'] {
  const start = Temporal.PlainDateTime.from(place.wallStart);
  const end = Temporal.PlainDateTime.from(place.wallEnd);
  return [
    { term: 'Day', detail: dayInWords(start.toPlainDate()) },
    { term: 'Time', detail: `${timeInWords(start)} to ${timeInWords(end)} (studio time, ${place.zone})` },
  ];
}

function whoFacts(about: SittingLetter): Letter['facts'] {
  return [
    { term: about.sitters.length === 1 ? 'Sitter' : 'Sitters', detail: about.sitters.join(', ') },
    { term: about.plates.length === 1 ? 'Plate' : 'Plates', detail: about.plates.join('; ') },
    { term: 'Where', detail: about.studio.address },
  ];
}

function placeWords(place: LetterPlace | null): string {
  if (!place) return '';
  const start = Temporal.PlainDateTime.from(place.wallStart);
  return `${dayInWords(start.toPlainDate())}, ${timeInWords(start)}`;
}

const closing = (studio: SittingLetter['studio']) =>
  [studio.name, studio.address, studio.telephone, studio.email].filter((line) => line !== '').join('\n');
