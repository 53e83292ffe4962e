// A shelf in memory, made of the pure core alone: acts.calc.ts changes bottles, replan.calc.ts plans what is set
// aside. For tests that do many thousand acts; the database has its own test of the same.
import { Temporal } from 'temporal-polyfill';
import {
  type Acted,
  blended,
  counted,
  discarded,
  foundGood,
  type LotChange,
  mixed,
  opened,
  poured,
  received,
  suspected,
  thinned,
} from '../../src/stock/acts.calc.js';
import { type Change, type Entered, type Expected, replanItem } from '../../src/stock/replan.calc.js';
import { type Held, type Item, type Lot, type LotClass, withExtras } from '../../src/stock/stock.schemas.js';
import { type ItemNumber, SHELF_ITEMS, type ShelfDoor, type ShelfFacts } from './shelf-acts.js';

export class ShelfCore implements ShelfDoor {
  private today = Temporal.PlainDate.from('2027-05-01');
  private readonly items: Item[] = SHELF_ITEMS.map((one) => ({
    id: one.name,
    ...withExtras({ ...one, kind: 'chemical', unit: 'uL', plateSizeId: null }),
  }));
  private readonly lots = new Map<string, Lot>();
  private held: Held[] = [];
  private readonly movements: ShelfFacts['movements'] = [];
  private readonly expected: (Expected & { itemId: string })[] = [];
  private holders = 0;
  private ids = 0;

  constructor(private readonly replan = replanItem) {}

  receive = async (item: ItemNumber, quantity: bigint, life: number | null, kind: LotClass) => {
    const usableUntil = life === null ? null : this.today.add({ days: life });
    const id = this.id('bottle');
    const lot = { itemId: this.item(item), label: id, usableFrom: this.today, usableUntil, class: kind };
    return this.act([], () => ok(received(id, lot, quantity, 'received')));
  };
  count = async (lot: number, quantity: bigint) =>
    this.act([lot], ([one]) => ok(counted(one!, quantity, '')));
  take = async (lot: number, quantity: bigint) =>
    this.act([lot], ([one]) => poured(one!, quantity, 'used', ''));
  discard = async (lot: number) => this.act([lot], ([one]) => discarded(one!, ''));
  open = async (lot: number) =>
    this.act([lot], ([one]) => opened(one!, this.items.find(({ id }) => id === one!.itemId)!, this.today));
  suspect = async (lot: number) => this.act([lot], ([one]) => suspected(one!, 'fog'));
  foundGood = async (lot: number) => this.act([lot], ([one]) => foundGood(one!));
  blend = async (lots: [number, number], [a, b]: [bigint, bigint]) =>
    this.act(lots, ([one, two]) =>
      blended(
        [
          { lot: one!, quantity: a },
          { lot: two!, quantity: b },
        ],
        this.into('blend'),
        2,
      ),
    );
  decant = async (lot: number, quantity: bigint) =>
    this.act([lot], ([one]) => blended([{ lot: one!, quantity }], this.into('decanted'), 1));
  thin = async (lot: number, solvent: number | null, quantity: bigint) =>
    this.act(solvent === null ? [lot] : [lot, solvent], ([one, two]) =>
      thinned(one!, two ? [{ lot: two, quantity }] : [], two ? 0n : quantity, {
        reason: '',
        day: this.today,
      }),
    );
  mix = async (quantity: bigint, from: number, part: bigint) => {
    const { ripenDays, lifeDays } = SHELF_ITEMS[0];
    const id = this.id('batch');
    const lot = {
      itemId: this.item(0),
      label: id,
      usableFrom: this.today.add({ days: ripenDays }),
      usableUntil: this.today.add({ days: lifeDays }),
    };
    const batch = { id, lot, quantity, day: this.today };
    return this.act([from], ([one]) => mixed(batch, [{ lot: one!, quantity: part }]));
  };
  order = async (item: ItemNumber, quantity: bigint, days: number) => {
    if (quantity === 0n) return false;
    this.expected.push({ itemId: this.item(item), quantity, expectedOn: this.today.add({ days }) });
    return true;
  };
  reserve: ShelfDoor['reserve'] = async (needs, inDays) => {
    const heldFor = `holder ${this.holders}`;
    const neededOn = this.today.add({ days: inDays });
    const entered = needs
      .filter((need) => need.quantity > 0n)
      .map(({ item, ...need }) => ({
        ...need,
        heldFor,
        itemId: this.item(item),
        neededOn,
        chosenLotId: null,
      }));
    if (!this.plan([], entered)) return false;
    this.holders++;
    return true;
  };
  release = async (holder: number) => this.plan([], [], this.holder(holder));
  use = async (holder: number, lot: number, quantity: bigint) =>
    this.act([lot], ([one]) => poured(one!, quantity, 'used', ''), this.holder(holder));
  choose: ShelfDoor['choose'] = async (holder, item, lot) => {
    const chosen = lot === null ? null : around([...this.lots.keys()], lot);
    if (chosen === undefined) return false;
    const before = this.held;
    this.held = this.held.map((one) =>
      one.heldFor === this.holder(holder) && one.itemId === this.item(item) && this.ahead(one)
        ? { ...one, chosenLotId: chosen }
        : one,
    );
    if (this.plan([], [], undefined, true)) return true;
    this.held = before;
    return false;
  };
  pass = async (days: number) => {
    this.today = this.today.add({ days });
    return true;
  };
  facts = async () => ({
    today: this.today,
    lots: [...this.lots.values()],
    held: this.held,
    movements: this.movements,
  });

  private item = (number: ItemNumber) => SHELF_ITEMS[number].name;
  private holder = (number: number) => `holder ${this.holders === 0 ? 0 : number % this.holders}`;
  private id = (word: string) => `${word} ${this.ids++}`;
  private into(word: string) {
    const id = this.id(word);
    return { id, label: id, class: 'ordinary', note: '' } as const;
  }
  private ahead = (one: Held) => one.neededOn.until(this.today).days <= 0;

  private act(numbers: number[], change: (lots: Lot[]) => Acted, leaves?: string): boolean {
    const lots = numbers.map((number) => around([...this.lots.values()], number));
    if (lots.some((lot) => !lot)) return false;
    const acted = change(lots as Lot[]);
    return acted.ok && this.plan(acted.changes, [], leaves);
  }

  /** As acts.service.ts does it; false, with nothing changed, when somebody who comes in would make it worse. */
  private plan(
    changes: LotChange[],
    entered: Entered[],
    leaves?: string,
    strict = entered.length > 0,
  ): boolean {
    const after = new Map(this.lots);
    for (const { lot } of changes) after.set(lot.id, { ...lot, reserved: after.get(lot.id)?.reserved ?? 0n });
    const gone: Change[] = [];
    const past = new Map<string, bigint>();
    for (const { id, quantity, ...one } of this.held.filter((row) => !this.ahead(row))) {
      if (one.lotId === null) continue;
      const room = (after.get(one.lotId)?.onHand ?? 0n) - (past.get(one.lotId) ?? 0n);
      const kept = one.heldFor === leaves ? 0n : quantity < room ? quantity : room;
      past.set(one.lotId, (past.get(one.lotId) ?? 0n) + kept);
      if (kept < quantity) gone.push({ ...one, id, from: quantity, to: kept });
    }
    const planned = this.items.map((item) =>
      this.replan(
        {
          item,
          lots: [...after.values()].filter((lot) => lot.itemId === item.id),
          held: this.held.filter((one) => one.itemId === item.id && this.ahead(one)),
          leaves,
          past,
          expected: this.expected.filter((one) => one.itemId === item.id),
          today: this.today,
        },
        entered.filter((one) => one.itemId === item.id),
      ),
    );
    if (strict && planned.some((one) => one.worse.length > 0)) return false;
    for (const [id, lot] of after) this.lots.set(id, lot);
    for (const { lot, moves } of changes)
      for (const { kind, quantity } of moves) this.movements.push({ lotId: lot.id, kind, quantity });
    for (const one of [...gone, ...planned.flatMap((all) => all.changes)]) this.write(one);
    return true;
  }

  private write({ from, to, ...one }: Change): void {
    const id = one.id ?? this.id('row');
    this.held = this.held.filter((row) => row.id !== id);
    if (to > 0n) this.held.push({ ...one, id, quantity: to });
    const lot = one.lotId === null ? undefined : this.lots.get(one.lotId);
    if (!lot) return;
    this.lots.set(lot.id, { ...lot, reserved: lot.reserved + to - from });
    const [kind, quantity] = to > from ? ['reserved', to - from] : ['released', from - to];
    this.movements.push({ lotId: lot.id, kind: kind as string, quantity: quantity as bigint });
  }
}

const ok = (change: LotChange): Acted => ({ ok: true, changes: [change] });

/** The one of a number that goes round; undefined of none. */
export const around = <T>(all: T[], number: number): T | undefined => all[number % all.length];
