// What is kept and shown of each person in a plan: the place with its light, shelf and points, or why there is none.
import type { LeftOut, Plan as Found } from '../waiting/planner.calc.js';
import type { PlanProblem } from './plan-problem.calc.js';
import type { Entry, LeftOutShown, PlaceShown } from './plans.schemas.js';

/** Everybody of the problem, in its order. */
export function entriesOf(about: PlanProblem, found: Found): Entry[] {
  const placings = new Map(found.given.map(({ wish, placing }) => [wish, placing]));
  const left = new Map(found.leftOut.map((one) => [one.wish, one]));
  return about.problem.wishes.map(({ id }, wish) => {
    const choice = about.choices[wish]?.[placings.get(wish) ?? -1];
    const common = { sittingId: id, position: wish + 1, ticked: true, outcome: '' };
    if (!choice)
      return { ...common, wallStart: null, place: null, leftOut: whyNot(about, wish, left.get(wish)) };
    const { slot, parts, onShelf, limit } = choice;
    const place: PlaceShown = {
      wallEnd: slot.wallEnd.toString(),
      clear: slot.holdStill?.clear ?? { from: 0, to: 0 },
      dull: slot.holdStill?.dull ?? { from: 0, to: 0 },
      limit,
      onShelf: onShelf === 'enough' ? 'enough' : 'to be had',
      parts,
    };
    return { ...common, wallStart: slot.wallStart, place, leftOut: null };
  });
}

function whyNot({ problem, noPlace }: PlanProblem, wish: number, left: LeftOut | undefined): LeftOutShown {
  const idOf = (at: number) => problem.wishes[at]?.id ?? [];
  const none = { by: [], allBefore: false, item: null, day: null };
  if (!left || left.why === 'not reached') return { ...none, why: 'not reached' };
  if (left.why === 'no place') return { ...none, why: noPlace[wish] ?? 'no open place' };
  if (left.why === 'party') return { ...none, why: 'party', by: left.with.flatMap(idOf) };
  const [first] = left.blockers;
  const placing = problem.wishes[wish]?.placings[left.placing];
  const day = problem.days[placing?.day ?? -1]?.date ?? null;
  if (!first) return { ...none, why: 'not reached' };
  return {
    why: first.why,
    by: ('by' in first ? first.by : []).flatMap(idOf),
    allBefore: left.allBefore,
    item: first.why === 'stock short' ? first.item : null,
    day,
  };
}
