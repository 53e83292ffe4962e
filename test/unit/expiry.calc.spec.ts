// Until when offers stay open: worked dates by hand, and every zone against a search that only knows wall clocks.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant, zoneNames } from '../../src/lib/zoned-time.js';
import { LEAST_HOURS, noticeNeeded, offerExpiry } from '../../src/waiting/expiry.calc.js';
import { DEFAULT_WAITING_RULES, type OfferLife } from '../../src/waiting/rules.schemas.js';
import { scale } from '../support/scale.js';

const LONDON = 'Europe/London';
const { life, notice } = DEFAULT_WAITING_RULES;

function at(wall: string, zone = LONDON): Temporal.Instant {
  const answer = wallToInstant(zone, Temporal.PlainDateTime.from(wall), 'later');
  if (!answer.ok) throw new Error(`${wall} is skipped in ${zone}`);
  return answer.instant;
}

/** "Tue 2026-12-08T18:00, by telephone", or why nobody is asked. */
function told(now: string, start: string, noticeDays = 1, zone = LONDON): string {
  const answer = offerExpiry({ zone, now: at(now, zone), startsAt: at(start, zone), noticeDays, life });
  if (!answer.ok) return answer.reason;
  const wall = instantToWall(zone, answer.expiresAt);
  const day = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'][wall.dayOfWeek - 1];
  return `${day} ${wall.toString({ smallestUnit: 'minute' })}${answer.byTelephone ? ', by telephone' : ''}`;
}

describe('an offer made on Wednesday 25 November 2026 at 16:30', () => {
  const made = (start: string, noticeDays?: number) => told('2026-11-25T16:30', start, noticeDays);

  it('stays open ten days for a place over eight weeks ahead, and over the weekend they end on', () => {
    expect(made('2027-03-12T10:00')).toBe('Mon 2026-12-07T18:00'); // 5 December is a Saturday
  });
  it('stays open three days for a place two to eight weeks ahead, and over the weekend they end on', () => {
    expect(made('2026-12-18T10:00')).toBe('Mon 2026-11-30T18:00'); // 28 November is a Saturday
    expect(made('2027-01-20T16:30')).toBe('Mon 2026-11-30T18:00'); // eight weeks to the minute
    expect(made('2027-01-20T16:31')).toBe('Mon 2026-12-07T18:00');
  });
  it('is made by telephone under two weeks ahead, and held for a day', () => {
    expect(made('2026-12-04T10:00')).toBe('Thu 2026-11-26T18:00, by telephone');
    expect(made('2026-12-09T16:29')).toBe('Thu 2026-11-26T18:00, by telephone');
    expect(made('2026-12-09T16:30')).toBe('Mon 2026-11-30T18:00');
  });
  it('is not made to somebody who needs longer notice than there is time', () => {
    expect(made('2026-12-18T10:00', 42)).toBe('notice too long');
    expect(made('2026-12-18T10:00', 23)).toBe('notice too long');
  });
  it('ends early enough that the notice remains', () => {
    expect(made('2026-12-18T10:00', 21)).toBe('Thu 2026-11-26T18:00'); // to be known by the 27th at 10:00
    expect(made('2026-12-18T19:00', 21)).toBe('Fri 2026-11-27T18:00');
  });
  it('is not made when nobody would have half a working day to answer', () => {
    expect(made('2026-11-26T10:00', 0)).toBe('no time to answer'); // 90 minutes until 18:00
    expect(made('2026-11-27T10:00', 0)).toBe('Thu 2026-11-26T18:00, by telephone');
  });
});

it('gives at least the days of the rule to whoever is asked after the hour at which offers end', () => {
  expect(told('2026-11-23T18:00', '2026-12-18T10:00')).toBe('Thu 2026-11-26T18:00');
  expect(told('2026-11-23T18:01', '2026-12-18T10:00')).toBe('Fri 2026-11-27T18:00');
});

it('goes by the clock on the studio’s wall where the clocks change between asking and answer', () => {
  // London goes to summer time on 28 March 2027, New York on 14 March.
  expect(told('2027-03-25T12:00', '2027-05-14T10:00')).toBe('Mon 2027-03-29T18:00');
  const answer = offerExpiry({
    zone: LONDON,
    now: at('2027-03-25T12:00'),
    startsAt: at('2027-05-14T10:00'),
    noticeDays: 1,
    life,
  });
  expect(answer.ok && answer.expiresAt.toString()).toBe('2027-03-29T17:00:00Z');
  expect(told('2027-03-12T12:00', '2027-04-09T10:00', 1, 'America/New_York')).toBe('Mon 2027-03-15T18:00');
});

it('counts days of notice as the same time of day, though a day has 23 or 25 hours', () => {
  // Friday's place may still be known on Thursday at 18:00, and on no account at 18:01.
  expect(told('2026-10-22T10:00', '2026-10-27T18:00', 1)).toBe('Fri 2026-10-23T18:00, by telephone');
  expect(told('2026-10-25T17:59', '2026-10-26T18:00', 1)).toBe('no time to answer');
  expect(told('2026-10-25T18:00', '2026-10-26T18:00', 1)).toBe('notice too long');
});

it('takes the notice somebody said before the one of their distance, which it takes from the rule', () => {
  expect(noticeNeeded('flight', 3, notice)).toBe(3);
  expect(noticeNeeded('flight', 0, notice)).toBe(0);
  expect(
    (['near', 'day trip', 'night stay', 'flight'] as const).map((far) => noticeNeeded(far, null, notice)),
  ).toEqual([1, 4, 14, 42]);
  expect(noticeNeeded(null, null, notice)).toBe(1);
});

// ---- every zone ----

const lives: fc.Arbitrary<OfferLife> = fc
  .record({
    farWeeks: fc.integer({ min: 1, max: 20 }),
    farDays: fc.integer({ min: 1, max: 30 }),
    nearWeeks: fc.integer({ min: 0, max: 20 }),
    middleDays: fc.integer({ min: 1, max: 14 }),
    telephoneDays: fc.integer({ min: 1, max: 4 }),
    endsAtHour: fc.integer({ min: 9, max: 19 }),
  })
  .map((one) => ({ ...one, nearWeeks: Math.min(one.nearWeeks, one.farWeeks) }));

const cases = fc.record({
  zone: fc.constantFrom(...zoneNames()),
  minute: fc.integer({ min: Date.UTC(2026, 0, 1) / 60_000, max: Date.UTC(2030, 11, 31) / 60_000 }),
  aheadHours: fc.oneof(fc.integer({ min: 0, max: 24 * 30 }), fc.integer({ min: 0, max: 24 * 400 })),
  noticeDays: fc.oneof(fc.constant(1), fc.integer({ min: 0, max: 90 })),
  life: lives,
});

const MINUTE = 60_000;
const daysBetween = (a: Temporal.PlainDateTime, b: Temporal.PlainDateTime) => a.until(b).total('days');

it('never ends at night or on a weekend, leaves the notice, and lasts as long as the rule says, in every zone', () => {
  let made = 0;
  let clipped = 0;
  fc.assert(
    fc.property(cases, ({ zone, minute, aheadHours, noticeDays, life: rule }) => {
      const now = Temporal.Instant.fromEpochMilliseconds(minute * MINUTE);
      const startsAt = now.add({ hours: aheadHours });
      const answer = offerExpiry({ zone, now, startsAt, noticeDays, life: rule });
      const begun = instantToWall(zone, now);
      const start = instantToWall(zone, startsAt);
      if (daysBetween(begun, start) < noticeDays - 0.05) expect(answer.ok).toBe(false);
      if (!answer.ok) return;
      made += 1;
      const end = instantToWall(zone, answer.expiresAt);
      expect(end.dayOfWeek).toBeLessThanOrEqual(5);
      expect([8 <= end.hour, end.hour < 20]).toEqual([true, true]);
      expect(daysBetween(end, start)).toBeGreaterThanOrEqual(noticeDays);
      expect(answer.expiresAt.epochMilliseconds - now.epochMilliseconds).toBeGreaterThanOrEqual(
        (LEAST_HOURS - 2) * 60 * MINUTE, // two hours may be skipped by the clocks
      );
      const ahead = daysBetween(begun, start) / 7;
      const days =
        ahead < rule.nearWeeks ? rule.telephoneDays : ahead > rule.farWeeks ? rule.farDays : rule.middleDays;
      expect(answer.byTelephone).toBe(ahead < rule.nearWeeks);
      // The first moment that is such an hour of a working day, found by walking the hours of the wall.
      let first = begun.add({ days }).with({ minute: 0, second: 0, millisecond: 0 });
      if (Temporal.PlainDateTime.compare(first, begun.add({ days })) < 0) first = first.add({ hours: 1 });
      while (first.hour !== rule.endsAtHour || first.dayOfWeek > 5) first = first.add({ hours: 1 });
      if (daysBetween(first, start) >= noticeDays) expect(end.toString()).toBe(first.toString());
      else {
        clipped += 1;
        expect(Temporal.PlainDateTime.compare(end, first)).toBeLessThan(0);
        // and it could not have ended later: the next such hour leaves too little notice
        let following = end.add({ hours: 1 });
        while (following.hour !== rule.endsAtHour || following.dayOfWeek > 5)
          following = following.add({ hours: 1 });
        expect(daysBetween(following, start)).toBeLessThan(noticeDays);
      }
    }),
    { numRuns: scale(20_000, 1000) },
  );
  expect(made).toBeGreaterThan(scale(6000, 300));
  expect(clipped).toBeGreaterThan(scale(400, 20));
});
