// The strength of a bath against the plates that went through it: what was measured as dots, what is reckoned from
// there as a line in a band that widens, the least strength as a broken line. A table beside it tells the same.

export interface StrengthPoint {
  /** Plates since the beginning; not fewer than at the point before. */
  plates: number;
  /** Grams in a litre: at least, likely, at most. All three alike where it was measured. */
  weakest: number;
  likely: number;
  strongest: number;
  kind: 'measured' | 'reckoned' | 'ahead';
}

interface BathChartProps {
  points: StrengthPoint[];
  /** The strength below which it is not used, and the one it is made up to. */
  least: number;
  target: number;
  /** What the picture is, and where its facts stand in words. */
  label: string;
}

const WIDTH = 360;
const HEIGHT = 200;
const LEFT = 34;
const RIGHT = 10;
const TOP = 12;
const BOTTOM = 30;

/** Nothing without points. */
export function BathChart({ points, least, target, label }: BathChartProps) {
  if (points.length === 0) return null;
  const scale = scaleOf(points, least, target);
  const { x, y } = scale;
  const now = points.filter(({ kind }) => kind !== 'ahead').at(-1);
  const hasAhead = points.some(({ kind }) => kind === 'ahead');
  return (
    <svg class="bath-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      <path class="band" d={bands(points, scale)} />
      <path
        class="chart-line"
        d={[
          ...scale.strengths.map((strength) => `M${LEFT} ${y(strength)}H${WIDTH - RIGHT}`),
          ...scale.plates.map((plates) => `M${x(plates)} ${HEIGHT - BOTTOM}v4`),
        ].join('')}
      />
      {scale.strengths.map((strength) => (
        <text key={`strength ${strength}`} class="chart-height" x={LEFT - 5} y={y(strength) + 4}>
          {strength}
        </text>
      ))}
      {scale.plates.map((plates) => (
        <text key={`plates ${plates}`} class="chart-hour" x={x(plates)} y={HEIGHT - BOTTOM + 17}>
          {plates}
        </text>
      ))}
      <path class="floor-line" d={`M${LEFT} ${y(least)}H${WIDTH - RIGHT}`} />
      {now && hasAhead && <path class="chart-now" d={`M${x(now.plates)} ${TOP}V${HEIGHT - BOTTOM}`} />}
      <path class="likely-line" d={line(points, scale)} />
      {points
        .filter(({ kind }) => kind === 'measured')
        .map(({ plates, likely }) => (
          <circle key={`${plates} ${likely}`} class="measured" cx={x(plates)} cy={y(likely)} r="4" />
        ))}
    </svg>
  );
}

interface Scale {
  x(plates: number): number;
  y(strength: number): number;
  /** Where lines are ruled, and marks made. */
  strengths: number[];
  plates: number[];
}

function scaleOf(points: StrengthPoint[], least: number, target: number): Scale {
  const all = points.flatMap(({ weakest, strongest }) => [weakest, strongest]);
  const step = 10;
  const low = Math.max(0, Math.floor((Math.min(least, ...all) - 2) / step) * step);
  const high = Math.ceil((Math.max(target, ...all) + 2) / step) * step;
  const [first, last] = [points[0]?.plates ?? 0, points.at(-1)?.plates ?? 0];
  const span = Math.max(1, last - first);
  const across = stepOf(span);
  return {
    x: (plates) => round(LEFT + ((plates - first) / span) * (WIDTH - LEFT - RIGHT)),
    y: (strength) => round(HEIGHT - BOTTOM - ((strength - low) / (high - low)) * (HEIGHT - TOP - BOTTOM)),
    strengths: rangeOf(low, high, high - low > 60 ? 20 : step),
    plates: rangeOf(Math.ceil(first / across) * across, last, across),
  };
}

/** At most six marks: 1, 2, 5, 10, 20, 50 ... */
function stepOf(span: number): number {
  for (let power = 1; ; power *= 10)
    for (const factor of [1, 2, 5]) if (span / (factor * power) <= 6) return factor * power;
}

const rangeOf = (from: number, until: number, step: number) =>
  Array.from({ length: Math.max(0, Math.floor((until - from) / step) + 1) }, (_, at) => from + at * step);

/** Stretches between one measurement and the next. */
function runs(points: StrengthPoint[]): StrengthPoint[][] {
  const all: StrengthPoint[][] = [];
  for (const point of points) {
    if (point.kind === 'measured' || all.length === 0) all.push([]);
    all.at(-1)?.push(point);
  }
  return all;
}

function bands(points: StrengthPoint[], { x, y }: Scale): string {
  return runs(points)
    .filter((run) => run.length > 1)
    .map((run) => {
      const above = run.map(({ plates, strongest }) => `${x(plates)} ${y(strongest)}`);
      const below = run.map(({ plates, weakest }) => `${x(plates)} ${y(weakest)}`).reverse();
      return `M${[...above, ...below].join('L')}z`;
    })
    .join('');
}

const line = (points: StrengthPoint[], { x, y }: Scale) =>
  runs(points)
    .map((run) => `M${run.map(({ plates, likely }) => `${x(plates)} ${y(likely)}`).join('L')}`)
    .join('');

const round = (number: number) => Math.round(number * 10) / 10;
