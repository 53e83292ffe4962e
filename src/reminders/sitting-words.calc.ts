// Which sentences stand in a letter about a sitting. Their words are the catalogue's; see words/*/letters.ts. Pure.
import type { Words } from '../words/words-for.js';
import { joined, leaveWords, type Part, said, told, type Wording } from './letter-parts.calc.js';
import { isReminder, type ReminderLetter, type SittingLetter, type TheirKind } from './letters.schemas.js';
import { PASSED_ON } from './passed-on.calc.js';

/** On paper nothing is attached, and an address is to be typed. */
export type About = SittingLetter & { onPaper?: boolean };

export function sittingWording(kind: TheirKind, about: About, words: Words): Wording {
  if (isReminder(kind)) return reminderWording(kind, about, words);
  const { sitting } = words.letters;
  const subject = (sitting[named(kind, about)] as { subject: string }).subject;
  return { subject, parts: PARTS[kind](about, words.letters) };
}

type Told = Exclude<TheirKind, ReminderLetter>;
type Letters = Words['letters'];

const named = (kind: Told, { owedSince }: About): keyof Letters['sitting'] => {
  if (kind === 'waiting' && owedSince !== null) return 'owed';
  return kind === 'called off for good' ? 'called off' : kind;
};

const mailed = ({ passOn }: About) => passOn === '';
/** Nothing is attached to a letter that is passed on by telephone or post. */
const page = (about: About, words: string): string[] => (mailed(about) ? [words] : []);
const attached = (about: About, words: string) => (mailed(about) && !about.onPaper ? words : '');

const calledOff = (about: About, { sitting, takesOut }: Letters, then: string): Part[] => [
  sitting['called off'].sorry,
  ...said(about),
  joined(then, attached(about, takesOut)),
];

const PARTS: Record<Told, (about: About, letters: Letters) => Part[]> = {
  asked: (about, { sitting: { asked } }) => [asked.thanks, ...page(about, asked.page)],
  waiting: (about, { sitting: { waiting, owed } }) =>
    about.owedSince === null
      ? [waiting.listed, ...page(about, waiting.page)]
      : [owed.sorry, ...page(about, owed.page)],
  offered: (about, { sitting: { offered } }) => [
    offered.held,
    mailed(about) ? offered.answer : PASSED_ON.answer,
  ],
  refused: (_, { sitting: { refused } }) => [refused.thanks],
  lapsed: (_, { sitting: { lapsed } }) => [lapsed.free],
  'run out': (about, { sitting }) => [
    sitting['run out'].none,
    mailed(about) ? sitting['run out'].back : PASSED_ON.back,
  ],
  'called back': (_, { sitting }) => [sitting['called back'].sorry, sitting['called back'].turn],
  'called off': (about, letters) => calledOff(about, letters, letters.sitting['called off'].first),
  'called off for good': (about, letters) => calledOff(about, letters, letters.askAgain),
  moved: (about, { sitting: { moved } }) => [
    moved.now,
    ...said(about),
    mailed(about) ? joined(attached(about, moved.entry), moved.unsuited) : PASSED_ON.unsuited,
  ],
  'another day': (about, { sitting, takesOut }) => [
    sitting['another day'].free,
    ...(about.place && !about.onPaper ? page(about, takesOut) : []),
  ],
  confirmed: (about, { sitting: { confirmed } }) => [
    joined(confirmed.glad, attached(about, confirmed.entry)),
    mailed(about) ? confirmed.giveBack : PASSED_ON.cannotCome,
  ],
  declined: (about, { sitting: { declined } }) => [declined.sorry, ...said(about)],
  withdrawn: (_, { sitting: { withdrawn } }) => [withdrawn.done],
  released: (about, { sitting: { released }, takesOut, askAgain }) => [
    released.thanks,
    joined(attached(about, takesOut), askAgain),
  ],
};

/**
 * What somebody else could have had, and how to give it back, stands in each: of 10,000 people told what a missed place
 * costs fewer missed theirs (8.4 % against 11.1 %; Hallsworth et al., PLoS ONE 10(9), 2015).
 */
function reminderWording(kind: ReminderLetter, about: About, words: Words): Wording {
  const { reminder } = words.letters;
  const giveBack = mailed(about) ? reminder.giveBack : PASSED_ON.giveBack;
  const leave = told(leaveWords(words, about, mailed(about) ? undefined : PASSED_ON.leave));
  const wordings: Record<ReminderLetter, Wording> = {
    'reminder: travel': { subject: reminder.travel.subject, parts: [reminder.travel.prepare, giveBack] },
    'reminder: week': { subject: reminder.week.subject, parts: [reminder.week.place, giveBack] },
    'reminder: near': { subject: reminder.near.subject, parts: [reminder.near.look, giveBack] },
    'reminder: eve': { subject: reminder.eve.subject, parts: [...leave, reminder.eve.bring, giveBack] },
    'reminder: day': { subject: reminder.day.subject, parts: [...leave, reminder.ring] },
  };
  return wordings[kind];
}
