// Reading tables that somebody else wrote: RFC 4180, and what programs and hands make of it (other separators, lone line
// feeds, quotes in the midst of a cell). Bounded, so that a hostile file costs no more than a good one. Pure.

export const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

export interface TableLine {
  /** Of the text, from 1: where the line begins. */
  line: number;
  cells: string[];
  /** Why the line cannot be read as it stands; null when nothing is wrong. */
  fault: string | null;
}

export interface TextTable {
  lines: TableLine[];
  /** Why nothing of it can be taken; null when it was read to its end. */
  refused: string | null;
}

export interface Bounds {
  lines: number;
  columns: number;
  /** Characters of a cell. */
  cell: number;
}

/** The lines of a table; empty ones are passed over. */
export function readTable(text: string, separator: Separator, bounds: Bounds): TextTable {
  const lines: TableLine[] = [];
  const reader = new Reader(text.startsWith('\uFEFF') ? text.slice(1) : text, separator, bounds);
  for (let one = reader.next(); one !== null; one = reader.next()) {
    if (reader.openQuote !== null)
      return {
        lines,
        refused: `A quotation mark is opened in line ${reader.openQuote} and never closed.`,
      };
    if (one.fault === null && one.cells.every((cell) => cell.trim() === '')) continue;
    if (lines.length === bounds.lines)
      return { lines, refused: `These are more than ${bounds.lines} lines. Please bring them in in parts.` };
    lines.push(one);
  }
  return { lines, refused: null };
}

class Reader {
  private at = 0;
  private line = 1;
  /** The line of a quotation mark that was never closed. */
  openQuote: number | null = null;

  constructor(
    private readonly text: string,
    private readonly separator: Separator,
    private readonly bounds: Bounds,
  ) {}

  /** Null at the end. */
  next(): TableLine | null {
    if (this.at >= this.text.length) return null;
    const found: TableLine = { line: this.line, cells: [], fault: null };
    for (;;) {
      const cell = this.text[this.at] === '"' ? this.quoted(found) : this.plain();
      if (cell.length > this.bounds.cell) found.fault ??= `A cell has more than ${this.bounds.cell} letters.`;
      if (found.cells.length < this.bounds.columns) found.cells.push(cell.slice(0, this.bounds.cell));
      else found.fault ??= `There are more than ${this.bounds.columns} columns.`;
      if (this.text[this.at] !== this.separator) break;
      this.at += 1;
    }
    if (this.text[this.at] === '\r') this.at += 1;
    if (this.text[this.at] === '\n') this.at += 1;
    this.line += 1;
    return found;
  }

  private plain(): string {
    const from = this.at;
    while (this.at < this.text.length && !this.ends(this.text[this.at])) this.at += 1;
    return this.text.slice(from, this.at);
  }

  private quoted(found: TableLine): string {
    const began = this.line;
    const parts: string[] = [];
    for (this.at += 1; ; ) {
      const end = this.text.indexOf('"', this.at);
      const part = this.text.slice(this.at, end < 0 ? undefined : end);
      this.line += part.split(/\r\n|\r|\n/).length - 1;
      parts.push(part);
      if (end < 0) {
        this.openQuote = began;
        this.at = this.text.length;
        return parts.join('');
      }
      this.at = end + 1;
      if (this.text[this.at] !== '"') break;
      parts.push('"');
      this.at += 1;
    }
    const after = this.plain();
    if (after.trim() !== '') found.fault ??= 'Something stands after a closing quotation mark.';
    return parts.join('') + after.trimEnd();
  }

  private ends(letter: string | undefined): boolean {
    return letter === this.separator || letter === '\n' || letter === '\r';
  }
}

/** So many lines tell by which sign the columns are kept apart. */
const LOOKED_AT = 20;

/** The sign by which most of the first lines fall into equally many columns, the more the better; else the comma. */
export function guessSeparator(text: string): Separator {
  const head = text.slice(0, 20_000);
  const score = (separator: Separator): number => {
    const { lines } = readTable(head, separator, { lines: LOOKED_AT, columns: 100, cell: 20_000 });
    const counts = lines.map(({ cells }) => cells.length);
    const alike = (count: number) => counts.filter((one) => one === count).length;
    const most = Math.max(0, ...counts.filter((count) => count > 1).map(alike));
    const columns = Math.max(1, ...counts.filter((count) => alike(count) === most));
    return most * 100 + Math.min(columns, 99);
  };
  return SEPARATORS.reduce((best, one) => (score(one) > score(best) ? one : best));
}
