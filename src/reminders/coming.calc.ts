// How somebody comes, as reminders need it. Pure.
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { Coming } from './reminder-plan.calc.js';

/** At the door so long before the hour. Assumption. */
const MARGIN_MINUTES = 30;

/** Null where their home is not known. Who flies leaves when their ticket says, which nobody knows here. */
export function comingOf(
  { contact, journey }: SittingView,
  place: Pick<Occupancy, 'startsAt'> | null,
): Coming | null {
  if (!contact.home || !journey) return null;
  const minutes = journey.hours && Math.round(journey.hours.to * 60) + MARGIN_MINUTES;
  return {
    zone: contact.home.zone,
    km: journey.km,
    flies: journey.farAway === 'flight',
    abroad: false,
    staysANight: journey.overnight,
    leaveBy: minutes === null || !place || journey.overnight ? null : place.startsAt.subtract({ minutes }),
  };
}
