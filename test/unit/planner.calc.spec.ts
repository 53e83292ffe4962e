import munkres from 'munkres';
import { type Plan, plan, pointsOf } from '../../src/waiting/planner.calc.js';
import type { DayRoom, Placing, Problem, Wish } from '../../src/waiting/planner-model.calc.js';
import { startThread } from '../../src/waiting/solver.service.js';
import { seeded } from '../bench/full-plan.js';
import { smallList } from '../support/planner-case.js';
import { bestByTrying, breaches } from '../support/planner-oracle.js';

const thread = startThread();
afterAll(() => thread.end());
const solve = (problem: Problem): Promise<Plan> => plan(problem, (milp) => thread.solve(milp, 20));

/** Worth more than any cost here, so that a plan gives as many places as can be given. */
const WORTH = 10_000;
const day = (date: string): DayRoom => ({ date, year: 2027, sittings: 1, plates: 9, kept: 0, opening: 0 });

/** A matrix of costs as a waiting list: each row somebody, each column a day with room for one; null: not possible. */
function assignment(costs: (number | null)[][]): Problem {
  const wishes = costs.map((row, at): Wish => {
    const placings = row.flatMap((cost, column): Placing[] =>
      cost === null ? [] : [{ day: column, from: 0, until: 1, points: WORTH - cost, kept: false }],
    );
    return { id: `row ${at}`, plates: 1, kindId: null, party: null, mayHaveKept: true, needs: [], placings };
  });
  const days = (costs[0] ?? []).map((_, column) => day(`column ${column}`));
  return { wishes, days, supplies: [], quotas: [], together: { rule: 'no matter' } };
}

const costOf = ({ given, points }: Plan) => given.length * WORTH - points;

/*
 * The matrices and totals of SciPy's tests of linear_sum_assignment (scipy/optimize/tests/test_linear_assignment.py)
 * and of min_weight_full_bipartite_matching (scipy/sparse/csgraph/tests/test_matching.py); the third is the example
 * in the documentation of the same function.
 */
describe('published assignment problems', () => {
  test.each([
    [
      [
        [400, 150, 400],
        [400, 450, 600],
        [300, 225, 300],
      ],
      850,
    ],
    [
      [
        [10, 10, 8],
        [9, 8, 1],
        [9, 7, 4],
      ],
      18,
    ],
    [
      [
        [4, 1, 3],
        [2, 0, 5],
        [3, 2, 2],
      ],
      5,
    ],
    [
      [
        [10, null, null],
        [null, null, 1],
        [null, 7, null],
      ],
      18,
    ],
  ] as [(number | null)[][], number][])('of %j the least cost is %d', async (costs, total) => {
    const found = await solve(assignment(costs));
    expect(found.given).toHaveLength(3);
    expect(costOf(found)).toBe(total);
    expect(found).toMatchObject({ proven: true, gap: 0, bound: found.points, leftOut: [] });
  });

  test('a place that suits nobody leaves somebody out, and says who has what they could have had', async () => {
    const found = await solve(
      assignment([
        [1, null, 3],
        [2, null, 5],
        [3, null, 2],
      ]),
    );
    expect(found.given.map(({ wish }) => wish)).toEqual([0, 2]);
    expect(found.leftOut).toEqual([
      expect.objectContaining({
        wish: 1,
        why: 'others',
        blockers: expect.arrayContaining([expect.objectContaining({ by: [0] })]),
        allBefore: true,
      }),
    ]);
  });

  test('somebody whom no place suits is told apart', async () => {
    const found = await solve(
      assignment([
        [1, 2],
        [null, null],
      ]),
    );
    expect(found.leftOut).toEqual([{ wish: 1, why: 'no place' }]);
    expect(found.proven).toBe(true);
  });

  test('random matrices cost as much as by the Hungarian method', async () => {
    const chance = seeded(7);
    for (let size = 2; size <= 24; size++) {
      const costs = Array.from({ length: size }, () =>
        Array.from({ length: size }, () => Math.floor(chance() * 1000)),
      );
      const least = munkres(costs).reduce(
        (sum, [row, column]) => sum + (costs[row]?.[column] ?? Number.NaN),
        0,
      );
      expect(costOf(await solve(assignment(costs)))).toBe(least);
    }
  });
});

test('500 small lists: as many points as by trying everything, no rule broken, a third of them short for somebody', async () => {
  let short = 0;
  const rules = new Map<string, number>();
  for (let seed = 0; seed < 500; seed++) {
    const problem = smallList(seed);
    const found = await solve(problem);
    const placings = problem.wishes.map((_, at) => found.given.find((one) => one.wish === at)?.placing ?? -1);
    expect({ seed, breaches: breaches(problem, placings) }).toEqual({ seed, breaches: [] });
    const best = bestByTrying(problem);
    expect({ seed, points: pointsOf(problem, placings).points }).toEqual({
      seed,
      points: best,
    });
    expect({ seed, proven: found.proven, points: found.points }).toEqual({
      seed,
      proven: true,
      points: best,
    });
    if (found.leftOut.length > 0) short += 1;
    for (const one of found.leftOut)
      for (const { why } of one.why === 'others' ? one.blockers : [one])
        rules.set(why, (rules.get(why) ?? 0) + 1);
  }
  expect(short).toBeGreaterThanOrEqual(167);
  // every rule has left somebody out somewhere
  for (const rule of [
    'room taken',
    'day full',
    'no more plates',
    'kept back',
    'year full',
    'stock short',
    'no place',
  ])
    expect([rule, rules.get(rule) ?? 0]).not.toEqual([rule, 0]);
}, 120_000);

describe('the room’s own rules', () => {
  const wish = (id: string, placings: Placing[], more: Partial<Wish> = {}): Wish => ({
    id,
    plates: 1,
    kindId: null,
    party: null,
    mayHaveKept: true,
    needs: [],
    placings,
    ...more,
  });
  const at = (dayAt: number, from: number, minutes: number, points = 100): Placing => ({
    day: dayAt,
    from,
    until: from + minutes,
    points,
    kept: false,
  });
  const days = [
    { ...day('2027-05-14'), sittings: 3 },
    { ...day('2027-05-21'), sittings: 3 },
  ];
  const problem = (wishes: Wish[], more: Partial<Problem> = {}): Problem => ({
    wishes,
    days,
    supplies: [],
    quotas: [],
    together: { rule: 'no matter' },
    ...more,
  });

  test('a long sitting closes the next start, and a short one leaves it', async () => {
    const next = wish('next', [at(0, 720, 105)]);
    const long = await solve(problem([wish('long', [at(0, 600, 130, 300)]), next]));
    expect(long.given).toEqual([{ wish: 0, placing: 0 }]);
    const short = await solve(problem([wish('short', [at(0, 600, 105, 300)]), next]));
    expect(short.given).toHaveLength(2);
  });

  test('a party comes on one day or not at all, where the owner says always', async () => {
    const party = { party: 'Thorne' };
    const apart = [wish('a', [at(0, 600, 105)], party), wish('b', [at(1, 600, 105)], party)];
    const always = await solve(problem(apart, { together: { rule: 'always' } }));
    expect(always.given).toEqual([]);
    expect(always.leftOut).toEqual([
      { wish: 0, why: 'party', with: [1] },
      { wish: 1, why: 'party', with: [0] },
    ]);
    const whatever = await solve(problem(apart));
    expect(whatever.given).toHaveLength(2);
  });

  test('rather together: points for the day they share, and not for two days', async () => {
    const party = { party: 'Thorne' };
    const both = [at(0, 600, 105, 100), at(1, 720, 105, 120)];
    const wishes = [wish('a', both, party), wish('b', [at(0, 720, 105, 100)], party)];
    const much = await solve(problem(wishes, { together: { rule: 'rather', points: 50 } }));
    expect(much).toMatchObject({ points: 250, together: ['Thorne'] });
    const little = await solve(problem(wishes, { together: { rule: 'rather', points: 10 } }));
    expect(little).toMatchObject({ points: 220, together: [] });
  });

  test('an empty day is opened only for more points than it costs', async () => {
    const closed = days.map((one) => ({ ...one, opening: 60 }));
    const one = wish('a', [at(0, 600, 105, 100), at(1, 600, 105, 110)]);
    const other = wish('b', [at(0, 720, 105, 100)]);
    const shared = await solve(problem([one, other], { days: closed }));
    expect(shared).toMatchObject({ points: 140, opened: [0] });
    const dear = await solve(problem([wish('a', [at(0, 600, 105, 50)])], { days: closed }));
    expect(dear).toMatchObject({ points: 0, given: [], leftOut: [{ wish: 0, why: 'not reached' }] });
  });

  test('nobody waiting and no places are a plan of nothing', async () => {
    expect(await solve(problem([]))).toMatchObject({
      given: [],
      leftOut: [],
      points: 0,
      proven: true,
      gap: 0,
    });
  });
});
