// What is to be done at the shelf soon, in one list: what to mix, what to order, and what cannot be had.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS } from './allocation.calc.js';
import type { Horizon } from './horizon.calc.js';
import { lackingOf, type Purpose, toMix } from './mixing.calc.js';
import type { ShortReason } from './netting.calc.js';
import { toOrder } from './ordering.calc.js';
import { dayNumber, lastChance, supplyOf } from './plan.calc.js';
import type { Item } from './stock.schemas.js';

export interface ToDo {
  item: Item;
  quantity: bigint;
  action: 'mix' | 'order';
  /** The last day to do it; null when it cannot be had in time. */
  by: Temporal.PlainDate | null;
  why: ShortReason | null;
  neededOn: Temporal.PlainDate;
  into: Purpose['into'];
}

/** What must be begun within two weeks, the most pressing first; before it what cannot be had. */
export function toDo(horizon: Horizon): ToDo[] {
  const soon = (by: Temporal.PlainDate) => horizon.today.until(by).days <= ALARM_DAYS;
  const mix = toMix(horizon)
    .filter(({ latest }) => soon(latest))
    .map(({ item, quantity, latest: by, usableOn: neededOn, purpose }) => {
      return { item, quantity, action: 'mix' as const, by, why: null, neededOn, into: purpose.into };
    });
  const order = toOrder(horizon)
    .filter(({ by }) => soon(by))
    .map(({ item, quantity, by, neededOn, purpose }) => {
      return { item, quantity, action: 'order' as const, by, why: null, neededOn, into: purpose.into };
    });
  const lacking = [true, false].flatMap((mixed) =>
    lackingOf(horizon, mixed).map(({ item, quantity, reason: why, day: neededOn, into }): ToDo => {
      const goesInto = into ? [{ item: into, mixBy: neededOn }] : [];
      const by = why === 'over the limit' ? lastChance(supplyOf(item), neededOn) : null;
      return { item, quantity, action: mixed ? 'mix' : 'order', by, why, neededOn, into: goesInto };
    }),
  );
  const overLimit = lacking.filter(({ by }) => by !== null && soon(by));
  const never = lacking.filter(({ by }) => by === null);
  const acts: ToDo[] = [...mix, ...order, ...overLimit];
  const byDay = (a: ToDo, b: ToDo) => dayNumber(a.by ?? a.neededOn) - dayNumber(b.by ?? b.neededOn);
  return [...never.sort(byDay), ...acts.sort(byDay)];
}
