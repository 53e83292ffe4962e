// How the shelf would stand with a day if a place's needs were promised for it, without planning all anew: what may
// be promised is counted once an item; only where that is not enough the item's needs are planned with the new one.
import type { Temporal } from 'temporal-polyfill';
import { ingredientsOf } from './explosion.calc.js';
import { type Horizon, type ItemAhead, missingOf } from './horizon.calc.js';
import { net, type PlannedReceipt } from './netting.calc.js';
import {
  cannot,
  doBy,
  laterThan,
  type Outlook,
  outlookOf,
  reasonsOfPlanned,
  type StockReason,
} from './outlook.calc.js';
import { dayNumber, lastChance, type PlanNeed, supplyOf, usableOn } from './plan.calc.js';
import { mayPromise, type Promisable, promisable } from './promise.calc.js';
import type { Item, Need } from './stock.schemas.js';

/** How it would stand with a day if its needs were promised, asked of many days and places in turn. */
export class IfPromised {
  private readonly known = new Map<string, Planned>();
  private readonly tried = new Map<string, Trial>();

  constructor(private readonly horizon: Horizon) {}

  /** Items that are not on the shelf at all are left out; the same needs of other days do not count. */
  on(day: Temporal.PlainDate, needs: readonly Need[]): Outlook {
    // ingredients that several solutions share are asked for together
    const asked = new Map<string, bigint>();
    return outlookOf(
      needs.flatMap((need) => {
        const ahead = this.horizon.items.get(need.itemId);
        return ahead && need.quantity > 0n ? this.reasons(ahead, need, day, null, asked) : [];
      }),
    );
  }

  private reasons(
    ahead: ItemAhead,
    { quantity, class: of = 'any' }: Pick<Need, 'quantity' | 'class'>,
    day: Temporal.PlainDate,
    into: Item | null,
    asked: Map<string, bigint>,
  ): StockReason[] {
    const { item, mixing } = ahead;
    const { today } = this.horizon;
    const all = quantity + (asked.get(item.id) ?? 0n);
    asked.set(item.id, all);
    if (mayPromise(this.planned(ahead).promises, day, all)) return [];
    const trial = this.try(ahead, { key: '', day, quantity: all, class: of, chosenLotId: null });
    if (trial.first === null) return [];
    const planned = trial.leftOver;
    if (planned) {
      const later = laterThan(ahead, planned, trial.first);
      return reasonsOfPlanned(this.horizon, item, planned, { into, later });
    }
    const by = lastChance(supplyOf(item), trial.first);
    if (by === null) return [cannot(item, 'never comes', into)];
    if (dayNumber(by) < dayNumber(today)) return [cannot(item, 'too late', into)];
    const takes = mixing ? ingredientsOf(mixing, inBatches(trial.missing, ahead)) : [];
    const ingredients = takes.flatMap((one) => {
      const raw = this.horizon.items.get(one.itemId);
      return raw ? this.reasons(raw, one, by, item, asked) : [];
    });
    const why = trial.overLimit ? 'over the limit' : null;
    return [doBy(this.horizon, item, by, into, why), ...ingredients];
  }

  private planned(ahead: ItemAhead): Planned {
    const known = this.known.get(ahead.item.id) ?? plannedOf(ahead, this.horizon.today);
    this.known.set(ahead.item.id, known);
    return known;
  }

  private try(ahead: ItemAhead, need: PlanNeed): Trial {
    const key = `${ahead.item.id} ${need.day} ${need.quantity} ${need.class}`;
    const known = this.tried.get(key) ?? trialOf(ahead, this.planned(ahead), need, this.horizon.today);
    this.tried.set(key, known);
    return known;
  }
}

/** What an item's plan says to one who asks for more. */
interface Planned {
  promises: Promisable;
  /** What bottles and orders on their way do not give, by need. */
  missing: Map<string, bigint>;
  /** What is given of each lot. */
  used: Map<string, bigint>;
}

function plannedOf(ahead: ItemAhead, today: Temporal.PlainDate): Planned {
  const { onHand, onTheWay, netted, needs } = ahead;
  const ids = new Set(netted.planned.map(({ id }) => id));
  const used = new Map<string, bigint>();
  for (const { lotId, quantity } of netted.given) {
    used.set(lotId, (used.get(lotId) ?? 0n) + quantity);
  }
  const given = netted.given.filter(({ lotId }) => !ids.has(lotId));
  const promises = promisable([...onHand, ...onTheWay], given, (key) => needs.get(key)?.day, today);
  return { promises, missing: missingOf(ahead), used };
}

interface Trial {
  /** The first day on which anybody has less than before, the one who asks with them; null when nobody has. */
  first: Temporal.PlainDate | null;
  /** How much less in all. */
  missing: bigint;
  /** A batch or an order that is planned already, and will have enough left over. */
  leftOver: PlannedReceipt | null;
  overLimit: boolean;
}

/** What bottles and orders on their way would give if this need were planned with the others. */
function trialOf(
  ahead: ItemAhead,
  { missing: before, used }: Planned,
  need: PlanNeed,
  today: Temporal.PlainDate,
): Trial {
  const { onHand, onTheWay, needs, netted, rule } = ahead;
  const gives = [...onHand, ...onTheWay].some((lot) => lot.usable > 0n && usableOn(lot, need.day));
  let first: Temporal.PlainDate | null = need.day;
  let missing = need.quantity;
  if (gives) {
    const unhelped = { ...rule, leadDays: null };
    const more = net([...needs.values(), need], ahead, unhelped, today)
      .short.map((one) => ({ day: one.day, quantity: one.quantity - (before.get(one.needKey) ?? 0n) }))
      .filter(({ quantity }) => quantity > 0n)
      .sort((a, b) => dayNumber(a.day) - dayNumber(b.day));
    first = more[0]?.day ?? null;
    missing = more.reduce((sum, { quantity }) => sum + quantity, 0n);
  }
  const enough = netted.plannedLots.findIndex(
    (lot) => first !== null && usableOn(lot, first) && lot.usable - (used.get(lot.id) ?? 0n) >= missing,
  );
  const leftOver = netted.planned[enough] ?? null;
  return { first, missing, leftOver, overLimit: leftOver === null && overLimit(ahead, need, today) };
}

/** Whether the most that may be on hand is in the way. */
function overLimit(ahead: ItemAhead, need: PlanNeed, today: Temporal.PlainDate): boolean {
  if (ahead.rule.most === null) return false;
  const over = (short: ItemAhead['netted']['short']) =>
    short.reduce((sum, one) => (one.reason === 'over the limit' ? sum + one.quantity : sum), 0n);
  const { short } = net([...ahead.needs.values(), need], ahead, ahead.rule, today);
  return over(short) > over(ahead.netted.short);
}

/** So much, in whole batches. */
function inBatches(quantity: bigint, { rule }: ItemAhead): bigint {
  const filled = (quantity > rule.leastUsable ? quantity : rule.leastUsable) + rule.heel;
  const size = rule.lotSize ?? 1n;
  return ((filled + size - 1n) / size) * size;
}
