// What a studio owes after a day that has not written down its own steps. All of it is common practice, no source;
// the days are assumptions. The ids are fixed, so that a tick made by these steps stays one when they are changed.
import type { Step } from './owed.schemas.js';

const step = (number: number, what: string, days: number, leaves = false): Step => ({
  id: `5f0c1a00-0000-4000-8000-0000000001${String(number).padStart(2, '0')}`,
  position: number,
  what,
  days,
  leaves,
  archived: false,
  byKind: new Map(),
});

export const USUAL_STEPS: readonly Step[] = [
  step(1, 'Scan', 1),
  step(2, 'Varnish', 4),
  step(3, 'Write the label', 5),
  step(4, 'Pack', 9),
  step(5, 'Post or hand over', 10, true),
];
