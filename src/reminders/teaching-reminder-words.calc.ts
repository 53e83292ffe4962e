// The words of reminders of a teaching day, in letters and on the telephone. What is still open stands in them, each with
// what is to be done about it.
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import type { OpenPoint, TeachingLetter, TeachingReminder } from './letters.schemas.js';
import { leaveWords } from './reminder-words.calc.js';

type Words = { subject: string; paragraphs: string[] };

/** What a reminder says: to them, or for whoever reads it to them. */
export function teachingReminderIn(change: TeachingReminder, about: TeachingLetter): Words {
  const { subject, says } = WORDS[change](about);
  const open = openInWords(about);
  return {
    subject,
    paragraphs: [...says, ...open, ...(change === 'reminder: day' ? [] : [giveBack(about)])],
  };
}

/** The two lines for the telephone. */
export function teachingReminderToSay(change: TeachingReminder, about: TeachingLetter): [string, string] {
  const first: Record<TeachingReminder, string> = {
    'reminder: travel': `You learn with us: ${when(about)}.`,
    'reminder: week': `You learn with us in a week: ${when(about)}.`,
    'reminder: near': `You learn with us soon: ${when(about)}.${asked('Bring', about.bring)}${asked('Wear', about.wear)}`,
    'reminder: eve': `See you: ${when(about)}.`,
    'reminder: day': `See you today: ${when(about)}.`,
  };
  return [
    first[change],
    [...leaveWords({ ...about, passOn: '' }), ...openInWords({ ...about, passOn: 'by hand' })].join(' '),
  ];
}

const WORDS: Record<TeachingReminder, (about: TeachingLetter) => { subject: string; says: string[] }> = {
  'reminder: travel': (about) => ({
    subject: `Still coming to learn at ${about.studio.name} on ${day(about)}?`,
    says: [
      `Your place: ${when(about)}. It is time to see to the journey and a bed for the night, if you need them.`,
    ],
  }),
  'reminder: week': (about) => ({
    subject: `Your day to learn at ${about.studio.name}: ${when(about)}`,
    says: [`Your place: ${when(about)}. Please tell us if you cannot come.`],
  }),
  'reminder: near': (about) => ({
    subject: `Before ${day(about)} at ${about.studio.name}`,
    says: [`Your place: ${when(about)}.${asked('Bring', about.bring)}${asked('Wear', about.wear)}`],
  }),
  'reminder: eve': (about) => ({
    subject: `See you at ${about.studio.name} on ${day(about)}, ${time(about)}`,
    says: [...leaveWords(about), `We begin together: ${when(about)}.`],
  }),
  'reminder: day': (about) => ({
    subject: `Today: ${time(about)} at ${about.studio.name}`,
    says: [
      ...leaveWords(about),
      `If something has come between, please ring us: ${about.studio.telephone || about.studio.email}.`,
    ],
  }),
};

/** What is to be done about each open point, in sentences. */
function openInWords({ open, passOn }: Pick<TeachingLetter, 'open' | 'passOn'>): string[] {
  return open.map(({ tells, names, what }) => {
    const who = names.join(', ');
    const where = passOn === '' ? ' on your page' : '';
    const words: Record<OpenPoint['tells'], string> = {
      reading: `Before you come: ${what}`,
      safety: `How we work safely is not agreed to yet by ${who}. Please read it and agree${where}: without it nobody stands at the bench.`,
      emergency: `We do not know yet whom to ring in an emergency, for ${who}. Please tell us${where}.`,
      gear: `We do not know the size yet for ${who}: ${what}. Please tell us${where}, so that it fits.`,
      deposit: `The deposit is still due: ${what}.`,
    };
    return words[tells];
  });
}

/** "First Plates, Wednesday 7 April 2027, 10:00". */
const when = (about: TeachingLetter) => `${about.course}, ${day(about)}, ${time(about)}`;
const startOf = ({ place }: TeachingLetter) => place && Temporal.PlainDateTime.from(place.wallStart);
const day = (about: TeachingLetter) => {
  const start = startOf(about);
  return start ? dayInWords(start) : '';
};
const time = (about: TeachingLetter) => {
  const start = startOf(about);
  return start ? timeInWords(start) : '';
};
const asked = (what: string, words: string) =>
  words === '' ? '' : ` ${what}: ${words.replace(/\s+/g, ' ')}`;

const giveBack = ({ passOn }: TeachingLetter): string =>
  passOn === ''
    ? 'If you cannot come, please give the place back on your page today: somebody else waits for it, and what is poured is made for that day only.'
    : 'If they cannot come, please note it on the page of the day: somebody else waits for the place, and what is poured is made for that day only.';
