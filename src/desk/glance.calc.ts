// What the owner weighs before a yes: for each day that suits, its light, its room and what the shelf says.
// It proposes a best place; it decides nothing.
import { Temporal } from 'temporal-polyfill';
import type { LightWindow } from '../daylight/window.calc.js';
import type { Slot } from '../room/openings.calc.js';
import { type SittingView, type SuitingDays, suitsOn } from '../sittings/sittings.schemas.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import type { Outlook } from '../stock/outlook.calc.js';

/** A day that suits, with all its starts, open or not. */
export interface DayChoice {
  date: Temporal.PlainDate;
  light: LightWindow | null;
  stock: Outlook;
  slots: Slot[];
  /** A helper is needed and none is there. */
  helperMissing?: true;
  /** Why no silver bath takes its plates; absent where one does, or where no bath is kept. */
  noBath?: NoBath;
}

export interface PlaceChoice {
  slot: Slot;
  stock: Outlook;
  helperMissing?: true;
}

/** A request that waits for an answer, with the place to look at first. */
export interface WaitingRequest {
  view: SittingView;
  /** Seconds that all on their plates can hold still. */
  limit: number;
  /** How many places could be given, and the one to look at first. */
  open: number;
  best: PlaceChoice | null;
}

/** The days of the rhythm that suit, in their order. `stockOn` tells how the shelf stands for a day. */
export function choicesOf(
  suits: SuitingDays,
  days: { date: Temporal.PlainDate; light: LightWindow | null; openings: Slot[] }[],
  stockOn: (day: Temporal.PlainDate) => Outlook,
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
export function dayToAct({ state, by }: Pick<Outlook, 'state' | 'by'>): Temporal.PlainDate | null {
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

/** Below 0 when a is before b. */
const byDate = (a: Temporal.PlainDate, b: Temporal.PlainDate) => Temporal.PlainDate.compare(a, b);
const later = (a: Temporal.PlainDate, b: Temporal.PlainDate) => (byDate(a, b) > 0 ? a : b);
const earlier = (a: Temporal.PlainDate, b: Temporal.PlainDate) => (byDate(a, b) < 0 ? a : b);

/** Those whose day is before `today`, the oldest first. */
export function pastBefore(today: Temporal.PlainDate, views: SittingView[]): SittingView[] {
  const day = ({ place }: SittingView) => place?.wallStart.toPlainDate() ?? today;
  const compare = Temporal.PlainDate.compare;
  return views.filter((one) => compare(day(one), today) < 0).sort((a, b) => compare(day(a), day(b)));
}
