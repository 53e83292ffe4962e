// A plan without the solver: people in their order, each the best place that is still to be had. It is what is left
// when the solver had no time to find any, and a yardstick for what the solver finds.
import type { Problem } from './planner-model.calc.js';
import { roomOf } from './planner-room.calc.js';

/** For each wish the position of its placing, or -1. Parties that must come together are left out. */
export function greedyPlan(problem: Problem): number[] {
  const room = roomOf(problem);
  return problem.wishes.map((wish, at) => {
    if (wish.party !== null && problem.together.rule === 'always' && room.partySize(wish.party) > 1)
      return -1;
    const order = wish.placings
      .map(({ points }, placing) => ({ points, placing }))
      .sort((a, b) => b.points - a.points || a.placing - b.placing);
    const found = order.find(({ placing }) => room.blockers(at, placing).length === 0);
    if (!found) return -1;
    room.give(at, found.placing);
    return found.placing;
  });
}

/** Points that no plan can pass: the best place for each wish, and the best of each day so often as it has room. */
export function mostPoints({ wishes, days, together }: Problem): number {
  const best = wishes.map(({ placings }) => Math.max(0, ...placings.map((one) => one.points)));
  const byDay = days.map((): number[] => []);
  for (const { placings } of wishes)
    for (const day of new Set(placings.map((one) => one.day)))
      byDay[day]?.push(Math.max(...placings.filter((one) => one.day === day).map((one) => one.points)));
  const ofDays = byDay.map((points, day) => {
    const top = points.sort((a, b) => b - a).slice(0, Math.max(0, days[day]?.sittings ?? 0));
    return sum(top);
  });
  const parties = new Set(wishes.flatMap(({ party }) => (party === null ? [] : [party])));
  const bonus = together.rule === 'rather' ? together.points * parties.size : 0;
  return Math.min(sum(best), sum(ofDays)) + bonus;
}

const sum = (all: number[]) => all.reduce((total, one) => total + one, 0);
