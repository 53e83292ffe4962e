// Made-up waiting lists for the planner, small enough for a brute force to go through. The same seed is the same list.
import type { DayRoom, Placing, Problem, Wish } from '../../src/waiting/planner-model.calc.js';
import { minutes, STARTS, seeded } from '../bench/full-plan.js';

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
