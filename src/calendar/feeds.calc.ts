// What each feed says of each place. Pure: sittings and their places in, calendar entries out. Alarms stand in none: how
// long before somebody wants to be reminded of a sitting is for their calendar to know, and letters remind as well.
import { Temporal } from 'temporal-polyfill';
import { lightWindow } from '../daylight/window.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { SittingState } from '../sittings/states.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { CalendarEntry } from './ics.calc.js';

/** Feeds reach so many days back and months ahead; what was given up stays visible for CANCELLED_DAYS. */
export const WINDOW = { daysBack: 90, monthsAhead: 24 };
export const CANCELLED_DAYS = 14;
export const MOST_ENTRIES = 2000;

export const FEED_KINDS = ['owner', 'assistant', 'sitter', 'student', 'tasks', 'workshops', 'busy'] as const;
export type FeedKind = (typeof FEED_KINDS)[number];

/** The feeds at the owner's hand. */
export const DESK_FEEDS = ['owner', 'tasks', 'assistant', 'busy'] as const;
export type DeskFeed = (typeof DESK_FEEDS)[number];

/** The owner's entry: who, what is to be made, what they hope for, and the private notes. */
export function ownerEntry(
  place: Occupancy,
  view: SittingView | undefined,
  studio: Studio,
  url: string,
): CalendarEntry {
  if (!view)
    return {
      ...timesOf(place, place.holds),
      summary: place.title || 'Room closed',
      location: studio.address,
    };
  const notes = [
    ...view.plates.map((plate) => `${plate.sizeName}: ${plate.names.join(', ')}`),
    view.sitting.hopes && `Hopes for: ${view.sitting.hopes}`,
    view.sitting.anything && `To know: ${view.sitting.anything}`,
    `Contact: ${view.contact.name} ${view.contact.telephone || view.contact.email}`.trim(),
  ];
  return {
    ...timesOf(place, stands(place, view)),
    summary: `${place.tentative ? 'Offered' : 'Sitting'}: ${view.sitters.map((one) => one.name).join(', ')}`,
    description: notes.filter(Boolean).join('\n'),
    location: studio.address,
    url,
  };
}

/** The assistant's entry, for the day sheet: who comes, for which plates, and what would help them. */
export function assistantEntry(
  place: Occupancy,
  view: SittingView | undefined,
  studio: Studio,
  url: string,
): CalendarEntry {
  const entry = ownerEntry(place, view, studio, url);
  if (!view) return entry;
  const lines = [
    ...view.plates.map((plate) => `${plate.sizeName}: ${plate.names.join(', ')}`),
    view.sitting.details.access && `Would help: ${view.sitting.details.access}`,
    view.sitting.details.brings && `Brings: ${view.sitting.details.brings}`,
  ];
  return { ...entry, description: lines.filter(Boolean).join('\n') };
}

/**
 * The entry for family, or for another calendar: that the time is taken, and nothing else. A closed day is none: it
 * takes the room, not the owner's time. Its uid is not that of the owner's entry, so that who follows both has both.
 */
export function busyEntry(place: Occupancy): CalendarEntry | null {
  if (place.kind === 'closure') return null;
  return { ...timesOf(place, place.holds), uid: `${place.id}-busy`, summary: 'Busy' };
}

/** "Good light from 09:40 to 15:05."; '' on a day that has none. */
function lightInWords(place: Occupancy, studio: Studio, { dates, calendar }: Words): string {
  const light = lightWindow(studio, place.wallStart.toPlainDate(), studio.lightFloorDegrees);
  const clock = (at: typeof place.startsAt) => dates.time(instantToWall(studio.zone, at));
  return light ? calendar.light(clock(light.start), clock(light.end)) : '';
}

/** The sitter's entry, in their language: nothing but what is theirs; null for a place that is or was only offered. @param url their page */
export function sitterEntry(
  place: Occupancy,
  view: SittingView,
  studio: Studio,
  url: string,
): CalendarEntry | null {
  if (place.tentative) return null;
  const { language } = view.contact;
  const words = wordsFor(language);
  const { calendar } = words;
  const { brings } = view.sitting.details;
  return {
    ...timesOf(place, stands(place, view)),
    language,
    summary: calendar.sitting(studio.name),
    description: [
      ...view.plates.map((plate) => words.place.facts.plate(plate.sizeName, plate.names.join(', '))),
      brings ? calendar.bring(brings) : calendar.bringNothing,
      lightInWords(place, studio, words),
    ]
      .filter((line) => line !== '')
      .join('\n'),
    location: studio.address,
    geo: { lat: studio.lat, lon: studio.lon },
    url,
  };
}

const STANDING: SittingState[] = ['offered', 'confirmed', 'made', 'came_no_plate', 'did_not_come'];

/** Whether the place is the sitting’s still. A confirmed one stands even where it lost the room to a clash and waits to be moved. */
export const stands = (place: Occupancy, { sitting }: SittingView) =>
  sitting.occupancyId === place.id && STANDING.includes(sitting.state);

function timesOf(place: Occupancy, standing: boolean): Omit<CalendarEntry, 'summary'> {
  return {
    uid: place.uid,
    sequence: place.sequence,
    revisedAt: place.revisedAt,
    createdAt: place.createdAt,
    status: !standing ? 'CANCELLED' : place.tentative ? 'TENTATIVE' : 'CONFIRMED',
    transparent: !standing,
    zone: place.zone,
    start: place.wallStart,
    end: place.wallEnd,
    startInstant: place.startsAt,
    endInstant: place.endsAt,
  };
}

/** The window moves once a day, at midnight UTC for all studios alike, so that a day has one ETag. */
export const startOf = (date: Temporal.PlainDate) => Temporal.Instant.from(`${date.toString()}T00:00:00Z`);
