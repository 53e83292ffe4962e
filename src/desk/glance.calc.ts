// What the owner weighs before a yes: for each day that suits, its light, its room and what the shelf says.
// It proposes a best place; it decides nothing.
import { Temporal } from 'temporal-polyfill';
import type { LightWindow } from '../daylight/window.calc.js';
import type { Slot } from '../room/openings.calc.js';
import { type SuitingDays, suitsOn } from '../sittings/sittings.schemas.js';
import { gravest, type StockState } from '../stock/allocation.calc.js';
import type { ItemCover } from '../stock/cover.calc.js';

/** An item the shelf cannot give yet, and what is to be done about it. */
export interface StockReason {
  item: string;
  state: StockState;
  /** How more of it comes; null when it does not. */
  action: 'mix' | 'order' | null;
  by: Temporal.PlainDate | null;
}

export interface StockGlance {
  state: StockState;
  by: Temporal.PlainDate | null;
  /** The gravest first, then the earliest; empty when there is enough. */
  reasons: StockReason[];
}

/** A day that suits, with all its starts, open or not. */
export interface DayChoice {
  date: Temporal.PlainDate;
  light: LightWindow | null;
  stock: StockGlance;
  slots: Slot[];
  /** A helper is needed and none is there. */
  helperMissing?: true;
}

export interface PlaceChoice {
  slot: Slot;
  stock: StockGlance;
  helperMissing?: true;
}

export function stockGlance(covers: ItemCover[]): StockGlance {
  const reasons = covers
    .filter((cover) => cover.state !== 'enough')
    .map(({ item, state, by }) => ({ item: item.name, state, by, action: actionFor(item) }));
  const worst = gravest(reasons);
  const first = (one: StockReason) => (one.state === worst.state && sameDay(one.by, worst.by) ? 0 : 1);
  return { ...worst, reasons: reasons.sort((a, b) => first(a) - first(b) || byChance(a, b)) };
}

/** The days of the rhythm that suit, in their order. `stockOn` tells how the shelf stands for a day. */
export function choicesOf(
  suits: SuitingDays,
  days: { date: Temporal.PlainDate; light: LightWindow | null; openings: Slot[] }[],
  stockOn: (day: Temporal.PlainDate) => StockGlance,
): DayChoice[] {
  return days
    .filter((day) => suitsOn(suits, day.date))
    .map(({ date, light, openings }) => ({ date, light, stock: stockOn(date), slots: openings }));
}

/** Every place that can be given, in order of time: open, and with a shelf that can provide. */
export function openPlaces(choices: DayChoice[]): PlaceChoice[] {
  return choices.flatMap(({ slots, stock, helperMissing }) =>
    stock.state === 'cannot be had'
      ? []
      : slots
          .filter((slot) => slot.closed === null)
          .map((slot) => ({ slot, stock, ...(helperMissing && { helperMissing }) })),
  );
}

/** The place with the fewest whole seconds to hold still under a clear sky; the earliest of equals; or null. */
export function bestPlace(places: PlaceChoice[]): PlaceChoice | null {
  const seconds = ({ slot }: PlaceChoice) => Math.round(slot.holdStill?.clear.to ?? Number.POSITIVE_INFINITY);
  return places.reduce<PlaceChoice | null>(
    (best, one) => (best === null || seconds(one) < seconds(best) ? one : best),
    null,
  );
}

/** The day by which something is to be done soon; null while the shelf is quiet about it. */
export function dayToAct({ state, by }: Pick<StockGlance, 'state' | 'by'>): Temporal.PlainDate | null {
  return state === 'mix by' || state === 'order by' ? by : null;
}

/** The first and last day worth looking at: those that suit and are bookable; null when there are none. */
export function rangeToSearch(
  suits: SuitingDays,
  bookable: { from: Temporal.PlainDate; until: Temporal.PlainDate },
): { from: Temporal.PlainDate; until: Temporal.PlainDate } | null {
  const days = suits.kind === 'any' ? [suits.from, suits.until] : suits.days;
  const from = [...days].sort(byDate)[0];
  const until = [...days].sort(byDate).at(-1);
  if (!from || !until) return null;
  const range = { from: later(from, bookable.from), until: earlier(until, bookable.until) };
  return byDate(range.from, range.until) <= 0 ? range : null;
}

const actionFor = ({ ripenDays, leadDays }: ItemCover['item']): StockReason['action'] =>
  ripenDays !== null ? 'mix' : leadDays !== null ? 'order' : null;

/** What cannot be had any more comes first. */
const byChance = (a: StockReason, b: StockReason) =>
  a.by && b.by ? byDate(a.by, b.by) : Number(a.by !== null) - Number(b.by !== null);

/** Below 0 when a is before b. */
const byDate = (a: Temporal.PlainDate, b: Temporal.PlainDate) => Temporal.PlainDate.compare(a, b);
const later = (a: Temporal.PlainDate, b: Temporal.PlainDate) => (byDate(a, b) > 0 ? a : b);
const earlier = (a: Temporal.PlainDate, b: Temporal.PlainDate) => (byDate(a, b) < 0 ? a : b);
const sameDay = (a: Temporal.PlainDate | null, b: Temporal.PlainDate | null) =>
  a === null || b === null ? a === b : a.equals(b);
