// A sitting's facts in words, for pages, letters and calendars alike.
import type { HoldStill } from '../room/openings.calc.js';
import type { Worded } from './consents.calc.js';
import type { SuitingDays } from './sittings.schemas.js';
import type { SittingState } from './states.calc.js';
import { type Words, wordsFor } from '../words/words-for.js';

/** "any open day from Friday 1 January 2027 to ..." or the days themselves. */
export function daysInWords(suits: SuitingDays, { asking, dates }: Words = wordsFor('en')): string {
  if (suits.kind === 'any') return asking.anyDay(dates.day(suits.from), dates.day(suits.until));
  return suits.days.map(dates.day).join(', ');
}

/** What people agree to, and the house rules, as headings at the desk. */
export const PURPOSE_WORDS: Record<Worded, string> = wordsFor('en').agreeing.purposes;

/** What each state is called at the desk. */
export const STATE_WORDS: Record<SittingState, string> = wordsFor('en').place.states;

/** Of a clear sky the least and the most, of a dull one the most: whole seconds, at least one. */
export function wholeSeconds({ clear, dull }: HoldStill): [from: number, to: number, most: number] {
  const whole = (seconds: number) => Math.max(1, Math.round(seconds));
  return [whole(clear.from), whole(clear.to), whole(dull.to)];
}

/** "hold still 6 to 9 seconds if clear, up to 34 if dull". */
export function holdStillInWords(holdStill: HoldStill, { studio }: Words = wordsFor('en')): string {
  return studio.holdStill(...wholeSeconds(holdStill));
}
