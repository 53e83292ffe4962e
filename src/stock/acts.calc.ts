// What each act at the shelf does to bottles, batches and boxes: their level, their state, what moved, and which
// came out of which. It writes nothing and sets nothing aside.
import { Temporal } from 'temporal-polyfill';
import { usableOn } from './plan.calc.js';
import type { Item, Lot, LotClass, NewLot } from './stock.schemas.js';
import { withLotExtras } from './stock.schemas.js';

/** Movements of what is on hand; 'reserved' and 'released' are not among them. */
export type OnHandKind = 'received' | 'mixed' | 'used' | 'taken' | 'discarded' | 'counted';

export interface LotChange {
  /** As it is after the act; what is set aside of it is not told here. */
  lot: Lot;
  isNew: boolean;
  /** Signed: together they are the change of what is on hand. */
  moves: { kind: OnHandKind; quantity: bigint; reason: string }[];
  /** What went into it, and how much. */
  parents: { lotId: string; quantity: bigint }[];
}

export type ActProblem =
  | 'more than is in it'
  | 'nothing in it'
  | 'nothing taken'
  | 'opened already'
  | 'suspect already'
  | 'good already'
  | 'other items'
  | 'needs two bottles'
  | 'itself'
  | 'not usable'
  | 'out of its days';

/** `part` is the place, among several that are poured together, of the one at fault. */
export type Acted = { ok: true; changes: LotChange[] } | { ok: false; reason: ActProblem; part?: number };

const no = (reason: ActProblem): Acted => ({ ok: false, reason });
const done = (...changes: LotChange[]): Acted => ({ ok: true, changes });

/** A bottle that comes onto the shelf; nothing is in it as long as nothing was added. */
export function received(id: string, lot: NewLot, quantity: bigint, kind: 'received' | 'mixed'): LotChange {
  const whole = { id, ...withLotExtras(lot), onHand: quantity, reserved: 0n };
  return { lot: whole, isNew: true, moves: [{ kind, quantity, reason: '' }], parents: [] };
}

/** Counted or weighed: from now on that much is in it. What was gone and is found again is what it was before. */
export function counted(lot: Lot, quantity: bigint, reason: string): LotChange {
  const before = lot.stateNote === '' ? 'good' : 'suspect'; // what was seen stays with it until it is found good
  const state = quantity === 0n ? 'gone' : lot.state === 'gone' ? before : lot.state;
  const moves = [{ kind: 'counted', quantity: quantity - lot.onHand, reason } as const];
  return { lot: { ...lot, onHand: quantity, state }, isNew: false, moves, parents: [] };
}

/** A count may be so far beside the book, in per cent of it, without a word: how finely people look. Assumption. */
const MISCOUNT_PER_CENT = 10n;

/** Whether a count is so far from what the book says is in a bottle that the reason should stand with it. */
export function wantsReason({ onHand }: Pick<Lot, 'onHand'>, quantity: bigint): boolean {
  const off = quantity > onHand ? quantity - onHand : onHand - quantity;
  return off * 100n > onHand * MISCOUNT_PER_CENT;
}

/** Some of it leaves: used up by a plate or a test, or poured into another bottle ('taken'). */
export function poured(lot: Lot, quantity: bigint, kind: 'used' | 'taken', reason: string): Acted {
  if (quantity <= 0n) return no('nothing taken');
  if (quantity > lot.onHand) return no('more than is in it');
  const onHand = lot.onHand - quantity;
  const changed = { ...lot, onHand, state: onHand === 0n ? 'gone' : lot.state } as const;
  return done({ lot: changed, isNew: false, moves: [{ kind, quantity: -quantity, reason }], parents: [] });
}

/** All of it is thrown away. */
export function discarded(lot: Lot, reason: string): Acted {
  if (lot.state === 'gone') return no('nothing in it');
  const moves = lot.onHand > 0n ? [{ kind: 'discarded', quantity: -lot.onHand, reason } as const] : [];
  return done({ lot: { ...lot, onHand: 0n, state: 'gone' }, isNew: false, moves, parents: [] });
}

/** Opened today: from now on it keeps as long as an opened one does, and never longer than before. */
export function opened(lot: Lot, item: Pick<Item, 'openedLifeDays'>, today: Temporal.PlainDate): Acted {
  if (lot.openedOn) return no('opened already');
  if (lot.state === 'gone') return no('nothing in it');
  const shorter = item.openedLifeDays === null ? null : today.add({ days: item.openedLifeDays });
  const usableUntil = earliest([lot.usableUntil, shorter]);
  return done(still({ ...lot, openedOn: today, usableUntil: later(usableUntil, lot.usableFrom) }));
}

export function suspected(lot: Lot, note: string): Acted {
  if (lot.state === 'gone') return no('nothing in it');
  if (lot.state === 'suspect') return no('suspect already');
  return done(still({ ...lot, state: 'suspect', stateNote: note }));
}

export function foundGood(lot: Lot): Acted {
  if (lot.state === 'gone') return no('nothing in it');
  if (lot.state === 'good') return no('good already');
  return done(still({ ...lot, state: 'good', stateNote: '' }));
}

export interface Part {
  lot: Lot;
  quantity: bigint;
}

/**
 * Several bottles of one item poured into a new one: usable when all of them are and as long as all of them
 * are. Also decanting, which is a blend of one.
 */
export function blended(
  parts: readonly Part[],
  into: { id: string; label: string; class: LotClass; note: string },
  least: 1 | 2,
): Acted {
  const [first] = parts;
  if (!first || parts.length < least) return no('needs two bottles');
  const unfit =
    refused(parts, 'other items', ({ itemId }) => itemId !== first.lot.itemId) ??
    refused(parts, 'not usable', ({ state }) => state !== 'good');
  if (unfit) return unfit;
  const lots = parts.map(({ lot }) => lot);
  const usableFrom = latest(lots.map((lot) => lot.usableFrom));
  const usableUntil = earliest(lots.map((lot) => lot.usableUntil));
  if (usableUntil && Temporal.PlainDate.compare(usableUntil, usableFrom) < 0) return no('not usable');
  const made = {
    itemId: first.lot.itemId,
    label: into.label,
    usableFrom,
    usableUntil,
    class: into.class,
    openedOn: earliest(lots.map((lot) => lot.openedOn)),
    note: into.note,
  };
  return filled(received(into.id, made, sum(parts), 'mixed'), parts, into.label);
}

/** A solvent poured into a bottle on a day, which has more in it then; with no parts it was not from the shelf. */
export function thinned(
  lot: Lot,
  parts: readonly Part[],
  untracked: bigint,
  { reason, day }: { reason: string; day: Temporal.PlainDate },
): Acted {
  if (lot.state === 'gone') return no('nothing in it');
  if (parts.some((part) => part.lot.id === lot.id)) return no('itself');
  const unfit = unfitOn(parts, day);
  if (unfit) return unfit;
  const quantity = sum(parts) + untracked;
  if (quantity <= 0n) return no('nothing taken');
  const moves = [{ kind: 'mixed', quantity, reason } as const];
  const more = { lot: { ...lot, onHand: lot.onHand + quantity }, isNew: false, moves, parents: [] };
  return filled(more, parts, lot.label);
}

/** A batch mixed on a day of other items' bottles, each of them usable on that day. */
export function mixed(
  batch: { id: string; lot: NewLot; quantity: bigint; day: Temporal.PlainDate },
  parts: readonly Part[],
): Acted {
  const unfit = unfitOn(parts, batch.day);
  if (unfit) return unfit;
  return filled(received(batch.id, batch.lot, batch.quantity, 'mixed'), parts, batch.lot.label);
}

/** The first part that will not do; null where there is none. */
function refused(parts: readonly Part[], reason: ActProblem, is: (lot: Lot) => boolean): Acted | null {
  const part = parts.findIndex(({ lot }) => is(lot));
  return part < 0 ? null : { ok: false, reason, part };
}

const unfitOn = (parts: readonly Part[], day: Temporal.PlainDate): Acted | null =>
  refused(parts, 'not usable', ({ state }) => state !== 'good') ??
  refused(parts, 'out of its days', (lot) => !usableOn(lot, day));

/** Pours parts into a bottle: what each loses, and that they are its parents. */
function filled(into: LotChange, parts: readonly Part[], label: string): Acted {
  const from: LotChange[] = [];
  for (const [part, { lot, quantity }] of parts.entries()) {
    const before = from.find((one) => one.lot.id === lot.id);
    const act = poured(before?.lot ?? lot, quantity, 'taken', `into ${label}`);
    if (!act.ok) return { ...act, part };
    for (const change of act.changes)
      if (before) {
        before.lot = change.lot;
        before.moves.push(...change.moves);
      } else from.push(change);
  }
  const parents = from.map(({ lot, moves }) => ({
    lotId: lot.id,
    quantity: -moves.reduce((all, move) => all + move.quantity, 0n),
  }));
  return done(...from, { ...into, parents });
}

/** Nothing moves; the bottle is told otherwise. */
export const still = (lot: Lot): LotChange => ({ lot, isNew: false, moves: [], parents: [] });

const sum = (parts: readonly Part[]) => parts.reduce((all, { quantity }) => all + quantity, 0n);

/** The earliest day, those that are not set left out; null when none is. */
function earliest(days: readonly (Temporal.PlainDate | null)[]): Temporal.PlainDate | null {
  return days
    .filter((day) => day !== null)
    .reduce<Temporal.PlainDate | null>(
      (first, day) => (first && Temporal.PlainDate.compare(first, day) <= 0 ? first : day),
      null,
    );
}

const latest = (days: readonly Temporal.PlainDate[]) =>
  days.reduce((last, day) => (Temporal.PlainDate.compare(last, day) >= 0 ? last : day));

/** A bottle is not said to end before it begins. */
const later = (until: Temporal.PlainDate | null, from: Temporal.PlainDate) =>
  until && Temporal.PlainDate.compare(until, from) < 0 ? from : until;
