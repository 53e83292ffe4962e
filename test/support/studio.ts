// A small invented studio for tests, founded through the same services that people use. Fridays, whole and
// half plates, a shelf that is full enough; each test says only what it wants otherwise.
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../../src/accounts/accounts.schemas.js';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { LinksService } from '../../src/accounts/links.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { RoomService } from '../../src/room/room.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import type { Item, ItemKind, PlateSize } from '../../src/stock/stock.schemas.js';
import { StockService } from '../../src/stock/stock.service.js';
import type { NewStudio } from '../../src/studios/studios.schemas.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { Gazetteer } from '../../src/travel/gazetteer.service.js';
import type { TestHouse } from './house.js';

export const PASSWORD = 'a password for tests';

/** What is on the shelf at first: sheets and microlitres. */
export const FULL_SHELF = {
  wholeGlass: 40n,
  halfGlass: 40n,
  collodion: 2_000_000n,
  developer: 5_000_000n,
  fixer: 10_000_000n,
  varnish: 1_000_000n,
};
export type ShelfItem = keyof typeof FULL_SHELF;

export interface TestStudio {
  id: string;
  slug: string;
  owner: Account;
  assistant: Account;
  sizes: Record<'whole' | 'half', PlateSize>;
  items: Record<ShelfItem, Item>;
  /** One lot of each item. */
  lots: Record<ShelfItem, string>;
}

export type Founding = Partial<NewStudio> & { shelf?: Partial<Record<ShelfItem, bigint>> };

/** `shelf` changes single amounts; 0n leaves an empty bottle. Lots are usable from yesterday for two years. */
export async function foundTestStudio(
  house: TestHouse,
  { shelf, ...overrides }: Founding = {},
): Promise<TestStudio> {
  const id = overrides.id ?? new SystemRandom().id();
  const studio: NewStudio = {
    slug: 'sandpiper-loft',
    name: 'Sandpiper Loft',
    welcome: 'Portraits on glass, by daylight, on Fridays.',
    address: 'Sandpiper Loft, Ropewalk',
    email: 'desk@sandpiper-loft.example',
    telephone: '01632 960555',
    zone: 'Europe/London',
    lat: 54.49,
    lon: -0.61,
    windowKind: 'north window',
    lightFloorDegrees: 10,
    referenceSeconds: 6,
    referenceAltitudeDegrees: 45,
    exposureCapSeconds: 20,
    horizonMonths: 12,
    leastNoticeDays: 3,
    reserveQuantity: 'likely',
    ...overrides,
    id,
  };
  return house.db.inStudio(id, async (tx) => {
    await house.app.get(StudiosService).found(tx, studio);
    const people = await employ(house, tx, studio.slug);
    await house.app.get(RoomService).enterRhythm(tx, {
      weekday: 5,
      starts: [570, 675, 780, 885], // 09:30, 11:15, 13:00, 14:45
      firstPlateMinutes: 75,
      furtherPlateMinutes: 25,
      changeoverMinutes: 30,
      mostSittings: 4,
      effectiveFrom: dayOf(house).subtract({ years: 1 }),
      effectiveUntil: null,
    });
    return { id, slug: studio.slug, ...people, ...(await stockUp(house, tx, { ...FULL_SHELF, ...shelf })) };
  });
}

async function employ(
  house: TestHouse,
  tx: Tx,
  slug: string,
): Promise<Pick<TestStudio, 'owner' | 'assistant'>> {
  const accounts = house.app.get(AccountsService);
  const one = (role: 'owner' | 'assistant', name: string) =>
    accounts.create(tx, { role, name, email: `${role}@${slug}.example`, password: PASSWORD });
  const owner = await one('owner', 'Isaura Fenwick');
  const assistant = await one('assistant', 'Odhran Pike');
  await house.app.get(LinksService).ensure(tx, 'feed', owner.id, 'owner');
  return { owner, assistant };
}

async function stockUp(house: TestHouse, tx: Tx, amounts: Record<ShelfItem, bigint>) {
  const stock = house.app.get(StockService);
  const size = (name: string, widthMm: number, heightMm: number, position: number) =>
    stock.enterPlateSize(tx, { name, widthMm, heightMm, position, offered: true });
  const sizes = {
    whole: await size('Whole plate', 215.9, 165.1, 1),
    half: await size('Half plate', 165.1, 120.65, 2),
  };
  const glass = (name: string, plateSizeId: string) => {
    const bought = { leadDays: 21, ripenDays: null, lifeDays: null };
    return stock.enterItem(tx, { name, kind: 'glass', unit: 'sheet', plateSizeId, ...bought });
  };
  const mixed = (name: string, kind: Exclude<ItemKind, 'glass'>, ripenDays: number, lifeDays: number) =>
    stock.enterItem(tx, { name, kind, unit: 'uL', plateSizeId: null, leadDays: null, ripenDays, lifeDays });
  const items: Record<ShelfItem, Item> = {
    wholeGlass: await glass('Clear glass, whole plate', sizes.whole.id),
    halfGlass: await glass('Clear glass, half plate', sizes.half.id),
    collodion: await mixed('Iodised collodion', 'collodion', 7, 120),
    developer: await mixed('Iron developer', 'developer', 1, 60),
    fixer: await mixed('Hypo fixer', 'fixer', 0, 180),
    varnish: await mixed('Sandarac varnish', 'varnish', 2, 540),
  };
  const lots = {} as Record<ShelfItem, string>;
  const usableFrom = dayOf(house).subtract({ days: 1 });
  for (const name of Object.keys(items) as ShelfItem[]) {
    const usableUntil = items[name].kind === 'glass' ? null : usableFrom.add({ years: 2 });
    const lot = { itemId: items[name].id, label: `First ${items[name].name}`, usableFrom, usableUntil };
    lots[name] = await stock.receive(tx, lot, amounts[name]);
  }
  return { sizes, items, lots };
}

/** What may be said about a request; what is left out is one adult on one whole plate, any day of spring 2027. */
export interface Asking {
  name?: string;
  reachBy?: 'email' | 'telephone' | 'letter';
  email?: string;
  telephone?: string;
  postalAddress?: string;
  sitters?: string[];
  plates?: { plateSizeId: string; sitters: number[] }[];
  /** Ages of the sitters, in their order; adult where none is said. */
  bands?: ('adult' | '8 to 14' | 'under 8')[];
  /** Without it a mother, where a child sits. */
  guardian?: { name: string; relation?: string; reach: string } | null;
  minor?: boolean;
  access?: string;
  brings?: string;
  /** As the gazetteer finds it. */
  home?: string;
  kindId?: string;
  suits?: { kind: 'any'; from: string; until: string } | { kind: 'these'; days: string[] };
  hopes?: string;
  language?: 'en' | 'fr';
  anything?: string;
  /** The number of a gift voucher. */
  voucher?: string;
  key?: string;
}

const MOTHER = { name: 'Wilhelmina Harrow', relation: 'mother', reach: '01632 960412' };

/** The body of a request, as a form or the API sends it. */
export function requestBody(house: TestHouse, studio: TestStudio, asking: Asking = {}) {
  const { home = 'York, United Kingdom', key: _key, ...said } = asking;
  const place = house.app.get(Gazetteer).search(home, 1)[0];
  if (!place) throw new Error(`${home} is not in the gazetteer.`);
  const name = said.name ?? 'Linnea Harrow';
  const sitters = said.sitters ?? [name];
  return {
    name,
    reachBy: 'email',
    email: 'linnea@post.example',
    sitters,
    plates: [{ plateSizeId: studio.sizes.whole.id, sitters: [...sitters.keys()] }],
    homeId: place.id,
    suits: { kind: 'any', from: '2027-03-01', until: '2027-05-31' },
    ...((said.bands ?? []).some((band) => band !== 'adult') ? { guardian: MOTHER } : {}),
    ...said,
  };
}

/** Enters a request. @returns the sitting and the secret of the contact's own page */
export function askForSitting(house: TestHouse, studio: TestStudio, asking: Asking = {}) {
  const key = asking.key ?? `request ${new SystemRandom().id()}`;
  return house.app.get(RequestsService).ask(studio.id, requestBody(house, studio, asking), key);
}

/** Starts ("2027-05-14T11:15") open for so many plates between two dates, earliest first. */
export async function openStarts(
  house: TestHouse,
  studio: TestStudio,
  { from, until, plates = 1 }: { from: string; until: string; plates?: number },
): Promise<string[]> {
  const range = { from: Temporal.PlainDate.from(from), until: Temporal.PlainDate.from(until) };
  const days = await house.db.inStudio(studio.id, async (tx) =>
    house.app.get(RoomService).days(tx, await house.app.get(StudiosService).load(tx), range, plates),
  );
  const open = days.flatMap((day) => day.openings.filter((one) => one.closed === null));
  return open.map((one) => one.wallStart.toString({ smallestUnit: 'minute' }));
}

/** The owner gives a request a place. @param start as "2027-05-14T11:15" */
export function approve(
  house: TestHouse,
  studio: TestStudio,
  sittingId: string,
  start: string,
): Promise<void> {
  const wallStart = Temporal.PlainDateTime.from(start);
  return house.app.get(DecisionsService).approve(studio.id, studio.owner, sittingId, wallStart);
}

/** The date at the house's clock, in UTC. */
export function dayOf(house: TestHouse): Temporal.PlainDate {
  return Temporal.PlainDate.from(house.clock.now().toString().slice(0, 10));
}
