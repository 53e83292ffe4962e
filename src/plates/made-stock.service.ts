// The shelf follows what was typed in: what was set aside for a sitting, or for the day's test plates, is given back, and
// its plates take what they took, by the difference to what an ending, a settling or an earlier typing took before.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../chemistry/actuals.service.js';
import { dayInWords } from '../lib/words.js';
import type { Tx } from '../platform/db/tx.js';
import { EndingsService } from '../sittings/endings.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import type { Lot } from '../stock/stock.schemas.js';
import { ToldUseService } from '../stock/told-use.service.js';
import { WITH_A_USUAL } from '../stock/usual.calc.js';
import type { Made } from './made.schemas.js';
import { MadeStore } from './made.store.js';
import { allot, differencesOf, type Giving, takesOtherwise, wantsOf } from './took.calc.js';

/** The plates of one day before and after they were typed in, the struck ones among them. */
export interface Typed {
  day: Temporal.PlainDate;
  /** For whom the day's own materials are set aside. */
  dayId: string;
  was: readonly Made[];
  is: readonly Made[];
  who: string;
}

@Injectable()
export class MadeStockService {
  private readonly store = new MadeStore();

  constructor(
    private readonly stock: StockService,
    private readonly told: ToldUseService,
    private readonly days: DaysService,
    private readonly endings: EndingsService,
    private readonly actuals: ActualsService,
  ) {}

  /**
   * Lets the shelf follow. The sittings and the day must be locked. Of a sitting, or of the tests, nothing is moved where
   * nothing changed; what is not there by the book is not taken.
   */
  async follow(tx: Tx, typed: Typed): Promise<void> {
    const before = new Map(typed.was.map((one) => [one.id, one]));
    const changed = typed.is.filter((one) => takesOtherwise(before.get(one.id), one));
    if (changed.length === 0) return;
    const whose = [...new Set(changed.map((one) => one.sittingId))];
    for (const sittingId of whose) await this.one(tx, typed, sittingId, changed);
    if (!whose.includes(null)) return;
    const tests = typed.is.some((one) => one.sittingId === null && one.struckAt === null);
    await this.days.setTestsTyped(tx, typed.day, tests);
  }

  private async one(
    tx: Tx,
    { day, dayId, who }: Typed,
    sittingId: string | null,
    all: readonly Made[],
  ): Promise<void> {
    const heldFor = sittingId ?? dayId;
    const changed = all.filter((one) => one.sittingId === sittingId);
    const ids = changed.map((one) => one.id);
    const items = (await this.stock.items(tx)).filter((one) => WITH_A_USUAL.includes(one.kind));
    const itemIds = items.map((one) => one.id);
    await this.stock.lock(tx, itemIds);
    const held = (await this.told.held(tx, heldFor, day)).filter((one) => itemIds.includes(one.itemId));
    const before = [
      ...(await this.store.took(tx, ids)),
      ...(await this.told.takeOver(tx, day, heldFor, itemIds)),
      ...(sittingId === null ? [] : await this.endings.takeOver(tx, sittingId)),
    ];
    const named = [...before, ...changed].flatMap(({ lotId }) => lotId ?? []);
    const lots = await this.told.lotsOf(tx, itemIds, named);
    const use = (await this.actuals.figures(tx)).use;
    const sizes = await this.stock.plateSizes(tx);
    const counted = changed.filter((one) => one.struckAt === null);
    const wants = counted.map((plate) => {
      const bottle = lots.find((lot) => lot.id === plate.lotId) ?? null;
      return { key: plate.id, wants: wantsOf(plate, sizes, items, bottle, use) };
    });
    const first = [...before.map((one) => one.lotId), ...held.flatMap((one) => one.lotId ?? [])];
    const now = allot(wants, giving(lots, { before, first, day, named }));
    await this.store.setTook(
      tx,
      ids,
      now.map(({ key, ...one }) => ({ madeId: key, ...one })),
    );
    await this.told.tell(tx, {
      heldFor: held.length > 0 ? heldFor : null,
      items: itemIds,
      differences: differencesOf(before, now),
      reason: `Plates of ${dayInWords(day)} typed in`,
      who,
    });
  }
}

interface Asked {
  before: readonly { lotId: string; quantity: bigint }[];
  first: readonly string[];
  day: Temporal.PlainDate;
  named: readonly string[];
}

/**
 * What lots can have given on a day: what is in them, and what was taken of them before. First those that gave before or
 * were set aside, then the good ones, first expiring first. One that came onto the shelf after the day gave nothing.
 */
function giving(lots: readonly Lot[], { before, first, day, named }: Asked): Giving[] {
  const back = new Map<string, bigint>();
  for (const { lotId, quantity } of before) back.set(lotId, (back.get(lotId) ?? 0n) + quantity);
  const text = day.toString();
  const order = (lot: Lot) => {
    const ran = lot.usableUntil !== null && lot.usableUntil.toString() < text;
    const known = first.indexOf(lot.id);
    const rank = known >= 0 ? String(known).padStart(6, '0') : `1${ran || lot.state !== 'good' ? 1 : 0}`;
    return `${rank} ${lot.usableUntil?.toString() ?? '9999'} ${lot.id}`;
  };
  return lots
    .filter((lot) => named.includes(lot.id) || first.includes(lot.id) || lot.usableFrom.toString() <= text)
    .map((lot) => ({ lot, order: order(lot) }))
    .sort((one, other) => (one.order < other.order ? -1 : 1))
    .map(({ lot }) => ({ lotId: lot.id, itemId: lot.itemId, left: lot.onHand + (back.get(lot.id) ?? 0n) }));
}
