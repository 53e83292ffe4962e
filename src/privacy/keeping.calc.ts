// When a person's time is over by the studio's rules of keeping. Pure.
import { Temporal } from 'temporal-polyfill';
import type { Keeping } from './privacy.schemas.js';

/** Something a person asked for: still open, not answered, come to nothing, or held; and since when. */
export interface Asked {
  how: 'open' | 'unanswered' | 'refused' | 'made';
  since: Temporal.Instant;
}

/**
 * From when on a person is erased: the latest of what the rules say of each thing they asked for. Null while one is open,
 * where a rule says never, and for somebody of whom nothing is known to have been asked.
 */
export function erasedFrom(asked: readonly Asked[], keeping: Keeping): Temporal.Instant | null {
  let latest: Temporal.Instant | null = null;
  for (const one of asked) {
    const from = endOf(one, keeping);
    if (from === null) return null;
    if (latest === null || from.epochMilliseconds > latest.epochMilliseconds) latest = from;
  }
  return latest;
}

function endOf({ how, since }: Asked, keeping: Keeping): Temporal.Instant | null {
  const days = how === 'unanswered' ? keeping.unansweredDays : how === 'refused' ? keeping.refusedDays : null;
  if (days !== null) return since.add({ hours: 24 * days });
  if (how !== 'made' || keeping.madeMonths === null) return null;
  const utc = Temporal.PlainDateTime.from(since.toString().replace('Z', ''));
  return Temporal.Instant.from(`${utc.add({ months: keeping.madeMonths })}Z`);
}
