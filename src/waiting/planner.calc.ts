// From the solver's numbers to a proposal: who has which place, who is left out and what stands in their way, and
// how near to the best possible it is. It gives nobody a place.
import { greedyPlan, mostPoints } from './planner-greedy.calc.js';
import { buildModel, type Model, type Problem, type Wish } from './planner-model.calc.js';
import { type Blocker, type Room, roomOf } from './planner-room.calc.js';

/** The solver's answer. `bound`: no plan has more points; null where it had no time to say. */
export interface Solved {
  proven: boolean;
  bound: number | null;
  /** One for each column; empty where no plan was found. */
  values: ArrayLike<number>;
}

/** Why somebody has no place. Positions are those of the wishes; the first blocker is the one to tell. */
export type LeftOut =
  /** No place could be given to them at all; the caller knows why. */
  | { wish: number; why: 'no place' }
  /** Of their places the one that is nearest to be had, what is in its way, and whether all of those rank before them. */
  | { wish: number; why: 'others'; placing: number; blockers: Blocker[]; allBefore: boolean }
  /** They could come, but not all who travel with them. */
  | { wish: number; why: 'party'; with: number[] }
  /** Nothing stands in the way; a longer search would have found a place, or it was not worth the points. */
  | { wish: number; why: 'not reached' };

export interface Plan {
  /** In the order of the wishes. */
  given: { wish: number; placing: number }[];
  leftOut: LeftOut[];
  /** The days that are opened for it, by their positions. */
  opened: number[];
  /** Parties that have one day, where points are given for it. */
  together: string[];
  points: number;
  /** No plan has more points. */
  bound: number;
  /** Nothing better exists. */
  proven: boolean;
  /** How much better, as a share of its points, another plan could be at most; 0 when proven. */
  gap: number;
}

/** The plan that a solver's answer means; that of planner-greedy.calc.ts where it found none or a worse one. */
export function readPlan(problem: Problem, model: Model, solved: Solved): Plan {
  const found = problem.wishes.map(() => -1);
  model.choices.forEach(({ wish, placing }, column) => {
    if ((solved.values[column] ?? 0) > 0.5) found[wish] = placing;
  });
  const placings = solved.proven ? found : better(problem, found, greedyPlan(problem));
  const { points, opened, together } = pointsOf(problem, placings);
  const whole = solved.bound === null ? Number.POSITIVE_INFINITY : Math.floor(solved.bound + WHOLE);
  const bound = Math.max(points, Math.min(whole, mostPoints(problem)));
  return {
    given: placings.flatMap((placing, wish) => (placing === -1 ? [] : [{ wish, placing }])),
    leftOut: leftOut(problem, placings),
    opened,
    together,
    points,
    bound,
    proven: bound === points,
    gap: bound === points ? 0 : (bound - points) / Math.max(1, points),
  };
}

/** The same in one, for a solver that answers. */
export async function plan(problem: Problem, solve: (milp: Model['milp']) => Promise<Solved>): Promise<Plan> {
  const model = buildModel(problem);
  return readPlan(problem, model, await solve(model.milp));
}

/** The solver's bound is a fraction; what is this little under a whole number is that number. */
const WHOLE = 1e-4;

/** Points of a plan by the rules of the model, position of the placing or -1 for each wish. */
export function pointsOf(
  { wishes, days, together: rule }: Problem,
  placings: readonly number[],
): { points: number; opened: number[]; together: string[] } {
  let points = 0;
  const used = new Set<number>();
  const dayOfParty = new Map<string, Set<number>>();
  wishes.forEach(({ placings: own, party }, at) => {
    const placing = own[placings[at] ?? -1];
    if (placing) {
      points += placing.points;
      used.add(placing.day);
    }
    if (party !== null)
      dayOfParty.set(party, (dayOfParty.get(party) ?? new Set()).add(placing ? placing.day : -1));
  });
  const opened = [...used].filter((day) => (days[day]?.opening ?? 0) > 0).sort((a, b) => a - b);
  for (const day of opened) points -= days[day]?.opening ?? 0;
  const together: string[] = [];
  if (rule.rule === 'rather')
    for (const [party, on] of dayOfParty)
      if (on.size === 1 && !on.has(-1) && wishes.filter((one) => one.party === party).length > 1)
        together.push(party);
  return { points: points + (rule.rule === 'rather' ? rule.points * together.length : 0), opened, together };
}

function better(problem: Problem, a: number[], b: number[]): number[] {
  return pointsOf(problem, b).points > pointsOf(problem, a).points ? b : a;
}

function leftOut(problem: Problem, placings: readonly number[]): LeftOut[] {
  const room = roomOf(problem);
  placings.forEach((placing, wish) => {
    if (placing !== -1) room.give(wish, placing);
  });
  return placings.flatMap((placing, wish) => (placing === -1 ? [whyNot(problem, room, wish)] : []));
}

function whyNot(problem: Problem, room: Room, wish: number): LeftOut {
  const own = problem.wishes[wish];
  if (!own || own.placings.length === 0) return { wish, why: 'no place' };
  let nearest: Near | null = null;
  own.placings.forEach(({ points }, placing) => {
    const blockers = room.blockers(wish, placing);
    if (nearest !== null && blockers.length > nearest.blockers.length) return;
    const people = new Set(blockers.flatMap((one) => ('by' in one ? one.by : [])));
    const found = { points, placing, blockers, people };
    if (nearest === null || isNearer(found, nearest)) nearest = found;
  });
  return reasonOf(problem, wish, own, nearest);
}

interface Near {
  points: number;
  placing: number;
  blockers: Blocker[];
  people: ReadonlySet<number>;
}

/** Less in the way, then fewer people, then more points; the earlier of equals stays. */
function isNearer(a: Near, b: Near): boolean {
  const by = a.blockers.length - b.blockers.length || a.people.size - b.people.size || b.points - a.points;
  return by < 0;
}

function reasonOf(problem: Problem, wish: number, own: Wish, nearest: Near | null): LeftOut {
  if (nearest && nearest.blockers.length > 0) {
    const { placing, blockers, people } = nearest;
    const allBefore = people.size > 0 && [...people].every((one) => one < wish);
    return { wish, why: 'others', placing, blockers, allBefore };
  }
  const mates = problem.wishes.flatMap(({ party }, at) => (party === own.party && at !== wish ? [at] : []));
  if (own.party !== null && problem.together.rule === 'always' && mates.length > 0)
    return { wish, why: 'party', with: mates };
  return { wish, why: 'not reached' };
}
