// Benchmarks as ratios: the subject against a yardstick, measured turn about in the same run, so that a busy
// machine slows both. The median of the turns is told; absolute times are told too, and mean little elsewhere.
export interface Ratio {
  name: string;
  yardstickMs: number;
  subjectMs: number;
  ratio: number;
  /** What the ratio must not pass; null only reports. */
  most: number | null;
}

const TURNS = 15;
/** Turns not counted: the engine is still compiling. */
const WARMING = 10;

export async function ratio(
  name: string,
  yardstick: () => unknown,
  subject: () => unknown,
  most: number | null,
  turns = { counted: TURNS, warming: WARMING },
): Promise<Ratio> {
  const times: { yardstick: number[]; subject: number[] } = { yardstick: [], subject: [] };
  for (let turn = 0; turn < turns.warming + turns.counted; turn++) {
    const one = await timed(yardstick);
    const two = await timed(subject);
    if (turn < turns.warming) continue;
    times.yardstick.push(one);
    times.subject.push(two);
  }
  const yardstickMs = median(times.yardstick);
  const subjectMs = median(times.subject);
  return { name, yardstickMs, subjectMs, ratio: subjectMs / yardstickMs, most };
}

async function timed(act: () => unknown): Promise<number> {
  const start = performance.now();
  await act();
  return performance.now() - start;
}

const median = (values: number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
