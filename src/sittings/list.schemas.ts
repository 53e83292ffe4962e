// What the waiting list shows of each sitting on it, and what the owner notes there.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Offer } from '../waiting/offers.schemas.js';
import type { PassOn } from '../waiting/pass-on.calc.js';
import type { Ranked } from '../waiting/rank.calc.js';
import type { Mode } from '../waiting/rules.schemas.js';
import type { ExpectedWait } from '../waiting/wait.calc.js';
import { longText } from './request.schemas.js';
import type { Marks, SittingView } from './sittings.schemas.js';

export interface Listed {
  view: SittingView;
  ranked: Ranked;
}

export interface LiveOffer {
  view: SittingView;
  offer: Offer;
}

/** A place that came free, and who could be asked. */
export interface FreedPlace {
  wallStart: Temporal.PlainDateTime;
  candidates: PassOn;
  /** The rule offers it by itself, and may not have come to it yet. */
  byRule: boolean;
}

/** The same in short: who is next, and how many more could be asked. */
export interface FreedForWho extends Pick<FreedPlace, 'wallStart' | 'byRule'> {
  first: SittingView;
  others: number;
  mode: Mode;
}

/** Where somebody stands on the list, and what their wait is reckoned from. */
export interface Standing {
  position: number;
  of: number;
  wait: ExpectedWait;
  /** In the months ahead for which places are given. */
  months: number;
  open: number;
  given: number;
  acceptedShare: number;
  givenBackShare: number;
}

const LONGEST_REASON = 300;
const DAYS = 'Please give whole days from 0 to 365, or leave this empty.';

export const marksForm = z
  .object({
    priority: longText(LONGEST_REASON).default(''),
    hardship: longText(LONGEST_REASON).default(''),
    noticeDays: z
      .string()
      .trim()
      .regex(/^(\d{1,3})?$/, DAYS)
      .default('')
      .transform((text) => (text === '' ? null : Number(text)))
      .pipe(z.number().max(365, DAYS).nullable()),
  })
  .transform((marks): Marks => marks);
