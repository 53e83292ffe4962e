// A journey as pages show it: the same facts on the calculator, on somebody's own page and on the owner's.
import type { Temporal } from 'temporal-polyfill';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { type Journey, journeyOf, type Spot, type Travel, travelOf, type Visit } from './journey.calc.js';
import { MODES } from './modes.calc.js';
import type { TravelPlan } from './plan.schemas.js';
import {
  clocksInWords,
  crossingInWords,
  durationInWords,
  JOURNEY_RECKONING,
  kmInWords,
  leaveByInWords,
  MODE_LABELS,
  nightInWords,
} from './words.calc.js';

export interface ToldJourney {
  leaveBy: { when: string; zone: string } | null;
  facts: { term: string; detail: string }[];
  /** How, how long, and how far along the way. */
  ways: string[][];
  reckoning: readonly string[];
}

/** For choosing one. */
export const MODE_OPTIONS = MODES.map((mode) => ({ value: mode as string, label: MODE_LABELS[mode] }));

/** `home` with its name; `zone` of the studio. */
export function journeyTold(
  travel: Travel | Journey,
  home: { name: string; zone: string },
  zone: string,
): ToldJourney {
  const journey = 'leaveBy' in travel ? travel : null;
  const { mode, minutes, own } = travel;
  const how = `${MODE_LABELS[mode]}${own.mode ? ', as you say' : ''}`;
  const long = `${durationInWords(minutes)} from door to door${own.minutes ? ', as you say' : ''}`;
  return {
    leaveBy: journey && { when: leaveByInWords(journey), zone: home.zone },
    facts: [
      { term: 'From', detail: home.name },
      { term: 'How', detail: `${how}: ${long}` },
      { term: 'Night', detail: nightInWords(travel) },
      ...(journey ? dayFacts(journey, home.zone, zone) : []),
      ...told('Water', crossingInWords(travel.crossing)),
      { term: 'Straight line', detail: `${kmInWords(travel.km)} over the earth` },
    ],
    ways: travel.ways.map((way) => [
      MODE_LABELS[way.mode],
      durationInWords(way.minutes),
      way.km === null ? 'not known' : `${way.km.from} to ${way.km.to} km`,
    ]),
    reckoning: JOURNEY_RECKONING,
  };
}

/** The same of a contact; null as long as nobody knows where they come from. A place brings its own zone. */
export function contactJourneyTold(
  { home, plan }: { home: (Spot & { name: string }) | null; plan: TravelPlan },
  studio: Spot,
  place: (Visit & { zone: string }) | null,
): ToldJourney | null {
  if (!home) return null;
  const zone = place?.zone ?? studio.zone;
  const there = { lat: studio.lat, lon: studio.lon, zone };
  return journeyTold(place ? journeyOf(home, there, place, plan) : travelOf(home, there, plan), home, zone);
}

function dayFacts(journey: Journey, homeZone: string, zone: string): ToldJourney['facts'] {
  const at = (moment: Temporal.Instant, where: string) => {
    const wall = instantToWall(where, moment);
    return `${dayInWords(wall)}, ${timeInWords(wall)}`;
  };
  const { nightsOnTheWay, night, nightAfter } = journey;
  const more = counted(nightsOnTheWay, 'more night');
  return [
    ...(nightsOnTheWay > 0
      ? [{ term: 'On the way', detail: `${more}, so that no day has over eight hours on the road` }]
      : []),
    ...(night ? [{ term: 'Near the studio by', detail: `${at(journey.thereBy, zone)}, time there` }] : []),
    { term: 'At the studio by', detail: `${at(journey.atStudioBy, zone)}, time there` },
    {
      term: 'Home again by',
      detail: `${at(journey.homeBy, homeZone)}${nightAfter ? '; a night’s stay after it is wise as well' : ''}`,
    },
    ...told('Clocks', clocksInWords(journey)),
  ];
}

const told = (term: string, detail: string | null) => (detail === null ? [] : [{ term, detail }]);
