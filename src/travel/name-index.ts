// Names to search in, kept as one run of bytes: a quarter of a million strings would take many times the memory.
// Each name stands as "\n word word", all end with "\n"; so a word begins after a space and a name after a line end.

/** Collects names in the order of their rows and makes the index of them. Names are folded already. */
export class NameIndexBuilder {
  private readonly bytes: Buffer;
  private length = 0;
  private readonly starts: number[] = [];
  private readonly rows: number[] = [];

  /** `room` in bytes; two are taken besides each name, and one at the end. */
  constructor(room: number) {
    this.bytes = Buffer.allocUnsafe(room);
  }

  /** The bytes `from` to `to` of `source` hold names parted by bars, or none. */
  add(row: number, source: Buffer, from: number, to: number): void {
    let start = from;
    while (start < to) {
      let end = start;
      while (end < to && source[end] !== BAR) end += 1;
      this.starts.push(this.length);
      this.rows.push(row);
      this.bytes[this.length++] = LINE_END;
      this.bytes[this.length++] = SPACE;
      this.length += source.copy(this.bytes, this.length, start, end);
      start = end + 1;
    }
  }

  build(): NameIndex {
    this.bytes[this.length++] = LINE_END;
    // A copy, so that the room that was not needed is given back.
    return new NameIndex(
      Buffer.from(this.bytes.subarray(0, this.length)),
      Uint32Array.from(this.starts),
      Uint32Array.from(this.rows),
    );
  }
}

const BAR = 0x7c;
const LINE_END = 0x0a;
const SPACE = 0x20;

export class NameIndex {
  constructor(
    private readonly bytes: Buffer,
    private readonly starts: Uint32Array,
    private readonly rows: Uint32Array,
  ) {}

  /** What it is made of, to be kept: where each name begins, its row, and the names. */
  get parts(): [Uint32Array, Uint32Array, Buffer] {
    return [this.starts, this.rows, this.bytes];
  }

  /** Rows of the names that are this one, in order. */
  *exact(name: string): Generator<number> {
    const wanted = Buffer.from(`\n ${name}\n`);
    for (let at = this.bytes.indexOf(wanted); at >= 0; at = this.bytes.indexOf(wanted, at + 1))
      yield this.rowOf(this.entryAt(at));
  }

  /** Rows of the names in which each of these words begins a word, in order; a row comes again for a second name. */
  *withWords(words: readonly string[]): Generator<number> {
    const [longest, ...others] = [...words].sort((a, b) => b.length - a.length);
    if (longest === undefined) return;
    const wanted = Buffer.from(` ${longest}`);
    let at = this.bytes.indexOf(wanted);
    while (at >= 0) {
      const entry = this.entryAt(at);
      const end = this.starts[entry + 1] ?? this.bytes.length - 1;
      if (others.length === 0 || this.hasWords(entry, end, others)) yield this.rowOf(entry);
      at = this.bytes.indexOf(wanted, end);
    }
  }

  private hasWords(entry: number, end: number, words: readonly string[]): boolean {
    const name = this.bytes.toString('utf8', this.starts[entry], end);
    return words.every((word) => name.includes(` ${word}`));
  }

  private rowOf(entry: number): number {
    return this.rows[entry] ?? 0; // entryAt gives only entries there are
  }

  /** The entry that holds this byte. */
  private entryAt(at: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >>> 1;
      if ((this.starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}
