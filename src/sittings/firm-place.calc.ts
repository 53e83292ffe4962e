// The place of a sitting while there is something to remind of: given, and its hour has not come. Pure.
import type { FirmPlace } from '../people/letters-to-come.schemas.js';
import type { SittingView } from './sittings.schemas.js';

interface Seen {
  view: SittingView;
  /** Its hour has come. */
  begun: boolean;
}

export function firmPlace({ view: { sitting, place, contact }, begun }: Seen): FirmPlace | null {
  if (sitting.state !== 'confirmed' || !place?.holds || begun) return null;
  return { of: { sittingId: sitting.id }, turns: sitting.turns, contact, place };
}
