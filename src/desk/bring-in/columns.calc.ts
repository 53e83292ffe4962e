// What the columns of a table hold: guessed by their headings, else by what stands in them. Pure.
import { readDay } from './cells.calc.js';

export const WHATS = ['diary', 'shelf', 'plates'] as const;
export type What = (typeof WHATS)[number];

interface ColumnKind {
  /** On the page. */
  label: string;
  /** What a heading says of it. */
  heads: RegExp;
  /** What its cells look like, where that tells it from others. */
  cells?: (cell: string) => boolean;
}

const isDay = (cell: string) => readDay(cell, 'day first') !== null || readDay(cell, 'month first') !== null;
const isEmail = (cell: string) => /^\S+@\S+\.\S+$/.test(cell);
const isAmount = (cell: string) => /^\d[\d.,]*\s*[a-zµ]{0,9}$/i.test(cell) && !isDay(cell);
const isNumber = (cell: string) => /^(?:no\.?|nr\.?|#)?\s*\d{1,8}$/i.test(cell);
const isTelephone = (cell: string) => /^\+?[\d\s()./-]{7,}$/.test(cell) && !isDay(cell);

/** By their keys, in the order in which headings are asked: "E-mail address" is no postal address. */
export const COLUMNS: Record<What, Record<string, ColumnKind>> = {
  diary: {
    email: { label: 'E-mail', heads: /e-?mail/i, cells: isEmail },
    telephone: { label: 'Telephone', heads: /phone|\btel\b|mobile/i, cells: isTelephone },
    promised: { label: 'Day promised', heads: /promis|booked|appointment|sitting on|given/i },
    askedOn: { label: 'Asked on', heads: /ask|request|since|entered|received|\bdate\b/i, cells: isDay },
    sitters: { label: 'How many sit', heads: /how many|sitters|people|persons|party/i },
    size: { label: 'Plate size', heads: /size|format/i },
    plates: { label: 'How many plates', heads: /plates?\b/i },
    home: { label: 'Where they come from', heads: /home|\bfrom\b|town|city|village|lives/i },
    address: { label: 'Postal address', heads: /address|\bpost|street/i },
    contact: { label: 'E-mail, telephone or address', heads: /contact|reach/i },
    note: { label: 'Note', heads: /note|remark|comment|wish|hope/i },
    name: { label: 'Name', heads: /name|sitter|client|customer|person|\bwho\b/i },
  },
  shelf: {
    openedOn: { label: 'Opened on', heads: /opened/i },
    usableUntil: { label: 'Usable until', heads: /until|expir|best before|use by|runs out/i, cells: isDay },
    unit: { label: 'Unit', heads: /\bunit/i },
    amount: { label: 'How much', heads: /amount|quantity|how much|volume|weight/i, cells: isAmount },
    label: { label: 'Bottle or batch', heads: /bottle|batch|\bbox|label/i },
    note: { label: 'Note', heads: /note|remark|comment/i },
    item: { label: 'What it is', heads: /item|what|name|chemical|material|solution/i },
  },
  plates: {
    number: { label: 'Running number', heads: /\bno\b|number|\bnr\b|#/i, cells: isNumber },
    day: { label: 'Day', heads: /\bday|date|\bmade\b/i, cells: isDay },
    size: { label: 'Plate size', heads: /size|format/i },
    seconds: { label: 'Seconds', heads: /second|exposure/i },
    kept: { label: 'Kept (yes or no)', heads: /kept|keeper/i },
    result: { label: 'How it came out', heads: /result|came out|quality/i },
    where: { label: 'Where it is now', heads: /where|now at|location|is with/i },
    note: { label: 'Note', heads: /note|remark|comment/i },
    names: { label: 'Who is on it', heads: /name|\bwho\b|sitter|person/i },
  },
};

/** Several columns of these are put together; of others the first that is filled in counts. */
export const JOINED: Record<string, string> = { name: ' ', address: ', ', note: '; ' };

/** What the first column of words is, where nothing tells otherwise. */
const NAMED_BY: Record<What, string> = { diary: 'name', shelf: 'item', plates: 'names' };

/** What a column that is passed over is called. */
export const NOTHING = '';

/** Whether the first line has headings: it names columns we know, and holds neither day nor address. */
export function hasHeadings(what: What, first: readonly string[]): boolean {
  if (first.some((cell) => isDay(cell) || isEmail(cell) || isTelephone(cell))) return false;
  const kinds = Object.values(COLUMNS[what]);
  return first.some((cell) => kinds.some(({ heads }) => cell.length <= 40 && heads.test(cell)));
}

/** The kind of each column; '' where it cannot be told. Headings go before what stands in the cells. */
export function guessColumns(
  what: What,
  headings: readonly string[] | null,
  rows: readonly (readonly string[])[],
): string[] {
  const kinds = Object.entries(COLUMNS[what]);
  const count = Math.max(headings?.length ?? 0, ...rows.map((cells) => cells.length));
  const guessed = Array.from({ length: count }, (_, at) => {
    const head = headings?.[at] ?? '';
    return kinds.find(([, { heads }]) => heads.test(head))?.[0] ?? NOTHING;
  });
  for (const at of guessed.keys()) {
    if (guessed[at] !== NOTHING || (headings?.[at] ?? '') !== '') continue;
    const cells = rows.map((row) => (row[at] ?? '').trim()).filter((cell) => cell !== '');
    const like = (kind: ColumnKind) => cells.filter((cell) => kind.cells?.(cell) === true).length;
    const found = kinds.find(([key, kind]) => !guessed.includes(key) && like(kind) * 2 > cells.length);
    if (found) guessed[at] = found[0];
    else if (what === 'diary' && cells.some(isDay) && !guessed.includes('promised')) guessed[at] = 'promised';
    else if (cells.length > 0 && !guessed.includes(NAMED_BY[what])) guessed[at] = NAMED_BY[what];
  }
  return guessed;
}
