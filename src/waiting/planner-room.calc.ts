// What stands in the way of one more place in a plan that is being made. The same rules as planner-model.calc.ts,
// asked of one place at a time: to check a plan, to make one without the solver, and to say why somebody is left out.
import { needOf, type Placing, type Problem, type Wish } from './planner-model.calc.js';

/** Why a placing cannot be had beside what is given. `by`: the positions of the wishes that stand in the way. */
export type Blocker =
  | { why: 'room taken'; by: number[] }
  | { why: 'day full'; by: number[] }
  | { why: 'no more plates'; by: number[] }
  | { why: 'kept back' }
  | { why: 'year full' }
  | { why: 'stock short'; item: string; by: number[] }
  | { why: 'party apart'; by: number[] };

export interface Room {
  give(wish: number, placing: number): void;
  /** What is in the way of a placing of a wish that has none yet; empty when it can be had. */
  blockers(wish: number, placing: number): Blocker[];
  partySize(party: string): number;
}

interface Given {
  at: number;
  wish: Wish;
  placing: Placing;
}

/** A room with nothing given yet. */
export function roomOf(problem: Problem): Room {
  const byDay = new Map<number, Given[]>();
  const all: Given[] = [];
  const sizes = new Map<string, number>();
  for (const { party } of problem.wishes) if (party !== null) sizes.set(party, (sizes.get(party) ?? 0) + 1);
  return {
    give(at, placingAt) {
      const wish = problem.wishes[at];
      const placing = wish?.placings[placingAt];
      if (!wish || !placing) return;
      const one = { at, wish, placing };
      byDay.set(placing.day, [...(byDay.get(placing.day) ?? []), one]);
      all.push(one);
    },
    blockers(at, placingAt) {
      const wish = problem.wishes[at];
      const placing = wish?.placings[placingAt];
      if (!wish || !placing) return [];
      const there = byDay.get(placing.day) ?? [];
      return [
        ...onTheDay(problem, wish, placing, there),
        ...inTheYear(problem, wish, placing, all),
        ...onTheShelf(problem, wish, placing, all),
        ...ofTheParty(problem, wish, placing, all),
      ];
    },
    partySize: (party) => sizes.get(party) ?? 0,
  };
}

function onTheDay({ days }: Problem, wish: Wish, placing: Placing, there: Given[]): Blocker[] {
  const day = days[placing.day];
  if (!day) return [];
  const found: Blocker[] = [];
  const overlapping = there.filter(
    (one) => one.placing.from < placing.until && placing.from < one.placing.until,
  );
  if (overlapping.length > 0) found.push({ why: 'room taken', by: positions(overlapping) });
  if (there.length + 1 > day.sittings) found.push({ why: 'day full', by: positions(there) });
  const plates = there.reduce((sum, one) => sum + one.wish.plates, wish.plates);
  if (plates > day.plates) found.push({ why: 'no more plates', by: positions(there) });
  const ordinary = there.filter((one) => !one.wish.mayHaveKept).length;
  if (!wish.mayHaveKept && day.kept > 0 && ordinary + 1 > day.sittings - day.kept)
    found.push({ why: 'kept back' });
  return found;
}

function inTheYear({ days, quotas }: Problem, wish: Wish, placing: Placing, all: Given[]): Blocker[] {
  const year = days[placing.day]?.year;
  const quota = quotas.find((one) => one.kindId === wish.kindId && one.year === year);
  if (!quota) return [];
  const given = all.filter((one) => one.wish.kindId === quota.kindId && days[one.placing.day]?.year === year);
  return given.length + 1 > quota.left ? [{ why: 'year full' }] : [];
}

function onTheShelf({ supplies }: Problem, wish: Wish, placing: Placing, all: Given[]): Blocker[] {
  return supplies.flatMap(({ item, from, until, most }): Blocker[] => {
    const need = needOf(wish, item);
    if (need === 0n || placing.day < from || placing.day > until) return [];
    const using = all.filter(
      (one) => from <= one.placing.day && one.placing.day <= until && needOf(one.wish, item) > 0n,
    );
    const used = using.reduce((sum, one) => sum + needOf(one.wish, item), 0n);
    return used + need > most ? [{ why: 'stock short', item, by: positions(using) }] : [];
  });
}

function ofTheParty({ together }: Problem, wish: Wish, placing: Placing, all: Given[]): Blocker[] {
  if (together.rule !== 'always' || wish.party === null) return [];
  const apart = all.filter((one) => one.wish.party === wish.party && one.placing.day !== placing.day);
  return apart.length > 0 ? [{ why: 'party apart', by: positions(apart) }] : [];
}

const positions = (all: Given[]) => all.map((one) => one.at);
