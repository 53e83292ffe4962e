// The steps of the first evening, and what they propose. Pure.
import type { Temporal } from 'temporal-polyfill';
import type { Profile } from '../../studios/studios.schemas.js';

export const STEPS = ['rhythm', 'shelf', 'bath', 'kinds', 'words', 'mail', 'calendar', 'first'] as const;
export type Step = (typeof STEPS)[number];
export type Done = Record<Step, boolean>;

/** Without these nobody can be given a place that the shelf provides for. */
const NEEDED: readonly Step[] = ['rhythm', 'shelf', 'bath', 'first'];

/** How many of the steps that are needed are still to come; none once anybody has had a place. */
export const stepsLeft = (done: Done): number =>
  done.first ? 0 : NEEDED.filter((step) => !done[step]).length;

/** The next step to take; null once all are done. */
export const nextStep = (done: Done): Step | null => STEPS.find((step) => !done[step]) ?? null;

/** The first such weekday after today, and those a quarter, half and three quarters of a year later. 1 = Monday. */
export function sampleDays(today: Temporal.PlainDate, weekday: number): Temporal.PlainDate[] {
  const first = today.add({ days: ((weekday - today.dayOfWeek + 6) % 7) + 1 });
  return [0, 13, 26, 39].map((weeks) => first.add({ weeks }));
}

/**
 * Solutions that every plate needs, with the days they ripen and keep. Common practice, no source: each studio changes
 * them to what its own formulas say.
 */
export const FIRST_SOLUTIONS = [
  { key: 'collodion', name: 'Iodised collodion', kind: 'collodion', ripenDays: 7, lifeDays: 120 },
  { key: 'developer', name: 'Iron developer', kind: 'developer', ripenDays: 1, lifeDays: 60 },
  { key: 'fixer', name: 'Hypo fixer', kind: 'fixer', ripenDays: 0, lifeDays: 180 },
  { key: 'varnish', name: 'Sandarac varnish', kind: 'varnish', ripenDays: 2, lifeDays: 540 },
] as const;

/** What the form of what visitors read shows. */
export const profileOf = ({ name, welcome, address, email, telephone }: Profile): Profile => ({
  name,
  welcome,
  address,
  email,
  telephone,
});
