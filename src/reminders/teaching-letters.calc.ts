// The words of letters about teaching. Pure: what happened and the page's address in, words out.
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { CalendarEntry } from '../calendar/ics.calc.js';
import {
  isTeachingReminder,
  type Letter,
  type LetterPlace,
  type TeachingLetter,
  type TeachingReminder,
} from './letters.schemas.js';
import { teachingReminderIn } from './teaching-reminder-words.calc.js';

const WORDS: Record<
  Exclude<TeachingLetter['change'], TeachingReminder>,
  { subject: string; says: string }
> = {
  asked: {
    subject: 'Your wish to learn',
    says: 'Thank you, your wish to learn has reached us. The studio answers; nothing is fixed yet.',
  },
  waiting: {
    subject: 'You are on the waiting list',
    says: 'The day is full, and you are on its waiting list. When places come free you are asked; nothing is fixed yet.',
  },
  offered: {
    subject: 'A place to learn is offered to you',
    says: 'Places have come free, and they are held for you. Please answer on your page.',
  },
  refused: {
    subject: 'You stay on the list',
    says: 'Thank you for telling us. You keep your turn on the waiting list.',
  },
  lapsed: {
    subject: 'Our offer has run out',
    says: 'The places we offered are open to others again. You keep your turn on the waiting list.',
  },
  'run out': {
    subject: 'No more offers are made',
    says: 'Several offers ran out without an answer, so you are on the waiting list no more.',
  },
  signed: {
    subject: 'You have a place to learn',
    says: 'You have a place, and we look forward to it. On your page please tell us what the day needs to know, and read and agree to how we work safely: without it nobody stands at the bench.',
  },
  changed: {
    subject: 'Your teaching day has changed',
    says: 'Something about your teaching day has changed; below it stands as it is now. If it does not suit you any more, give your place back on your page.',
  },
  declined: { subject: 'About your wish to learn', says: 'We cannot give you a place this time.' },
  withdrawn: {
    subject: 'Your sign-up is withdrawn',
    says: 'It is withdrawn. You are welcome to sign up again.',
  },
  released: {
    subject: 'Your place is given back',
    says: 'Your place is given back. You are welcome to sign up again.',
  },
  'called off': {
    subject: 'The teaching day is called off',
    says: 'We are sorry: this day is not held. Nothing is to be done on your side.',
  },
};

/** The letter to who signed up, or to the studio. `url` is their page, or the owner's. */
export function teachingLetterIn(about: TeachingLetter, url: string, toOwner: boolean): Letter {
  const { subject, paragraphs } = wordsOf(about);
  const told = toOwner ? [`To ${about.contactName} we have written: ${paragraphs.join(' ')}`] : paragraphs;
  const passedOn = about.passOn !== '';
  const head = toOwner ? `Teaching: ${about.contactName}, ${about.change}` : subject;
  const until = about.openUntil && about.place && inWords(about.place.zone, about.openUntil);
  return {
    subject: passedOn && !toOwner ? `To pass on to ${about.contactName}: ${head}` : head,
    greeting: toOwner || passedOn ? '' : `Dear ${about.contactName},`,
    paragraphs: [
      ...(passedOn && !toOwner ? [about.passOn] : []),
      ...told,
      ...(about.message === '' ? [] : [about.message]),
    ],
    facts: [
      { term: 'Day', detail: about.course },
      { term: 'When', detail: when(about) },
      ...(until ? [{ term: 'Held for you until', detail: until }] : []),
      { term: 'Who learns', detail: about.students.join(', ') },
      ...(about.change === 'signed' && about.bring !== '' ? [{ term: 'Bring', detail: about.bring }] : []),
      ...(about.change === 'signed' && about.wear !== '' ? [{ term: 'Wear', detail: about.wear }] : []),
    ],
    action: passedOn && !toOwner ? null : { label: toOwner ? 'Look at it' : 'Your page', url },
    closing: [about.studio.name, about.studio.address, about.studio.telephone].filter(Boolean).join('\n'),
  };
}

function wordsOf(about: TeachingLetter): { subject: string; paragraphs: string[] } {
  if (isTeachingReminder(about.change)) return teachingReminderIn(about.change, about);
  const { subject, says } = WORDS[about.change];
  return { subject: `${subject}: ${about.course}`, paragraphs: [says] };
}

/** The entry that an invitation or cancellation carries; the same as their own calendar feed has, by its uid. */
export function teachingInvitation(
  about: TeachingLetter,
  place: LetterPlace,
  method: 'REQUEST' | 'CANCEL',
): CalendarEntry {
  const lines = [
    `Who learns: ${about.students.join(', ')}`,
    about.bring && `Bring: ${about.bring}`,
    about.wear && `Wear: ${about.wear}`,
    about.parts.map(({ at, title, where }) => `${at} ${title} (${where})`).join('\n'),
  ];
  return {
    uid: place.uid,
    sequence: place.sequence,
    revisedAt: Temporal.Instant.from(place.revisedAt),
    createdAt: Temporal.Instant.from(place.createdAt),
    status: method === 'CANCEL' ? 'CANCELLED' : 'CONFIRMED',
    zone: place.zone,
    start: Temporal.PlainDateTime.from(place.wallStart),
    end: Temporal.PlainDateTime.from(place.wallEnd),
    startInstant: Temporal.Instant.from(place.startsAt),
    endInstant: Temporal.Instant.from(place.endsAt),
    summary: `${about.course} at ${about.studio.name}`,
    description: lines.filter(Boolean).join('\n\n'),
    location: about.studio.address,
    geo: { lat: about.studio.lat, lon: about.studio.lon },
  };
}

function when({ place, wantedOn }: TeachingLetter): string {
  if (place) {
    const [start, end] = [
      Temporal.PlainDateTime.from(place.wallStart),
      Temporal.PlainDateTime.from(place.wallEnd),
    ];
    return `${dayInWords(start)}, ${timeInWords(start)} to ${timeInWords(end)}`;
  }
  return wantedOn === null ? 'Not fixed yet' : `Asked for ${dayInWords(Temporal.PlainDate.from(wantedOn))}`;
}

function inWords(zone: string, at: string): string {
  const wall = instantToWall(zone, Temporal.Instant.from(at));
  return `${dayInWords(wall)}, ${timeInWords(wall)}`;
}
