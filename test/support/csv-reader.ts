// A strict reader of RFC 4180: lines end in CR LF, also the last; a quote only where the grammar has one.

/** @throws Error where the text is not RFC 4180 */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let rest = text;
  while (rest !== '') {
    const row: string[] = [];
    for (;;) {
      const cell = /^(?:"((?:[^"]|"")*)"|([^",\r\n]*))/.exec(rest);
      if (!cell) throw new Error(`No cell at: ${rest.slice(0, 20)}`);
      row.push(cell[1]?.replaceAll('""', '"') ?? cell[2] ?? '');
      rest = rest.slice(cell[0].length);
      if (rest.startsWith(',')) rest = rest.slice(1);
      else break;
    }
    if (!rest.startsWith('\r\n')) throw new Error(`No end of a line at: ${rest.slice(0, 20)}`);
    rest = rest.slice(2);
    rows.push(row);
  }
  return rows;
}
