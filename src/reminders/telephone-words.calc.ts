// What is to be said on the telephone, in two plain lines: what has happened, and what to ask or to add.
import { readWall } from '../lib/stored-times.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import { joined, leaveWords, untilWords } from './letter-parts.calc.js';
import { isAboutSitting, type SittingLetter, sittingLetter } from './letters.schemas.js';
import type { MailRow } from './mail.schemas.js';
import type { ToTell } from './telephone.calc.js';

/** For letters to the owner there is nothing to say; they never come here. */
export function toSay(kind: ToTell['kind'], about: SittingLetter): [string, string] {
  return (WORDS[kind] ?? (() => ['Please look at the request.', ''] as [string, string]))(about);
}

/** The first line of a letter that was not told before; '' for one that is not to them. */
export function wasToSay({ kind, snapshot }: Pick<MailRow, 'kind' | 'snapshot'>): string {
  return !isAboutSitting(kind) ? '' : toSay(kind, sittingLetter.parse(snapshot))[0];
}

type Say = (about: SittingLetter) => [string, string];

const WORDS: Partial<Record<ToTell['kind'], Say>> = {
  asked: () => ['Your request has reached us.', 'The studio answers every one; nothing is fixed yet.'],
  waiting: (about) =>
    about.owedSince === null
      ? ['You are on our waiting list.', `We ring you when a place comes on one of your days: ${about.days}.`]
      : [
          'We are sorry that no plate came of your day here: another place is owed to you.',
          'You stand first on our list, with the date on which you first asked, and we ring you as soon as there is a place.',
        ],
  offered: (about) => [
    `We can offer you ${placeWords(about)}.`,
    `Do you take it? It is held for you until ${untilWords(wordsFor(LANGUAGE_OF_DESK), about) || 'we hear from you'}.`,
  ],
  refused: () => [
    'We have noted that the place does not suit you.',
    'You keep your turn on the list, and we ask you again.',
  ],
  lapsed: (about) => [
    `We had no answer in time, so ${placeWords(about)} is free for somebody else.`,
    'You keep your turn on the list, and we ask you again.',
  ],
  'run out': () => [
    'Our offers have run out without an answer, so we make no more.',
    'Do you still want to come? Then we put you back on the list, with the date on which you first asked.',
  ],
  'called back': (about) => [
    `We are sorry: we have to call back the place we offered you, ${placeWords(about)}.`,
    'You keep your turn on the list, and we ask you again.',
  ],
  'called off': (about) => [
    `We are sorry: ${placeWords(about)} cannot be held. Please do not set out.${saidWords(about)}`,
    'You stand first on our list, and we ask you as soon as there is another place.',
  ],
  'called off for good': (about) => [
    `We are sorry: ${placeWords(about)} cannot be held. Please do not set out.${saidWords(about)}`,
    'You are welcome to ask again.',
  ],
  moved: (about) => [
    `${wasWords(about)} cannot be held. Your place is now ${placeWords(about)}.${saidWords(about)}`,
    'Does that day suit you? If not, you wait for another, first on our list.',
  ],
  'another day': () => [
    'We have noted that you want another day.',
    'Your place is free for somebody else, and you keep your turn on the list.',
  ],
  confirmed: (about) => [
    `You have a place: ${placeWords(about)}.`,
    'If you cannot come, please tell us as soon as you know: someone else is waiting for it.',
  ],
  declined: (about) => ['We are sorry, we cannot give you a place.', about.message],
  withdrawn: () => ['We have noted that you withdraw your request.', 'You are welcome to ask again.'],
  'reminder: travel': (about) => [
    `Your place is ${placeWords(about)}. It is time to see to the journey.`,
    'Are you still coming?',
  ],
  'reminder: week': (about) => [`Your place is ${placeWords(about)}.`, 'Are you still coming?'],
  'reminder: near': (about) => [
    `Your place is ${placeWords(about)}.`,
    'Blue may come out pale, red and yellow dark, freckles stronger. The plate shows you as a mirror does.',
  ],
  'reminder: eve': (about) => [withLeave(`We see you on ${placeWords(about)}.`, about), 'Is all well?'],
  'reminder: day': (about) => [withLeave(`Today: ${placeWords(about)}.`, about), 'Is all well?'],
  released: (about) => [
    `We have noted that you give back ${placeWords(about)}.`,
    'Thank you for telling us. You are welcome to ask again.',
  ],
};

const withLeave = (sentence: string, about: SittingLetter): string =>
  joined(sentence, ...leaveWords(wordsFor(LANGUAGE_OF_DESK), about));

function placeWords({ place }: SittingLetter): string {
  if (!place) return 'the place';
  return startWords(place.wallStart);
}

const wasWords = ({ was }: SittingLetter) => (was ? startWords(was) : 'Your place');

function startWords(text: string): string {
  const start = readWall(text);
  return `${dayInWords(start.toPlainDate())}, ${timeInWords(start)}`;
}

const saidWords = ({ message }: SittingLetter) => (message === '' ? '' : ` ${message}`);
