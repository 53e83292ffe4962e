// What is usable of one thing, day by day: the amount on hand as steps, what of it is set aside as a band below,
// what falls short as bars under the line of nothing. Deliveries point up, what runs out is a cross, what is only
// suggested is hollow. A table beside it tells the same.
import { Temporal } from 'temporal-polyfill';
import { formatQuantity } from '../../../lib/quantity-text.js';
import type { Unit } from '../../../lib/units.js';
import { monthName } from '../../../lib/words.js';

export interface StockDay {
  day: Temporal.PlainDate;
  /** In the evening. */
  onHand: bigint;
  setAside: bigint;
  /** Came or ripened that day. */
  came: bigint;
  ranOut: bigint;
  short: bigint;
}

interface StockChartProps {
  /** In order; between them nothing changes. */
  days: StockDay[];
  until: Temporal.PlainDate;
  suggested: { day: Temporal.PlainDate; quantity: bigint }[];
  unit: Unit;
  /** What the picture is, and where its facts stand in words. */
  label: string;
}

const WIDTH = 360;
const LEFT = 50;
const RIGHT = 8;
const TOP = 14;
const HEIGHT = 150;
const BOTTOM = 22;
/** Below the line of nothing, when something falls short. */
const LEAST_BELOW = 16;

/** Nothing without days. */
export function StockChart({ days, until, suggested, unit, label }: StockChartProps) {
  const first = days[0]?.day;
  if (!first) return null;
  const scale = scaleOf(days, first, until);
  const { x, y, bottom } = scale;
  const amounts = ticksOf(scale.most);
  return (
    <svg class="stock-chart" viewBox={`0 0 ${WIDTH} ${bottom + BOTTOM}`} role="img" aria-label={label}>
      <path class="aside" d={`${steps(days, scale, (one) => one.setAside)}V${y(0n)}H${x(first)}z`} />
      <path
        class="chart-line"
        d={[
          ...amounts.map((amount) => `M${LEFT} ${y(amount)}H${WIDTH - RIGHT}`),
          ...monthsOf(first, until).map((month) => `M${x(month)} ${bottom}v4`),
        ].join('')}
      />
      {amounts.map((amount) => (
        <text key={`amount ${amount}`} class="chart-height" x={LEFT - 5} y={y(amount) + 4}>
          {formatQuantity(amount, unit)}
        </text>
      ))}
      {monthsOf(first, until).map((month) => (
        <text key={`month ${month}`} class="chart-month" x={x(month)} y={bottom + 17}>
          {monthName(month.month).slice(0, 3)}
        </text>
      ))}
      <path class="short" d={bars(days, scale)} />
      <path class="on-hand" d={steps(days, scale, (one) => one.onHand)} />
      <path class="came" d={marks(days.slice(1), scale, (one) => one.came, 'l4 7h-8z')} />
      <path class="ran-out" d={marks(days, scale, (one) => one.ranOut, 'm-3 -3l6 6m0 -6l-6 6')} />
      <path
        class="suggested"
        d={suggested.map(({ day }) => `M${x(day)} ${round(y(0n) - 8)}l4 7h-8z`).join('')}
      />
    </svg>
  );
}

interface Scale {
  x(day: Temporal.PlainDate): number;
  y(amount: bigint): number;
  /** How far below the line of nothing. */
  down(amount: bigint): number;
  most: bigint;
  /** The foot of the picture, under which months are named. */
  bottom: number;
}

function scaleOf(days: StockDay[], first: Temporal.PlainDate, until: Temporal.PlainDate): Scale {
  const most = days.reduce((top, { onHand }) => (onHand > top ? onHand : top), 0n);
  const shortest = days.reduce((top, { short }) => (short > top ? short : top), 0n);
  const span = Math.max(1, first.until(until).days);
  const top = ticksOf(most).at(-1) ?? 1n;
  const high = Number(top > most ? top : most) || 1;
  const below = shortest === 0n ? 0 : Math.max(LEAST_BELOW, Math.min(50, (Number(shortest) / high) * HEIGHT));
  return {
    x: (day) => round(LEFT + (first.until(day).days / span) * (WIDTH - LEFT - RIGHT)),
    y: (amount) => round(TOP + HEIGHT - (Number(amount) / high) * HEIGHT),
    down: (amount) => round(shortest === 0n ? 0 : (Number(amount) / Number(shortest)) * below),
    most,
    bottom: round(TOP + HEIGHT + below),
  };
}

/** Nothing, and at most four amounts of 1, 2 or 5 times a power of ten; the last is not below `most`. */
function ticksOf(most: bigint): bigint[] {
  if (most <= 0n) return [0n];
  for (let power = 1n; ; power *= 10n)
    for (const factor of [1n, 2n, 5n]) {
      const step = factor * power;
      const count = (most + step - 1n) / step;
      if (count <= 4n) return Array.from({ length: Number(count) + 1 }, (_, at) => BigInt(at) * step);
    }
}

/** First days of months, so many left out that they can be read. */
function monthsOf(first: Temporal.PlainDate, until: Temporal.PlainDate): Temporal.PlainDate[] {
  const start = first.with({ day: 1 });
  const count = (until.year - first.year) * 12 + until.month - first.month;
  const every = Math.max(1, Math.ceil(count / 6));
  return Array.from({ length: count }, (_, at) => start.add({ months: at + 1 })).filter(
    (_, at) => at % every === 0,
  );
}

/** From step to step until the right end. */
function steps(days: StockDay[], { x, y }: Scale, amount: (day: StockDay) => bigint): string {
  let level: number | null = null;
  let path = '';
  for (const one of days) {
    const next = y(amount(one));
    if (next === level) continue;
    path += level === null ? `M${x(one.day)} ${next}` : `H${x(one.day)}V${next}`;
    level = next;
  }
  return `${path}H${WIDTH - RIGHT}`;
}

function marks(days: StockDay[], { x, y }: Scale, amount: (day: StockDay) => bigint, mark: string): string {
  return days
    .filter((one) => amount(one) > 0n)
    .map((one) => `M${x(one.day)} ${y(one.onHand)}${mark}`)
    .join('');
}

function bars(days: StockDay[], { x, y, down }: Scale): string {
  return days
    .filter(({ short }) => short > 0n)
    .map(({ day, short }) => `M${x(day)} ${y(0n)}v${down(short)}`)
    .join('');
}

const round = (number: number) => Math.round(number * 10) / 10;

/** The signs of the picture, in words, beside the shapes themselves. */
export function StockLegend() {
  const signs = [
    { name: 'on-hand', path: 'M2 8h20', words: 'usable on hand' },
    { name: 'aside', path: 'M2 3h20v10h-20z', words: 'of it set aside' },
    { name: 'came', path: 'M12 3l5 9h-10z', words: 'comes, or is ripe' },
    { name: 'ran-out', path: 'M8 4l8 8m0 -8l-8 8', words: 'runs out' },
    { name: 'short', path: 'M12 2v12', words: 'missing' },
    { name: 'suggested', path: 'M12 3l5 9h-10z', words: 'to be mixed or ordered' },
  ];
  return (
    <ul class="chart-signs">
      {signs.map(({ name, path, words }) => (
        <li key={name}>
          <svg
            class="stock-chart"
            viewBox="0 0 24 16"
            width="24"
            height="16"
            aria-hidden="true"
            focusable="false"
          >
            <path class={name} d={path} />
          </svg>{' '}
          {words}
        </li>
      ))}
    </ul>
  );
}
