// What each feed says of teaching days. Pure: days, and who comes, in, calendar entries out. Whom to ring in an
// emergency stands in none of them; access needs only in those of owner and assistant, and nobody's name in the public
// one.
import type { Temporal } from 'temporal-polyfill';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { DayView, DayWithPeople, OwnDay } from '../teaching/day-views.schemas.js';
import type { Session, SignUp } from '../teaching/teaching.schemas.js';
import { EXPERIENCE_WORDS, partsWithTimes } from '../teaching/words.calc.js';
import { LANGUAGE_OF_DESK, type Language } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { CalendarEntry } from './ics.calc.js';
import { laterOf } from './revision.calc.js';

/** The entry of a day with who comes; the owner's also tells how they are reached. */
export function staffTeachingEntry(
  place: Occupancy,
  { session, signUps }: DayWithPeople,
  studio: Studio,
  url: string,
  of: 'owner' | 'assistant',
): CalendarEntry {
  const { course } = session;
  const who = signUps.flatMap(({ signUp, contact, students }) => [
    ...students.map((student) =>
      [
        `${student.name}${signUp.state === 'offered' ? ' (offered, not answered)' : ''}`,
        EXPERIENCE_WORDS[student.experience],
        student.brings && `brings: ${student.brings}`,
        student.access && `would help: ${student.access}`,
        ...Object.entries(student.gear).map(([name, size]) => size && `${name}: ${size}`),
      ]
        .filter(Boolean)
        .join('; '),
    ),
    ...(of === 'owner' ? [`Contact: ${contact.name} ${contact.telephone || contact.email}`.trim()] : []),
  ]);
  const lines = [
    who.length === 0 ? 'Nobody has signed up yet.' : who.join('\n'),
    partsInWords(session, place, wordsFor(LANGUAGE_OF_DESK)),
    session.secondAdult && `Second adult: ${session.secondAdult}`,
    of === 'owner' && signUps.length > 0 && session.least > session.taken
      ? `At least ${session.least} are needed.`
      : '',
  ];
  const draft = session.state === 'draft' ? 'Draft: ' : '';
  return {
    ...times(place, place.holds, staffRevision(session, place)),
    uid: place.uid,
    summary: `${draft}Teaching: ${course.name} (${session.taken} of ${session.places})`,
    description: lines.filter(Boolean).join('\n\n'),
    location: studio.address,
    url,
  };
}

/** The entry that anybody may read: what is taught, and how many places are left. */
export function publicTeachingEntry(
  { session, place }: DayView,
  studio: Studio,
  url: string,
  language: Language,
): CalendarEntry {
  const { course } = session;
  const words = wordsFor(language);
  const { calendar } = words;
  const stands = session.state === 'open' || session.state === 'full' || session.state === 'run';
  const left = session.places - session.taken;
  const places =
    session.state === 'full' || left === 0 ? calendar.noneLeft : calendar.left(left, session.places);
  const lines = [
    course.about,
    stands && session.state !== 'run' ? places : '',
    partsInWords(session, place, words),
    course.leastAge > 0 ? calendar.leastAge(course.leastAge) : '',
    course.fee && calendar.fee(course.fee),
  ];
  return {
    ...times(place, stands, staffRevision(session, place)),
    // the room's own uid is the owner's: who follows both calendars has two entries, neither in the other's place
    uid: session.id,
    language,
    summary: calendar.course(course.name, studio.name),
    description: lines.filter(Boolean).join('\n\n'),
    location: studio.address,
    geo: { lat: studio.lat, lon: studio.lon },
    url,
    transparent: true, // nobody is busy with a day that they only know of
  };
}

/** The entry of who has, or had, a place: their own day, with what to bring and its parts. @param url their page */
export function studentEntry(
  { signUp, session, place, students }: OwnDay,
  studio: Studio,
  url: string,
  language: Language,
): CalendarEntry {
  const { course } = session;
  const words = wordsFor(language);
  const { calendar } = words;
  const lines = [
    calendar.learns(students.map(({ name }) => name).join(', ')),
    course.bring && calendar.bring(course.bring),
    course.wear && calendar.wear(course.wear),
    partsInWords(session, place, words),
  ];
  return {
    ...times(place, hasDay(signUp), signUpRevision(signUp, place)),
    uid: signUp.id,
    language,
    summary: calendar.course(course.name, studio.name),
    description: lines.filter(Boolean).join('\n\n'),
    location: studio.address,
    geo: { lat: studio.lat, lon: studio.lon },
    url,
  };
}

/** Whether a day stands in the calendar of who signed up; one given back or called off is cancelled there. */
export const hasDay = ({ state }: Pick<SignUp, 'state'>): boolean =>
  state === 'signed' || state === 'attended' || state === 'did_not_come';

interface Revision {
  sequence: number;
  revisedAt: Temporal.Instant;
}

/** Of the place's own counter and the sign-up's turns, so that it rises with either and never falls. */
export const signUpRevision = (
  signUp: Pick<SignUp, 'turns' | 'revisedAt'>,
  place: Pick<Occupancy, 'sequence' | 'revisedAt'>,
): Revision => ({
  sequence: signUp.turns + place.sequence,
  revisedAt: laterOf(signUp.revisedAt, place.revisedAt),
});

const staffRevision = (session: Session, place: Occupancy): Revision => ({
  sequence: session.sequence + place.sequence,
  revisedAt: laterOf(session.revisedAt, place.revisedAt),
});

const partsInWords = ({ course }: Session, place: Occupancy, words: Words): string =>
  partsWithTimes(course.parts, place.wallStart, words)
    .map(({ at, title, where }) => words.calendar.part(at, title, where))
    .join('\n');

function times(
  place: Occupancy,
  standing: boolean,
  revision: Revision,
): Omit<CalendarEntry, 'summary' | 'uid'> {
  return {
    ...revision,
    createdAt: place.createdAt,
    status: standing ? 'CONFIRMED' : 'CANCELLED',
    transparent: !standing,
    zone: place.zone,
    start: place.wallStart,
    end: place.wallEnd,
    startInstant: place.startsAt,
    endInstant: place.endsAt,
  };
}
