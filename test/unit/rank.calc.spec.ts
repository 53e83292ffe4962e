// The order of the waiting list: worked examples, and what must hold for any list.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { type Ranked, rank, type Waiter } from '../../src/waiting/rank.calc.js';
import { DEFAULT_WAITING_RULES, type Points } from '../../src/waiting/rules.schemas.js';
import { scale } from '../support/scale.js';

const NOW = Temporal.Instant.from('2026-11-25T16:30:00Z');
const { points } = DEFAULT_WAITING_RULES;

const waiter = (id: string, daysAgo: number, more: Partial<Waiter> = {}): Waiter => ({
  id,
  askedAt: NOW.subtract({ hours: 24 * daysAgo }),
  returnOwed: false,
  daysThatSuit: 0,
  noticeDays: 0,
  longestNoticeDays: 42,
  series: false,
  priority: '',
  hardship: '',
  ...more,
});
const order = (all: Waiter[], rule: Points = points) => rank(all, rule, NOW).map((one) => one.id);
const find = (all: Ranked[], id: string) => all.find((one) => one.id === id);

describe('the order of the list', () => {
  it('is that of asking where nothing else counts', () => {
    expect(order([waiter('b', 30), waiter('a', 10), waiter('c', 300)])).toEqual(['c', 'b', 'a']);
  });

  it('gives one point a month for waiting, and tells it', () => {
    const [one] = rank([waiter('a', 365)], points, NOW);
    expect(one).toEqual({
      id: 'a',
      position: 1,
      points: 12,
      reasons: [{ what: 'asked', days: 365, points: 12 }],
      before: null,
    });
  });

  it('sets each reason beside its points, and the sum is what is compared', () => {
    const far = waiter('far', 73, {
      noticeDays: 21,
      daysThatSuit: 0.25,
      series: true,
      priority: 'the last keeper of the light',
      hardship: 'moves away in spring',
    });
    const [first, second] = rank([waiter('plain', 200), far], points, NOW);
    expect(first?.reasons).toEqual([
      { what: 'asked', days: 73, points: 2.4 },
      { what: 'flexible', share: 0.25, points: 0.5 },
      { what: 'far', noticeDays: 21, points: 1 },
      { what: 'series', points: 3 },
      { what: 'priority', because: 'the last keeper of the light', points: 12 },
      { what: 'hardship', because: 'moves away in spring', points: 6 },
    ]);
    expect([first?.points, first?.before, second?.points, second?.before]).toEqual([
      24.9,
      'points',
      6.58,
      null,
    ]);
  });

  it('puts whoever is owed a return place before all points, the earliest asking first', () => {
    const all = [
      waiter('vip', 900, { priority: 'a friend', hardship: 'ill' }),
      waiter('owed', 5, { returnOwed: true }),
      waiter('owed long', 50, { returnOwed: true }),
    ];
    expect(order(all)).toEqual(['owed long', 'owed', 'vip']);
    expect(find(rank(all, points, NOW), 'owed')).toMatchObject({
      position: 2,
      reasons: [{ what: 'return owed' }, { what: 'asked' }],
      before: 'return owed',
    });
  });

  it('goes by the hour of asking among equals, then by number', () => {
    const same = waiter('b', 10);
    const earlier = { ...waiter('z', 10), askedAt: same.askedAt.subtract({ minutes: 1 }) };
    const ranked = rank([same, waiter('a', 10), earlier], points, NOW);
    expect(ranked.map((one) => [one.id, one.before])).toEqual([
      ['z', 'asked first'],
      ['a', 'number'],
      ['b', null],
    ]);
  });

  it('never gives more than all of a weight to somebody who comes from farther than the rule knows', () => {
    const [one] = rank([waiter('a', 0, { noticeDays: 300, daysThatSuit: 1 })], points, NOW);
    expect(one?.points).toBe(points.far + points.flexible);
  });

  it('has no points for waiting for who asked after the moment the list is looked at', () => {
    expect(rank([waiter('a', -3)], points, NOW)[0]?.reasons).toEqual([{ what: 'asked', days: 0, points: 0 }]);
  });
});

// ---- any list ----

const waiters = fc.uniqueArray(
  fc.record({
    id: fc.uuid(),
    askedAt: fc.integer({ min: 0, max: 60 }).map((days) => NOW.subtract({ hours: 24 * days })),
    returnOwed: fc.boolean(),
    daysThatSuit: fc.double({ min: 0, max: 1, noNaN: true }),
    noticeDays: fc.integer({ min: 0, max: 60 }),
    longestNoticeDays: fc.constant(42),
    series: fc.boolean(),
    priority: fc.constantFrom('', 'named'),
    hardship: fc.constantFrom('', 'named'),
  }),
  { selector: (one) => one.id, maxLength: 12 },
);
const weight = fc.integer({ min: 0, max: 100 });
const rules = fc.record({
  asked: weight,
  flexible: weight,
  far: weight,
  series: weight,
  priority: weight,
  hardship: weight,
});
const runs = { numRuns: scale(10_000, 300) };

describe('any list', () => {
  it('keeps everybody, once, at positions from 1 on', () => {
    fc.assert(
      fc.property(waiters, rules, (all, rule) => {
        const ranked = rank(all, rule, NOW);
        expect(ranked.map((one) => one.position)).toEqual(all.map((_, at) => at + 1));
        expect(ranked.map((one) => one.id).sort()).toEqual(all.map((one) => one.id).sort());
      }),
      runs,
    );
  });

  it('comes out the same however it was shuffled', () => {
    fc.assert(
      fc.property(waiters, rules, fc.infiniteStream(fc.nat()), (all, rule, keys) => {
        const drawn = new Map(all.map((one) => [one.id, keys.next().value as number]));
        const shuffled = [...all].sort((a, b) => (drawn.get(a.id) ?? 0) - (drawn.get(b.id) ?? 0));
        expect(rank(shuffled, rule, NOW)).toEqual(rank(all, rule, NOW));
      }),
      runs,
    );
  });

  it('is told by its reasons: the points add up, and each stands before the next by what is said', () => {
    fc.assert(
      fc.property(waiters, rules, (all, rule) => {
        const ranked = rank(all, rule, NOW);
        const of = new Map(all.map((one) => [one.id, one]));
        ranked.forEach((one, at) => {
          const sum = one.reasons.reduce(
            (total, reason) => total + ('points' in reason ? reason.points : 0),
            0,
          );
          expect(one.points).toBeCloseTo(sum, 2);
          const [mine, following] = [of.get(one.id), ranked[at + 1]];
          const theirs = following && of.get(following.id);
          if (!mine || !following || !theirs) {
            expect(one.before).toBeNull();
            return;
          }
          const asked = Temporal.Instant.compare(mine.askedAt, theirs.askedAt);
          if (one.before === 'return owed')
            expect([mine.returnOwed, theirs.returnOwed]).toEqual([true, false]);
          else expect(mine.returnOwed).toBe(theirs.returnOwed);
          if (one.before === 'points') expect(one.points).toBeGreaterThan(following.points);
          if (one.before === 'asked first')
            expect([one.points === following.points, asked < 0]).toEqual([true, true]);
          if (one.before === 'number') expect([asked, mine.id < theirs.id]).toEqual([0, true]);
        });
      }),
      runs,
    );
  });

  it('never puts somebody farther back for having asked earlier or being marked', () => {
    fc.assert(
      fc.property(waiters, rules, fc.nat(), fc.integer({ min: 1, max: 400 }), (all, rule, which, days) => {
        const one = all[which % Math.max(1, all.length)];
        if (!one) return;
        const position = (list: Waiter[]) => find(rank(list, rule, NOW), one.id)?.position ?? 0;
        const changed = (more: Partial<Waiter>) =>
          all.map((each) => (each.id === one.id ? { ...each, ...more } : each));
        const now = position(all);
        expect(
          position(changed({ askedAt: one.askedAt.subtract({ hours: 24 * days }) })),
        ).toBeLessThanOrEqual(now);
        expect(position(changed({ priority: 'named' }))).toBeLessThanOrEqual(now);
        expect(position(changed({ returnOwed: true }))).toBeLessThanOrEqual(now);
      }),
      runs,
    );
  });
});
