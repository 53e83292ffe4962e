// How the shelf stands for a day, as a shape and in words.
import type { Temporal } from 'temporal-polyfill';
import { monthName, weekdayName } from '../../../lib/words.js';

type State = 'enough' | 'mix by' | 'order by' | 'nothing to do yet' | 'cannot be had';

/** A tick; a half-filled bottle; a box with an arrow; an empty ring; a crossed ring. */
const SHAPES: Record<State, string> = {
  enough: 'M3 12l6 6L21 5',
  'mix by': 'M9 3h6v5l4 4v9H5v-9l4-4zM5 15h14',
  'order by': 'M3 9h18v12H3zM12 2v13M8 11l4 4 4-4',
  'nothing to do yet': 'M12 4a8 8 0 1 0 .01 0z',
  'cannot be had': 'M12 3a9 9 0 1 0 .01 0zM6 6l12 12',
};

interface StockMarkProps {
  state: State;
  /** The last day, for "mix by" and "order by". */
  by?: Pick<Temporal.PlainDate, 'dayOfWeek' | 'day' | 'month'> | null | undefined;
  /** The day is close: said by weight. */
  near?: boolean | undefined;
}

export function StockMark({ state, by, near = false }: StockMarkProps) {
  return (
    <span class={`stock-mark ${state.replaceAll(' ', '-')}${near ? ' near' : ''}`}>
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false">
        <path d={SHAPES[state]} />
      </svg>
      <span>
        {state}
        {by && ` ${weekdayName(by.dayOfWeek)} `}
        {by && <span class="nowrap">{`${by.day} ${monthName(by.month)}`}</span>}
      </span>
    </span>
  );
}
