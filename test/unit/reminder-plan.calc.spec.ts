// When somebody is reminded: worked by hand below, over both changes of the clock and the date line; and whatever the
// rules and the journey, never at night, never in haste, four at most.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { instantToWall, zoneNames } from '../../src/lib/zoned-time.js';
import {
  type Coming,
  isQuiet,
  MERGE_HOURS,
  MOST_BEFORE,
  planReminders,
  type ReminderFacts,
  stillDue,
  zoneAt,
} from '../../src/reminders/reminder-plan.calc.js';
import {
  DEFAULT_REMINDER_RULES,
  FOR_DAYS,
  FOR_WHOM,
  REMINDER_KINDS,
  type ReminderRule,
  TELLS,
} from '../../src/reminders/reminder-rules.schemas.js';

const rules: ReminderRule[] = DEFAULT_REMINDER_RULES.map((one, at) => ({ ...one, id: String(at) }));
const near: Coming = {
  ...{ zone: 'Europe/London', km: 20, flies: false, abroad: false, staysANight: false, leaveBy: null },
};
const facts = (change: Partial<ReminderFacts> & { start?: string } = {}): ReminderFacts => {
  const { start = '2027-05-14T11:15', ...more } = change;
  return {
    forDay: 'sitting',
    place: { zone: 'Europe/London', wallStart: Temporal.PlainDateTime.from(start) },
    since: Temporal.Instant.from('2026-11-26T10:00:00Z'),
    coming: near,
    ...more,
  };
};
const told = (about: ReminderFacts, by = rules) =>
  planReminders(by, about).map(({ kind, at, skip }) => `${kind} ${skip ?? at.toString()}`);

describe('who comes from near', () => {
  it('hears a week, three days and one day before at ten, and at eight on the day', () => {
    // London is on summer time in May: ten is nine in UTC
    expect(told(facts())).toEqual([
      'week 2027-05-07T09:00:00Z',
      'near 2027-05-11T09:00:00Z',
      'eve 2027-05-13T09:00:00Z',
      'day 2027-05-14T07:00:00Z',
    ]);
  });
  it('hears at the same hour of the clock on both sides of its change', () => {
    // clocks go forward on 28 March 2027 at 01:00 UTC, and back on 31 October (IANA tz database)
    expect(told(facts({ start: '2027-03-29T10:00' })).slice(0, 3)).toEqual([
      'week 2027-03-22T10:00:00Z',
      'near 2027-03-26T10:00:00Z',
      'eve 2027-03-28T09:00:00Z',
    ]);
    expect(told(facts({ start: '2027-11-02T10:00' })).slice(0, 3)).toEqual([
      'week 2027-10-26T09:00:00Z',
      'near 2027-10-30T09:00:00Z',
      'eve 2027-11-01T10:00:00Z',
    ]);
  });
  it('is not told again what the yes has just told, nor what is past', () => {
    const since = Temporal.Instant.from('2027-05-09T18:00:00Z');
    expect(told(facts({ since }))).toEqual([
      'week past already',
      // the yes plus 36 hours is 11 May, 06:00: the message of 09:00 goes
      'near 2027-05-11T09:00:00Z',
      'eve 2027-05-13T09:00:00Z',
      'day 2027-05-14T07:00:00Z',
    ]);
    const late = Temporal.Instant.from('2027-05-12T08:00:00Z');
    expect(told(facts({ since: late }))).toEqual([
      'week past already',
      'near past already',
      'eve told with the yes',
      'day 2027-05-14T07:00:00Z',
    ]);
  });
});

describe('who comes from far', () => {
  const flight = { ...near, zone: 'America/Los_Angeles', km: 8000, flies: true, staysANight: true };
  it('is asked once to see to the journey: 90 days ahead from abroad, 60 for a flight, 21 for a night', () => {
    // Los Angeles is eight hours behind UTC until 14 March 2027, then seven
    expect(told(facts({ coming: { ...flight, abroad: true } }))[0]).toBe('travel 2027-02-13T18:00:00Z');
    expect(told(facts({ coming: flight }))[0]).toBe('travel 2027-03-15T17:00:00Z');
    expect(told(facts({ coming: { ...near, staysANight: true } }))[0]).toBe('travel 2027-04-23T09:00:00Z');
    expect(
      told(facts({ coming: { ...flight, abroad: true } })).filter((one) => one.startsWith('travel')),
    ).toHaveLength(1);
  });
  it('is asked at the next of these hours when the first is past', () => {
    const since = Temporal.Instant.from('2027-03-01T10:00:00Z');
    expect(told(facts({ since, coming: { ...flight, abroad: true } }))[0]).toBe(
      'travel 2027-03-15T17:00:00Z',
    );
  });
  it('hears on the clock of home until they leave, on that of the studio after, over the date line', () => {
    // Auckland is 13 hours ahead in January: Friday 15 January, 10:00 there is 13:00 on Thursday in Los Angeles
    const place = { zone: 'Pacific/Auckland', wallStart: Temporal.PlainDateTime.from('2027-01-15T10:00') };
    const leaveBy = Temporal.Instant.from('2027-01-13T04:00:00Z'); // Tuesday 12 January, 20:00 in Los Angeles
    expect(told(facts({ place, coming: { ...flight, leaveBy } })).slice(-3)).toEqual([
      // the day before they leave, not the day before the place; it tells what the other would
      'eve 2027-01-11T18:00:00Z',
      'near with another',
      'day 2027-01-14T19:00:00Z',
    ]);
  });
});

it('does not go by the studio’s clock while they are still at home', () => {
  // nine at home is the moment they leave; nine at the studio is three in the morning at home (found by the test below)
  const place = { zone: 'Africa/Abidjan', wallStart: Temporal.PlainDateTime.from('2026-12-01T12:00') };
  const leaveBy = Temporal.Instant.from('2026-11-30T15:00:00Z');
  const since = Temporal.Instant.from('2026-11-20T08:00:00Z');
  const rule = { ...(rules[6] as ReminderRule), days: 1, hour: 9 };
  expect(
    told({ forDay: 'sitting', place, since, coming: { ...near, zone: 'America/Monterrey', leaveBy } }, [
      rule,
    ]),
  ).toEqual(['day 2026-11-29T15:00:00Z']);
});

it('keeps the four nearest to the day', () => {
  const more = [
    ...rules,
    ...[30, 40].map((days) => ({ ...(rules[3] as ReminderRule), id: String(days), days })),
  ];
  const planned = planReminders(more, facts({ coming: { ...near, staysANight: true } }));
  expect(planned.filter((one) => one.skip === null && one.kind !== 'day').length).toBeLessThanOrEqual(
    MOST_BEFORE,
  );
});

describe('whatever the rules and the journey', () => {
  const zone = fc.constantFrom(...zoneNames());
  const rule: fc.Arbitrary<ReminderRule> = fc.record({
    id: fc.string(),
    forDay: fc.constantFrom(...FOR_DAYS),
    tells: fc.subarray([...TELLS]),
    kind: fc.constantFrom(...REMINDER_KINDS),
    days: fc.integer({ min: 0, max: 365 }),
    hour: fc.integer({ min: 8, max: 20 }),
    forWhom: fc.constantFrom(...FOR_WHOM),
    leastKm: fc.integer({ min: 0, max: 500 }),
    leastLeadDays: fc.integer({ min: 0, max: 100 }),
    on: fc.boolean(),
  });
  const about = fc
    .record({
      forDay: fc.constantFrom(...FOR_DAYS),
      studio: zone,
      home: zone,
      minutes: fc.integer({ min: 0, max: 500_000 }),
      lead: fc.integer({ min: 1, max: 500 * 24 }),
      leaveHours: fc.option(fc.integer({ min: 1, max: 72 })),
      km: fc.integer({ min: 0, max: 18_000 }),
      flies: fc.boolean(),
      abroad: fc.boolean(),
      staysANight: fc.boolean(),
    })
    .map((one): ReminderFacts => {
      const startsAt = Temporal.Instant.from('2026-12-01T12:00:00Z').add({ minutes: one.minutes });
      return {
        forDay: one.forDay,
        place: { zone: one.studio, wallStart: instantToWall(one.studio, startsAt) },
        since: startsAt.subtract({ hours: one.lead }),
        coming: {
          ...{
            zone: one.home,
            km: one.km,
            flies: one.flies,
            abroad: one.abroad,
            staysANight: one.staysANight,
          },
          leaveBy: one.leaveHours === null ? null : startsAt.subtract({ hours: one.leaveHours }),
        },
      };
    });

  it('nobody is written to at night where they are, before the yes, after the hour, or five times', () => {
    fc.assert(
      fc.property(fc.array(rule, { maxLength: 12 }), about, (some, one) => {
        const sent = planReminders(some, one).filter(({ skip }) => skip === null);
        // the rules of the other days say nothing here
        const own = some.filter(({ forDay }) => forDay === one.forDay);
        expect(planReminders(own, one)).toEqual(planReminders(some, one));
        expect(new Set(sent.map(({ kind }) => kind)).size).toBe(sent.length);
        const before = sent.filter(({ kind }) => kind !== 'day');
        expect(before.length).toBeLessThanOrEqual(MOST_BEFORE);
        for (const { at } of sent) {
          expect(isQuiet(at, zoneAt(at, one))).toBe(false);
          expect(Temporal.Instant.compare(at, one.since)).toBe(1);
          expect(stillDue({ kind: 'week', at }, one, at)).toEqual({ send: true });
        }
        for (const [n, { at }] of before.entries()) {
          const next = before[n + 1];
          if (next) expect(next.at.since(at).total('hours')).toBeGreaterThanOrEqual(MERGE_HOURS);
        }
      }),
      { numRuns: 2000 },
    );
  });
});

describe('a reminder that is due', () => {
  const at = Temporal.Instant.from('2027-05-13T09:00:00Z');
  const on = (now: string) => stillDue({ kind: 'eve', at }, facts(), Temporal.Instant.from(now));
  it('is sent when it is due, also some hours late', () => {
    expect(on('2027-05-13T09:00:00Z')).toEqual({ send: true });
    expect(on('2027-05-13T16:00:00Z')).toEqual({ send: true });
  });
  it('waits for the morning where the house slept until the night', () => {
    const waitUntil = Temporal.Instant.from('2027-05-14T07:00:00Z');
    expect(on('2027-05-13T21:30:00Z')).toEqual({ send: false, waitUntil });
    expect(on('2027-05-14T04:30:00Z')).toEqual({ send: false, waitUntil });
  });
  it('is dropped when it is too late', () => {
    expect(on('2027-05-14T06:00:00Z')).toEqual({ send: false, drop: 'too late' });
    expect(on('2027-05-15T09:00:00Z')).toEqual({ send: false, drop: 'too late' });
  });
});
