// The planner's problem from the studio's own facts: who waits and which of the open places each could have, what each
// is worth, and what days and shelf have left. Why somebody could have none is told here.
import type { Temporal } from 'temporal-polyfill';
import { isThere } from '../room/attendance.calc.js';
import type { DayOfPlaces } from '../room/days.calc.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { mostSittings, rhythmOn, type Slot } from '../room/openings.calc.js';
import { limitOfPlates, type PoseLimits } from '../room/pose.calc.js';
import type { RoomRules } from '../room/rules.schemas.js';
import type { Expiry } from '../waiting/expiry.calc.js';
import type { DayRoom, Placing, Problem, Quota, Supply, Wish } from '../waiting/planner-model.calc.js';
import {
  openingPoints,
  type Part,
  pointsOf,
  sumOf,
  TOGETHER_POINTS,
  type Weights,
} from '../waiting/planner-points.calc.js';
import { type SittingView, suitsOn } from './sittings.schemas.js';

/** Whether what somebody needs is there for a day, can still be had, or cannot. */
export type OnShelf = 'enough' | 'to be had' | 'cannot be had';

/** Somebody who waits, and all that planning needs to know of them. */
export interface Waiting {
  view: SittingView;
  noticeDays: number;
  /** Until when an offer made now of a start would be open. */
  expiryOf: (startsAt: Temporal.Instant) => Expiry;
  /** Their days of the rhythm, each with its starts for as many plates and people, of their kind. */
  days: DayOfPlaces[];
  needs: { item: string; quantity: bigint }[];
  shelfOn: (day: Temporal.PlainDate) => OnShelf;
  /** Starts they were offered and did not take, in milliseconds. */
  passedOver: ReadonlySet<number>;
}

export interface PlanFacts {
  /** In the order of the list. */
  waiting: Waiting[];
  today: Temporal.PlainDate;
  rules: RoomRules;
  /** All that has the room this year and later. */
  holding: Occupancy[];
  supplies: (dates: Temporal.PlainDate[]) => Supply[];
}

/** Why no place at all could be given to somebody; of several the one that the most places failed by. */
export type NoPlace =
  | 'no day suits'
  | 'no open place'
  | 'notice too long'
  | 'no time to answer'
  | 'hold still too long'
  | 'cannot be had'
  | 'said no';

/** A place of the problem with what is shown of it. */
export interface Choice {
  slot: Slot;
  parts: Part[];
  onShelf: OnShelf;
  limit: number;
}

export interface PlanProblem {
  problem: Problem;
  /** By wish and placing. */
  choices: Choice[][];
  /** By wish; null for one that has a choice. */
  noPlace: (NoPlace | null)[];
  dates: Temporal.PlainDate[];
}

export function planProblem(facts: PlanFacts, weights: Weights): PlanProblem {
  const dates = datesOf(facts.waiting);
  const at = new Map(dates.map((date, position) => [date.toString(), position]));
  const all = facts.waiting.map((one, position) =>
    choicesOf(one, position + 1, { facts, weights, dates, at }),
  );
  const sizes = new Map<string, number>();
  for (const { view } of facts.waiting) sizes.set(view.contact.id, (sizes.get(view.contact.id) ?? 0) + 1);
  const wishes = facts.waiting.map(({ view, needs }, position): Wish => {
    const { contact, sitting } = view;
    return {
      id: sitting.id,
      plates: view.plates.length,
      kindId: sitting.kindId,
      party: (sizes.get(contact.id) ?? 0) > 1 ? contact.id : null,
      mayHaveKept: sitting.returnOwed,
      needs,
      placings: all[position]?.placings ?? [],
    };
  });
  return {
    problem: {
      wishes,
      days: dates.map((date) => dayRoom(facts, date, openingPoints(weights))),
      supplies: facts.supplies(dates),
      quotas: quotasOf(facts, dates),
      together:
        weights.together === 'rather'
          ? { rule: 'rather', points: TOGETHER_POINTS }
          : { rule: weights.together },
    },
    choices: all.map((one) => one.choices),
    noPlace: all.map((one) => one.noPlace),
    dates,
  };
}

/** All days that anybody could have, in order. */
export function datesOf(waiting: Waiting[]): Temporal.PlainDate[] {
  const all = new Map<string, Temporal.PlainDate>();
  for (const { days } of waiting) for (const { date } of days) all.set(date.toString(), date);
  return [...all.keys()].sort().flatMap((key) => all.get(key) ?? []);
}

interface Around {
  facts: PlanFacts;
  weights: Weights;
  dates: Temporal.PlainDate[];
  at: ReadonlyMap<string, number>;
}

function choicesOf(one: Waiting, position: number, around: Around) {
  const { facts, weights, dates, at } = around;
  const limit = limitOfView(one.view, facts.rules.limits);
  const placings: Placing[] = [];
  const choices: Choice[] = [];
  const failed = new Map<NoPlace, number>();
  const fails = (why: NoPlace) => failed.set(why, (failed.get(why) ?? 0) + 1);
  const [first] = dates;
  const last = dates.at(-1);
  for (const day of one.days) {
    if (!suitsOn(one.view.sitting.suits, day.date)) continue;
    const onShelf = one.shelfOn(day.date);
    for (const slot of day.openings) {
      const busy = spanOf(slot);
      const open = slot.closed === null && slot.startsAt && one.expiryOf(slot.startsAt);
      if (!open || !busy || !slot.holdStill) fails('no open place');
      else if (!open.ok) fails(open.reason);
      else if (onShelf === 'cannot be had') fails('cannot be had');
      else if (one.passedOver.has(busy.from)) fails('said no');
      else if (Math.round(slot.holdStill.clear.to) > limit && weights.light !== 'not')
        fails('hold still too long');
      else if (slot.heldBack === true && !one.view.sitting.returnOwed) fails('no open place');
      else {
        const parts = pointsOf(
          {
            position,
            of: facts.waiting.length,
            daysOn: first ? first.until(day.date).days : 0,
            daysInAll: first && last ? first.until(last).days : 0,
            easyJourney: isEasy(one.view, slot),
            clear: slot.holdStill.clear.to,
            dull: slot.holdStill.dull.to,
            limit,
            onShelf: onShelf === 'enough',
            idleMinutes: idleAfter(busy.until, day.openings),
          },
          weights,
        );
        const dayAt = at.get(day.date.toString()) ?? -1;
        placings.push({ day: dayAt, ...busy, points: sumOf(parts), kept: slot.heldBack === true });
        choices.push({ slot, parts, onShelf, limit });
      }
    }
  }
  const [worst] = [...failed].sort(([, a], [, b]) => b - a);
  const noPlace = placings.length > 0 ? null : (worst?.[0] ?? 'no day suits');
  return { placings, choices, noPlace };
}

/** The room's time of a start in milliseconds; null for a clock gap. */
export function spanOf({ startsAt, busyUntil }: Slot): { from: number; until: number } | null {
  return startsAt && busyUntil
    ? { from: startsAt.epochMilliseconds, until: busyUntil.epochMilliseconds }
    : null;
}

const MINUTE = 60_000;

/** Minutes from the end of a sitting to the next start of its day; 0 after the last. */
function idleAfter(until: number, openings: Slot[]): number {
  const next = openings.map((one) => one.startsAt?.epochMilliseconds ?? 0).filter((start) => start >= until);
  return next.length === 0 ? 0 : (Math.min(...next) - until) / MINUTE;
}

/** Waking hours of somebody who travels on the day: out after 7, home before 22. Assumption. */
const WAKING = { from: 7, until: 22 };

function isEasy({ journey }: SittingView, { wallStart, wallEnd }: Slot): boolean {
  if (!journey?.hours || journey.overnight) return true;
  const hourOf = ({ hour, minute }: Temporal.PlainDateTime) => hour + minute / 60;
  return (
    hourOf(wallStart) - journey.hours.to >= WAKING.from && hourOf(wallEnd) + journey.hours.to <= WAKING.until
  );
}

/** Seconds that all on the plates of a sitting can hold still. */
export function limitOfView({ plates, sitters }: SittingView, limits: PoseLimits): number {
  const onPlate = ({ sitterIds }: SittingView['plates'][number]) =>
    sitters.filter((one) => sitterIds.includes(one.id));
  return limitOfPlates(plates.map(onPlate), limits);
}

/** What a day has left beside what is given. */
export function dayRoom(
  { rules, holding, waiting }: PlanFacts,
  date: Temporal.PlainDate,
  opening: number,
): DayRoom {
  const rhythm = rhythmOn(rules.rhythms, date);
  const given = holding.filter((one) => one.kind === 'sitting' && one.wallStart.toPlainDate().equals(date));
  const plates = given.reduce((sum, one) => sum + one.plates, 0);
  const most = rhythm ? mostSittings(rhythm, isThere(rules.helper, date)) : 0;
  const key = date.toString();
  const ofDay = waiting.map(({ days }) => days.find((day) => day.date.toString() === key)?.openings ?? []);
  const kept = Math.max(0, ...ofDay.map((slots) => slots.filter((one) => one.heldBack === true).length));
  return {
    date: key,
    year: date.year,
    sittings: Math.max(0, most - given.length),
    plates: Math.max(0, (rhythm?.mostPlates ?? 0) - plates),
    kept: Math.min(kept, rhythm?.heldBack ?? 0),
    opening: given.length > 0 ? 0 : opening,
  };
}

/** What is left of each kind in the years of some dates. */
export function quotasOf({ rules, holding }: PlanFacts, dates: Temporal.PlainDate[]): Quota[] {
  const years = (kindId: string) => {
    const given = new Map<number, number>();
    for (const one of holding)
      if (one.kind === 'sitting' && one.kindId === kindId)
        given.set(one.wallStart.year, (given.get(one.wallStart.year) ?? 0) + 1);
    return given;
  };
  const seen = [...new Set(dates.map((date) => date.year))];
  return rules.kinds.flatMap(({ id, yearlyQuota }) => {
    if (yearlyQuota === null) return [];
    const given = years(id);
    return seen.map((year) => ({
      kindId: id,
      year,
      left: Math.max(0, yearlyQuota - (given.get(year) ?? 0)),
    }));
  });
}
