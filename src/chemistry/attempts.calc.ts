// How many tries a number of kept plates takes. Each try gives a keeper with the same chance, whatever came before;
// and, where a rule says so, plates of one day fail together: a fogged bath spoils them all.
import negativeBinomialQuantile from '@stdlib/stats-base-dists-negative-binomial-quantile';
import type { AttemptRule } from './use-per-area.calc.js';

export const LEAST_KEEPER_SHARE = 0.05;
/** How alike the plates of a day can be at most. Assumption: beyond, a day would be all or nothing. */
export const MOST_SAME_DAY = 0.5;
/** Below this, days make no difference that shows in whole plates. */
const LEAST_SAME_DAY = 0.005;
/** Where bad days run together without an end of trying, nobody goes on for ever. Assumption. */
const MOST_TRIES_EACH = 50;

/**
 * The tries that suffice for `keepers` of one day with this certainty (0 to 1, not 1): keepers plus the quantile of the
 * failures before them, negative binomial, or beta negative binomial where plates of a day are alike.
 * Never more than stopAfter tries each. A probability equal to the certainty but for binary rounding counts as reached.
 * Throws RangeError for keepers, certainty or rule out of range.
 */
export function attemptsFor(keepers: number, rule: AttemptRule, certainty: number): number {
  const { keeperShare, stopAfter, sameDay = 0 } = rule;
  if (!Number.isInteger(keepers) || keepers < 1)
    throw new RangeError(`${keepers} is not a number of plates to keep.`);
  if (!(keeperShare >= LEAST_KEEPER_SHARE && keeperShare <= 1))
    throw new RangeError(`A share of ${keeperShare} kept plates is outside 0.05 to 1.`);
  if (stopAfter !== null && !(Number.isInteger(stopAfter) && stopAfter >= 1))
    throw new RangeError('One stops after a whole number of tries, at least one.');
  if (!(sameDay >= 0 && sameDay <= MOST_SAME_DAY))
    throw new RangeError(`Plates of a day cannot be alike by ${sameDay}.`);
  if (!(certainty > 0 && certainty < 1)) throw new RangeError(`${certainty} is not a certainty.`);
  if (keeperShare === 1) return keepers; // the package never comes back from a spread of nothing
  const enough = Math.max(certainty - 1e-9, 0);
  if (sameDay < LEAST_SAME_DAY) {
    const failures = negativeBinomialQuantile(enough, keepers, keeperShare);
    return Math.min(keepers + failures, keepers * (stopAfter ?? Number.POSITIVE_INFINITY));
  }
  const most = keepers * ((stopAfter ?? MOST_TRIES_EACH) - 1);
  return keepers + failuresOfAlike(keepers, keeperShare, sameDay, enough, most);
}

/**
 * The quantile of failures before so many keepers, at most `most`, when the chance itself differs from day to day by a
 * beta distribution with mean `share` and correlation `sameDay` between two plates of a day (alpha + beta =
 * 1 / sameDay - 1). Its terms, by logarithms: P(0) = B(alpha + r, beta) / B(alpha, beta),
 * P(k + 1) / P(k) = (r + k)(beta + k) / ((k + 1)(alpha + beta + r + k)).
 */
function failuresOfAlike(r: number, share: number, sameDay: number, enough: number, most: number): number {
  const total = 1 / sameDay - 1;
  const alpha = share * total;
  const beta = total - alpha;
  let log = 0;
  for (let i = 0; i < r; i += 1) log += Math.log((alpha + i) / (total + i));
  let reached = 0;
  for (let k = 0; k < most; k += 1) {
    reached += Math.exp(log);
    if (reached >= enough) return k;
    log += Math.log(((r + k) * (beta + k)) / ((k + 1) * (total + r + k)));
  }
  return most;
}
