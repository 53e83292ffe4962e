// The shelf as it stands: each item with its bottles, batches and boxes, and what is still to come.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Table } from '../../platform/html/kit/table.js';
import { usableOn } from '../../stock/plan.calc.js';
import type { Item, Lot } from '../../stock/stock.schemas.js';
import type { Want } from '../../stock/wants.calc.js';
import type { ShelfNow } from '../desk.service.js';

import { shortDay } from '../words.calc.js';
import { ShelfFrame } from './frame.pages.js';

export function ShelfPage({ visit, now }: { visit: StaffVisit; now: ShelfNow }) {
  const { today, shelf, wants } = now;
  return (
    <ShelfFrame visit={visit} title="Shelf" at="">
      <p>
        What is set aside is promised to a sitting; what is free can still be given. Amounts set aside come
        back by themselves when a place is given up.
      </p>
      {shelf.items.length === 0 && <p class="empty">Nothing is kept on the shelf yet.</p>}
      {shelf.items.map((item) => (
        <section key={item.id}>
          <h2>{item.name}</h2>
          <p>{summary(item, shelf.lots, wants, today)}</p>
          <Lots item={item} lots={shelf.lots.filter((lot) => lot.itemId === item.id)} today={today} />
        </section>
      ))}
    </ShelfFrame>
  );
}

function Lots({ item, lots, today }: { item: Item; lots: Lot[]; today: Temporal.PlainDate }) {
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit);
  return (
    <Table
      caption={item.kind === 'glass' ? 'Boxes' : 'Bottles and batches'}
      columns={[
        { head: 'Which' },
        { head: 'On hand', figures: true },
        { head: 'Set aside', figures: true },
        { head: 'Free', figures: true },
        { head: 'Usable' },
      ]}
      rows={lots.map((lot) => [
        lot.label,
        amount(lot.onHand),
        amount(lot.reserved),
        amount(lot.onHand - lot.reserved),
        usableInWords(lot, today),
      ])}
      empty="None on the shelf."
    />
  );
}

/** "3 L free today. Still to be mixed for given places: 250 mL, by Friday 7 May." */
function summary(item: Item, lots: Lot[], wants: Want[], today: Temporal.PlainDate): string {
  const free = lots
    .filter((lot) => lot.itemId === item.id && usableOn(lot, today))
    .reduce((sum, lot) => sum + lot.onHand - lot.reserved, 0n);
  const want = wants.find((one) => one.item.id === item.id);
  const stands = `${formatQuantity(free, item.unit)} free and usable today.`;
  if (!want) return stands;
  const quantity = formatQuantity(want.quantity, item.unit, 'up');
  if (want.action === null || want.by === null)
    return `${stands} ${quantity} more are promised, and cannot be had.`;
  const done = want.action === 'mix' ? 'mixed' : 'ordered';
  const first = `the first for ${shortDay(want.neededOn)}, by ${dayInWords(want.by)}`;
  return `${stands} Still to be ${done} for given places: ${quantity}, ${first}${want.late ? ', which is past' : ''}.`;
}

function usableInWords({ usableFrom, usableUntil }: Lot, today: Temporal.PlainDate): string {
  if (usableUntil && usableUntil.until(today).days > 0) return `ran out on ${dayInWords(usableUntil)}`;
  const until = usableUntil === null ? '' : `until ${dayInWords(usableUntil)}`;
  if (today.until(usableFrom).days > 0) return `from ${dayInWords(usableFrom)} ${until}`.trim();
  return until === '' ? 'does not run out' : until;
}
