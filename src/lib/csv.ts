// Tables as text that any spreadsheet opens: RFC 4180, with a mark at the front by which programs know UTF-8.

/** A cell that a spreadsheet would take for a formula gets an apostrophe in front (OWASP, CSV Injection). */
const safe = (cell: string): string => (/^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell);

const quoted = (cell: string): string => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** Lines end in CR LF. Without rows, the heads alone. */
export function csv(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  return `\uFEFF${[heads, ...rows].map((row) => `${row.map((cell) => quoted(safe(cell))).join(',')}\r\n`).join('')}`;
}
