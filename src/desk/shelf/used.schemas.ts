// The form on which a day is written down: tries and kept plates by size, and what was used. All of it optional.
import { maker, MOST_TRIES, type TellActuals, type TriedPlates } from '../../chemistry/actuals.schemas.js';
import { USED, type Used } from '../../chemistry/learning.calc.js';
import { plateAreaUm2 } from '../../chemistry/plate-sizes.calc.js';
import { plainDateText } from '../../daylight/daylight.schemas.js';
import { parseQuantity } from '../../lib/quantity-text.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { PlateSize, Unit } from '../../stock/stock.schemas.js';
import { amountProblem } from '../../stock/words.calc.js';

export const USED_UNITS: Record<Used, Unit & ('uL' | 'mg')> = {
  collodion: 'uL',
  developer: 'uL',
  fixer: 'uL',
  varnish: 'uL',
  silver: 'mg',
};
/** What a number alone means in each field. */
export const UNIT_WORDS = { uL: 'mL', mg: 'g' } as const;
const MOST_NOTE = 1000;

type Sent = Record<string, unknown>;
export type ReadDay = { ok: true; told: Required<TellActuals> } | { ok: false; problems: FieldProblem[] };

/** @param sent as the form sends it, with `day` put together from its boxes */
export function readUsedForm(sent: Sent, sizes: readonly PlateSize[]): ReadDay {
  const problems: FieldProblem[] = [];
  const refuse = (field: string, message: string) => problems.push({ field, message });
  const day = plainDateText.safeParse(sent.day);
  if (!day.success) refuse('day', day.error.issues[0]?.message ?? 'Please give the day.');
  const madeBy = maker.safeParse(sent.madeBy);
  if (!madeBy.success) refuse('madeBy', 'Please say whose plates they were.');
  const plates = sizes.flatMap((size) => readPlates(sent, size, refuse) ?? []);
  const used: Partial<Record<Used, bigint>> = {};
  for (const what of USED) {
    const amount = readAmount(sent, what, refuse);
    if (amount !== null) used[what] = amount;
  }
  const note = textOf(sent.note).slice(0, MOST_NOTE + 1);
  if (note.length > MOST_NOTE) refuse('note', `Please keep this under ${MOST_NOTE} characters.`);
  if (problems.length === 0 && plates.length === 0 && Object.keys(used).length === 0 && note === '')
    refuse('day', 'Please write down something of this day: plates, an amount or a note.');
  if (problems.length > 0 || !day.success || !madeBy.success) return { ok: false, problems };
  return { ok: true, told: { day: day.data, madeBy: madeBy.data, plates, used, note } };
}

type Refuse = (field: string, message: string) => void;

/** Null for a size of which nothing is said, or none was tried. */
function readPlates(sent: Sent, { id, widthMm, heightMm }: PlateSize, refuse: Refuse): TriedPlates | null {
  const [tries, kept] = [`tries-${id}`, `kept-${id}`].map((name) => textOf(sent[name])) as [string, string];
  if (tries === '' && kept === '') return null;
  const count = (text: string) => (/^\d{1,4}$/.test(text) ? Number(text) : Number.NaN);
  const [tried, keepers] = [count(tries), count(kept)];
  if (!(tried <= MOST_TRIES)) refuse(`tries-${id}`, `Please say how many were made: 0 to ${MOST_TRIES}.`);
  else if (kept === '' && tried > 0)
    refuse(`kept-${id}`, 'Please say how many of them are kept; 0 counts too.');
  else if (kept !== '' && !(keepers <= tried))
    refuse(`kept-${id}`, `Please give a number, not more than the ${tried} made.`);
  else if (tried > 0)
    return { plateSizeId: id, areaUm2: plateAreaUm2(widthMm, heightMm), tries: tried, keepers };
  return null;
}

/** A number alone is millilitres, of silver grams; a unit may be written. Null where nothing is. */
export function readAmount(sent: Sent, what: Used, refuse: Refuse): bigint | null {
  const typed = textOf(sent[what]);
  if (typed === '') return null;
  const unit = USED_UNITS[what];
  const read = parseQuantity(/[a-zµμ]/i.test(typed) ? typed : `${typed} ${UNIT_WORDS[unit]}`, unit);
  if (read.ok) return read.amount;
  refuse(what, amountProblem(read.reason, unit));
  return null;
}

export const textOf = (value: unknown): string =>
  typeof value === 'string' ? value.replace(/[^\P{Cc}\n\t]/gu, '').trim() : '';
