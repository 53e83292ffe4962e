// Which of the batches that are to be mixed are for one day: those poured on it, and what goes into them. Pure.
import type { Temporal } from 'temporal-polyfill';
import type { Mixed } from '../stock/formulas.schemas.js';
import type { ToMix } from '../stock/mixing.calc.js';

/** A batch with its formula scaled to it; no card where the formula is not kept here. */
export interface ToMixOnSheet {
  batch: ToMix;
  card: Mixed | null;
}

/** The first to mix first. A stock solution is for the day when what it goes into is. */
export function ofDay(batches: readonly ToMix[], day: Temporal.PlainDate): ToMix[] {
  const found = new Set(batches.filter(({ purpose }) => purpose.days.some((one) => one.equals(day))));
  for (let before = -1; before !== found.size; ) {
    before = found.size;
    const items = new Set([...found].map(({ item }) => item.id));
    for (const batch of batches)
      if (batch.purpose.into.some(({ item }) => items.has(item.id))) found.add(batch);
  }
  return batches.filter((one) => found.has(one));
}
