// What must be done by a date and has no hour of its own: topping up and care of baths, mixing, ordering; and
// what cannot be had in time. In words, the same on the list of preparation and in the calendar.
import { Temporal } from 'temporal-polyfill';
import { formatQuantity } from '../lib/quantity-text.js';
import { counted, dayInWords } from '../lib/words.js';
import type { BathPlan, NoBath } from './bath-days.calc.js';
import type { Horizon } from './horizon.calc.js';
import { isMixed, type Lacking, lackingOf, toMix } from './mixing.calc.js';
import { type ToOrder, toOrder } from './ordering.calc.js';
import { lastChance, supplyOf } from './plan.calc.js';

export interface DueTask {
  /** One of its kind and subject on its day: letters, digits and hyphens. */
  key: string;
  by: Temporal.PlainDate;
  what: string;
  why: string;
  /** The day cannot be held as things stand. */
  alarm?: true;
  /** Where it is seen to, under the desk. */
  path: string;
}

export const NO_BATH_WORDS: Record<NoBath, string> = {
  'no bath': 'no bath was ever entered',
  'all retired': 'every bath is retired',
  'none large enough': 'no bath takes a plate of that size',
  'none working': 'no bath large enough works that day',
};

/** Where no bath was ever entered, none is kept here, and nothing is to be done about one. */
export function bathTasks(plan: BathPlan): DueTask[] {
  const without = plan.days.flatMap(({ date, reason }) =>
    reason === null || reason === 'no bath'
      ? []
      : [
          {
            key: 'no-bath',
            by: date,
            what: `No bath for ${dayInWords(date)}`,
            why: `As things stand ${NO_BATH_WORDS[reason]}: the day is not ready.`,
            alarm: true as const,
            path: '/shelf/baths',
          },
        ],
  );
  const topUps = plan.topUps.map(({ bath, by, forDay, crystals, volume }) => ({
    key: `${bath.id}-top-up-${forDay}`,
    by,
    what: `Top up ${bath.name}: ${formatQuantity(crystals, 'mg', 'up')} of silver nitrate${volume > 0n ? `, ${formatQuantity(volume, 'uL', 'up')} of water` : ''}`,
    why: `It would be too weak or too low on ${dayInWords(forDay)}, as things stand.`,
    path: `/shelf/baths/${bath.id}`,
  }));
  const cares = plan.cares.map(({ bath, from, until }) => ({
    key: `${bath.id}-care`,
    by: from,
    what: `Sun and filter ${bath.name}`,
    why: `As many plates went through it by then as it takes. Working again by ${dayInWords(until)}.`,
    path: `/shelf/baths/${bath.id}`,
  }));
  return [...without, ...topUps, ...cares];
}

/**
 * One task an item and day: what is mixed or ordered twice by one day is one errand. What cannot be had in time is an
 * alarm on the day it is first needed; what only the owner's own limit leaves out may still be got, so it is a task.
 */
export function shelfTasks(horizon: Horizon): DueTask[] {
  const mixing = byItemAndDay(toMix(horizon).map((one) => ({ ...one, by: one.latest, packs: null })));
  const ordering = byItemAndDay(toOrder(horizon));
  return [
    ...mixing.map(({ item, by, quantity, purpose }) => ({
      key: `${item.id}-mix`,
      by,
      what: `Mix ${item.name}: ${formatQuantity(quantity, item.unit, 'up')}`,
      why: whyOf(purpose),
      path: PATHS.mix,
    })),
    ...ordering.map(({ item, by, quantity, packs, purpose }) => ({
      key: `${item.id}-order`,
      by,
      what: `Order ${item.name}: ${formatQuantity(quantity, item.unit, 'up')}${packs === null ? '' : ` (${counted(Number(packs), 'pack')})`}`,
      why: whyOf(purpose),
      path: PATHS.order,
    })),
    ...[true, false].flatMap((mixed) => lackingOf(horizon, mixed).map(lackingTask)),
  ];
}

const PATHS = { mix: '/shelf/mixing', order: '/shelf/orders' };

function lackingTask({ item, quantity, day, reason, into, readyOn }: Lacking): DueTask {
  const mixed = isMixed({ item });
  const amount = formatQuantity(quantity, item.unit, 'up');
  const needed = `needed on ${dayInWords(day)}${into ? ` for ${into.name}` : ''}`;
  const by = reason === 'over the limit' ? lastChance(supplyOf(item), day) : null;
  const path = mixed ? PATHS.mix : PATHS.order;
  if (by !== null)
    return {
      key: `${item.id}-limit`,
      by,
      what: `${mixed ? 'Mix' : 'Order'} ${item.name}: ${amount}`,
      why: `More than is kept at most, so it is not proposed. First ${needed}.`,
      path,
    };
  const begun = readyOn
    ? ` ${mixed ? 'Mixed today it would be ready' : 'Ordered today it would be here'} on ${dayInWords(readyOn)}.`
    : '';
  return {
    key: `${item.id}-short`,
    by: day,
    what: `${item.name}: ${amount} cannot be had in time`,
    why: `First ${needed}.${reason === 'never comes' ? ' It is not said how more of it comes.' : ''}${begun}`,
    alarm: true,
    path,
  };
}

type Errand = Pick<ToOrder, 'item' | 'by' | 'quantity' | 'packs' | 'purpose'>;

function byItemAndDay(errands: readonly Errand[]): Errand[] {
  const known = new Map<string, Errand>();
  for (const one of errands) {
    const key = `${one.item.id} ${one.by}`;
    const before = known.get(key);
    known.set(key, before ? together(before, one) : one);
  }
  return [...known.values()];
}

const together = (one: Errand, other: Errand): Errand => ({
  ...one,
  quantity: one.quantity + other.quantity,
  packs: one.packs === null || other.packs === null ? null : one.packs + other.packs,
  purpose: {
    days: eachOnce([...one.purpose.days, ...other.purpose.days]),
    into: [...one.purpose.into, ...other.purpose.into],
  },
});

/** Days in their order, each once: two batches may serve one day. */
const eachOnce = (days: readonly Temporal.PlainDate[]): Temporal.PlainDate[] =>
  [...new Map(days.map((day) => [day.toString(), day])).values()].sort(Temporal.PlainDate.compare);

/** "For Friday 14 May 2027 and 2 later days. It goes into Iodised collodion." */
function whyOf({ days, into }: ToOrder['purpose']): string {
  const [first] = days;
  const later = days.length - 1;
  const when = first && `For ${dayInWords(first)}${later > 0 ? ` and ${counted(later, 'later day')}` : ''}.`;
  const names = [...new Set(into.map(({ item }) => item.name))];
  return [when, names.length > 0 && `It goes into ${names.join(', ')}.`].filter(Boolean).join(' ');
}
