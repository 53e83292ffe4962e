// A day's light drawn as one line: the hours, the stretch of good light, and the places in it. Open places
// are hollow, taken ones solid, held ones half filled; the same is said in words.
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../../../lib/words.js';
import { type Words, wordsFor } from '../../../words/words-for.js';
import { useWords } from './spoken.js';

type TimeOfDay = Pick<Temporal.PlainTime, 'hour' | 'minute'>;

/** Wall times at the studio; `until` at or before `from` means midnight. */
export interface Stretch {
  from: TimeOfDay;
  until: TimeOfDay;
}

export interface PlaceInLight extends Stretch {
  state: 'open' | 'held' | 'taken';
}

/** Whole hours from 0 to 24. */
export interface Hours {
  from: number;
  until: number;
}

const USUAL_HOURS: Hours = { from: 6, until: 21 };
const WIDTH = 300;
const EDGE = 8;
const TOP = 3;
const GROUND = 25;

export const minuteOf = ({ hour, minute }: TimeOfDay) => hour * 60 + minute;
/** Minutes after midnight at which a stretch ends: at most 1440. */
export const endOf = ({ from, until }: Stretch) =>
  minuteOf(until) <= minuteOf(from) ? 24 * 60 : minuteOf(until);

/** The hours that hold all the stretches, at least from six to nine in the evening, in steps of three. */
export function hoursAround(stretches: Stretch[]): Hours {
  const from = Math.min(USUAL_HOURS.from * 60, ...stretches.map((one) => minuteOf(one.from)));
  const until = Math.max(USUAL_HOURS.until * 60, ...stretches.map(endOf));
  return { from: Math.floor(from / 180) * 3, until: Math.ceil(until / 180) * 3 };
}

interface LightBarProps {
  /** null: no good light that day. */
  window: Stretch | null;
  slots: PlaceInLight[];
  /** The same hours for all the bars of a list; else those around this day. */
  hours?: Hours | undefined;
}

export function LightBar({ window, slots, hours }: LightBarProps) {
  const words = useWords();
  const axis = hours ?? hoursAround(window === null ? slots : [window, ...slots]);
  const at = (minute: number) =>
    round(EDGE + ((minute - axis.from * 60) / ((axis.until - axis.from) * 60)) * (WIDTH - 2 * EDGE));
  const box = (one: Stretch) => ({
    x: at(minuteOf(one.from)),
    width: round(at(endOf(one)) - at(minuteOf(one.from))),
  });
  const ticks = Array.from({ length: (axis.until - axis.from) / 3 + 1 }, (_, step) => axis.from + step * 3);
  return (
    <svg
      class="light-bar"
      viewBox={`0 0 ${WIDTH} 44`}
      role="img"
      aria-label={lightInWords(window, slots, words)}
    >
      {window !== null && <rect class="light" {...box(window)} y={TOP} height={GROUND - TOP} />}
      <path
        class={window === null ? 'ground dark' : 'ground'}
        d={`M${EDGE} ${GROUND}H${WIDTH - EDGE}${ticks.map((hour) => `M${at(hour * 60)} ${GROUND}v5`).join('')}`}
      />
      {ticks.map((hour) => (
        <text key={hour} x={at(hour * 60)} y="42">
          {hour}
        </text>
      ))}
      {slots.map((slot) => (
        <PlaceMark key={minuteOf(slot.from)} state={slot.state} {...box(slot)} y={TOP + 5} height={12} />
      ))}
    </svg>
  );
}

interface PlaceMarkProps {
  state: PlaceInLight['state'];
  x: number;
  y: number;
  width: number;
  height: number;
}

export function PlaceMark({ state, x, y, width, height }: PlaceMarkProps) {
  return (
    <>
      <rect class={`place-mark ${state}`} x={x} y={y} width={width} height={height} />
      {state === 'held' && <path class="place-half" d={`M${x} ${y + height}V${y}h${width}z`} />}
    </>
  );
}

/** What the marks of a light bar mean. */
export function LightLegend({ states, held }: { states: PlaceInLight['state'][]; held?: string }) {
  const { legend } = useWords().light;
  const words = held === undefined ? legend : { ...legend, held };
  return (
    <ul class="light-legend">
      <li>
        <svg viewBox="0 0 30 18" width="30" height="18" aria-hidden="true" focusable="false">
          <rect class="light" width="30" height="18" />
        </svg>
        {words.light}
      </li>
      {states.map((state) => (
        <li key={state}>
          <svg viewBox="0 0 30 18" width="30" height="18" aria-hidden="true" focusable="false">
            <PlaceMark state={state} x={2} y={3} width={26} height={12} />
          </svg>
          {words[state]}
        </li>
      ))}
    </ul>
  );
}

export function lightInWords(
  window: Stretch | null,
  slots: PlaceInLight[],
  { light: words }: Words = wordsFor('en'),
): string {
  const light =
    window === null ? words.noneSaid : `${words.good(timeInWords(window.from), timeInWords(window.until))}.`;
  const of = (state: PlaceInLight['state']) => {
    const times = slots
      .filter((slot) => slot.state === state)
      .map(({ from, until }) => words.stretch(timeInWords(from), timeInWords(until)));
    return times.length === 0 ? '' : ` ${words.said[state]}${times.join(', ')}.`;
  };
  return light + of('open') + of('held') + of('taken');
}

const round = (number: number) => Math.round(number * 10) / 10;
