// The journeys there and back as entries of somebody's own calendar, where they asked for them: by the clock at home, with
// the moment by which to leave. Pure: reckoned anew from where they come from and what they say of their journey.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import type { Contact, TravelShown } from '../people/people.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Words, wordsFor } from '../words/words-for.js';
import { type Journey, journeyOf, type Visit } from '../travel/journey.calc.js';
import { clocksInWords, durationInWords, leaveByInWords, nightInWords } from '../travel/words.calc.js';
import { laterOf } from './revision.calc.js';
import type { CalendarEntry } from './ics.calc.js';

/** An hour before they have to leave: the one alarm of all feeds, since nothing else is lost by half an hour. */
const ALARM_MINUTES = 60;

/** What a journey belongs to. */
export interface Visited extends Visit {
  /** Of the entry of the visit itself: letters, digits and hyphens. */
  uid: string;
  sequence: number;
  revisedAt: Temporal.Instant;
  createdAt: Temporal.Instant;
  /** The visit is going to be, or has been. */
  standing: boolean;
}

interface Traveller {
  contact: Pick<Contact, 'home' | 'plan' | 'language'>;
  shown: TravelShown;
  /** Those taken out of a calendar before this are forgotten there. */
  cancelledSince: Temporal.Instant;
}

/**
 * Two entries, there and back; none while nobody knows where they come from, or they were never asked for. Taken out
 * of the calendar, or of a visit that is not to be, they are cancelled.
 */
export function travelEntries(
  visit: Visited,
  { contact: { home, plan, language }, shown, cancelledSince }: Traveller,
  studio: Studio,
  url: string,
): CalendarEntry[] {
  const { revisedAt } = shown;
  if (home === null || revisedAt === null) return [];
  const took = revisedAt.epochMilliseconds;
  const known = visit.createdAt.epochMilliseconds <= took && took >= cancelledSince.epochMilliseconds;
  if (!shown.shown && !known) return [];
  const journey = journeyOf(home, studio, visit, plan);
  const stands = shown.shown && visit.standing;
  const words = wordsFor(language);
  const { there, back } = words.calendar.journey;
  const common = {
    sequence: visit.sequence + shown.turns,
    revisedAt: laterOf(visit.revisedAt, revisedAt),
    createdAt: visit.createdAt,
    status: stands ? ('CONFIRMED' as const) : ('CANCELLED' as const),
    transparent: !stands,
    zone: home.zone,
    url,
    language,
  };
  return [
    {
      ...common,
      ...span(home.zone, journey.leaveBy, journey.thereBy),
      uid: `${visit.uid}-there`,
      summary: there(studio.name),
      description: thereInWords(journey, home.name, studio.zone === home.zone ? '' : home.zone, words),
      location: studio.address,
      geo: { lat: studio.lat, lon: studio.lon },
      alarmsMinutesBefore: [ALARM_MINUTES],
    },
    {
      ...common,
      ...span(home.zone, visit.endsAt, journey.homeBy),
      uid: `${visit.uid}-back`,
      summary: back(studio.name),
      description: backInWords(journey, words),
      location: home.name,
    },
  ];
}

const span = (zone: string, startInstant: Temporal.Instant, endInstant: Temporal.Instant) => ({
  start: instantToWall(zone, startInstant),
  end: instantToWall(zone, endInstant),
  startInstant,
  endInstant,
});

const how = ({ mode, minutes }: Journey, words: Words) =>
  words.calendar.journey.how(words.journey.modes[mode], durationInWords(minutes, words));

/** @param zone the one at home; '' where it is the studio's */
function thereInWords(journey: Journey, from: string, zone: string, words: Words): string {
  const says = words.calendar.journey;
  return [
    says.leave(leaveByInWords(journey, words), zone && ` (${zone})`, from),
    how(journey, words),
    journey.night ? nightInWords(journey, words) : '',
    clocksInWords(journey, words) ?? '',
    says.estimate,
  ]
    .filter((line) => line !== '')
    .join('\n');
}

const backInWords = (journey: Journey, words: Words): string =>
  [how(journey, words), journey.nightAfter ? words.calendar.journey.nightAfter : '']
    .filter((line) => line !== '')
    .join('\n');
