// Until when an offer stays open, and who is not asked because they could not come in time.
// Wall times at the studio decide; an offer never ends at night or on a weekend.
import { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import type { Notice, OfferLife } from './rules.schemas.js';

/** Waking hours that anybody must have to answer. Assumption. */
export const LEAST_HOURS = 4;
/** No offer ends outside these hours of the day, time at the studio. Common practice, no source. */
const DAYTIME = { from: 8, until: 20 };

export type Expiry =
  | { ok: true; expiresAt: Temporal.Instant; byTelephone: boolean }
  /** The place begins before they could be there, or before anybody could answer. */
  | { ok: false; reason: 'notice too long' | 'no time to answer' };

/** How far somebody comes, as travel tells it; null where their home is not known. */
export type FarAway = 'near' | 'day trip' | 'night stay' | 'flight' | null;

/** Days of notice somebody needs: what they said, or else by how far they come; the shortest for an unknown home. */
export function noticeNeeded(farAway: FarAway, said: number | null, notice: Notice): number {
  if (said !== null) return said;
  const byDistance = {
    near: notice.near,
    'day trip': notice.day,
    'night stay': notice.night,
    flight: notice.flight,
  };
  return farAway === null ? notice.near : byDistance[farAway];
}

/**
 * When an offer made now for a place would run out. It lasts the days of the rule, and on to the hour at which offers
 * end on a working day; but it ends early enough that the notice remains, and then leaves at least LEAST_HOURS of
 * daytime on working days. Days of notice are days of the wall: "one day before" is the same time of day.
 */
export function offerExpiry(o: {
  zone: string;
  now: Temporal.Instant;
  startsAt: Temporal.Instant;
  noticeDays: number;
  life: OfferLife;
}): Expiry {
  const { zone, now, startsAt, life } = o;
  const made = instantToWall(zone, now);
  const start = instantToWall(zone, startsAt);
  const latest = start.subtract({ days: o.noticeDays });
  const latestAt = instantAt(zone, latest);
  if (Temporal.Instant.compare(latestAt, now) <= 0) return { ok: false, reason: 'notice too long' };
  const { days, byTelephone } = lifeFor(made, start, life);
  const wanted = endFrom(made.add({ days }), life.endsAtHour);
  const end = Temporal.PlainDateTime.compare(wanted, latest) <= 0 ? wanted : endBy(latest, life.endsAtHour);
  const expiresAt = instantAt(zone, end);
  const inTime =
    Temporal.Instant.compare(expiresAt, now) > 0 &&
    Temporal.Instant.compare(expiresAt, latestAt) <= 0 &&
    daytimeHours(made, end) >= LEAST_HOURS;
  return inTime ? { ok: true, expiresAt, byTelephone } : { ok: false, reason: 'no time to answer' };
}

function lifeFor(made: Temporal.PlainDateTime, start: Temporal.PlainDateTime, life: OfferLife) {
  const weeksOn = (weeks: number) => made.add({ days: 7 * weeks });
  if (Temporal.PlainDateTime.compare(start, weeksOn(life.nearWeeks)) < 0)
    return { days: life.telephoneDays, byTelephone: true };
  const far = Temporal.PlainDateTime.compare(start, weeksOn(life.farWeeks)) > 0;
  return { days: far ? life.farDays : life.middleDays, byTelephone: false };
}

/** The first end of a working day at or after a wall time. */
function endFrom(wall: Temporal.PlainDateTime, hour: number): Temporal.PlainDateTime {
  let day = wall.toPlainDate();
  while (!isWorkday(day) || Temporal.PlainDateTime.compare(atHour(day, hour), wall) < 0)
    day = day.add({ days: 1 });
  return atHour(day, hour);
}

/** The last end of a working day at or before a wall time. */
function endBy(wall: Temporal.PlainDateTime, hour: number): Temporal.PlainDateTime {
  let day = wall.toPlainDate();
  while (!isWorkday(day) || Temporal.PlainDateTime.compare(atHour(day, hour), wall) > 0)
    day = day.subtract({ days: 1 });
  return atHour(day, hour);
}

/** Hours of daytime on working days between two wall times; 0 when the second is not later. */
function daytimeHours(from: Temporal.PlainDateTime, until: Temporal.PlainDateTime): number {
  let hours = 0;
  let day = from.toPlainDate();
  while (hours < LEAST_HOURS && Temporal.PlainDate.compare(day, until.toPlainDate()) <= 0) {
    if (isWorkday(day)) {
      const begins = later(atHour(day, DAYTIME.from), from);
      const ends = earlier(atHour(day, DAYTIME.until), until);
      if (Temporal.PlainDateTime.compare(begins, ends) < 0) hours += begins.until(ends).total('hours');
    }
    day = day.add({ days: 1 });
  }
  return hours;
}

/** Monday to Friday; holidays are not known. */
const isWorkday = (day: Temporal.PlainDate) => day.dayOfWeek <= 5;
const atHour = (day: Temporal.PlainDate, hour: number) => day.toPlainDateTime({ hour });
const later = (a: Temporal.PlainDateTime, b: Temporal.PlainDateTime) =>
  Temporal.PlainDateTime.compare(a, b) > 0 ? a : b;
const earlier = (a: Temporal.PlainDateTime, b: Temporal.PlainDateTime) =>
  Temporal.PlainDateTime.compare(a, b) < 0 ? a : b;

/** A wall time that comes twice is meant the second time; one that is skipped, an hour earlier. */
function instantAt(zone: string, wall: Temporal.PlainDateTime): Temporal.Instant {
  const answer = wallToInstant(zone, wall, 'later');
  return answer.ok ? answer.instant : instantAt(zone, wall.subtract({ hours: 1 }));
}
