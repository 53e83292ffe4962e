// What is still owed for the plates of each sitting that was made, by when, and whether it is late. Days are those
// of the studio's own calendar. Nothing is owed any more once a step is done with which the plates have left.
import { Temporal } from 'temporal-polyfill';
import type { Done, Step } from './owed.schemas.js';

/** A sitting that was made. */
export interface Made {
  sittingId: string;
  /** Null: of no kind. */
  kindId: string | null;
  day: Temporal.PlainDate;
}

export interface OwedStep {
  step: Step;
  due: Temporal.PlainDate;
  /** Its day is past and it is not done. */
  late: boolean;
  /** Null: not done yet. */
  done: { at: Temporal.Instant; who: string } | null;
}

export interface Owed {
  sittingId: string;
  day: Temporal.PlainDate;
  /** In the owner's order. */
  steps: OwedStep[];
  /** When nothing was owed any more; null while something is. */
  finishedAt: Temporal.Instant | null;
}

/**
 * Each sitting of which something is or was owed, those with the earliest due day first, the finished last (the
 * latest first). A sitting for whose kind no step is owed is left out. A step that was put away and is done is
 * shown no more, but one with which the plates have left has left them.
 */
export function owedOf(
  made: readonly Made[],
  steps: readonly Step[],
  done: readonly Done[],
  today: Temporal.PlainDate,
): Owed[] {
  const ticks = new Map(done.map((one) => [`${one.sittingId} ${one.stepId}`, one]));
  const all = made.flatMap(({ sittingId, kindId, day }): Owed[] => {
    const own = steps.map((step) => ({ step, tick: ticks.get(`${sittingId} ${step.id}`) ?? null }));
    const left = earliest(own.flatMap(({ step, tick }) => (step.leaves && tick ? [tick.at] : [])));
    const asked = own.flatMap(({ step, tick }): OwedStep[] => {
      const days = daysOf(step, kindId);
      if (step.archived || days === null) return [];
      const due = day.add({ days });
      const late = !tick && left === null && Temporal.PlainDate.compare(due, today) < 0;
      return [{ step, due, late, done: tick && { at: tick.at, who: tick.who } }];
    });
    if (asked.length === 0) return [];
    asked.sort((a, b) => a.step.position - b.step.position);
    const allDone = asked.every((one) => one.done !== null);
    const finishedAt = left ?? (allDone ? latest(asked.flatMap((one) => one.done?.at ?? [])) : null);
    return [{ sittingId, day, steps: asked, finishedAt }];
  });
  return all.sort(inOrder);
}

/** So many days after the day; null where the kind does not owe it. */
export const daysOf = (step: Step, kindId: string | null): number | null => {
  const own = kindId === null ? undefined : step.byKind.get(kindId);
  return own === undefined ? step.days : own;
};

export interface OwedCounts {
  /** Sittings whose plates are still here, and how many of them have something late. */
  sittings: number;
  lateSittings: number;
  /** Steps not done yet, and how many of them are late. */
  steps: number;
  late: number;
}

export function countsOf(owed: readonly Owed[]): OwedCounts {
  const open = owed.filter((one) => one.finishedAt === null);
  const steps = open.flatMap((one) => one.steps.filter((step) => step.done === null));
  return {
    sittings: open.length,
    lateSittings: open.filter((one) => one.steps.some((step) => step.late)).length,
    steps: steps.length,
    late: steps.filter((step) => step.late).length,
  };
}

/** The earliest due day of what is not done; null where all is. */
export const nextDue = ({ steps }: Owed): Temporal.PlainDate | null =>
  steps
    .filter((one) => one.done === null)
    .reduce<Temporal.PlainDate | null>(
      (first, { due }) => (first && Temporal.PlainDate.compare(first, due) <= 0 ? first : due),
      null,
    );

function inOrder(a: Owed, b: Owed): number {
  if (a.finishedAt && b.finishedAt) return Temporal.Instant.compare(b.finishedAt, a.finishedAt);
  if (a.finishedAt || b.finishedAt) return a.finishedAt ? 1 : -1;
  const byDue = Temporal.PlainDate.compare(nextDue(a) ?? a.day, nextDue(b) ?? b.day);
  return byDue || Temporal.PlainDate.compare(a.day, b.day) || (a.sittingId < b.sittingId ? -1 : 1);
}

const sorted = (all: Temporal.Instant[]) => [...all].sort((a, b) => Temporal.Instant.compare(a, b));
const earliest = (all: Temporal.Instant[]) => sorted(all)[0] ?? null;
const latest = (all: Temporal.Instant[]) => sorted(all).at(-1) ?? null;
