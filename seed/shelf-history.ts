// What the demo studio's shelf went through: suppliers, things of every kind, what must be renewed, an opened
// bottle of ether, a bottle of collodion that fogs, two poured together, and a delivery that is on its way.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import { ItemsService } from '../src/stock/items.service.js';
import { PouringService } from '../src/stock/pouring.service.js';
import { ReceiptsService } from '../src/stock/receipts.service.js';
import { ShelfService } from '../src/stock/shelf.service.js';
import { ShelfViews } from '../src/stock/shelf-views.service.js';
import { STUDIO } from './kittiwake-yard.js';

const SUPPLIERS = [
  {
    key: 'glass',
    name: 'Staithe Glass',
    contact: '01632 960233, ask for cut edges',
    leadDays: '14',
    note: '',
  },
  {
    key: 'chemist',
    name: 'Skerry Laboratory Supply',
    contact: 'orders@skerry-supply.example',
    leadDays: '10',
    note: 'Wants the account number on every order.',
  },
  { key: 'safety', name: 'Harbour Safety', contact: '01632 960871', leadDays: '7', note: '' },
] as const;
type Supplier = (typeof SUPPLIERS)[number]['key'];

interface Kept {
  name: string;
  kind: 'chemical' | 'supply' | 'gear';
  unit: 'mg' | 'uL' | 'piece';
  from: Supplier;
  substance?: string;
  pack?: string;
  more?: Record<string, string>;
  /** What stands there: how much, since how many weeks, and for how many days from today. */
  bottles: { label: string; quantity: string; weeksAgo: number; endsInDays?: number; opened?: true }[];
}

/** Invented amounts of what such a studio keeps; what the labels warn of is left to be copied from the labels. */
const KEPT: Kept[] = [
  {
    name: 'Ether',
    kind: 'chemical',
    unit: 'uL',
    from: 'chemist',
    substance: 'diethyl ether',
    pack: '1 l',
    more: {
      openedLifeDays: '365',
      mostOnHand: '2 l',
      noPost: 'yes',
      storage: 'Cool, dark, away from flame',
      hCodes: 'H224 EUH019',
    },
    bottles: [{ label: 'Ether, opened in summer', quantity: '620 ml', weeksAgo: 24, opened: true }],
  },
  {
    name: 'Alcohol 96 %',
    kind: 'chemical',
    unit: 'uL',
    from: 'chemist',
    substance: 'ethanol',
    pack: '2.5 l',
    more: { noPost: 'yes', mostOnHand: '5 l', hCodes: 'H225' },
    bottles: [{ label: 'Alcohol, can', quantity: '1.9 l', weeksAgo: 20 }],
  },
  {
    name: 'Cadmium bromide, tetrahydrate',
    kind: 'chemical',
    unit: 'mg',
    from: 'chemist',
    substance: 'cadmium bromide, tetrahydrate',
    pack: '50 g',
    bottles: [{ label: 'Cadmium bromide, jar', quantity: '41.5 g', weeksAgo: 28 }],
  },
  {
    name: 'Ammonium iodide',
    kind: 'chemical',
    unit: 'mg',
    from: 'chemist',
    substance: 'ammonium iodide',
    pack: '50 g',
    more: { lifeDays: '365' },
    bottles: [{ label: 'Ammonium iodide, jar', quantity: '22 g', weeksAgo: 28 }],
  },
  {
    name: 'Iron sulfate',
    kind: 'chemical',
    unit: 'mg',
    from: 'chemist',
    substance: 'ferrous sulfate heptahydrate',
    pack: '1 kg',
    bottles: [{ label: 'Iron sulfate, tub', quantity: '640 g', weeksAgo: 18 }],
  },
  {
    name: 'Acetic acid, glacial',
    kind: 'chemical',
    unit: 'uL',
    from: 'chemist',
    substance: 'acetic acid, glacial',
    pack: '500 ml',
    bottles: [{ label: 'Acetic acid', quantity: '380 ml', weeksAgo: 26 }],
  },
  {
    name: 'Silver nitrate',
    kind: 'chemical',
    unit: 'mg',
    from: 'chemist',
    substance: 'silver nitrate',
    pack: '100 g',
    more: { storage: 'Dark, apart from spirits and paper', hCodes: 'H272 H314 H410' },
    bottles: [{ label: 'Silver nitrate, brown jar', quantity: '86 g', weeksAgo: 22 }],
  },
  {
    name: 'Distilled water',
    kind: 'chemical',
    unit: 'uL',
    from: 'chemist',
    substance: 'distilled water',
    pack: '5 l',
    bottles: [{ label: 'Water, canisters', quantity: '12 l', weeksAgo: 6 }],
  },
  {
    name: 'Filter papers',
    kind: 'supply',
    unit: 'piece',
    from: 'chemist',
    pack: '100',
    bottles: [{ label: 'Filter papers, box', quantity: '64', weeksAgo: 16 }],
  },
  {
    name: 'Plate boxes',
    kind: 'supply',
    unit: 'piece',
    from: 'glass',
    pack: '10',
    bottles: [{ label: 'Plate boxes for posting', quantity: '7', weeksAgo: 10 }],
  },
  {
    name: 'Eyewash',
    kind: 'gear',
    unit: 'piece',
    from: 'safety',
    bottles: [{ label: 'Eyewash by the sink', quantity: '2', weeksAgo: 30, endsInDays: 24 }],
  },
  {
    name: 'Fire extinguisher',
    kind: 'gear',
    unit: 'piece',
    from: 'safety',
    bottles: [
      {
        label: 'Extinguisher at the darkroom door, to be serviced',
        quantity: '1',
        weeksAgo: 30,
        endsInDays: 140,
      },
    ],
  },
  {
    name: 'First-aid course',
    kind: 'gear',
    unit: 'piece',
    from: 'safety',
    bottles: [{ label: 'First-aid course, Wren', quantity: '1', weeksAgo: 30, endsInDays: 420 }],
  },
  {
    name: 'Respirator cartridges',
    kind: 'gear',
    unit: 'piece',
    from: 'safety',
    pack: '2',
    bottles: [{ label: 'Cartridges, brown stripe', quantity: '2', weeksAgo: 8, endsInDays: 12 }],
  },
  {
    name: 'Data sheets, checked',
    kind: 'gear',
    unit: 'piece',
    from: 'chemist',
    bottles: [{ label: 'Folder of data sheets', quantity: '1', weeksAgo: 30, endsInDays: 60 }],
  },
  {
    name: 'Silver waste jar',
    kind: 'gear',
    unit: 'piece',
    from: 'safety',
    bottles: [
      { label: 'Silver waste, nearly full: to be fetched', quantity: '1', weeksAgo: 20, endsInDays: 9 },
    ],
  },
];

interface Setting {
  studioId: string;
  owner: Account;
  today: Temporal.PlainDate;
}
type Told = { at: Temporal.Instant; act: () => Promise<void> };

/** Each act in the morning of its day. */
export function shelfHistory(app: INestApplicationContext, { studioId, owner, today }: Setting): Told[] {
  const [shelf, items, views] = [app.get(ShelfService), app.get(ItemsService), app.get(ShelfViews)];
  const suppliers = new Map<Supplier, string>();
  const ids = new Map<string, string>();
  const morning = (weeksAgo: number): Temporal.Instant => {
    const wall = today.subtract({ weeks: weeksAgo }).toPlainDateTime({ hour: 9 });
    const answer = wallToInstant(STUDIO.zone, wall);
    if (!answer.ok) throw new Error('Clocks do not change in the morning there.');
    return answer.instant;
  };
  const bottle = async (label: string) => {
    const found = (await views.all(studioId)).lots.find((lot) => lot.label === label);
    if (!found) throw new Error(`The demo's shelf has no ${label}.`);
    return found.id;
  };
  /** How the things that the shelf began with are bought and how much of them counts. */
  const change = async (name: string, by: Record<string, string>) => {
    const item = (await views.all(studioId)).standings.find((one) => one.item.name === name)?.item;
    if (!item) throw new Error(`The demo's shelf keeps no ${name}.`);
    const { leadDays, ripenDays, lifeDays } = item;
    const text = (days: number | null) => (days === null ? '' : String(days));
    const kept = { name, leadDays: text(leadDays), ripenDays: text(ripenDays), lifeDays: text(lifeDays) };
    await items.editItem(studioId, owner, item.id, { ...kept, hazardNote: '', storage: '', ...by });
  };

  const founded: Told = {
    at: morning(31),
    act: async () => {
      for (const { key, ...said } of SUPPLIERS)
        suppliers.set(key, (await items.editSupplier(studioId, owner, null, said)).supplierId);
      const glass = { supplierId: suppliers.get('glass') ?? '', packQuantity: '20', leastPacks: '1' };
      await change('Clear glass, whole plate', glass);
      await change('Clear glass, half plate', glass);
      await change('Iodised collodion', {
        heel: '40 ml',
        leastPour: '100 ml',
        storage: 'Cool and dark, away from flame',
      });
      await change('Sandarac varnish', { heel: '20 ml' });
      for (const { name, kind, unit, from, substance = '', pack = '', more = {} } of KEPT) {
        const bought = { supplierId: suppliers.get(from) ?? '', packQuantity: pack };
        const said = { name, kind, unit, substance, hazardNote: '', storage: '', ...bought, ...more };
        ids.set(name, (await items.addItem(studioId, owner, said)).itemId);
      }
    },
  };
  const come = KEPT.flatMap(({ name, bottles }) =>
    bottles.map(({ label, quantity, weeksAgo, endsInDays, opened }) => ({
      at: morning(weeksAgo),
      act: async () => {
        const usableUntil = endsInDays === undefined ? '' : today.add({ days: endsInDays }).toString();
        const said = { itemId: ids.get(name) ?? '', quantity, label, usableUntil, note: '' };
        const { lotId } = await shelf.receive(studioId, owner, said);
        if (opened) await shelf.open(studioId, owner, lotId);
      },
    })),
  );
  const lately: Told[] = [
    {
      at: morning(7),
      act: async () => {
        const quantity = { quantity: '36', reason: 'four were chipped' };
        await shelf.count(studioId, owner, await bottle('Box of whole-plate glass'), quantity);
      },
    },
    {
      at: morning(2),
      act: async () => {
        const poured = { quantity: '150 ml', label: 'Collodion, clear top', note: 'Poured off the dregs.' };
        await app
          .get(PouringService)
          .decant(studioId, owner, await bottle('Collodion, fresh bottle'), poured);
      },
    },
    {
      at: morning(1),
      act: async () => {
        const note = { note: 'Crape lines on the last two plates' };
        await shelf.suspect(studioId, owner, await bottle('Collodion, old bottle'), note);
        const order = { itemId: ids.get('Ammonium iodide') ?? '', quantity: '50 g' };
        await app.get(ReceiptsService).order(studioId, owner, order);
      },
    },
  ];
  return [founded, ...come, ...lately];
}
