// What people's own pages need of reminders, which stand to the right of sittings and teaching: reminders themselves
// provide it (reminders.module.ts).
import type { Spot } from '../travel/journey.calc.js';
import type { FirmPlace, LetterToCome } from './letters-to-come.schemas.js';

export abstract class LettersToCome {
  /**
   * What is still to be sent to whoever has a place, the earliest first. Null without a place, as long as nothing is
   * planned for it, when they want none, and while nothing may be told to them.
   */
  abstract of(studio: Spot & { id: string }, firm: FirmPlace | null): Promise<LetterToCome[] | null>;
}
