// How much of each item a plan may use in all, on the days for which no more of it can come in time. On later days
// what is missing is mixed or ordered; a setting-aside that truly cannot be met is refused when the plan is confirmed.
import type { Temporal } from 'temporal-polyfill';
import type { Horizon, ItemAhead } from '../stock/horizon.calc.js';
import { dayNumber, lastChance, supplyOf } from '../stock/plan.calc.js';
import { promisable } from '../stock/promise.calc.js';
import type { Supply } from '../waiting/planner-model.calc.js';

/** `dates` in their order; a supply names them by position. */
export function suppliesOf(
  horizon: Horizon,
  itemIds: ReadonlySet<string>,
  dates: readonly Temporal.PlainDate[],
): Supply[] {
  return [...itemIds].sort().flatMap((itemId) => {
    const ahead = horizon.items.get(itemId);
    return ahead ? suppliesOfItem(ahead, horizon.today, dates) : [];
  });
}

function suppliesOfItem(
  { item, onHand, onTheWay, netted, needs }: ItemAhead,
  today: Temporal.PlainDate,
  dates: readonly Temporal.PlainDate[],
): Supply[] {
  const tooLate = (date: Temporal.PlainDate) => {
    const chance = lastChance(supplyOf(item), date);
    return chance === null || dayNumber(chance) < dayNumber(today);
  };
  const last = dates.findLastIndex(tooLate);
  if (last === -1) return [];
  const planned = new Set(netted.planned.map(({ id }) => id));
  const given = netted.given.filter(({ lotId }) => !planned.has(lotId));
  const lots = [...onHand, ...onTheWay];
  const { days, inAll, leftOver } = promisable(lots, given, (key) => needs.get(key)?.day, today);
  const numbers = dates.map(dayNumber);
  // a stretch of days that ends before more comes, and begins where a bottle has run out
  const ends = days.map((_, bucket) => {
    const next = days[bucket + 1];
    const end = next === undefined ? last : numbers.findLastIndex((day) => day < next);
    return { until: Math.min(end, last), most: inAll[bucket] ?? 0n };
  });
  const begins = new Set([0]);
  for (const { usableUntil } of leftOver) {
    const after = usableUntil === null ? -1 : numbers.findIndex((day) => day > dayNumber(usableUntil));
    if (after > 0) begins.add(after);
  }
  return ends.flatMap(({ until, most }) =>
    [...begins].flatMap((from): Supply[] => {
      const [begin, end] = [numbers[from], numbers[until]];
      if (begin === undefined || end === undefined || from > until) return [];
      const besides = leftOver.filter(
        (lot) =>
          dayNumber(lot.usableFrom) <= end &&
          (lot.usableUntil === null || begin <= dayNumber(lot.usableUntil)),
      );
      return [{ item: item.id, from, until, most: besides.reduce((sum, lot) => sum + lot.usable, most) }];
    }),
  );
}
