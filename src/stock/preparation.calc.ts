// Works preparation back from each studio and teaching day to a free working day, and gives each task its hours.
// It goes by no clock: the same days, rules and moves give the same tasks, whenever they are looked at.
import { Temporal } from 'temporal-polyfill';
import type { Move, Rule, Tick } from './preparation.schemas.js';

/** Until a room's temperature is written down, its season is taken. Assumptions: degrees Celsius, and months. */
export const HOT_FROM = 24;
export const COLD_BELOW = 15;
const SUMMER = [6, 7, 8];
const WINTER = [12, 1, 2];

/** How far back a free day is looked for, when work begins, and how much fits a day (assumptions). */
export const DAYS_BACK = 14;
const WORK_BEGINS = 9 * 60;
const MOST_MINUTES = 8 * 60;

/** A day to prepare for. */
export interface DayAhead {
  date: Temporal.PlainDate;
  kind: 'studio' | 'teaching';
  /** When the first person comes, by the studio's clock. */
  begins: Temporal.PlainTime;
  /** Sheets set aside for it, spare tries included. */
  sheets: { plateSizeId: string; sheets: bigint }[];
  /** Degrees Celsius; null when it is not written down. */
  roomTemperature: number | null;
}

export interface Task {
  rule: Rule;
  ahead: DayAhead;
  day: Temporal.PlainDate;
  from: Temporal.PlainDateTime;
  until: Temporal.PlainDateTime;
  minutes: number;
  /** The owner put it here. */
  moved: boolean;
  /** The day is one to work on: somebody is there, nobody sits. Days of one's own choice count as such. */
  free: boolean;
  done: boolean;
  /** Who ticked it last; '' when nobody did. */
  who: string;
}

export interface Circumstances {
  rules: readonly Rule[];
  moves: readonly Move[];
  ticks: readonly Tick[];
  /** Whether somebody can work on a date: there, and the studio not closed. Days with sittings are left out here. */
  worksOn: (date: Temporal.PlainDate) => boolean;
  south: boolean;
}

/**
 * The tasks of the days ahead, in order of time. Days are served in order, rules by their place in the list; a task
 * goes back from its latest day to the first day that is worked on, has no sitting, has hours left, and holds no
 * task of a rule it must not meet. Where there is none within DAYS_BACK it stays on its latest day, not `free`.
 */
export function tasksOf(days: readonly DayAhead[], facts: Circumstances): Task[] {
  const ordered = [...days].sort((a, b) => Temporal.PlainDate.compare(a.date, b.date));
  const busy = new Set(ordered.map(({ date }) => date.toString()));
  const moved = new Map(facts.moves.map((one) => [keyOf(one.day, one.ruleId), one.toDay]));
  const ticked = new Map(facts.ticks.map((one) => [keyOf(one.day, one.ruleId), one]));
  const load = new Map<string, { minutes: number; rules: Rule[] }>();
  const put = (date: Temporal.PlainDate, rule: Rule, minutes: number) => {
    const known = load.get(date.toString()) ?? { minutes: 0, rules: [] };
    load.set(date.toString(), { minutes: known.minutes + minutes, rules: [...known.rules, rule] });
  };
  const wanted = ordered.flatMap((ahead) =>
    facts.rules
      .filter((rule) => !rule.archived && appliesTo(rule, ahead, facts.south))
      .map((rule) => ({ ahead, rule, minutes: minutesOf(rule, ahead) })),
  );
  // what the owner placed is there first, and others give way to it
  for (const { ahead, rule, minutes } of wanted) {
    const to = moved.get(keyOf(ahead.date, rule.id));
    if (to) put(to, rule, minutes);
  }
  const placed = wanted.map(({ ahead, rule, minutes }) => {
    const to = moved.get(keyOf(ahead.date, rule.id));
    const found = to ? { day: to, free: true } : placeOf(rule, ahead, minutes, { facts, busy, load });
    if (!to) put(found.day, rule, minutes);
    const tick = ticked.get(keyOf(ahead.date, rule.id));
    return {
      ...found,
      rule,
      ahead,
      minutes,
      moved: to !== undefined,
      done: tick?.done ?? false,
      who: tick?.who ?? '',
    };
  });
  return withHours(placed, ordered);
}

const keyOf = (day: Temporal.PlainDate, ruleId: string) => `${day.toString()} ${ruleId}`;

/** Whether a rule speaks of a day: its kind, and the heat of its room or, where none is noted, its season. */
export function appliesTo(rule: Rule, ahead: DayAhead, south: boolean): boolean {
  if (rule.forDay !== 'both' && rule.forDay !== ahead.kind) return false;
  if (rule.condition === 'always') return true;
  const { roomTemperature: degrees, date } = ahead;
  const hot = rule.condition === 'hot';
  if (degrees !== null) return hot ? degrees >= HOT_FROM : degrees < COLD_BELOW;
  return (hot !== south ? SUMMER : WINTER).includes(date.month);
}

/** A rule's minutes for a day: its own, and those of each sheet where it counts them. */
export function minutesOf(rule: Rule, { sheets }: DayAhead): number {
  if (rule.amount === 'none') return rule.minutes;
  const count = sheets.reduce((sum, one) => sum + Number(one.sheets), 0);
  return rule.minutes + rule.minutesEach * count;
}

interface Placing {
  facts: Circumstances;
  /** Days on which somebody sits or learns. */
  busy: Set<string>;
  load: Map<string, { minutes: number; rules: Rule[] }>;
}

function placeOf(rule: Rule, ahead: DayAhead, minutes: number, { facts, busy, load }: Placing) {
  const latest = ahead.date.subtract({ days: rule.daysBefore });
  if (rule.daysBefore === 0) return { day: latest, free: true };
  for (let back = 0; back <= DAYS_BACK; back++) {
    const day = latest.subtract({ days: back });
    const there = load.get(day.toString());
    const meets = there?.rules.some((one) => one.notWith === rule.id || rule.notWith === one.id) ?? false;
    // what is longer than a whole day has one to itself
    const fits = there === undefined || there.minutes + minutes <= MOST_MINUTES;
    if (facts.worksOn(day) && !busy.has(day.toString()) && !meets && fits) return { day, free: true };
  }
  return { day: latest, free: false };
}

/**
 * Hours one after the other from the beginning of work; on a day with people, so that all is done when the first of
 * them comes, as far as the day reaches.
 */
function withHours(placed: Omit<Task, 'from' | 'until'>[], days: readonly DayAhead[]): Task[] {
  const begins = new Map<string, number>();
  for (const { date, begins: time } of days) {
    const minute = time.hour * 60 + time.minute;
    begins.set(date.toString(), Math.min(minute, begins.get(date.toString()) ?? 24 * 60));
  }
  const byDay = new Map<string, Omit<Task, 'from' | 'until'>[]>();
  for (const task of placed) {
    const key = task.day.toString();
    byDay.set(key, [...(byDay.get(key) ?? []), task]);
  }
  const tasks = [...byDay].flatMap(([key, ofDay]) => {
    const first = begins.get(key);
    const all = ofDay.reduce((sum, one) => sum + one.minutes, 0);
    let minute = first === undefined ? WORK_BEGINS : Math.max(0, first - all);
    return ofDay.map((task) => {
      const from = task.day.toPlainDateTime().add({ minutes: minute });
      minute += task.minutes;
      return { ...task, from, until: from.add({ minutes: task.minutes }) };
    });
  });
  return tasks.sort(
    (a, b) =>
      Temporal.PlainDateTime.compare(a.from, b.from) ||
      Temporal.PlainDate.compare(a.ahead.date, b.ahead.date) ||
      a.rule.position - b.rule.position,
  );
}
