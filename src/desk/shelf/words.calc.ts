// The shelf in the words of those who stand at it: kinds of things, bottles and boxes, what moved.
import type { Temporal } from 'temporal-polyfill';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { type LotStanding, lotStanding } from '../../stock/levels.calc.js';
import type { MovementKind } from '../../stock/lots.schemas.js';
import type { Item, ItemKind, Lot, LotClass, Unit } from '../../stock/stock.schemas.js';

export const KIND_WORDS: Record<ItemKind, string> = {
  glass: 'Glass and plates',
  collodion: 'Collodion',
  developer: 'Developer',
  fixer: 'Fixer',
  varnish: 'Varnish',
  bath: 'Silver bath solution',
  chemical: 'Chemicals',
  supply: 'Supplies',
  gear: 'Gear and what must be renewed',
};

export const CLASS_WORDS: Record<LotClass, string> = {
  fresh: 'fresh and fast',
  ordinary: 'ordinary',
  old: 'old and slow',
};

/** What one of an item's lots is called. */
export function oneOf({ kind }: Pick<Item, 'kind'>): 'box' | 'bottle' | 'piece' {
  return kind === 'glass' || kind === 'supply' ? 'box' : kind === 'gear' ? 'piece' : 'bottle';
}

/** The unit that amounts are typed in at the shelf, and how parseQuantity takes it. */
export const TYPED_IN: Record<Unit, { shown: string; sent: string }> = {
  mg: { shown: 'g', sent: 'g' },
  uL: { shown: 'mL', sent: 'ml' },
  sheet: { shown: 'sheets', sent: '' },
  piece: { shown: 'pieces', sent: '' },
};

/** An amount as it stands in a box whose unit stands beside it: "1250". */
export function typedAmount(quantity: bigint, unit: Unit): string {
  const [num, per] = unit === 'mg' || unit === 'uL' ? [quantity, 1000n] : [quantity, 1n];
  const rest = per === 1n ? '' : (num % per).toString().padStart(3, '0').replace(/0+$/, '');
  return rest === '' ? `${num / per}` : `${num / per}.${rest}`;
}

const MOVED: Record<MovementKind, string> = {
  received: 'added',
  mixed: 'added',
  used: 'taken',
  taken: 'poured',
  discarded: 'thrown away',
  counted: 'counted',
  reserved: 'set aside',
  released: 'given back',
};
export const movedInWords = (kind: MovementKind): string => MOVED[kind];

/** "+250 mL"; "−40 mL". */
export const changeInWords = (quantity: bigint, unit: Unit): string =>
  `${quantity > 0n ? '+' : ''}${formatQuantity(quantity, unit)}`;

/** "until Friday 14 May 2027"; "ran out on …"; "usable from …"; "does not run out". */
export function endInWords({ usableFrom, usableUntil }: Lot, today: Temporal.PlainDate): string {
  if (usableUntil && usableUntil.until(today).days > 0) return `ran out on ${dayInWords(usableUntil)}`;
  const until = usableUntil === null ? '' : `until ${dayInWords(usableUntil)}`;
  if (today.until(usableFrom).days > 0) return `from ${dayInWords(usableFrom)} ${until}`.trim();
  return until === '' ? 'does not run out' : until;
}

const STANDING: Partial<Record<LotStanding, { tone: 'warn' | 'bad' | 'note'; words: string }>> = {
  'near its end': { tone: 'warn', words: 'near its end' },
  'ran out': { tone: 'bad', words: 'ran out' },
  ripening: { tone: 'note', words: 'still ripening' },
  suspect: { tone: 'bad', words: 'suspect' },
  empty: { tone: 'note', words: 'empty' },
  gone: { tone: 'note', words: 'gone' },
};

/** What is to be seen at once of a bottle; null when it is simply usable. */
export const markOf = (lot: Lot, today: Temporal.PlainDate) => STANDING[lotStanding(lot, today)] ?? null;

/** Days between peroxide tests of an opened bottle of ether. Assumption; the supplier's sheet says. */
const PEROXIDE_DAYS = 90;

/** What is to be said of peroxides in a bottle of ether; null of anything else. */
export function peroxideInWords(item: Item, lot: Lot, today: Temporal.PlainDate): string | null {
  if (!/\bether\b/i.test(`${item.substance ?? ''} ${item.name}`) || item.kind !== 'chemical') return null;
  const { peroxideCheckedOn: tested } = lot;
  const last = tested ?? lot.openedOn ?? lot.receivedOn;
  const due = last === null || last.until(today).days > PEROXIDE_DAYS;
  const when = tested ? `tested for peroxides on ${dayInWords(tested)}` : 'not tested for peroxides yet';
  return `${when}${due ? '; a test is due' : ''}`;
}

/** What was sent, with the unit of its box put to each bare number. */
export function withUnits(sent: Record<string, unknown>): Record<string, unknown> {
  const read = { ...sent };
  for (const [name, unit] of Object.entries(sent)) {
    const of = name.endsWith('-in') ? name.slice(0, -3) : null;
    const typed = of === null ? undefined : sent[of];
    if (of !== null && typeof typed === 'string' && typeof unit === 'string' && /\d[\s]*$/.test(typed))
      read[of] = `${typed.trim()} ${unit}`.trim();
  }
  return read;
}

/** The amounts of a blend as they were typed, those left empty left out. */
export const blendParts = (sent: Record<string, unknown>) =>
  Object.entries(sent).flatMap(([name, typed]) =>
    name.startsWith('part-') && !name.endsWith('-in') && typeof typed === 'string' && typed.trim() !== ''
      ? [{ lotId: name.slice('part-'.length), quantity: typed }]
      : [],
  );
