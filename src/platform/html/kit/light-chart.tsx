// Many days of light as one picture: days downwards, hours across, good light as a band that steps where clocks
// change, and places in it as marks: open ones hollow, held ones half filled, taken ones solid. The picture has
// a name; what it shows is told in words or a table beside it.
import type { Temporal } from 'temporal-polyfill';
import { monthName, weekdayName } from '../../../lib/words.js';
import { endOf, type Hours, hoursAround, minuteOf, type PlaceInLight, type Stretch } from './light-bar.js';

export interface ChartDay {
  date: Temporal.PlainDate;
  /** null: no good light that day. */
  light: Stretch | null;
  places: PlaceInLight[];
  /** The room is closed. */
  closed: boolean;
}

interface LightChartProps {
  /** One after the other, none left out. */
  days: ChartDay[];
  /** A line is drawn at this date, if it is among the days. */
  today: Temporal.PlainDate;
  /** Names each month at its first day, or each day. */
  names: 'months' | 'days';
  /** What the picture is, and where its facts stand in words. */
  label: string;
}

const WIDTH = 360;
const LEFT = { months: 34, days: 56 };
const RIGHT = 8;
const TOP = 20;
const BOTTOM = 6;
/** Height of a day. */
const DAY = { months: 1.7, days: 18 };
const MARK = { months: 5, days: 11 };

export function LightChart({ days, today, names, label }: LightChartProps) {
  const hours = hoursAround(days.flatMap(({ light, places }) => (light ? [light, ...places] : places)));
  const scale = scaleOf(days, hours, names);
  const bottom = TOP + days.length * DAY[names];
  const todayAt = days.findIndex(({ date }) => date.equals(today));
  const ticks = Array.from(
    { length: (hours.until - hours.from) / 3 + 1 },
    (_, step) => hours.from + step * 3,
  );
  const states = ['open', 'held', 'taken'] as const;
  return (
    <svg class="light-chart" viewBox={`0 0 ${WIDTH} ${round(bottom + BOTTOM)}`} role="img" aria-label={label}>
      <path class="light" d={band(days, scale)} />
      <path
        class="chart-line"
        d={[
          ...ticks.map((hour) => `M${scale.x(hour * 60)} ${TOP}V${round(bottom)}`),
          ...rules(days, names).map((index) => `M${LEFT[names]} ${scale.y(index)}H${WIDTH - RIGHT}`),
        ].join('')}
      />
      {ticks.map((hour) => (
        <text key={hour} class="chart-hour" x={scale.x(hour * 60)} y={TOP - 7}>
          {hour}
        </text>
      ))}
      {named(days, names).map(({ index, name }) => (
        <text key={index} x="0" y={round(scale.y(index) + (names === 'days' ? 13 : 12))}>
          {name}
        </text>
      ))}
      <path class="closed-days" d={hatching(days, scale)} />
      {states.map((state) => (
        <path key={state} class={`place-mark ${state}`} d={marks(days, state, scale)} />
      ))}
      <path class="place-half" d={halves(days, scale)} />
      {todayAt >= 0 && (
        <>
          <path class="today-line" d={`M${LEFT[names] - 6} ${scale.y(todayAt + 0.5)}H${WIDTH - RIGHT}`} />
          <text class="chart-height" x={WIDTH - RIGHT} y={round(scale.y(todayAt + 0.5) - 4)}>
            today
          </text>
        </>
      )}
    </svg>
  );
}

interface Scale {
  x(minute: number): number;
  y(index: number): number;
  mark: number;
  left: number;
  right: number;
}

function scaleOf(days: ChartDay[], hours: Hours, names: LightChartProps['names']): Scale {
  const left = LEFT[names];
  const perMinute = (WIDTH - left - RIGHT) / ((hours.until - hours.from) * 60);
  const withPlaces = days.flatMap(({ places }, index) => (places.length > 0 ? [index] : []));
  const closest = Math.min(...withPlaces.slice(1).map((index, at) => index - (withPlaces[at] ?? 0)));
  return {
    x: (minute) => round(left + (minute - hours.from * 60) * perMinute),
    y: (index) => round(TOP + index * DAY[names]),
    mark: Math.min(MARK[names], closest * DAY[names] * 0.8),
    left,
    right: WIDTH - RIGHT,
  };
}

/** One outline for each run of days with light: down its evenings, up its mornings, a step a day. */
function band(days: ChartDay[], { x, y }: Scale): string {
  let path = '';
  for (let first = 0; first < days.length; first++) {
    if (!days[first]?.light) continue;
    let down = '';
    let up = '';
    let index = first;
    for (let light = days[index]?.light; light; light = days[++index]?.light) {
      const [from, until] = [x(minuteOf(light.from)), x(endOf(light))];
      down += `H${until}V${y(index + 1)}`;
      up = `H${from}V${y(index)}${up}`;
    }
    path += `M${x(minuteOf(days[first]?.light?.from ?? { hour: 0, minute: 0 }))} ${y(first)}${down}${up}z`;
    first = index - 1;
  }
  return path;
}

type Boxed = { left: number; top: number; width: number; height: number };

function boxes(days: ChartDay[], state: PlaceInLight['state'], { x, y, mark }: Scale): Boxed[] {
  return days.flatMap(({ places }, index) =>
    places
      .filter((place) => place.state === state)
      .map((place) => {
        const left = x(minuteOf(place.from));
        const top = round(y(index + 0.5) - mark / 2);
        return { left, top, width: round(x(endOf(place)) - left), height: round(mark) };
      }),
  );
}

const marks = (days: ChartDay[], state: PlaceInLight['state'], scale: Scale) =>
  boxes(days, state, scale)
    .map(({ left, top, width, height }) => `M${left} ${top}h${width}v${height}h${-width}z`)
    .join('');

const halves = (days: ChartDay[], scale: Scale) =>
  boxes(days, 'held', scale)
    .map(({ left, top, width, height }) => `M${left} ${top}h${width}l${-width} ${height}z`)
    .join('');

/** Closed days: strokes aslant across their whole line. */
function hatching(days: ChartDay[], { y, left, right }: Scale): string {
  const STEP = 12;
  return days
    .flatMap(({ closed }, index) => {
      if (!closed) return [];
      const [top, bottom] = [y(index), y(index + 1)];
      const height = round(bottom - top);
      return Array.from({ length: Math.floor((right - left) / STEP) }, (_, at) => {
        // every day begins where the one above it ended, so that a closed week is ruled through
        const start = round(left + at * STEP + ((index * height) % STEP));
        return start + height > right ? '' : `M${start} ${top}l${height} ${height}`;
      });
    })
    .join('');
}

/** The days above which a line is ruled: first days of months, or Mondays. */
function rules(days: ChartDay[], names: LightChartProps['names']): number[] {
  const begins = ({ date }: ChartDay) => (names === 'months' ? date.day === 1 : date.dayOfWeek === 1);
  return days.flatMap((day, index) => (index > 0 && begins(day) ? [index] : []));
}

function named(days: ChartDay[], names: LightChartProps['names']): { index: number; name: string }[] {
  return days.flatMap(({ date }, index) => {
    if (names === 'days') return [{ index, name: `${weekdayName(date.dayOfWeek).slice(0, 3)} ${date.day}` }];
    return date.day === 1 ? [{ index, name: monthName(date.month).slice(0, 3) }] : [];
  });
}

const round = (number: number) => Math.round(number * 10) / 10;
