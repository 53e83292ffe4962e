// The words of every letter. Pure: what happened and the page's address in, words out.
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { REMINDER_WORDS } from './reminder-words.calc.js';
import type { Letter, LetterPlace, SignInLetter, SittingKind, SittingLetter } from './letters.schemas.js';

/** On paper nothing is attached, and an address is to be typed. */
type About = SittingLetter & { onPaper?: boolean };

/** The letter about a sitting. `url` is the contact's own page, or for the owner the request's page. */
export function sittingLetterIn(kind: SittingKind, about: About, url: string): Letter {
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

/** The letter to somebody who is to work at the studio, with a link good for `days`. */
export function invitedLetterIn(about: SignInLetter, url: string, days: number): Letter {
  return {
    subject: `Work at ${about.studio.name}`,
    greeting: `Dear ${about.name},`,
    paragraphs: [
      `You are invited to work at ${about.studio.name}: to see who comes and when, the day sheet and the shelf.`,
      `This link lets you choose a password. It works once, within ${days} days.`,
    ],
    facts: [],
    action: { label: 'Begin', url },
    closing: closing(about.studio),
  };
}

export function letterText(letter: Letter): string {
  const facts = letter.facts.map(({ term, detail }) => `${term}: ${detail}`);
  const action = letter.action ? `${letter.action.label}:\n${letter.action.url}` : '';
  return `${[letter.greeting, ...letter.paragraphs, facts.join('\n'), action, letter.closing].filter((part) => part !== '').join('\n\n')}\n`;
}

const onTheList = (about: About) => ({
  subject: `You are on the waiting list of ${about.studio.name}`,
  paragraphs: [
    'The studio has put your request on its waiting list. When a place comes on one of your days we ask you; nothing is fixed yet.',
    ...withPage(about, 'Your own page shows how long that may take, and how we reckon it.'),
  ],
});

/** A place owed to whoever came for no plate, or was stranded on the way. */
const returnOwed = (about: About, owedSince: string) => ({
  subject: `A place is owed to you at ${about.studio.name}`,
  paragraphs: [
    `We are sorry that no plate came of your day here. It was no fault of yours: another place is owed to you. You stand first on our waiting list, with the date on which you first asked, ${dayInWords(Temporal.PlainDate.from(owedSince))}, and we ask you as soon as there is a place.`,
    ...withPage(about, 'This is your own page for it; the one of the day that was stays as it is.'),
  ],
});

const WORDS: Record<SittingKind, (about: About) => { subject: string; paragraphs: string[] }> = {
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
  waiting: (about) => (about.owedSince === null ? onTheList(about) : returnOwed(about, about.owedSince)),
  offered: (about) => ({
    subject: `A place for you at ${about.studio.name}: ${placeWords(about.place)}`,
    paragraphs: [
      `We can offer you a place. It is held for you until ${untilWords(about)}; after that it is free for somebody else.`,
      about.passOn === ''
        ? 'On your page you can take it with one tap, or say that this one does not suit you. If it does not, you keep your turn on the list.'
        : 'Please ask whether they take it, and note the answer on the page of the request. If it does not suit them, they keep their turn on the list.',
    ],
  }),
  refused: (about) => ({
    subject: `You stay on the waiting list of ${about.studio.name}`,
    paragraphs: [
      'Thank you for telling us that this place does not suit you. It is free for somebody else now, and you keep your turn on the list.',
    ],
  }),
  lapsed: (about) => ({
    subject: `Our offer has run out: ${placeWords(about.place)}`,
    paragraphs: [
      'We had no answer in time, so the place is free for somebody else. You keep your turn on the list, and we ask you again when another place comes.',
    ],
  }),
  'run out': (about) => ({
    subject: `Do you still want to sit at ${about.studio.name}?`,
    paragraphs: [
      'Our offers have run out without an answer, so we make no more of them.',
      about.passOn === ''
        ? 'If you still want to come, one tap on your page puts you back on the list, with the date on which you first asked.'
        : 'If they still want to come, they can go back on the list, with the date on which they first asked.',
    ],
  }),
  'called back': (about) => ({
    subject: `The place we offered you cannot be held: ${placeWords(about.place)}`,
    paragraphs: [
      'We are sorry: the studio has to call back the place it offered you.',
      'You keep your turn on the list, and we ask you again when another place comes.',
    ],
  }),
  'called off': (about) => ({
    subject: `The studio has to call off ${placeWords(about.place)}`,
    paragraphs: [
      `We are sorry: ${placeWords(about.place)} cannot be held. Please do not set out for it.`,
      ...said(about),
      `You stand first on our waiting list, with the date on which you first asked, and we ask you as soon as there is another place.${attached(about, ' The attached calendar entry takes the day out of your calendar.')}`,
    ],
  }),
  'called off for good': (about) => ({
    subject: `The studio has to call off ${placeWords(about.place)}`,
    paragraphs: [
      `We are sorry: ${placeWords(about.place)} cannot be held. Please do not set out for it.`,
      ...said(about),
      `You are welcome to ask again.${attached(about, ' The attached calendar entry takes the day out of your calendar.')}`,
    ],
  }),
  moved: (about) => ({
    subject: `Your place at ${about.studio.name} is moved to ${placeWords(about.place)}`,
    paragraphs: [
      `${wasWords(about)} cannot be held. Your place is now on ${placeWords(about.place)}.`,
      ...said(about),
      about.passOn === ''
        ? `${attached(about, 'The attached calendar entry moves with it. ')}If the new day does not suit you, say so on your page: you then wait for another, first on the list.`
        : 'If the new day does not suit them, please note it on the page of the request: they then wait for another, first on the list.',
    ],
  }),
  'another day': (about) => ({
    subject: `You wait for another day at ${about.studio.name}`,
    paragraphs: [
      'You have asked for another day. The place is free for somebody else, and you keep your turn on the list.',
      ...(about.place && !about.onPaper
        ? withPage(about, 'The attached calendar entry takes the day out of your calendar.')
        : []),
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
  ...REMINDER_WORDS,
  'owner: asked': (about) => ({
    subject: `A request from ${about.contactName}`,
    paragraphs: [`${about.contactName} asks for a sitting.`],
  }),
  'owner: given up': (about) => ({
    subject: `${about.contactName} has given up ${about.place ? placeWords(about.place) : 'the request'}`,
    paragraphs: about.place ? ['The room and what was set aside are free again.'] : [],
  }),
  'owner: to telephone': (about) => ({
    subject: `Please telephone ${about.contactName} about ${placeWords(about.place)}`,
    paragraphs: [
      `${about.contactName} is offered this place, which is so near that a letter may come too late. It is held until ${untilWords(about)}.`,
      'Please note their answer on the page of the request.',
    ],
  }),
  'owner: not taken': (about) => ({
    subject: `${about.contactName} has not taken ${placeWords(about.place)}`,
    paragraphs: ['The place is free again. Your waiting list shows who comes next.'],
  }),
};

/** What the studio says in its own words. */
const said = ({ message }: SittingLetter) => (message === '' ? [] : [message]);

/** "Friday 5 March 2027, 09:30", before it was moved. */
function wasWords({ was }: SittingLetter): string {
  if (!was) return '';
  const start = Temporal.PlainDateTime.from(was);
  return `${dayInWords(start.toPlainDate())}, ${timeInWords(start)}`;
}

/** Nothing is attached to a letter that is passed on by telephone or post. */
const withPage = (about: SittingLetter, words: string) => (about.passOn === '' ? [words] : []);
const attached = (about: About, words: string) => (about.passOn === '' && !about.onPaper ? words : '');

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

/** "Monday 7 December 2026, 18:00 (studio time)". */
function untilWords({ openUntil, place }: SittingLetter): string {
  if (!openUntil || !place) return '';
  const wall = instantToWall(place.zone, Temporal.Instant.from(openUntil));
  return `${dayInWords(wall)}, ${timeInWords(wall)} (studio time)`;
}

const closing = (studio: SittingLetter['studio']) =>
  [studio.name, studio.address, studio.telephone, studio.email].filter((line) => line !== '').join('\n');
