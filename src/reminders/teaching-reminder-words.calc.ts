// Which sentences stand in a reminder of a teaching day: what is still open is in each, with what is to be done about it.
// Their words are the catalogue's; see words/*/letters-teaching.ts. Pure.
import { fill } from '../lib/wording.js';
import type { Words } from '../words/words-for.js';
import { joined, leaveWords, told, type Wording } from './letter-parts.calc.js';
import type { TeachingLetter, TeachingReminder } from './letters.schemas.js';
import { PASSED_ON } from './passed-on.calc.js';

/** What a reminder says: to them, or for whoever reads it to them. */
export function teachingReminderWording(
  change: TeachingReminder,
  about: TeachingLetter,
  words: Words,
): Wording {
  const { reminder } = words.lettersTeaching;
  const passedOn = about.passOn !== '';
  const leave = told(leaveWords(words, about, passedOn ? PASSED_ON.leave : undefined));
  const open = told(openInWords(about, words));
  const giveBack = passedOn ? PASSED_ON.teachingGiveBack : reminder.giveBack;
  const [bring, wear] = [about.bring && reminder.near.bring, about.wear && reminder.near.wear];
  const wordings: Record<TeachingReminder, Wording> = {
    'reminder: travel': {
      subject: reminder.travel.subject,
      parts: [joined(reminder.place, reminder.travel.prepare), ...open, giveBack],
    },
    'reminder: week': {
      subject: reminder.week.subject,
      parts: [joined(reminder.place, reminder.week.tell), ...open, giveBack],
    },
    'reminder: near': {
      subject: reminder.near.subject,
      parts: [joined(reminder.place, bring, wear), ...open, giveBack],
    },
    'reminder: eve': {
      subject: reminder.eve.subject,
      parts: [...leave, reminder.eve.begin, ...open, giveBack],
    },
    'reminder: day': {
      subject: reminder.day.subject,
      parts: [...leave, words.letters.reminder.ring, ...open],
    },
  };
  return wordings[change];
}

/** What is to be done about each open point, in sentences. */
export function openInWords(
  { open, passOn }: Pick<TeachingLetter, 'open' | 'passOn'>,
  words: Words,
): string[] {
  const points = passOn === '' ? words.lettersTeaching.open : PASSED_ON.open;
  return open.map(({ tells, names, what }) => fill(points[tells], { who: names.join(', '), what }));
}
