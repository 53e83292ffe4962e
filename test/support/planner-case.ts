// Made-up waiting lists for the planner: small ones that a brute force can go through, and the full-sized one.
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
const STARTS = [600, 720, 840];

/** Minutes of the room: 75 with one plate, 25 for each further, 30 change-over. */
const minutes = (plates: number) => 75 + 25 * (plates - 1) + 30;

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

/** Two to five people with at most five places each, two to four days; tight in one respect or another, so that somebody is often left out. */
export function smallList(seed: number): Problem {
  const chance = seeded(seed);
  const upTo = (most: number) => Math.floor(chance() * most);
  const dayCount = 2 + upTo(3);
  const days: DayRoom[] = Array.from({ length: dayCount }, (_, day) => ({
    date: `day ${day}`,
    year: 2027 + upTo(2),
    sittings: 1 + upTo(3),
    plates: 2 + upTo(5),
    kept: upTo(3) === 0 ? 1 : 0,
    opening: upTo(2) * 60,
  }));
  const wishes = Array.from({ length: 2 + upTo(4) }, (_, at): Wish => {
    const plates = 1 + upTo(3);
    const suits = chance() < 0.7 ? 0.7 : 0.3;
    const placings = days.flatMap((_day, day) =>
      STARTS.flatMap((from): Placing[] => {
        const until = from + minutes(plates);
        return chance() < suits * 0.5 ? [{ day, from, until, points: 50 + upTo(400), kept: false }] : [];
      }),
    );
    return {
      id: `person ${at}`,
      plates,
      kindId: upTo(2) === 0 ? 'series' : null,
      party: upTo(3) === 0 ? 'party' : null,
      mayHaveKept: upTo(3) === 0,
      needs: [
        { item: 'glass', quantity: BigInt(plates * 2) },
        { item: 'collodion', quantity: BigInt(plates * 6500) },
      ],
      placings: placings.slice(0, 5),
    };
  });
  const rules: Problem['together'][] = [
    { rule: 'always' },
    { rule: 'rather', points: 90 },
    { rule: 'no matter' },
  ];
  return {
    wishes,
    days,
    supplies: [
      { item: 'glass', from: 0, until: upTo(dayCount), most: BigInt(4 + upTo(16)) },
      { item: 'collodion', from: 0, until: dayCount - 1, most: BigInt(20_000 + upTo(60_000)) },
    ],
    quotas: [{ kindId: 'series', year: 2027, left: 1 + upTo(2) }],
    together: rules[upTo(3)] ?? { rule: 'no matter' },
  };
}
