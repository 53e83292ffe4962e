// A teaching day's turns as a picture: time runs down, a column for each student or station, a bar for whatever takes
// it, the breaks across and the good light at the side. The timetables beside it tell the same in words.
import type { Stretch } from '../../teaching/rota-bench.calc.js';
import type { Column } from '../../teaching/rota-timetable.calc.js';
import { clockTime } from '../../teaching/rota-words.calc.js';

interface RotaChartProps {
  columns: Column[];
  day: Stretch;
  light: Stretch | null;
  breaks: Stretch[];
  /** What stands at the head of a column; short ones are easier to read. */
  nameOf: (id: string) => string;
  /** What the picture is, and where its facts stand in words. */
  label: string;
}

const WIDTH = 360;
const LEFT = 50;
const RIGHT = 4;
/** Room for the names, which stand upright. */
const TOP = 116;
const BOTTOM = 8;
/** Pixels for a minute: a quarter of an hour is high enough for a number. */
const MINUTE = 1.5;

/** Nothing without columns. Bars that go on after the day make the picture longer. */
export function RotaChart({ columns, day, light, breaks, nameOf, label }: RotaChartProps) {
  if (columns.length === 0) return null;
  const last = Math.max(day.until, ...columns.flatMap(({ bars }) => bars.map(({ until }) => until)));
  const [from, until] = [Math.floor(day.from / 3600) * 3600, Math.ceil(last / 1800) * 1800];
  const y = (seconds: number) =>
    round(TOP + ((Math.min(Math.max(seconds, from), until) - from) / 60) * MINUTE);
  const width = (WIDTH - LEFT - RIGHT) / columns.length;
  const height = y(until) + BOTTOM;
  const hours = Array.from({ length: Math.floor((until - from) / 3600) + 1 }, (_, at) => from + at * 3600);
  return (
    <svg class="rota-chart" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={label}>
      {light && light.until > light.from && (
        <path class="light" d={`M${LEFT - 6} ${y(light.from)}h5V${y(light.until)}h-5z`} />
      )}
      <path
        class="rota-break"
        d={breaks.map((one) => box(LEFT, WIDTH - RIGHT, y(one.from), y(one.until))).join('')}
      />
      <path
        class="rota-rule"
        d={[
          ...hours.map((hour) => `M${LEFT} ${y(hour)}H${WIDTH - RIGHT}`),
          ...columns.map((_, at) => `M${round(LEFT + at * width)} ${TOP}V${y(until)}`),
        ].join('')}
      />
      {hours.map((hour) => (
        <text key={hour} class="rota-hour" x={LEFT - 9} y={y(hour) + 4}>
          {clockTime(hour)}
        </text>
      ))}
      {columns.map(({ id, bars }, at) => {
        const left = LEFT + at * width;
        const middle = round(left + width / 2);
        return (
          <g key={id}>
            <text class="rota-name" transform={`translate(${middle + 4} ${TOP - 6}) rotate(-90)`}>
              {short(nameOf(id))}
            </text>
            {bars.map((bar) => (
              <path
                key={`${bar.kind} ${bar.from}`}
                class={`rota-${bar.kind}`}
                d={box(
                  left + inset(bar.kind, width),
                  left + width - inset(bar.kind, width),
                  y(bar.from),
                  y(bar.until),
                )}
              />
            ))}
            {width >= 14 &&
              bars
                .filter(({ kind, from: begins, until: ends }) => kind === 'plate' && ends - begins >= 600)
                .map((bar) => (
                  <text
                    key={bar.from}
                    class="rota-round"
                    x={middle}
                    y={round((y(bar.from) + y(bar.until)) / 2 + 4)}
                  >
                    {bar.round}
                  </text>
                ))}
          </g>
        );
      })}
      <path class="rota-end" d={`M${LEFT} ${y(day.until)}H${WIDTH - RIGHT}`} />
    </svg>
  );
}

/** What the bars of a chart of people mean, in words beside a piece of each. */
export function RotaLegend() {
  return (
    <ul class="light-legend">
      {LEGEND.map(([kind, words]) => (
        <li key={kind}>
          <svg class="rota-chart rota-key" viewBox="0 0 18 18" aria-hidden="true">
            <path
              class={`rota-${kind}`}
              d={kind === 'break' ? 'M1 3H17V15H1z' : box(inset(kind, 18), 18 - inset(kind, 18), 3, 15)}
            />
          </svg>
          {words}
        </li>
      ))}
    </ul>
  );
}

const LEGEND = [
  ['plate', 'makes a plate, with its turn'],
  ['step', 'cleans glass or fixes'],
  ['sit', 'sits for another'],
  ['varnish', 'varnishes'],
  ['break', 'a break, or everybody together'],
] as const;

/** Told apart by width as well as by colour. */
function inset(kind: string, width: number): number {
  const share = { plate: 0.08, use: 0.12, sit: 0.24, step: 0.34, varnish: 0.34 }[kind] ?? 0.1;
  return share * width;
}

const box = (left: number, right: number, top: number, bottom: number) =>
  bottom > top ? `M${round(left)} ${top}H${round(right)}V${bottom}H${round(left)}z` : '';

const LETTERS = 16;
const short = (name: string) => (name.length > LETTERS ? `${name.slice(0, LETTERS - 1)}…` : name);

const round = (number: number) => Math.round(number * 10) / 10;
