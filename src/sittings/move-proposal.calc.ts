// New places for sittings that must leave theirs, with the least harm: whoever is on the way or cannot be told in
// time comes first and is to be telephoned now. It proposes; calling off, asking and moving are acts of their own.
import { Temporal } from 'temporal-polyfill';
import type { DateRange } from '../room/days.calc.js';
import type { FarAway } from '../travel/distance.calc.js';
import type { Placing, Problem, Wish } from '../waiting/planner-model.calc.js';
import { PLACE } from '../waiting/planner-points.calc.js';
import {
  type Choice,
  datesOf,
  dayRoom,
  limitOfView,
  type NoPlace,
  type PlanFacts,
  quotasOf,
  spanOf,
  type Waiting,
} from './plan-problem.calc.js';
import { suitsOn } from './sittings.schemas.js';

/** How pressing it is to reach somebody whose place goes. */
export type Urgency = 'on the way' | 'within their notice' | 'in time';

/** Days before the place on which they may have left home already, by how far they come. Assumption. */
const LEAVES_DAYS_BEFORE: Record<FarAway, number> = { near: 0, 'day trip': 0, 'night stay': 1, flight: 2 };
/** Whoever is on the way can stay on for so many days. Assumption. */
const STAYS_DAYS = 3;

const URGENCIES: readonly Urgency[] = ['on the way', 'within their notice', 'in time'];

/** Somebody without a known home leaves on the day itself. */
export function urgencyOf(
  { view, noticeDays }: Pick<Waiting, 'view' | 'noticeDays'>,
  today: Temporal.PlainDate,
): Urgency {
  const day = view.place?.wallStart.toPlainDate();
  if (!day) return 'in time';
  const left = today.until(day).days;
  if (left <= LEAVES_DAYS_BEFORE[view.journey?.farAway ?? 'near']) return 'on the way';
  return left < noticeDays ? 'within their notice' : 'in time';
}

export interface MoveProblem {
  problem: Problem;
  /** In the order of the problem's wishes: the most pressing first. */
  leaving: { waiting: Waiting; urgency: Urgency }[];
  /** By wish and placing. `askedFor`: the day is among those they asked for. */
  choices: (Choice & { askedFor: boolean })[][];
  /** By wish; null for one that has a choice, and for one that is only offered a place. */
  noPlace: (NoPlace | null)[];
}

/**
 * An offered place can only be called back or left, so whoever has one competes for no other.
 * `facts` are about those who leave only, each still with the place it leaves; what they hold is free for the others.
 * `closed` are days that none of them can have; null where only their own places go.
 */
export function moveProblem(facts: PlanFacts, closed: DateRange | null): MoveProblem {
  const leaving = facts.waiting
    .map((waiting) => ({ waiting, urgency: urgencyOf(waiting, facts.today) }))
    .sort((a, b) => pressing(a.urgency) - pressing(b.urgency) || byStart(a.waiting, b.waiting));
  const ids = new Set(leaving.map(({ waiting }) => waiting.view.sitting.id));
  const around: PlanFacts = {
    ...facts,
    waiting: leaving.map(({ waiting }) => waiting),
    holding: facts.holding.filter((one) => !(one.kind === 'sitting' && ids.has(one.heldFor))),
  };
  const dates = datesOf(around.waiting).filter((date) => !isIn(closed, date));
  const at = new Map(dates.map((date, position) => [date.toString(), position]));
  const all = leaving.map((one, order) => {
    const share = (leaving.length - order) / leaving.length;
    return choicesOf(one, share, around, at);
  });
  const wishes = leaving.map(({ waiting: { view, needs } }, position): Wish => {
    const { id, kindId } = view.sitting;
    const placings = all[position]?.placings ?? [];
    return {
      id,
      plates: view.plates.length,
      kindId,
      party: view.contact.id,
      mayHaveKept: true,
      needs,
      placings,
    };
  });
  return {
    problem: {
      wishes,
      days: dates.map((date) => dayRoom(around, date, OPENING)),
      supplies: facts.supplies(dates),
      quotas: quotasOf(around, dates),
      together: { rule: 'rather', points: TOGETHER },
    },
    leaving,
    choices: all.map((one) => one.choices),
    noPlace: all.map((one) => one.noPlace),
  };
}

/** Whole points, assumptions: for the most pressing, a near day, a day they asked for, a day that is open anyhow. */
const PRESSING = 300;
const NEAR = 300;
const ASKED_FOR = 200;
const OPENING = 60;
const TOGETHER = 150;
/** A day so far from the old one is no nearer than any other: for who is on the way, and for others. */
const FAR_DAYS = { 'on the way': 7, 'within their notice': 60, 'in time': 90 };

const pressing = (urgency: Urgency) => URGENCIES.indexOf(urgency);

function byStart(a: Waiting, b: Waiting): number {
  const start = ({ view }: Waiting) => view.place?.startsAt.epochMilliseconds ?? 0;
  return start(a) - start(b) || (a.view.sitting.id < b.view.sitting.id ? -1 : 1);
}

const isIn = (range: DateRange | null, date: Temporal.PlainDate) =>
  range !== null &&
  Temporal.PlainDate.compare(range.from, date) <= 0 &&
  Temporal.PlainDate.compare(date, range.until) <= 0;

function choicesOf(
  { waiting, urgency }: MoveProblem['leaving'][number],
  orderShare: number,
  { today, rules }: PlanFacts,
  at: ReadonlyMap<string, number>,
) {
  const { view, noticeDays } = waiting;
  if (view.sitting.state === 'offered') return { placings: [], choices: [], noPlace: null };
  const limit = limitOfView(view, rules.limits);
  const old = view.place?.wallStart.toPlainDate() ?? today;
  const placings: Placing[] = [];
  const choices: MoveProblem['choices'][number] = [];
  const failed = new Map<NoPlace, number>();
  const fails = (why: NoPlace) => failed.set(why, (failed.get(why) ?? 0) + 1);
  for (const { date, openings } of waiting.days) {
    const day = at.get(date.toString());
    if (day === undefined) continue;
    const apart = Math.abs(old.until(date).days);
    const stays = urgency !== 'in time' && apart <= STAYS_DAYS;
    const onShelf = waiting.shelfOn(date);
    for (const slot of openings) {
      const busy = spanOf(slot);
      if (slot.closed !== null || !busy || !slot.holdStill) fails('no open place');
      else if (view.place?.wallStart.equals(slot.wallStart)) fails('no open place');
      else if (today.until(date).days < noticeDays && !stays) fails('notice too long');
      else if (onShelf === 'cannot be had') fails('cannot be had');
      else if (waiting.passedOver.has(busy.from)) fails('said no');
      else if (Math.round(slot.holdStill.clear.to) > limit) fails('hold still too long');
      else {
        const askedFor = suitsOn(view.sitting.suits, date);
        const near = Math.max(0, 1 - apart / FAR_DAYS[urgency]);
        const points =
          PLACE +
          Math.round(PRESSING * orderShare) +
          Math.round(NEAR * near) +
          (askedFor ? ASKED_FOR : 0) +
          (onShelf === 'enough' ? ON_SHELF : 0);
        placings.push({ day, ...busy, points, kept: slot.heldBack === true });
        choices.push({ slot, parts: [], onShelf, limit, askedFor });
      }
    }
  }
  const [worst] = [...failed].sort(([, a], [, b]) => b - a);
  return { placings, choices, noPlace: placings.length > 0 ? null : (worst?.[0] ?? 'no open place') };
}

const ON_SHELF = 50;
