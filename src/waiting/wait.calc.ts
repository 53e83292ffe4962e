// How long somebody on the list may expect to wait: a range of months with what it rests on, never a date.
// Places come to the list at random, more in bright months than in dark ones; the n-th in line waits for n of them.
import gammaQuantile from '@stdlib/stats-base-dists-gamma-quantile';

/** Months are told up to here; beyond, the answer is that it cannot be said. Assumption. */
export const MOST_MONTHS = 60;

/** What is known of a month: places of it still open, and places of it given to somebody. */
export interface MonthOfPlaces {
  open: number;
  given: number;
}

/** What became of offers and places so far. */
export interface Experience {
  offersAnswered: number;
  offersAccepted: number;
  placesGiven: number;
  placesGivenBack: number;
}

/**
 * Until a studio has its own: 7 of 10 offers are accepted, one of 10 places is given back, each weighed like ten that
 * were seen. Assumption.
 */
const BEFORE = { accepted: 0.7, givenBack: 0.1, weight: 10 };

export function acceptedShare({ offersAccepted, offersAnswered }: Experience): number {
  return (offersAccepted + BEFORE.accepted * BEFORE.weight) / (offersAnswered + BEFORE.weight);
}

export function givenBackShare({ placesGiven, placesGivenBack }: Experience): number {
  return (placesGivenBack + BEFORE.givenBack * BEFORE.weight) / (placesGiven + BEFORE.weight);
}

/** Places a month that are taken by somebody on the list: open or given back, and accepted. */
export function placesToCome(months: readonly MonthOfPlaces[], seen: Experience): number[] {
  return months.map(({ open, given }) => acceptedShare(seen) * (open + givenBackShare(seen) * given));
}

/**
 * Months until n places have come with a probability, where month i from now brings rates[i], and after the last the
 * months come again from the first. For a Poisson stream of rate r(t) the sum of r up to the n-th is Gamma(n, 1).
 * Infinity when no place ever comes; `probability` lies between 0 and 1, both excluded, n is at least 1.
 */
export function waitQuantile(n: number, rates: readonly number[], probability: number): number {
  let left = gammaQuantile(probability, n, 1);
  const around = rates.reduce((sum, rate) => sum + rate, 0);
  if (!(around > 0)) return Number.POSITIVE_INFINITY;
  const rounds = Math.floor(left / around);
  left -= rounds * around;
  let months = rounds * rates.length;
  for (const rate of rates) {
    if (left <= rate) return months + (rate > 0 ? left / rate : 0);
    left -= rate;
    months += 1;
  }
  return months;
}

export type ExpectedWait =
  /** Whole months, rounded outwards: in 8 cases of 10 it lies between the two. */
  | { ok: true; from: number; to: number }
  /** Too few places are in sight to say anything. */
  | { ok: false; reason: 'too few places' };

/** The 10 % and 90 % of waiting for the n-th place, in whole months. */
export function expectedWait(n: number, rates: readonly number[]): ExpectedWait {
  const [from, to] = [waitQuantile(n, rates, 0.1), waitQuantile(n, rates, 0.9)];
  if (!(to <= MOST_MONTHS)) return { ok: false, reason: 'too few places' };
  return { ok: true, from: Math.floor(from), to: Math.max(1, Math.ceil(to)) };
}
