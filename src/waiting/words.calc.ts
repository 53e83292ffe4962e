// The waiting list in plain words: why somebody stands where they do, why somebody is not asked, how long it may take.
import { counted } from '../lib/words.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { NotAsked } from './pass-on.calc.js';
import type { Ranked, Reason } from './rank.calc.js';
import type { Mode } from './rules.schemas.js';
import type { ExpectedWait } from './wait.calc.js';

/** "asked 8 months ago", with its points where it has any: "named by you: the last keeper (12)". */
export function reasonInWords(reason: Reason): string {
  const points = 'points' in reason && reason.points > 0 ? ` (${reason.points})` : '';
  switch (reason.what) {
    case 'return owed':
      return 'a return place is owed';
    case 'asked':
      return `asked ${agoInWords(reason.days)}${points}`;
    case 'flexible':
      return `can come on ${Math.round(reason.share * 100)} % of your days${points}`;
    case 'far':
      return `needs ${reason.noticeDays === 1 ? 'one day’s' : `${counted(reason.noticeDays, 'day')}’`} notice${points}`;
    case 'series':
      return `a series sitting${points}`;
    case 'priority':
      return `named by you: ${reason.because}${points}`;
    case 'hardship':
      return `hardship: ${reason.because}${points}`;
  }
}

function agoInWords(days: number): string {
  if (days === 0) return 'today';
  return days < 60 ? `${counted(days, 'day')} ago` : `${counted(Math.floor(days / 30.44), 'month')} ago`;
}

/** What puts somebody before the next on the list. */
export const BEFORE_WORDS: Record<NonNullable<Ranked['before']>, string> = {
  'return owed': 'before the next, since a return place is owed',
  points: 'before the next by points',
  'asked first': 'equal in points with the next, but asked first',
  number: 'equal with the next in all; the order between them is by number',
};

export const NOT_ASKED_WORDS: Record<NotAsked, string> = {
  'said no to it': 'said no to it, or let it pass',
  'day does not suit': 'that day does not suit',
  'does not fit': 'the sitting does not fit into it',
  'notice too long': 'needs longer notice than there is',
  'no time to answer': 'too little time for an answer',
};

export const MODE_WORDS: Record<Mode, string> = {
  'by hand': 'You choose yourself whom to ask',
  propose: 'The next on the list is proposed, and you confirm',
  automatic: 'The next on the list is asked at once, without you',
};

/** "Between 2 and 8 months", "Up to 3 months". */
export function waitInWords(wait: ExpectedWait, { place }: Words = wordsFor('en')): string {
  if (!wait.ok) return place.wait.notKnown;
  return wait.from === 0 ? place.wait.upTo(wait.to) : place.wait.between(wait.from, wait.to);
}
