// What is to be mixed: how much, between which days, for whom, and what of the ingredients is missing for it.
import { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS } from './allocation.calc.js';
import { batchKey, type Horizon, type ItemAhead } from './horizon.calc.js';
import type { PlannedReceipt, Short } from './netting.calc.js';
import { dayNumber } from './plan.calc.js';
import { reasonsOf, type StockReason } from './outlook.calc.js';
import type { Item } from './stock.schemas.js';

/** For what something is mixed or ordered: days of places, and batches it goes into. */
export interface Purpose {
  /** In order, each once. */
  days: Temporal.PlainDate[];
  into: { item: Item; mixBy: Temporal.PlainDate }[];
}

export interface ToMix {
  item: Item;
  formulaId: string | null;
  /** What is to be mixed, in whole batches where there is a formula. */
  quantity: bigint;
  batchQuantity: bigint | null;
  /** What of it is needed. */
  needed: bigint;
  /** Mixed sooner it would have run out on the last day it is for. */
  earliest: Temporal.PlainDate;
  latest: Temporal.PlainDate;
  /** Usable, when it is mixed on the latest day. */
  usableOn: Temporal.PlainDate;
  purpose: Purpose;
  /** Ingredients to be mixed, ordered or not to be had. */
  lacking: StockReason[];
  /** Ingredients that the shelf does not count. */
  uncounted: string[];
  /** It is time to think of it: for it or for an ingredient. */
  near: boolean;
}

/** What falls short and cannot be helped by mixing or ordering in time. */
export interface Lacking extends Omit<Short, 'needKey'> {
  item: Item;
  /** What it would go into. */
  into: Item | null;
  /** The day it would be there if it were begun today; null when it never comes, or only the limit is in the way. */
  readyOn: Temporal.PlainDate | null;
}

/** The most pressing first. */
export function toMix(horizon: Horizon): ToMix[] {
  const found = [...horizon.items.values()].filter(isMixed).flatMap((ahead) => {
    const { item, mixing, netted } = ahead;
    return netted.planned.map((planned): ToMix => {
      const purpose = purposeOf(horizon, ahead, planned);
      const last = lastOf(ahead, planned);
      const lacking = (mixing?.takes ?? []).flatMap(({ itemId }) => {
        const raw = horizon.items.get(itemId);
        return raw ? reasonsOf(horizon, raw, batchKey(item.id, planned), { into: item, later: 0 }) : [];
      });
      const acts = [planned.releaseOn, ...lacking.map(({ by }) => by ?? horizon.today)];
      return {
        item,
        formulaId: mixing?.recipe.formulaId ?? null,
        quantity: planned.quantity,
        batchQuantity: mixing?.recipe.batchQuantity ?? null,
        needed: planned.net,
        earliest: earliestOf(item, last, planned, horizon.today),
        latest: planned.releaseOn,
        usableOn: planned.receiptOn,
        purpose,
        lacking,
        uncounted: mixing?.uncounted ?? [],
        near: acts.some((by) => horizon.today.until(by).days <= ALARM_DAYS),
      };
    });
  });
  return found.sort(
    (a, b) => dayNumber(a.latest) - dayNumber(b.latest) || (a.item.name < b.item.name ? -1 : 1),
  );
}

/** What cannot be had of items that are mixed, or (false) that are bought, by item and reason, the nearest day first. */
export function lackingOf(horizon: Horizon, mixed: boolean): Lacking[] {
  const found = [...horizon.items.values()]
    .filter((ahead) => isMixed(ahead) === mixed)
    .flatMap(({ item, needs, netted, rule }) => {
      const told = new Map<string, Lacking>();
      for (const { needKey, ...short } of netted.short) {
        const batch = needs.get(needKey)?.batch;
        const into = (batch && horizon.items.get(batch.itemId)?.item) ?? null;
        const late = short.reason === 'too late' && rule.leadDays !== null;
        const readyOn = late ? horizon.today.add({ days: rule.leadDays ?? 0 }) : null;
        const known = told.get(short.reason) ?? { ...short, quantity: 0n, expedite: [], item, into, readyOn };
        told.set(short.reason, {
          ...known,
          quantity: known.quantity + short.quantity,
          expedite: [...known.expedite, ...short.expedite],
        });
      }
      return [...told.values()];
    });
  return found.sort((a, b) => dayNumber(a.day) - dayNumber(b.day));
}

export const isMixed = ({ item }: Pick<ItemAhead, 'item'>) => item.ripenDays !== null;

export function purposeOf(horizon: Horizon, ahead: ItemAhead, planned: PlannedReceipt): Purpose {
  const days = new Map<number, Temporal.PlainDate>();
  const into: Purpose['into'] = [];
  for (const { needKey, lotId } of ahead.netted.given) {
    const need = lotId === planned.id ? ahead.needs.get(needKey) : undefined;
    if (!need) continue;
    const parent = need.batch && horizon.items.get(need.batch.itemId);
    if (parent) into.push({ item: parent.item, mixBy: need.day });
    else days.set(dayNumber(need.day), need.day);
  }
  return { days: [...days].sort(([a], [b]) => a - b).map(([, day]) => day), into };
}

function lastOf({ needs, netted }: ItemAhead, planned: PlannedReceipt): Temporal.PlainDate {
  return netted.given
    .filter(({ lotId }) => lotId === planned.id)
    .map(({ needKey }) => needs.get(needKey)?.day ?? planned.receiptOn)
    .reduce((last, day) => (dayNumber(day) > dayNumber(last) ? day : last), planned.receiptOn);
}

function earliestOf(
  { lifeDays }: Item,
  last: Temporal.PlainDate,
  planned: PlannedReceipt,
  today: Temporal.PlainDate,
): Temporal.PlainDate {
  if (lifeDays === null) return today;
  const keeps = last.subtract({ days: lifeDays });
  const from = dayNumber(keeps) > dayNumber(today) ? keeps : today;
  return dayNumber(from) > dayNumber(planned.releaseOn) ? planned.releaseOn : from;
}
