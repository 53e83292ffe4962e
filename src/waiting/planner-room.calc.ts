// What stands in the way of one more place in a plan that is being made. The same rules as planner-model.calc.ts,
// asked of one place at a time: to check a plan, to make one without the solver, and to say why somebody is left out.
import {
  type DayRoom,
  needOf,
  type Placing,
  type Problem,
  type Quota,
  type Supply,
  type Wish,
} from './planner-model.calc.js';

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

/** What has been given so far, with its sums, since many places are asked about in turn. */
interface Sums {
  byDay: Map<number, Given[]>;
  /** By position of the supply, of the quota; days by party. */
  supplies: { used: bigint; by: number[] }[];
  quotas: number[];
  parties: Map<string, Given[]>;
}

/** A room with nothing given yet. */
export function roomOf(problem: Problem): Room {
  const sums: Sums = {
    byDay: new Map(),
    supplies: problem.supplies.map(() => ({ used: 0n, by: [] })),
    quotas: problem.quotas.map(() => 0),
    parties: new Map(),
  };
  const sizes = new Map<string, number>();
  for (const { party } of problem.wishes) if (party !== null) sizes.set(party, (sizes.get(party) ?? 0) + 1);
  const needs = problem.wishes.map((wish) => problem.supplies.map(({ item }) => needOf(wish, item)));
  return {
    give(at, placingAt) {
      const wish = problem.wishes[at];
      const placing = wish?.placings[placingAt];
      if (!wish || !placing) return;
      const one = { at, wish, placing };
      push(sums.byDay, placing.day, one);
      if (wish.party !== null) push(sums.parties, wish.party, one);
      problem.quotas.forEach((quota, position) => {
        if (isOf(quota, wish, problem.days[placing.day]))
          sums.quotas[position] = (sums.quotas[position] ?? 0) + 1;
      });
      problem.supplies.forEach((supply, position) => {
        const need = needs[at]?.[position] ?? 0n;
        const sum = sums.supplies[position];
        if (!sum || need === 0n || !isOn(supply, placing)) return;
        sum.used += need;
        sum.by.push(at);
      });
    },
    blockers(at, placingAt) {
      const wish = problem.wishes[at];
      const placing = wish?.placings[placingAt];
      if (!wish || !placing) return [];
      return [
        ...onTheDay(problem, wish, placing, sums.byDay.get(placing.day) ?? []),
        ...inTheYear(problem, wish, placing, sums),
        ...onTheShelf(problem, needs[at] ?? [], placing, sums),
        ...ofTheParty(problem, wish, placing, sums),
      ];
    },
    partySize: (party) => sizes.get(party) ?? 0,
  };
}

const isOf = ({ kindId, year }: Quota, wish: Wish, day: DayRoom | undefined) =>
  wish.kindId === kindId && day?.year === year;
const isOn = ({ from, until }: Supply, { day }: Placing) => from <= day && day <= until;

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

function inTheYear({ days, quotas }: Problem, wish: Wish, placing: Placing, sums: Sums): Blocker[] {
  const at = quotas.findIndex((quota) => isOf(quota, wish, days[placing.day]));
  const quota = quotas[at];
  return quota && (sums.quotas[at] ?? 0) + 1 > quota.left ? [{ why: 'year full' }] : [];
}

function onTheShelf({ supplies }: Problem, needs: bigint[], placing: Placing, sums: Sums): Blocker[] {
  return supplies.flatMap((supply, at): Blocker[] => {
    const need = needs[at] ?? 0n;
    const sum = sums.supplies[at];
    if (!sum || need === 0n || !isOn(supply, placing) || sum.used + need <= supply.most) return [];
    return [{ why: 'stock short', item: supply.item, by: [...sum.by] }];
  });
}

function ofTheParty({ together }: Problem, wish: Wish, placing: Placing, sums: Sums): Blocker[] {
  if (together.rule !== 'always' || wish.party === null) return [];
  const apart = (sums.parties.get(wish.party) ?? []).filter((one) => one.placing.day !== placing.day);
  return apart.length > 0 ? [{ why: 'party apart', by: positions(apart) }] : [];
}

const positions = (all: Given[]) => all.map((one) => one.at);

function push<Key>(lists: Map<Key, Given[]>, key: Key, one: Given): void {
  const list = lists.get(key);
  if (list) list.push(one);
  else lists.set(key, [one]);
}
