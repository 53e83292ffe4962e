// How long the turns of a teaching day take to plan: the stress case, what is left of it at noon, the usual day, and the
// changes for one that does not fit.
import { planRota, type Rota } from '../../src/teaching/rota.calc.js';
import type { Bench } from '../../src/teaching/rota-bench.calc.js';
import { smallestChanges } from '../../src/teaching/rota-changes.calc.js';
import { replanRota } from '../../src/teaching/rota-replan.calc.js';
import { HOUR, stationsWith, stressDay, teachingDay } from './rota-days.js';

interface Took {
  name: string;
  seconds: number;
  most: number;
}

function timed<T>(act: () => T): [T, number] {
  const began = performance.now();
  const found = act();
  return [found, (performance.now() - began) / 1000];
}

const gapOf = ({ gap }: Rota) => `gap ${(100 * (gap ?? 0)).toFixed(1)} %`;

export function rotaTimes(): Took[] {
  const planned = (bench: Bench): Rota => {
    const answer = planRota(bench);
    if (!answer.ok) throw new Error(answer.reason);
    return answer.rota;
  };
  const bench = stressDay();
  const [rota, seconds] = timed(() => planned(bench));
  const [usual, usually] = timed(() => planned(teachingDay(4, 3)));
  const noon = { now: 12 * HOUR, skipped: [], gone: [], notBegun: [] };
  const late = { ...noon, late: [{ student: 's5', until: 13 * HOUR }] };
  const skipped = { ...noon, late: [], skipped: ['s3 5'] };
  const [, afterLate] = timed(() => replanRota(bench, rota, late));
  const [, afterSkip] = timed(() => replanRota(bench, rota, skipped));
  const short = teachingDay(6, 3, {
    day: { from: 9 * HOUR, until: 13 * HOUR },
    breaks: [],
    stations: stationsWith({ camera: 1 }),
  });
  const [changes, changing] = timed(() => smallestChanges(short));
  return [
    { name: `the turns of 12 students with 6 plates; ${gapOf(rota)}`, seconds, most: 2 },
    { name: `the turns of 4 students with 3 plates; ${gapOf(usual)}`, seconds: usually, most: 2 },
    { name: 'the rest of 12 by 6 at noon with one late', seconds: afterLate, most: 0.2 },
    { name: 'the rest of 12 by 6 at noon with one plate skipped', seconds: afterSkip, most: 0.2 },
    {
      name: `the smallest changes for 6 with one camera; ${changes.length} found`,
      seconds: changing,
      most: 3,
    },
  ];
}
