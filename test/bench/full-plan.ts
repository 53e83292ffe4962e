// A made-up waiting list of full size for the planner: hundreds of people, the places of most of a year.
// The numbers come from a seeded generator, so that the same seed is the same case.
import type { DayRoom, Placing, Problem, Wish } from '../../src/waiting/planner-model.calc.js';

/** Numbers from 0 until 1: mulberry32, a generator in the public domain by Tommy Ettinger. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Starts of a day, minutes after midnight. */
export const STARTS = [600, 720, 840];

/** Minutes of the room: 75 with one plate, 25 for each further, 30 change-over. */
export const minutes = (plates: number) => 75 + 25 * (plates - 1) + 30;

/**
 * A waiting list over `dayCount` days of three starts each. One plate leaves every start free; two plates and more
 * close the next one. A third of the people can come on a few days only.
 */
export function fullList(people: number, dayCount: number, seed: number): Problem {
  const chance = seeded(seed);
  const upTo = (most: number) => Math.floor(chance() * most);
  const days: DayRoom[] = Array.from({ length: dayCount }, (_, day) => ({
    date: `day ${day}`,
    year: day < dayCount / 2 ? 2027 : 2028,
    sittings: 3,
    plates: 10,
    kept: day % 2,
    opening: day % 3 === 0 ? 0 : 60,
  }));
  const wishes = Array.from({ length: people }, (_, rank): Wish => {
    const plates = 1 + upTo(3);
    const few = chance() < 1 / 3;
    const first = upTo(dayCount);
    const suiting = days.flatMap((_, day) =>
      (few ? Math.abs(day - first) <= 2 : day >= first / 3) ? [day] : [],
    );
    const placings = suiting.flatMap((day): Placing[] =>
      STARTS.filter(() => chance() < 0.9).map((from) => ({
        day,
        from,
        until: from + minutes(plates),
        points: 400 + Math.round((200 * (people - rank)) / people) + upTo(300),
        kept: false,
      })),
    );
    return {
      id: `person ${String(rank).padStart(3, '0')}`,
      plates,
      kindId: rank % 4 === 0 ? 'series' : 'paid',
      party: rank % 25 < 2 ? `party ${Math.floor(rank / 25)}` : null,
      mayHaveKept: rank % 10 === 0,
      needs: [{ item: plates % 2 === 0 ? 'whole plate' : 'half plate', quantity: BigInt(2 * plates) }],
      placings,
    };
  });
  return {
    wishes,
    days,
    supplies: [
      { item: 'whole plate', from: 0, until: Math.floor(dayCount / 4), most: 24n },
      { item: 'half plate', from: 0, until: dayCount - 1, most: 150n },
    ],
    quotas: [{ kindId: 'series', year: 2027, left: 12 }],
    together: { rule: 'always' },
  };
}
