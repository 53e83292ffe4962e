// A draft's text as lines of named cells: what the features' own rules are asked about. Pure.
import {
  guessSeparator,
  readTable,
  type Separator,
  type TableLine,
  type TextTable,
} from '../../lib/csv-read.js';
import { cleaned, type DateOrder, guessOrder } from './cells.calc.js';
import { COLUMNS, guessColumns, hasHeadings, JOINED, NOTHING, type What } from './columns.calc.js';

/** How a text is to be read, as the person has it before them. */
export interface Choices {
  separator: Separator;
  headings: boolean;
  /** The kind of each column; '' is passed over. */
  columns: string[];
  order: DateOrder;
  /** Lines that are left out. */
  leave: number[];
}

/** Something about a cell, or about a whole line where `column` is ''. */
export interface Said {
  column: string;
  /** As it stands in the table. */
  cell: string;
  why: string;
  /** Another start that day, or places on a day without any, is entered as an extra day. */
  extraDay?: boolean;
}

/** A line with what the rules make of it. */
export interface ReadLine<Value> {
  line: number;
  /** How the line is called beside what is wrong with it. */
  name: string;
  /** Null where it cannot come in. */
  value: Value | null;
  problems: Said[];
  /** What was cleaned or left as text. */
  notes: Said[];
}

export interface NamedLine {
  line: number;
  fault: string | null;
  cells: Record<string, string>;
  notes: Said[];
}

export const BOUNDS: Record<What, { lines: number; columns: number; cell: number }> = {
  diary: { lines: 501, columns: 40, cell: 2000 },
  shelf: { lines: 501, columns: 40, cell: 2000 },
  plates: { lines: 1001, columns: 40, cell: 2000 },
};

const SHOWN_SAMPLES = 3;

/** The choices that a text proposes; `usual` where its dates do not tell which of day and month comes first. */
export function firstChoices(
  what: What,
  text: string,
  usual: DateOrder,
  separator = guessSeparator(text),
): Choices {
  const { lines } = readTable(text, separator, BOUNDS[what]);
  const first = lines[0]?.cells ?? [];
  const headings = hasHeadings(what, first);
  const rows = lines.slice(headings ? 1 : 0).map(({ cells }) => cells);
  const columns = guessColumns(what, headings ? first : null, rows.slice(0, 50));
  return { separator, headings, columns, order: guessOrder(rows.flat(), usual).order, leave: [] };
}

export interface Reading {
  /** Why nothing can be taken; null where it was read. */
  refused: TextTable['refused'];
  columns: { heading: string; samples: string[] }[];
  lines: NamedLine[];
  /** Whether the order of days and months is in doubt. */
  asksOrder: boolean;
}

/** The text as the choices say. */
export function reading(what: What, text: string, choices: Choices): Reading {
  const { lines, refused } = readTable(text, choices.separator, BOUNDS[what]);
  const [head, rest] = choices.headings ? [lines[0], lines.slice(1)] : [undefined, lines];
  const count = Math.max(0, ...lines.map(({ cells }) => cells.length));
  const columns = Array.from({ length: count }, (_, at) => ({
    heading: cleaned(head?.cells[at] ?? '').text,
    samples: rest
      .map(({ cells }) => cleaned(cells[at] ?? '').text)
      .filter((cell) => cell !== '')
      .slice(0, SHOWN_SAMPLES),
  }));
  const empty = rest.length === 0 ? 'There is no line in it besides headings.' : null;
  return {
    refused: refused ?? head?.fault ?? empty,
    columns,
    lines: rest.map((one) => named(what, one, choices.columns)),
    asksOrder: guessOrder(
      rest.flatMap(({ cells }) => cells),
      choices.order,
    ).asked,
  };
}

function named(what: What, { line, cells, fault }: TableLine, columns: readonly string[]): NamedLine {
  const found: Record<string, string> = {};
  const notes: Said[] = [];
  cells.forEach((cell, at) => {
    const key = columns[at] ?? NOTHING;
    const kind = COLUMNS[what][key];
    const { text, note } = cleaned(cell);
    if (!kind || text === '') return;
    if (note !== null) notes.push({ column: kind.label, cell, why: note });
    const before = found[key];
    const between = JOINED[key];
    if (before === undefined) found[key] = text;
    else if (between !== undefined) found[key] = `${before}${between}${text}`;
  });
  return { line, fault, cells: found, notes };
}
