// A line of the old diary as a person who asked for a sitting, or what is wrong with it, cell by cell. Pure.
import { Temporal } from 'temporal-polyfill';
import { foldName } from '../../travel/place.calc.js';
import { checkWays, shortText, ways } from '../../people/ways.schemas.js';
import { MOST_PLATES, MOST_SITTERS } from '../../sittings/request.schemas.js';
import type { DiaryLine } from '../../sittings/diary.schemas.js';
import { type DateOrder, noDay, readCount, readDay } from './cells.calc.js';
import { COLUMNS } from './columns.calc.js';
import type { NamedLine, ReadLine, Said } from './reading.calc.js';
import { sizeCalled } from './sizes.calc.js';

export interface DiaryFacts {
  today: Temporal.PlainDate;
  order: DateOrder;
  /** Those that are offered, the usual one first. */
  sizes: readonly { id: string; name: string }[];
  /** The place that a name means, `guessed` of several; null where it is not known, or not clear. */
  home: (typed: string) => { id: number; label: string; guessed: boolean } | null;
  /** `personKeys` of those who have asked here already. */
  known: ReadonlySet<string>;
}

const reach = ways.superRefine(checkWays);
const named = shortText(200, 'There is no name.');

/** All lines, each person once. */
export function diaryLines(lines: readonly NamedLine[], facts: DiaryFacts): ReadLine<DiaryLine>[] {
  const seen = new Map<string, number>();
  return lines.map((line) => {
    const read = diaryLine(line, facts);
    if (!read.value) return read;
    const keys = personKeys(read.value);
    const before = keys.flatMap((key) => seen.get(key) ?? [])[0];
    for (const key of keys) if (!seen.has(key)) seen.set(key, line.line);
    const why =
      before !== undefined
        ? `The same person stands in line ${before}.`
        : keys.some((key) => facts.known.has(key))
          ? 'This person has asked here already.'
          : null;
    if (why === null) return read;
    return {
      ...read,
      problems: [...read.problems, { column: COLUMNS.diary.name?.label ?? '', cell: read.name, why }],
    };
  });
}

/** By which somebody is known again: the name with each way of reaching them. */
export function personKeys(of: {
  name: string;
  email: string;
  telephone: string;
  postalAddress: string;
}): string[] {
  const ways = [of.email.toLowerCase(), of.telephone.replace(/\D/g, ''), foldName(of.postalAddress)];
  return ways.filter((way) => way !== '').map((way) => `${foldName(of.name)} ${way}`);
}

function diaryLine(line: NamedLine, facts: DiaryFacts): ReadLine<DiaryLine> {
  const { cells } = line;
  const problems: Said[] = line.fault === null ? [] : [{ column: '', cell: '', why: line.fault }];
  const notes = [...line.notes];
  const say = (to: Said[], key: string, why: string) =>
    void to.push({ column: COLUMNS.diary[key]?.label ?? '', cell: cells[key] ?? '', why });

  const name = named.safeParse(cells.name ?? '');
  if (!name.success) say(problems, 'name', name.error.issues[0]?.message ?? '');
  const told = toldWays(cells);
  const way = reach.safeParse(told);
  if (told === null)
    say(problems, 'contact', 'There is no e-mail address, telephone number or postal address.');
  else if (!way.success)
    for (const { path, message } of way.error.issues)
      say(
        problems,
        path[0] === 'postalAddress' ? 'address' : cells[String(path[0])] ? String(path[0]) : 'contact',
        message,
      );

  const askedOn = askedDay(cells, facts, problems, notes, say);
  const promised = promisedDay(cells, facts, problems, say);
  const sitters = count(cells, 'sitters', MOST_SITTERS, problems, say);
  const plates = count(cells, 'plates', MOST_PLATES, problems, say);
  const size = cells.size ? sizeCalled(cells.size, facts.sizes) : facts.sizes[0];
  if (!size) say(problems, 'size', 'Plates of this size are not made here.');
  const home = cells.home ? facts.home(cells.home) : null;
  if (cells.home && !home)
    say(notes, 'home', 'This place is not known, or there are several: it is kept in the note as text.');
  else if (home?.guessed) say(notes, 'home', `This is taken to be ${home.label}.`);

  const label = name.data ?? `Line ${line.line}`;
  if (problems.length > 0 || !name.success || !way.success || !size)
    return { line: line.line, name: label, value: null, problems, notes };
  const note = [cells.note ?? '', cells.home && !home ? `Comes from ${cells.home}.` : ''];
  const value: DiaryLine = {
    ...{ name: name.data, ...way.data, askedOn, promised, sitters, plates },
    ...{ plateSizeId: size.id, homeId: home?.id ?? null },
    note: note
      .filter((part) => part !== '')
      .join(' ')
      .slice(0, 2000),
  };
  return { line: line.line, name: label, value, problems, notes };
}

type Cells = Record<string, string>;
type Say = (to: Said[], key: string, why: string) => void;

/** How they are reached: by e-mail if there is one, else by telephone, else by letter; null for none of them. */
function toldWays(cells: Cells) {
  const mixed = cells.contact ?? '';
  const isEmail = mixed.includes('@');
  const isNumber = !isEmail && /^[+\d\s()./-]+$/.test(mixed);
  const email = cells.email ?? (isEmail ? mixed : '');
  const telephone = cells.telephone ?? (isNumber ? mixed : '');
  const postalAddress = cells.address ?? (isEmail || isNumber ? '' : mixed);
  if (email + telephone + postalAddress === '') return null;
  const reachBy = email !== '' ? 'email' : telephone !== '' ? 'telephone' : 'letter';
  return { reachBy, email, telephone, postalAddress };
}

function askedDay(cells: Cells, facts: DiaryFacts, problems: Said[], notes: Said[], say: Say) {
  const { today, order } = facts;
  if (!cells.askedOn) {
    say(notes, 'askedOn', 'Nobody wrote when they asked: they count from today.');
    return today;
  }
  const day = readDay(cells.askedOn, order)?.day;
  if (!day) say(problems, 'askedOn', noDay(cells.askedOn));
  else if (Temporal.PlainDate.compare(day, today) > 0) say(problems, 'askedOn', 'This day is still to come.');
  return day ?? today;
}

function promisedDay(cells: Cells, { today, order }: DiaryFacts, problems: Said[], say: Say) {
  if (!cells.promised) return null;
  const read = readDay(cells.promised, order);
  if (!read) say(problems, 'promised', noDay(cells.promised));
  else if (Temporal.PlainDate.compare(read.day, today) < 0) say(problems, 'promised', 'This day is past.');
  return read;
}

function count(cells: Cells, key: 'sitters' | 'plates', most: number, problems: Said[], say: Say): number {
  if (!cells[key]) return 1;
  const found = readCount(cells[key]);
  if (found === null || found < 1 || found > most) say(problems, key, `This is no number from 1 to ${most}.`);
  return found ?? 1;
}
