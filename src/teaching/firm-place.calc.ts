// The place at a day of teaching while there is something to remind of: signed, and the day has not begun. Pure.
import type { FirmPlace } from '../people/letters-to-come.schemas.js';
import type { OwnView } from './day-views.schemas.js';

export function firmPlace({ signUp, day, contact }: OwnView, begun: boolean): FirmPlace | null {
  if (signUp.state !== 'signed' || !day?.place.holds || begun) return null;
  return { of: { signUpId: signUp.id }, turns: signUp.turns, contact, place: day.place };
}
