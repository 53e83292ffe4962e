// A line of a list of what is on the shelf as a bottle, batch or box, or what is wrong with it, cell by cell. Pure.
import { Temporal } from 'temporal-polyfill';
import { parseQuantity } from '../../lib/quantity-text.js';
import type { BroughtBottle } from '../../stock/brought.schemas.js';
import type { Item } from '../../stock/stock.schemas.js';
import { amountProblem } from '../../stock/words.calc.js';
import { foldName } from '../../travel/place.calc.js';
import { type DateOrder, noDay, readDay } from './cells.calc.js';
import { COLUMNS } from './columns.calc.js';
import type { NamedLine, ReadLine, Said } from './reading.calc.js';

export interface ShelfFacts {
  today: Temporal.PlainDate;
  order: DateOrder;
  items: readonly Item[];
  /** `bottleKey` of those that stand there. */
  known: ReadonlySet<string>;
}

export const bottleKey = (itemId: string, label: string): string => `${itemId} ${foldName(label)}`;

/** All lines, each bottle once. */
export function shelfLines(lines: readonly NamedLine[], facts: ShelfFacts): ReadLine<BroughtBottle>[] {
  const seen = new Map<string, number>();
  return lines.map((line) => {
    const read = shelfLine(line, facts);
    if (!read.value?.label) return read;
    const key = bottleKey(read.value.item.id, read.value.label);
    const before = seen.get(key);
    if (before === undefined) seen.set(key, line.line);
    const why =
      before !== undefined
        ? `The same bottle stands in line ${before}.`
        : facts.known.has(key)
          ? 'A bottle of this name stands on the shelf already.'
          : null;
    if (why === null) return read;
    const said = { column: COLUMNS.shelf.label?.label ?? '', cell: read.value.label, why };
    return { ...read, problems: [...read.problems, said] };
  });
}

function shelfLine({ line, fault, cells, notes }: NamedLine, facts: ShelfFacts): ReadLine<BroughtBottle> {
  const problems: Said[] = fault === null ? [] : [{ column: '', cell: '', why: fault }];
  const wrong = (key: string, why: string) =>
    void problems.push({ column: COLUMNS.shelf[key]?.label ?? '', cell: cells[key] ?? '', why });
  const day = (key: 'openedOn' | 'usableUntil') => {
    const read = cells[key] ? readDay(cells[key], facts.order) : null;
    if (cells[key] && !read) wrong(key, noDay(cells[key] ?? ''));
    return read?.day ?? null;
  };

  const item = itemOf(cells.item ?? '', facts.items);
  if (!item)
    wrong(
      'item',
      cells.item ? 'This is not kept here; add it under Shelf first.' : 'It does not say what it is.',
    );
  const amount = [cells.amount ?? '', cells.unit ?? ''].join(' ').trim();
  const read = item ? parseQuantity(amount, item.unit) : null;
  if (item && read && !read.ok) wrong('amount', amountProblem(read.reason, item.unit));
  else if (read?.ok && read.amount === 0n) wrong('amount', 'There is nothing in it.');
  const openedOn = day('openedOn');
  if (openedOn && Temporal.PlainDate.compare(openedOn, facts.today) > 0)
    wrong('openedOn', 'This day is still to come.');
  const usableUntil = day('usableUntil');
  if (usableUntil && Temporal.PlainDate.compare(usableUntil, facts.today) < 0)
    wrong('usableUntil', 'This day is past: it cannot be used any more.');
  const label = cells.label ?? '';
  if (label.length > 120) wrong('label', 'A name has at most 120 letters.');

  const name = [cells.item ?? '', label].filter((part) => part !== '').join(', ') || `Line ${line}`;
  if (problems.length > 0 || !item || !read?.ok) return { line, name, value: null, problems, notes };
  const note = (cells.note ?? '').slice(0, 500);
  const value = { item, label, quantity: read.amount, openedOn, usableUntil, note };
  return { line, name, value, problems, notes };
}

/** The one item that is called so, or begins so. */
function itemOf(typed: string, items: readonly Item[]): Item | undefined {
  const name = foldName(typed);
  if (name === '') return undefined;
  const same = items.filter((one) => foldName(one.name) === name);
  const alike = same.length > 0 ? same : items.filter((one) => foldName(one.name).startsWith(name));
  return alike.length === 1 ? alike[0] : undefined;
}
