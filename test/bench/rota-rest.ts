// The rest of the stress day planned anew at noon, against planning the whole of it.
import { planRota } from '../../src/teaching/rota.calc.js';
import { replanRota } from '../../src/teaching/rota-replan.calc.js';
import { HOUR, stressDay } from './rota-days.js';

/** The rest may take so much of the time of the whole day. */
export const MOST_OF_A_DAY = 0.3;

const bench = stressDay();
const whole = planRota(bench);
if (!whole.ok) throw new Error(whole.reason);
const { rota } = whole;
const late = [{ student: 's5', until: 13 * HOUR }];

export const planningTheDay = () => planRota(bench);
export const planningTheRest = () =>
  replanRota(bench, rota, { now: 12 * HOUR, late, skipped: ['s3 5'], gone: [], notBegun: [] });
