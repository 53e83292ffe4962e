// Any forty acts at a shelf, told so that they can be done on the pure core or through the services on a
// database, and what must be true after each of them. Which bottle and which holder is meant is told by
// a number, which goes round.
import fc from 'fast-check';
import type { Temporal } from 'temporal-polyfill';
import { usableOn } from '../../src/stock/plan.calc.js';
import type { AskedClass, Held, Lot, LotClass } from '../../src/stock/stock.schemas.js';

export const ACTS_PER_RUN = 40;

/** The items of the shelf under test: one mixed, one bought, one neither. All are measured alike. */
export const SHELF_ITEMS = [
  {
    name: 'collodion',
    ripenDays: 3,
    leadDays: null,
    lifeDays: 12,
    openedLifeDays: 4,
    heel: 3n,
    leastPour: 5n,
  },
  { name: 'ether', ripenDays: null, leadDays: 6, lifeDays: null, openedLifeDays: 5, heel: 0n, leastPour: 0n },
  {
    name: 'heirloom',
    ripenDays: null,
    leadDays: null,
    lifeDays: null,
    openedLifeDays: null,
    heel: 0n,
    leastPour: 0n,
  },
] as const;
export type ItemNumber = 0 | 1 | 2;

export interface ShelfFacts {
  today: Temporal.PlainDate;
  lots: Lot[];
  held: Held[];
  movements: { lotId: string; kind: string; quantity: bigint }[];
}

/** One way to act at a shelf. An act that is refused changes nothing and says so. */
export interface ShelfDoor {
  receive(item: ItemNumber, quantity: bigint, life: number | null, kind: LotClass): Promise<boolean>;
  count(lot: number, quantity: bigint): Promise<boolean>;
  take(lot: number, quantity: bigint): Promise<boolean>;
  discard(lot: number): Promise<boolean>;
  open(lot: number): Promise<boolean>;
  suspect(lot: number): Promise<boolean>;
  foundGood(lot: number): Promise<boolean>;
  blend(lots: [number, number], quantities: [bigint, bigint]): Promise<boolean>;
  decant(lot: number, quantity: bigint): Promise<boolean>;
  thin(lot: number, solvent: number | null, quantity: bigint): Promise<boolean>;
  mix(quantity: bigint, from: number, part: bigint): Promise<boolean>;
  order(item: ItemNumber, quantity: bigint, days: number): Promise<boolean>;
  reserve(
    needs: { item: ItemNumber; quantity: bigint; class: AskedClass }[],
    inDays: number,
  ): Promise<boolean>;
  release(holder: number): Promise<boolean>;
  use(holder: number, lot: number, quantity: bigint): Promise<boolean>;
  choose(holder: number, item: ItemNumber, lot: number | null): Promise<boolean>;
  pass(days: number): Promise<boolean>;
  facts(): Promise<ShelfFacts>;
}

const number = fc.nat(999);
const some = fc.bigInt({ min: 0n, max: 30n });
const item = fc.constantFrom<ItemNumber>(0, 1, 2);
const kind = fc.constantFrom<LotClass>('fresh', 'ordinary', 'old');
const asked = fc.constantFrom<AskedClass>('fresh', 'any', 'old');
const days = fc.nat(14);

class Step implements fc.AsyncCommand<Ran, ShelfDoor> {
  constructor(
    private readonly words: string,
    private readonly act: (door: ShelfDoor) => Promise<boolean>,
  ) {}
  check = () => true;
  async run(ran: Ran, door: ShelfDoor): Promise<void> {
    const name = this.words.split(' ')[0] ?? '';
    if (await this.act(door)) ran.done.set(name, (ran.done.get(name) ?? 0) + 1);
    const wrong = violations(await door.facts());
    if (wrong.length > 0) throw new Error(`After ${this.words}: ${wrong.join('; ')}`);
  }
  toString = () => this.words;
}
/** Which acts were done, over all runs: to see that none is always refused. */
export interface Ran {
  done: Map<string, number>;
}

const step = <T>(name: string, what: fc.Arbitrary<T>, act: (door: ShelfDoor, given: T) => Promise<boolean>) =>
  what.map((given) => new Step(`${name} ${fc.stringify(given)}`, (door) => act(door, given)));

const anyStep = fc.oneof(
  step('receive', fc.tuple(item, some, fc.option(days), kind), (door, given) => door.receive(...given)),
  step('receive', fc.tuple(item, some, fc.option(days), kind), (door, given) => door.receive(...given)),
  step('count', fc.tuple(number, some), (door, given) => door.count(...given)),
  step('take', fc.tuple(number, some), (door, given) => door.take(...given)),
  step('discard', number, (door, lot) => door.discard(lot)),
  step('open', number, (door, lot) => door.open(lot)),
  step('suspect', number, (door, lot) => door.suspect(lot)),
  step('foundGood', number, (door, lot) => door.foundGood(lot)),
  step('blend', fc.tuple(fc.tuple(number, number), fc.tuple(some, some)), (door, given) =>
    door.blend(...given),
  ),
  step('decant', fc.tuple(number, some), (door, given) => door.decant(...given)),
  step('thin', fc.tuple(number, fc.option(number), some), (door, given) => door.thin(...given)),
  step('mix', fc.tuple(some, number, some), (door, given) => door.mix(...given)),
  step('order', fc.tuple(item, some, days), (door, given) => door.order(...given)),
  step('reserve', fc.tuple(needs(), days), (door, given) => door.reserve(...given)),
  step('reserve', fc.tuple(needs(), days), (door, given) => door.reserve(...given)),
  step('reserve', fc.tuple(needs(), days), (door, given) => door.reserve(...given)),
  step('release', number, (door, holder) => door.release(holder)),
  step('use', fc.tuple(number, number, some), (door, given) => door.use(...given)),
  step('choose', fc.tuple(number, item, fc.option(number)), (door, given) => door.choose(...given)),
  step('pass', fc.integer({ min: 1, max: 3 }), (door, given) => door.pass(given)),
);

/** The acts by name. */
export const ALL_ACTS = [
  'receive',
  'count',
  'take',
  'discard',
  'open',
  'suspect',
  'foundGood',
  'blend',
  'decant',
  'thin',
  'mix',
  'order',
  'reserve',
  'release',
  'use',
  'choose',
  'pass',
];

/** Forty acts, for fc.asyncModelRun. */
export const steps = fc.array(anyStep, { minLength: ACTS_PER_RUN, maxLength: ACTS_PER_RUN });

function needs() {
  return fc.uniqueArray(fc.record({ item, quantity: some, class: asked }), {
    minLength: 1,
    maxLength: 3,
    selector: (one) => one.item,
  });
}

/** One sentence for each thing that must never be so. */
export function violations({ today, lots, held, movements }: ShelfFacts): string[] {
  const wrong: string[] = [];
  for (const lot of lots) {
    const moved = movements.filter((one) => one.lotId === lot.id);
    const total = (...kinds: string[]) =>
      moved.filter((one) => kinds.includes(one.kind)).reduce((sum, one) => sum + one.quantity, 0n);
    const own = held.filter((one) => one.lotId === lot.id);
    const reserved = own.reduce((sum, one) => sum + one.quantity, 0n);
    const say = (what: string) => wrong.push(`${lot.label} ${what}`);
    if (lot.onHand !== total('received', 'mixed', 'used', 'taken', 'discarded', 'counted'))
      say('has another level than its movements');
    if (lot.reserved !== reserved) say('has set aside other than its reservations');
    if (lot.reserved !== total('reserved') - total('released')) say('has set aside other than was moved');
    if (lot.onHand < 0n || lot.reserved < 0n || lot.reserved > lot.onHand) say('is below nothing');
    const live = own.filter((one) => one.neededOn.until(today).days <= 0);
    if (live.some((one) => !usableOn(lot, one.neededOn))) say('is set aside outside its days');
    if (live.length > 0 && lot.state !== 'good') say('is set aside and not good');
  }
  if (held.some((one) => one.quantity <= 0n)) wrong.push('something of nothing is set aside');
  return wrong;
}
