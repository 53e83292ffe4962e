// A line of an old book of plates as a plate made before, or what is wrong with it, cell by cell. Pure.
import { Temporal } from 'temporal-polyfill';
import type { BroughtPlate } from '../../plates/brought.schemas.js';
import { type DateOrder, noDay, readDay } from './cells.calc.js';
import { COLUMNS } from './columns.calc.js';
import type { NamedLine, ReadLine, Said } from './reading.calc.js';
import { sizeCalled } from './sizes.calc.js';

export interface PlateFacts {
  today: Temporal.PlainDate;
  order: DateOrder;
  sizes: readonly { id: string; name: string }[];
  /** The number that the next plate typed in gets; null: nobody said where the book begins. */
  next: number | null;
  /** Numbers that plates have. */
  taken: ReadonlySet<number>;
}

/** A number as people write it in their books: "12", "No. 12", "#0012"; null for anything else. */
export function plateNumber(text: string): number | null {
  const [, figures] = /^(?:no\.?|nr\.?|#)?\s*0*([1-9]\d{0,7})$/i.exec(text.trim()) ?? [];
  return figures === undefined || Number(figures) > 90_000_000 ? null : Number(figures);
}

/** All lines, each number once. */
export function plateLines(lines: readonly NamedLine[], facts: PlateFacts): ReadLine<BroughtPlate>[] {
  const seen = new Map<number, number>();
  return lines.map((line) => {
    const read = plateLine(line, facts);
    if (!read.value) return read;
    const before = seen.get(read.value.number);
    if (before === undefined) seen.set(read.value.number, line.line);
    if (before === undefined) return read;
    const why = `The same number stands in line ${before}.`;
    const said = { column: COLUMNS.plates.number?.label ?? '', cell: String(read.value.number), why };
    return { ...read, problems: [...read.problems, said] };
  });
}

const MOST: Record<'names' | 'result' | 'note', number> = { names: 300, result: 200, note: 1000 };

function plateLine({ line, fault, cells, notes }: NamedLine, facts: PlateFacts): ReadLine<BroughtPlate> {
  const problems: Said[] = fault === null ? [] : [{ column: '', cell: '', why: fault }];
  const wrong = (key: string, why: string) =>
    void problems.push({ column: COLUMNS.plates[key]?.label ?? '', cell: cells[key] ?? '', why });

  const number = plateNumber(cells.number ?? '');
  if (number === null) wrong('number', 'This is no running number.');
  else if (facts.taken.has(number)) wrong('number', 'A plate of this number stands in the book already.');
  else if (facts.next !== null && number >= facts.next)
    wrong('number', `The book goes on from ${facts.next}: a plate made before has a smaller number.`);
  const day = readDay(cells.day ?? '', facts.order)?.day ?? null;
  if (!day) wrong('day', noDay(cells.day ?? ''));
  else if (Temporal.PlainDate.compare(day, facts.today) > 0) wrong('day', 'This day is still to come.');
  const size = sizeCalled(cells.size ?? '', facts.sizes);
  if (!size) wrong('size', 'Plates of this size are not known here.');
  const keeper = keptAs(cells.kept ?? '');
  if (keeper === null) wrong('kept', 'Please write yes or no.');
  const seconds = cells.seconds === undefined ? null : secondsOf(cells.seconds);
  if (Number.isNaN(seconds)) wrong('seconds', 'This is no number of seconds up to 3600.');
  const note = [cells.note ?? '', cells.where ? `Now at: ${cells.where}` : ''].filter((part) => part !== '');
  const texts = { names: cells.names ?? '', result: cells.result ?? '', note: note.join(' ') };
  for (const [key, most] of Object.entries(MOST))
    if (texts[key as keyof typeof MOST].length > most) wrong(key, `This has more than ${most} letters.`);

  const name = number === null ? `Line ${line}` : `No. ${number}`;
  if (problems.length > 0 || number === null || !day || !size || keeper === null)
    return { line, name, value: null, problems, notes };
  const value = { number, day, plateSizeId: size.id, keeper, seconds, ...texts };
  return { line, name, value, problems, notes };
}

/** Of a plate of which nobody wrote otherwise, that it was kept. */
function keptAs(text: string): boolean | null {
  if (/^(|yes|y|kept|true|1|x)$/i.test(text)) return true;
  return /^(no|n|not kept|false|0|scraped)$/i.test(text) ? false : null;
}

function secondsOf(text: string): number {
  const [, figures = ''] = /^(\d{1,4}(?:[.,]\d{1,3})?)\s*(?:s|sec|seconds?)?$/i.exec(text) ?? [];
  const seconds = figures === '' ? Number.NaN : Number(figures.replace(',', '.'));
  return seconds > 0 && seconds <= 3600 ? seconds : Number.NaN;
}
