// A shelf for benchmarks: 200 items, of which solutions are mixed of chemicals, and places on every day for
// 18 months which need some of them.
import { Temporal } from 'temporal-polyfill';
import type { ShelfFacts } from '../../src/stock/horizon.calc.js';
import { type Item, type Lot, withExtras, withLotExtras } from '../../src/stock/stock.schemas.js';

const SOLUTIONS = 40;
const INGREDIENTS = 5;

interface Size {
  items: number;
  months: number;
  sessions: number;
  /** How many items each session needs. */
  each: number;
}

export function fullShelf(
  { items: count, months, sessions, each }: Size,
  today: Temporal.PlainDate,
): ShelfFacts {
  const items = Array.from({ length: count }, (_, at) => itemAt(at));
  const days = today.until(today.add({ months })).days;
  const lots = items.flatMap((item, at) => [lotAt(item, at, today, 0), lotAt(item, at, today, 30)]);
  const needs = Array.from({ length: sessions }, (_, at) => {
    const neededOn = today.add({ days: Math.floor((at * days) / sessions) });
    const heldFor = `session ${at}`;
    return Array.from({ length: each }, (_, step) => {
      const itemId = items[(at * 7 + step * Math.floor(count / each)) % count]?.id ?? '';
      return { heldFor, itemId, neededOn, class: 'any' as const, chosenLotId: null, quantity: 40n };
    });
  }).flat();
  const recipes = items.slice(0, SOLUTIONS).map((item, at) => ({
    formulaId: item.formulaId ?? '',
    batchQuantity: 500n,
    lines: Array.from({ length: INGREDIENTS }, (_, step) => ({
      ingredient: 'chemical',
      substance: null,
      itemId: items[SOLUTIONS + ((at * INGREDIENTS + step) % (count - SOLUTIONS))]?.id ?? null,
      quantity: 100n,
      unit: 'uL' as const,
    })),
  }));
  const onTheWay = items.slice(SOLUTIONS).map((item, at) => ({
    receiptId: `receipt ${at}`,
    itemId: item.id,
    quantity: 300n,
    expectedOn: today.add({ days: 20 }),
  }));
  return { items, lots, past: new Map(), needs, onTheWay, recipes };
}

function itemAt(at: number): Item {
  const mixed = at < SOLUTIONS;
  return {
    id: `item ${at}`,
    ...withExtras({
      name: `Item ${at}`,
      kind: mixed ? 'developer' : 'chemical',
      unit: 'uL',
      plateSizeId: null,
      leadDays: 10,
      ripenDays: mixed ? 3 : null,
      lifeDays: mixed ? 90 : at % 3 === 0 ? 365 : null,
      formulaId: mixed ? `formula ${at}` : null,
      packQuantity: mixed ? null : 250n,
      mostOnHand: at % 10 === 9 ? 4_000n : null,
      heel: mixed ? 30n : 0n,
    }),
  };
}

function lotAt(item: Item, at: number, today: Temporal.PlainDate, later: number): Lot {
  const usableFrom = today.subtract({ days: 40 }).add({ days: later });
  const usableUntil = item.lifeDays === null ? null : usableFrom.add({ days: item.lifeDays });
  const lot = { itemId: item.id, label: 'Bottle', usableFrom, usableUntil };
  return { id: `lot ${at} ${later}`, ...withLotExtras(lot), onHand: 600n, reserved: 0n };
}
