// What the API tells of the shelf. Amounts are whole milligrams, microlitres, sheets or pieces, as `unit` says;
// what is sent is text with its unit, like "250 ml", as at the shelf.
import { z } from 'zod';
import type { WholeShelf } from './shelf-views.service.js';
import { itemKind, type Lot, lotClass, lotState, unit } from './stock.schemas.js';

const date = z.string().describe('YYYY-MM-DD');
const amount = z.int();

const bottleAnswer = z.object({
  id: z.uuid(),
  label: z.string(),
  class: lotClass,
  state: lotState,
  onHand: amount,
  setAside: amount,
  usableFrom: date,
  usableUntil: date.nullable(),
});

export const shelfAnswer = z.array(
  z.object({
    id: z.uuid(),
    name: z.string(),
    kind: itemKind,
    unit,
    usable: amount.describe('what of good bottles can be poured today'),
    setAside: amount,
    free: amount,
    bottles: z.array(bottleAnswer),
  }),
);
export const bottleMade = z.object({ bottleId: z.uuid() });

export function toShelfAnswer({ standings, lots }: WholeShelf): z.output<typeof shelfAnswer> {
  return standings.map(({ item, usable, setAside, free }) => ({
    id: item.id,
    name: item.name,
    kind: item.kind,
    unit: item.unit,
    usable: Number(usable),
    setAside: Number(setAside),
    free: Number(free),
    bottles: lots.filter((lot) => lot.itemId === item.id).map(toBottleAnswer),
  }));
}

const toBottleAnswer = (lot: Lot): z.output<typeof bottleAnswer> => ({
  id: lot.id,
  label: lot.label,
  class: lot.class,
  state: lot.state,
  onHand: Number(lot.onHand),
  setAside: Number(lot.reserved),
  usableFrom: lot.usableFrom.toString(),
  usableUntil: lot.usableUntil?.toString() ?? null,
});
