// What a change of a teaching day would change, and whom it touches: told before it is done. Pure; nothing is changed.
import { Temporal } from 'temporal-polyfill';
import { minutesOf } from './course.schemas.js';
import { nextOfSignUp, type SignUpState } from './states.calc.js';
import type { Session, Template } from './teaching.schemas.js';

/** What the owner wants otherwise. */
export interface Wanted {
  wallStart: Temporal.PlainDateTime;
  places: number;
  least: number;
  decideOn: Temporal.PlainDate;
  secondAdult: string;
  /** An unusual hour is meant. */
  meant: boolean;
  /** Teach it as the template says now. */
  renew: boolean;
}

export type Changed = 'start' | 'length' | 'course' | 'places' | 'least' | 'decide' | 'second adult';

export interface Change {
  /** The day as it would be. */
  after: Session;
  wallStart: Temporal.PlainDateTime;
  what: Changed[];
  /** The room is taken at another time, and stock is set aside anew. */
  moves: boolean;
  restocks: boolean;
  /** Why it cannot be done; null when it can. */
  no: 'fewer than taken' | 'least above places' | 'nothing changes' | null;
}

/** What of a change people who signed up are told. */
const TOLD: readonly Changed[] = ['start', 'length', 'course'];

export function changeOf(
  session: Session,
  wallStart: Temporal.PlainDateTime,
  template: Template | undefined,
  wanted: Wanted,
): Change {
  const course = wanted.renew && template ? template.course : session.course;
  const { places, least, decideOn, secondAdult } = wanted;
  const after = { ...session, course, places, least, decideOn, secondAdult };
  const differs: [Changed, boolean][] = [
    ['start', !wanted.wallStart.equals(wallStart)],
    ['length', minutesOf(course) !== minutesOf(session.course)],
    ['course', JSON.stringify(course) !== JSON.stringify(session.course)],
    ['places', places !== session.places],
    ['least', least !== session.least],
    ['decide', Temporal.PlainDate.compare(decideOn, session.decideOn) !== 0],
    ['second adult', secondAdult !== session.secondAdult],
  ];
  const what = differs.flatMap(([name, is]) => (is ? [name] : []));
  const moves = what.includes('start') || what.includes('length');
  const newDay = !wanted.wallStart.toPlainDate().equals(wallStart.toPlainDate());
  const no =
    places < session.taken
      ? 'fewer than taken'
      : least > places
        ? 'least above places'
        : what.length === 0
          ? 'nothing changes'
          : null;
  const restocks = newDay || what.includes('course');
  return { after, wallStart: wanted.wallStart, what, moves, restocks, no };
}

/** Whether a change concerns somebody in a state: who has a place, is offered one, or waits for one. */
export const touches = ({ what }: Pick<Change, 'what'>, state: SignUpState): boolean =>
  nextOfSignUp(state, 'call_off') !== null && what.some((one) => TOLD.includes(one));
