// A journey as pages show it: the same facts on the calculator, on somebody's own page and on the owner's.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import { type Words, wordsFor } from '../words/words-for.js';
import { type Journey, journeyOf, type Spot, type Travel, travelOf, type Visit } from './journey.calc.js';
import { MODES } from './modes.calc.js';
import type { TravelPlan } from './plan.schemas.js';
import {
  clocksInWords,
  crossingInWords,
  durationInWords,
  kmInWords,
  leaveByInWords,
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
export const modeOptions = ({ journey }: Words = wordsFor('en')) =>
  MODES.map((mode) => ({ value: mode as string, label: journey.modes[mode] }));

/** `home` with its name; `zone` of the studio. */
export function journeyTold(
  travel: Travel | Journey,
  home: { name: string; zone: string },
  zone: string,
  words: Words = wordsFor('en'),
): ToldJourney {
  const journey = 'leaveBy' in travel ? travel : null;
  const { mode, minutes, own } = travel;
  const { facts, modes, range, reckoning } = words.journey;
  const how = `${modes[mode]}${own.mode ? facts.asYouSay : ''}`;
  const long = `${facts.doorToDoor(durationInWords(minutes, words))}${own.minutes ? facts.asYouSay : ''}`;
  return {
    leaveBy: journey && { when: leaveByInWords(journey, words), zone: home.zone },
    facts: [
      { term: facts.from, detail: home.name },
      { term: facts.how, detail: facts.howLong(how, long) },
      { term: facts.night, detail: nightInWords(travel, words) },
      ...(journey ? dayFacts(journey, home.zone, zone, words) : []),
      ...told(facts.water, crossingInWords(travel.crossing, words)),
      { term: facts.straight, detail: facts.overEarth(kmInWords(travel.km, words)) },
    ],
    ways: travel.ways.map((way) => [
      modes[way.mode],
      durationInWords(way.minutes, words),
      way.km === null ? facts.notKnown : `${range(String(way.km.from), String(way.km.to))} km`,
    ]),
    reckoning,
  };
}

/** The same of a contact; null as long as nobody knows where they come from. A place brings its own zone. */
export function contactJourneyTold(
  { home, plan }: { home: (Spot & { name: string }) | null; plan: TravelPlan },
  studio: Spot,
  place: (Visit & { zone: string }) | null,
  words: Words = wordsFor('en'),
): ToldJourney | null {
  if (!home) return null;
  const zone = place?.zone ?? studio.zone;
  const there = { lat: studio.lat, lon: studio.lon, zone };
  const travel = place ? journeyOf(home, there, place, plan) : travelOf(home, there, plan);
  return journeyTold(travel, home, zone, words);
}

function dayFacts(journey: Journey, homeZone: string, zone: string, words: Words): ToldJourney['facts'] {
  const { facts, dayAt } = words.journey;
  const at = (moment: Temporal.Instant, where: string) => {
    const wall = instantToWall(where, moment);
    return dayAt(words.dates.day(wall), words.dates.time(wall));
  };
  const { nightsOnTheWay, night, nightAfter } = journey;
  const there = (moment: Temporal.Instant) => facts.timeThere(at(moment, zone));
  return [
    ...(nightsOnTheWay > 0 ? [{ term: facts.onTheWay, detail: facts.nights(nightsOnTheWay) }] : []),
    ...(night ? [{ term: facts.nearBy, detail: there(journey.thereBy) }] : []),
    { term: facts.thereBy, detail: there(journey.atStudioBy) },
    {
      term: facts.homeBy,
      detail: `${at(journey.homeBy, homeZone)}${nightAfter ? facts.nightAfter : ''}`,
    },
    ...told(facts.clocks, clocksInWords(journey, words)),
  ];
}

const told = (term: string, detail: string | null) => (detail === null ? [] : [{ term, detail }]);
