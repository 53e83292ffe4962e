// A sitting's facts in words, for pages, letters and calendars alike.
import { dayInWords } from '../lib/words.js';
import type { SuitingDays } from './sittings.schemas.js';
import type { SittingState } from './states.calc.js';

/** "any open day from Friday 1 January 2027 to ..." or the days themselves. */
export function daysInWords(suits: SuitingDays): string {
  if (suits.kind === 'any') return `any open day from ${dayInWords(suits.from)} to ${dayInWords(suits.until)}`;
  return suits.days.map(dayInWords).join(', ');
}

/** What each state is called on screen. */
export const STATE_WORDS: Record<SittingState, string> = {
  requested: 'waiting for the studio’s answer',
  confirmed: 'confirmed',
  declined: 'declined',
  withdrawn: 'withdrawn',
  released: 'given back',
  called_off: 'called off by the studio',
};
