// What is to be said on the telephone about teaching, in two plain lines: what has happened, and what to ask or to add.
import { Temporal } from 'temporal-polyfill';
import { readWall } from '../lib/stored-times.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import {
  isTeachingReminder,
  type TeachingLetter,
  teachingLetter,
  type TeachingReminder,
} from './letters.schemas.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import { leaveWords, untilWords } from './letter-parts.calc.js';
import type { MailRow } from './mail.schemas.js';
import { teachingValues } from './teaching-letters.calc.js';
import { openInWords } from './teaching-reminder-words.calc.js';

export function teachingToSay(about: TeachingLetter): [string, string] {
  const { change } = about;
  return isTeachingReminder(change) ? reminderToSay(change, about) : WORDS[change](about);
}

function reminderToSay(change: TeachingReminder, about: TeachingLetter): [string, string] {
  const words = wordsFor(LANGUAGE_OF_DESK);
  const { place = '', bring, wear } = teachingValues(about, words);
  const first: Record<TeachingReminder, string> = {
    'reminder: travel': `You learn with us: ${place}.`,
    'reminder: week': `You learn with us in a week: ${place}.`,
    'reminder: near': `You learn with us soon: ${place}.${bring && ` Bring: ${bring}`}${wear && ` Wear: ${wear}`}`,
    'reminder: eve': `See you: ${place}.`,
    'reminder: day': `See you today: ${place}.`,
  };
  const open = openInWords({ ...about, passOn: 'by hand' }, words);
  return [first[change], [...leaveWords(words, about), ...open].join(' ')];
}

/** The first line of a letter that was not told before. */
export const teachingWasToSay = ({ snapshot }: Pick<MailRow, 'snapshot'>): string =>
  teachingToSay(teachingLetter.parse(snapshot))[0];

const WORDS: Record<
  Exclude<TeachingLetter['change'], TeachingReminder>,
  (about: TeachingLetter) => [string, string]
> = {
  asked: (about) => [
    `Your wish to learn has reached us${about.wantedOn ? `, on ${dayInWords(Temporal.PlainDate.from(about.wantedOn))}` : ''}.`,
    'The studio answers; nothing is fixed yet.',
  ],
  waiting: (about) => [
    `You are on the waiting list of ${dayWords(about)}.`,
    'We ring you when places come free.',
  ],
  offered: (about) => [
    `Places have come free on ${dayWords(about)}.`,
    `Do you take them? They are held for you until ${untilWords(wordsFor(LANGUAGE_OF_DESK), about) || 'we hear from you'}.`,
  ],
  refused: () => [
    'We have noted that the places do not suit you.',
    'You keep your turn on the waiting list.',
  ],
  lapsed: (about) => [
    `We had no answer in time, so the places on ${dayWords(about)} are open to others again.`,
    'You keep your turn on the waiting list.',
  ],
  'run out': () => [
    'Our offers have run out without an answer, so we make no more.',
    'Do you still want to come? Then we enter you anew.',
  ],
  signed: (about) => [
    `You have a place to learn: ${dayWords(about)}.`,
    `${bringWords(about)}We also need to know whom to ring in an emergency, and read you how we work safely.`,
  ],
  changed: (about) => [
    `Your teaching day has changed. It is now ${dayWords(about)}.`,
    'Does it still suit you? If not, you can give your place back.',
  ],
  declined: (about) => ['We are sorry, we cannot give you a place to learn this time.', about.message],
  withdrawn: () => ['We have noted that you withdraw.', 'You are welcome to sign up again.'],
  released: (about) => [
    `We have noted that you give back your place on ${dayWords(about)}.`,
    'Thank you for telling us. You are welcome to sign up again.',
  ],
  'called off': (about) => [
    `We are sorry: ${dayWords(about)} is not held. Please do not set out.`,
    about.message,
  ],
};

const bringWords = ({ bring }: TeachingLetter) =>
  bring === '' ? '' : `Bring: ${bring.replace(/\s+/g, ' ')} `;

function dayWords({ course, place }: TeachingLetter): string {
  if (!place) return course;
  const start = readWall(place.wallStart);
  return `${course}, ${dayInWords(start)}, ${timeInWords(start)}`;
}
