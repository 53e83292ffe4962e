// Which statements a connection keeps prepared: those asked for often. To plan one again each time costs PostgreSQL more
// than to answer it; to keep each that was ever asked would cost memory on every connection.

/** So often a statement is asked before it is kept. */
const OFTEN = 20;
/** So many are kept at most, some ten thousand bytes each on each connection. */
const MOST = 200;
/** Texts that are counted at most; what is asked often comes again. */
const COUNTED = 5_000;

/** Of one pool. */
export class Prepared {
  private readonly asked = new Map<string, number>();
  private readonly names = new Map<string, string>();
  private generation = 1;

  /** The name that a statement is kept prepared under; null for one that is asked seldom, or cannot be kept. */
  nameOf(sql: string): string | null {
    const { asked, names } = this;
    const name = names.get(sql);
    if (name !== undefined) return name;
    if (names.size === MOST || !/^\s*(select|insert|update|delete|with)\b/.test(sql)) return null;
    const times = (asked.get(sql) ?? 0) + 1;
    if (times < OFTEN) {
      if (asked.size === COUNTED) asked.clear();
      asked.set(sql, times);
      return null;
    }
    asked.delete(sql);
    const next = `often ${this.generation}.${names.size + 1}`;
    names.set(sql, next);
    return next;
  }

  /** A table is not what it was when they were prepared: from now on all are prepared anew, under other names. */
  anew(): void {
    this.names.clear();
    this.generation++;
  }
}
