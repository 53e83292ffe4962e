// Time-phased netting of one item, in buckets of a day: what the bottles and the orders on their way leave short
// becomes planned receipts in whole lots, released so many days earlier; what cannot be helped is told with its
// reason. Which bottle serves which need is the rule of plan.calc.ts. It knows no units, and nothing is ordered.
import type { Temporal } from 'temporal-polyfill';
import { dayNumber, type PlanLot, type PlanNeed, planItem } from './plan.calc.js';

export interface NettingStock {
  onHand: readonly PlanLot[];
  /** Orders not arrived, as the lots they will be. Given to what the bottles leave short. */
  onTheWay: readonly (PlanLot & { quantity: bigint })[];
  /** All that stands on the shelf, usable or not: the limit counts it. */
  inAll: bigint;
}

export interface NettingRule {
  /** Days from release to receipt; null when more of it never comes. */
  leadDays: number | null;
  /** Days it keeps after its receipt, the last one included; null: does not run out. */
  lifeDays: number | null;
  /** What one pack or batch holds; null: any quantity can be had. */
  lotSize: bigint | null;
  leastLots: number;
  /** What of a receipt is not given to anything, and the least that must be above it. */
  heel: bigint;
  leastUsable: bigint;
  /** One receipt also serves what falls short up to so many days after the first day. */
  togetherDays: number;
  /** The most that may stand on the shelf, counted before a day's use; what has run out counts as thrown away. */
  most: bigint | null;
}

export interface PlannedReceipt {
  id: string;
  releaseOn: Temporal.PlainDate;
  /** The first day that falls short without it. */
  receiptOn: Temporal.PlainDate;
  quantity: bigint;
  /** What fell short on that day and on those taken together with it: the net requirement. */
  net: bigint;
  /** The limit cut it down. */
  limited: boolean;
}

export type ShortReason = 'never comes' | 'too late' | 'over the limit';

export interface Short {
  needKey: string;
  day: Temporal.PlainDate;
  quantity: bigint;
  reason: ShortReason;
  /** Orders on their way that could serve it if they came by the day: to be hastened. */
  expedite: { lotId: string; quantity: bigint }[];
}

export interface Netted {
  /** From bottles, orders and planned receipts alike. */
  given: { needKey: string; lotId: string; quantity: bigint }[];
  planned: PlannedReceipt[];
  /** The planned receipts as lots. */
  plannedLots: PlanLot[];
  short: Short[];
}

/** @param needs none before `today`; keys are their own. A planned receipt is never released before `today`. */
export function net(
  needs: readonly PlanNeed[],
  stock: NettingStock,
  rule: NettingRule,
  today: Temporal.PlainDate,
): Netted {
  const known = new Map(needs.map((need) => [need.key, need]));
  const fromHand = planItem(needs, stock.onHand);
  const fromWay = planItem(missing(fromHand.missing, known), stock.onTheWay);
  const result: Netted = { given: fromHand.fromLots, planned: [], plannedLots: [], short: [] };
  result.given.push(...fromWay.fromLots);
  let open = missing(fromWay.missing, known);
  while (open[0]) {
    const [first] = open;
    const releaseOn = rule.leadDays === null ? null : first.day.subtract({ days: rule.leadDays });
    if (releaseOn === null) fails(result, first, 'never comes');
    else if (dayNumber(releaseOn) < dayNumber(today)) fails(result, first, 'too late');
    else {
      const left = receive(result, open, { releaseOn, stock, rule, known });
      if (left) {
        open = left;
        continue;
      }
      fails(result, first, 'over the limit');
    }
    open = open.slice(1);
  }
  hasten(result.short, stock.onTheWay, result.given);
  return result;
}

interface Facts {
  releaseOn: Temporal.PlainDate;
  stock: NettingStock;
  rule: NettingRule;
  known: ReadonlyMap<string, PlanNeed>;
}

/** Plans one receipt for the first of the open needs. @returns what stays open, or null when the limit forbids it */
function receive(
  result: Netted,
  open: PlanNeed[],
  { releaseOn, stock, rule, known }: Facts,
): PlanNeed[] | null {
  const day = open[0]?.day ?? releaseOn;
  const usableUntil = rule.lifeDays === null ? null : day.add({ days: rule.lifeDays });
  const together = dayNumber(
    day.add({ days: Math.min(rule.togetherDays, rule.lifeDays ?? rule.togetherDays) }),
  );
  const wanted = sum(open.filter((need) => dayNumber(need.day) <= together));
  const filled = larger(wanted, rule.leastUsable) + rule.heel;
  const size = rule.lotSize ?? 1n;
  const least = rule.lotSize === null ? 1n : BigInt(rule.leastLots);
  const id = `planned ${result.planned.length + 1}`;
  let lots = larger((filled + size - 1n) / size, least);
  const asked = lots;
  for (;;) {
    const quantity = lots * size;
    const lot: PlanLot = {
      id,
      usable: larger(quantity - rule.heel, 0n),
      usableFrom: day,
      usableUntil,
      class: 'ordinary',
    };
    const served = serve(open, lot);
    if (lots < least || lot.usable < rule.leastUsable || served.given.length === 0) return null;
    const given = [...result.given, ...served.given];
    const over =
      rule.most === null
        ? 0n
        : peak(stock, [...result.plannedLots, lot], given, known, day, rule) - rule.most;
    if (over <= 0n) {
      const limited = lots < asked;
      result.planned.push({ id, releaseOn, receiptOn: day, quantity, net: wanted, limited });
      result.plannedLots.push(lot);
      result.given.push(...served.given);
      return served.left;
    }
    lots -= (over + size - 1n) / size;
  }
}

/** Gives one lot to open needs, which are in the order of their days. */
function serve(open: PlanNeed[], lot: PlanLot): { given: Netted['given']; left: PlanNeed[] } {
  const given: Netted['given'] = [];
  const until = lot.usableUntil === null ? Number.MAX_SAFE_INTEGER : dayNumber(lot.usableUntil);
  let rest = lot.usable;
  let at = 0;
  const left: PlanNeed[] = [];
  for (; at < open.length && rest > 0n; at++) {
    const need = open[at];
    if (!need || dayNumber(need.day) > until) break;
    const quantity = need.quantity < rest ? need.quantity : rest;
    given.push({ needKey: need.key, lotId: lot.id, quantity });
    rest -= quantity;
    if (quantity < need.quantity) left.push({ ...need, quantity: need.quantity - quantity });
  }
  return { given, left: [...left, ...open.slice(at)] };
}

/** The most that stands on the shelf on a day or later, each day before its use. */
function peak(
  stock: NettingStock,
  planned: readonly PlanLot[],
  given: Netted['given'],
  known: ReadonlyMap<string, PlanNeed>,
  from: Temporal.PlainDate,
  { heel }: NettingRule,
): bigint {
  // the level changes on the morning of a day (0) or in its evening (1)
  const moves: { at: number; by: bigint }[] = [];
  const used = new Map<string, bigint>();
  for (const { needKey, lotId, quantity } of given) {
    const need = known.get(needKey);
    if (!need) continue;
    moves.push({ at: dayNumber(need.day) * 2 + 1, by: -quantity });
    used.set(lotId, (used.get(lotId) ?? 0n) + quantity);
  }
  const coming = [
    ...planned.map((lot) => ({ lot, quantity: lot.usable + heel })),
    ...stock.onTheWay.map((lot) => ({ lot, quantity: lot.quantity })),
  ];
  for (const { lot, quantity } of coming) moves.push({ at: dayNumber(lot.usableFrom) * 2, by: quantity });
  for (const lot of [...stock.onHand, ...coming.map((one) => one.lot)])
    if (lot.usableUntil)
      moves.push({ at: dayNumber(lot.usableUntil) * 2 + 1, by: (used.get(lot.id) ?? 0n) - lot.usable });
  moves.sort((a, b) => a.at - b.at);
  let level = stock.inAll;
  let most = 0n;
  const start = dayNumber(from) * 2;
  for (const [index, { at, by }] of moves.entries()) {
    level += by;
    if (at >= start && moves[index + 1]?.at !== at && level > most) most = level;
  }
  return most;
}

/** Finds what is on its way and not given, and would serve what falls short if it came sooner. */
function hasten(short: Short[], onTheWay: readonly PlanLot[], given: Netted['given']): void {
  if (short.length === 0 || onTheWay.length === 0) return;
  const spare = new Map(onTheWay.map((lot) => [lot.id, lot.usable]));
  for (const { lotId, quantity } of given)
    if (spare.has(lotId)) spare.set(lotId, (spare.get(lotId) ?? 0n) - quantity);
  const soonest = [...onTheWay].sort((a, b) => dayNumber(a.usableFrom) - dayNumber(b.usableFrom));
  for (const one of short) {
    let wanted = one.quantity;
    for (const lot of soonest) {
      const rest = spare.get(lot.id) ?? 0n;
      if (wanted === 0n || rest === 0n || dayNumber(lot.usableFrom) <= dayNumber(one.day)) continue;
      const quantity = rest < wanted ? rest : wanted;
      one.expedite.push({ lotId: lot.id, quantity });
      spare.set(lot.id, rest - quantity);
      wanted -= quantity;
    }
  }
}

function fails(result: Netted, { key: needKey, day, quantity }: PlanNeed, reason: ShortReason): void {
  result.short.push({ needKey, day, quantity, reason, expedite: [] });
}

function missing(
  lines: { needKey: string; quantity: bigint }[],
  known: ReadonlyMap<string, PlanNeed>,
): PlanNeed[] {
  return lines.flatMap(({ needKey, quantity }) => {
    const need = known.get(needKey);
    return need ? [{ ...need, quantity }] : [];
  });
}

const sum = (needs: readonly PlanNeed[]) => needs.reduce((all, { quantity }) => all + quantity, 0n);
const larger = (a: bigint, b: bigint) => (a > b ? a : b);
