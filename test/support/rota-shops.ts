// Published machine shops as teaching benches: each job a student alone with one plate of a size of its own, each
// machine a station, and the job's operations the only steps that take time at that size.
import type { Bench, Step } from '../../src/teaching/rota-bench.calc.js';

/** Of each job its operations in order: machine and time. */
export type Shop = readonly (readonly (readonly [machine: number, time: number])[])[];

/** `wait` false: each operation begins when the one before ends. */
export function benchOf(shop: Shop, wait: boolean): Bench {
  const machines = [...new Set(shop.flat().map(([machine]) => machine))].sort();
  const steps = shop.flatMap((job, at) =>
    job.map(
      (_, operation): Step => ({
        id: `${at}.${operation}`,
        seconds: { low: 0, high: 0 },
        busy: 'nobody',
        follows: wait || operation === 0 ? 'waits' : 'at once',
        within: null,
        lit: false,
        outlasts: false,
      }),
    ),
  );
  return {
    day: { from: 0, until: 10_000 },
    light: null,
    breaks: [],
    steps,
    holds: shop.flatMap((job, at) =>
      job.map(([machine], operation) => ({
        station: `machine ${machine}`,
        from: `${at}.${operation}`,
        until: `${at}.${operation}`,
      })),
    ),
    clocks: [],
    turnStep: '0.0',
    stations: machines.map((machine) => ({
      id: `machine ${machine}`,
      attended: false,
      units: [{ id: `machine ${machine}`, largest: null }],
    })),
    sizes: shop.map((job, at) => ({
      id: `job ${at}`,
      area: 1,
      seconds: Object.fromEntries(
        job.map(([, time], operation) => [`${at}.${operation}`, { low: time, high: time }]),
      ),
    })),
    students: shop.map((_, at) => ({ id: `job ${at}`, plates: [`job ${at}`], from: null })),
    teams: shop.map((_, at) => [`job ${at}`]),
    varnish: null,
  };
}
