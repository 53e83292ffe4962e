// What stands on the demo studio's shelf: glass in two sizes, and bottles of different ages.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../src/platform/db/tx.js';
import type { LotExtras } from '../src/stock/stock.schemas.js';
import { StockService } from '../src/stock/stock.service.js';

export type Sizes = Record<'whole' | 'half', string>;

const litres = (amount: number) => BigInt(amount * 1000) * 1000n;

export async function fillShelf(
  app: INestApplicationContext,
  tx: Tx,
  today: Temporal.PlainDate,
): Promise<Sizes> {
  const stock = app.get(StockService);
  const whole = await stock.enterPlateSize(tx, {
    name: 'Whole plate, 6½ × 8½ in',
    widthMm: 165.1,
    heightMm: 215.9,
    offered: true,
    position: 1,
  });
  const half = await stock.enterPlateSize(tx, {
    name: 'Half plate (British), 4¾ × 6½ in',
    widthMm: 120.65,
    heightMm: 165.1,
    offered: true,
    position: 2,
  });
  const bought = { leadDays: 21, ripenDays: null, lifeDays: null };
  const glass = { kind: 'glass', unit: 'sheet', ...bought } as const;
  const wholeGlass = await stock.enterItem(tx, {
    name: 'Clear glass, whole plate',
    plateSizeId: whole.id,
    ...glass,
  });
  const halfGlass = await stock.enterItem(tx, {
    name: 'Clear glass, half plate',
    plateSizeId: half.id,
    ...glass,
  });
  const mixed = { unit: 'uL', plateSizeId: null, leadDays: null } as const;
  const collodion = await stock.enterItem(tx, {
    name: 'Iodised collodion',
    kind: 'collodion',
    ...mixed,
    ripenDays: 7,
    lifeDays: 120,
  });
  const developer = await stock.enterItem(tx, {
    name: 'Iron developer',
    kind: 'developer',
    ...mixed,
    ripenDays: 1,
    lifeDays: 60,
  });
  const fixer = await stock.enterItem(tx, {
    name: 'Hypo fixer',
    kind: 'fixer',
    ...mixed,
    ripenDays: 0,
    lifeDays: 180,
  });
  const varnish = await stock.enterItem(tx, {
    name: 'Sandarac varnish',
    kind: 'varnish',
    ...mixed,
    ripenDays: 2,
    lifeDays: 540,
  });
  const lot = (
    itemId: string,
    label: string,
    agoDays: number,
    lifeDays: number | null,
    quantity: bigint,
    kind: 'received' | 'mixed',
    more: Partial<LotExtras> = {},
  ) => {
    const usableFrom = today.subtract({ days: agoDays });
    const usableUntil = lifeDays === null ? null : usableFrom.add({ days: lifeDays });
    return stock.receive(tx, { itemId, label, usableFrom, usableUntil, ...more }, quantity, kind);
  };
  const old = { class: 'old', colour: 'deep red', speedFactor: 1.8 } as const;
  const fresh = { class: 'fresh', colour: 'straw', speedFactor: 0.9 } as const;
  await lot(wholeGlass.id, 'Box of whole-plate glass', 240, null, 40n, 'received');
  await lot(wholeGlass.id, 'Opened box of whole-plate glass', 240, null, 14n, 'received');
  await lot(halfGlass.id, 'Box of half-plate glass', 240, null, 24n, 'received');
  await lot(collodion.id, 'Collodion, spring bottle', 210, 120, litres(1), 'mixed', { class: 'old' });
  await lot(collodion.id, 'Collodion, old bottle', 100, 120, litres(0.5), 'mixed', old);
  await lot(collodion.id, 'Collodion, fresh bottle', 20, 120, litres(1), 'mixed', fresh);
  await lot(developer.id, 'Developer, summer jug', 200, 120, litres(5), 'mixed');
  await lot(developer.id, 'Developer, this month', 10, 60, litres(3), 'mixed');
  await lot(fixer.id, 'Fixer tank', 220, 400, litres(10), 'mixed');
  await lot(varnish.id, 'Varnish, big bottle', 220, 540, litres(1), 'mixed');
  return { whole: whole.id, half: half.id };
}
