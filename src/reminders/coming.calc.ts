// How somebody comes, as reminders need it: as they say themselves, else as their journey is reckoned. Pure.
import type { Contact } from '../people/people.schemas.js';
import { journeyOf, type Spot, travelOf, type Visit } from '../travel/journey.calc.js';
import type { Coming } from './reminder-plan.calc.js';

/** Null where their home is not known. Without a place nobody knows when they leave. */
export function comingOf(
  { home, plan }: Pick<Contact, 'home' | 'plan'>,
  studio: Spot,
  place: Visit | null,
): Coming | null {
  if (!home) return null;
  const there = { lat: studio.lat, lon: studio.lon, zone: studio.zone };
  const travel = travelOf(home, there, plan);
  const journey = place && journeyOf(home, there, place, plan);
  return {
    zone: home.zone,
    km: Math.round(travel.km),
    flies: travel.mode === 'flight',
    abroad: travel.abroad,
    staysANight: travel.night,
    leaveBy: journey?.leaveBy ?? null,
  };
}
