// The planner's problem a second time, written from the rules and not from the program: what a plan breaks, and the
// best plan by trying every one. For small lists only.
import type { Placing, Problem, Wish } from '../../src/waiting/planner-model.calc.js';

type Given = { wish: Wish; placing: Placing };

/** What a plan breaks, in words; empty for a good one. Position of the placing or -1 for each wish. */
export function breaches(problem: Problem, placings: readonly number[]): string[] {
  const given = givenBy(problem, placings);
  const found: string[] = [];
  given.forEach((a, at) => {
    for (const b of given.slice(at + 1))
      if (
        a.placing.day === b.placing.day &&
        a.placing.from < b.placing.until &&
        b.placing.from < a.placing.until
      )
        found.push(`${a.wish.id} and ${b.wish.id} at once`);
  });
  problem.days.forEach((day, at) => {
    const there = given.filter((one) => one.placing.day === at);
    if (there.length > day.sittings) found.push(`${day.date} full`);
    if (there.reduce((sum, one) => sum + one.wish.plates, 0) > day.plates) found.push(`${day.date} plates`);
    const ordinary = there.filter((one) => !one.wish.mayHaveKept).length;
    if (day.kept > 0 && ordinary > Math.max(0, day.sittings - day.kept)) found.push(`${day.date} kept`);
  });
  for (const { item, from, until, most } of problem.supplies) {
    let used = 0n;
    for (const { wish, placing } of given)
      if (placing.day >= from && placing.day <= until)
        for (const need of wish.needs) if (need.item === item) used += need.quantity;
    if (used > most) found.push(`${item} short`);
  }
  for (const { kindId, year, left } of problem.quotas) {
    const inYear = given.filter(
      (one) => one.wish.kindId === kindId && problem.days[one.placing.day]?.year === year,
    );
    if (inYear.length > left) found.push(`${kindId} ${year}`);
  }
  if (problem.together.rule === 'always')
    for (const party of partiesOf(problem))
      if (daysOf(problem, placings, party).size > 1) found.push(`${party} apart`);
  return found;
}

/** The most points of any plan that breaks nothing. */
export function bestByTrying(problem: Problem): number {
  let best = 0;
  const placings = problem.wishes.map(() => -1);
  const go = (at: number): void => {
    const wish = problem.wishes[at];
    if (!wish) {
      if (breaches(problem, placings).length === 0) best = Math.max(best, worth(problem, placings));
      return;
    }
    for (let placing = -1; placing < wish.placings.length; placing++) {
      placings[at] = placing;
      if (placing === -1 || fitsSoFar(problem, placings)) go(at + 1);
    }
    placings[at] = -1;
  };
  go(0);
  return best;
}

/** What one more place can only make worse; whether a party is whole shows at the end. */
const fitsSoFar = (problem: Problem, placings: number[]) =>
  breaches({ ...problem, together: { rule: 'no matter' } }, placings).length === 0;

function worth(problem: Problem, placings: readonly number[]): number {
  const given = givenBy(problem, placings);
  let points = given.reduce((sum, one) => sum + one.placing.points, 0);
  problem.days.forEach((day, at) => {
    if (given.some((one) => one.placing.day === at)) points -= day.opening;
  });
  if (problem.together.rule === 'rather')
    for (const party of partiesOf(problem)) {
      const days = daysOf(problem, placings, party);
      if (days.size === 1 && !days.has(-1)) points += problem.together.points;
    }
  return points;
}

const givenBy = ({ wishes }: Problem, placings: readonly number[]): Given[] =>
  wishes.flatMap((wish, at) => {
    const placing = wish.placings[placings[at] ?? -1];
    return placing ? [{ wish, placing }] : [];
  });

/** Parties of two and more. */
function partiesOf({ wishes }: Problem): string[] {
  const parties = [...new Set(wishes.flatMap(({ party }) => (party === null ? [] : [party])))];
  return parties.filter((party) => wishes.filter((one) => one.party === party).length > 1);
}

/** The days of a party's members; -1 for one without a place. */
const daysOf = ({ wishes }: Problem, placings: readonly number[], party: string): Set<number> =>
  new Set(
    wishes.flatMap((wish, at) =>
      wish.party === party ? [wish.placings[placings[at] ?? -1]?.day ?? -1] : [],
    ),
  );
