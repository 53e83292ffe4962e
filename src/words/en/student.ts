// The page of who signed up for a teaching day, the day on it, their turns, and what they find there afterwards.
import { counted } from '../../lib/words.js';

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];
const ordinal = (round: number) => ORDINALS[round - 1] ?? `number ${round}`;

export const student = {
  done: {
    signed: 'It has reached the studio. Please keep the address of this page: it is yours.',
    reminders: 'Thank you, that is noted.',
    language: 'Thank you. Letters and your calendar are in English from now on.',
    told: 'Thank you, that is noted.',
    journey: 'Thank you, that is noted. See below when to leave.',
    accepted: 'The place is yours.',
    refused: 'Thank you. You keep your turn on the waiting list.',
    left: 'It is given up, and a message about it is on its way.',
  },
  notDone: {
    'ran-out': 'This offer had run out, and the place is open to others again.',
    already: 'This was answered or given up in the meantime.',
  },
  lead: {
    requested: 'The studio has your wish and will answer. Nothing is fixed yet.',
    waiting: 'You are on the waiting list of this day. When places come free you are asked.',
    offered: 'Places have come free. They are held for you until the offer runs out.',
    signed: 'You have a place. We look forward to it.',
    attended: 'Thank you for coming.',
    did_not_come: 'This day is past.',
    declined: 'The studio could not give you a day.',
    withdrawn: 'You have withdrawn this. You are welcome to sign up again.',
    lapsed: 'Offers ran out without an answer, so no more are made. You are welcome to sign up again.',
    released: 'You have given your place back. You are welcome to sign up again.',
    called_off: 'The studio had to call this day off.',
  },
  offer: {
    title: 'Your answer, please',
    held: (day: string, time: string): string => `Held for you until ${day}, ${time}.`,
    take: 'Take the place',
    refuse: 'No, but stay on the list',
  },
  release: {
    title: 'You cannot come?',
    says: 'Give the place back as soon as you know: someone else may be waiting for it.',
    button: 'Give my place back',
    sure: 'It is free for somebody else at once. This cannot be undone.',
    yes: 'Yes, give it back',
  },
  withdraw: {
    title: 'You no longer want to?',
    says: 'Withdraw; the studio is told at once.',
    button: 'Withdraw',
    sure: 'Your sign-up ends at once. This cannot be undone.',
    yes: 'Yes, withdraw',
  },
  about: {
    title: (name: string): string => `About ${name}`,
    size: (gear: string): string => `Size: ${gear}`,
    access: 'What would help you here?',
    accessHint: 'A stool, a step, hearing. No matters of health: speak to the teacher about those.',
    accessTold: 'You have told us. Fill this in only to change it.',
    emergency: 'Whom do we ring in an emergency?',
    emergencyHint: 'Private, for the day only; it is erased after it.',
    emergencyTold: 'We have somebody to ring. Fill this in only to change it.',
    telephone: 'Their telephone number',
    safety: 'How we work safely',
    agreed: 'Read and agreed to.',
    without: 'Without this nobody stands at the bench.',
    label: 'Safety',
    agrees: (name: string): string => `${name} has read this and agrees to it`,
    save: 'Save',
  },
  day: {
    when: 'When',
    atStudio: (when: string): string => `${when}, time at the studio`,
    askedFor: (day: string): string => `Asked for ${day}`,
    aDay: 'a day',
    where: 'Where',
    who: 'Who learns',
    deposit: { none: 'none noted', due: 'due', received: 'received' },
    depositIs: (deposit: string, state: string): string => `${deposit}: ${state}`,
  },
  calendarLead: (studio: string): string =>
    `Your teaching days at ${studio} in the calendar you use anyway. It keeps in step by itself.`,
  turns: {
    title: 'Your turns',
    stale: 'The studio is planning these anew; times may still change.',
    kept: 'Times are the latest that is planned for. On the day they may change a little.',
    when: 'When',
    what: 'What',
    none: (name: string): string => `${name} has no turns on this day.`,
    somebody: 'somebody',
    stretch: (from: string, until: string): string => `${from} to ${until}`,
    plate: (round: number, sitter: string | null): string =>
      `Make your ${ordinal(round)} plate${sitter === null ? '; nobody needs to sit for it' : `; ${sitter} sits for you`}.`,
    holdStill: (student: string): string => `Hold still for ${student}.`,
    sit: (student: string): string => `Sit for ${student}.`,
    varnish: (round: number): string => `Varnish your ${ordinal(round)} plate.`,
    break: 'Everybody together, or a break.',
    clean: (round: number): string => `Clean the glass for your ${ordinal(round)} plate.`,
    fix: (round: number): string => `Fix your ${ordinal(round)} plate.`,
    /** Any other step, by its name of one English word. */
    step: (step: string, round: number): string =>
      `${step.charAt(0).toUpperCase()}${step.slice(1)}: your ${ordinal(round)} plate.`,
  },
  after: {
    plates: 'Your plates',
    none: 'The studio wrote no plates down.',
    kept: (keepers: number, tries: number, size: string | undefined): string =>
      `${keepers} kept of ${counted(tries, 'plate')} made, ${size ?? 'another size'}`,
    own: (name: string, plates: string): string => `${name}: ${plates}`,
    group: (plates: string): string => `Of the whole group: ${plates}`,
    poured: 'What was poured, and how it was mixed',
    asMixed: 'As the studio mixed it on your day. Read how to go on safely before you mix anything.',
    card: {
      caption: (formula: string, batch: string): string => `${formula}, for ${batch}`,
      ingredient: 'Ingredient',
      amount: 'Amount',
      asWritten: 'As written',
    },
    safely: 'How to go on safely',
    advice: [
      'Get the supplier’s current safety data sheet with each bottle, and read it before you open the bottle. It goes before whatever stands here.',
      'Goggles and gloves, every time. No contact lenses, cuts covered, no food, no children in the room.',
      'Ether and collodion: fresh air, small bottles, and no flame, heater or spark in the room.',
    ],
    hypo: {
      afterCyanide:
        'Fix in hypo. The cyanide fixer of your day was in the teacher’s hands only; its formula is not given out.',
      plain: 'Fix in hypo. Cyanide fixers are not for somebody who works alone.',
    },
    law: [
      'Ask your local authority what you may keep, in what amount and where, and where silver, acid and solvent waste goes. None of it goes down the drain.',
      'Where the law wants a licence or a trained person, work with one.',
    ],
    apart: 'Never let these meet',
    meet: (ones: string, others: string): string => `${ones} with ${others}:`,
  },
};
