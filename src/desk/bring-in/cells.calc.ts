// One cell of somebody else's table: cleaned, and read as a day or a small number. Pure.
import { Temporal } from 'temporal-polyfill';
import { monthName } from '../../lib/words.js';

export interface Cleaned {
  text: string;
  /** What was taken away, told beside the cell; null for nothing. */
  note: string | null;
}

/** What a spreadsheet would reckon (OWASP, CSV Injection), with the wide signs of East Asian keyboards. */
const FORMULA = /^['\s]*[=+\-@\uff1d\uff0b\uff0d\uff20]/;
const SIGNS = /^['\s=+\-@\uff1d\uff0b\uff0d\uff20]+/;
/** "+44 1947 600000" and "-3" are none. */
const FIGURES = /^[+-]?[\d\s().,/-]+$/;

/** One line of text without control characters, and without what would make it a formula. */
export function cleaned(cell: string): Cleaned {
  const plain = cell
    .replace(/[\p{Cc}\p{Cs}\u2028\u2029]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (FORMULA.test(cell) && !FIGURES.test(plain))
    return {
      text: plain.replace(SIGNS, ''),
      note: 'It begins like a spreadsheet’s formula; the signs in front were taken away.',
    };
  return /[^\P{Cc}\t\r\n]/u.test(cell)
    ? { text: plain, note: 'Signs that are no letters were taken away.' }
    : { text: plain, note: null };
}

/** Which comes first where a date is all figures. */
export type DateOrder = 'day first' | 'month first';

export interface ReadDay {
  day: Temporal.PlainDate;
  time: Temporal.PlainTime | null;
}

const TIME = String.raw`(?:[T,\s]+(\d{1,2})[:.h](\d{2})(?:[:.]\d{2}.*)?(?:\s*Z)?)?`;
const ISO = new RegExp(String.raw`^(\d{4})-(\d{1,2})-(\d{1,2})${TIME}$`);
const FIGURED = new RegExp(String.raw`^(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})${TIME}$`);
const DAY_NAMED = new RegExp(
  String.raw`^(\d{1,2})(?:st|nd|rd|th|\.)?\s+(?:of\s+)?(\p{L}{3,})\.?,?\s+(\d{4})${TIME}$`,
  'iu',
);
const NAME_FIRST = new RegExp(
  String.raw`^(\p{L}{3,})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})${TIME}$`,
  'iu',
);
/** "Fri 12 March 2027" */
const WEEKDAY = /^(mon|tue|wed|thu|fri|sat|sun)\p{L}*\.?,?\s+/iu;

/** A day as people write it, with an hour where one stands there; null where it is none. */
export function readDay(text: string, order: DateOrder): ReadDay | null {
  const typed = text.trim().replace(WEEKDAY, '');
  const iso = ISO.exec(typed);
  if (iso) return made(iso[1], iso[2], iso[3], iso[4], iso[5]);
  const figured = FIGURED.exec(typed);
  if (figured) {
    const [, one = '', sign, other = '', year = ''] = figured;
    const monthFirst = Number(other) > 12 || (Number(one) <= 12 && sign !== '.' && order === 'month first');
    const [day, month] = monthFirst ? [other, one] : [one, other];
    return made(year.length === 2 ? `20${year}` : year, month, day, figured[5], figured[6]);
  }
  const named = DAY_NAMED.exec(typed);
  if (named) return made(named[3], monthOf(named[2]), named[1], named[4], named[5]);
  const first = NAME_FIRST.exec(typed);
  return first ? made(first[3], monthOf(first[1]), first[2], first[4], first[5]) : null;
}

function monthOf(name = ''): string {
  const is = (month: number) => {
    const whole = monthName(month).toLowerCase();
    return name.toLowerCase() === whole || name.toLowerCase() === whole.slice(0, 3);
  };
  return String([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].find(is) ?? 0);
}

function made(...[year, month, day, hour, minute]: (string | undefined)[]): ReadDay | null {
  try {
    const parts = { year: Number(year), month: Number(month), day: Number(day) };
    if (parts.year < 1839 || parts.year > 2199) return null;
    const time = hour === undefined ? null : { hour: Number(hour), minute: Number(minute) };
    return {
      day: Temporal.PlainDate.from(parts, { overflow: 'reject' }),
      time: time && Temporal.PlainTime.from(time, { overflow: 'reject' }),
    };
  } catch {
    return null;
  }
}

/** Which order the days of a table are in, by those that can be read one way only; `asked` where that leaves a doubt. */
export function guessOrder(cells: readonly string[]): { order: DateOrder; asked: boolean } {
  const found = cells.flatMap((cell) => {
    const [, one, sign, other] = FIGURED.exec(cell.trim().replace(WEEKDAY, '')) ?? [];
    return one !== undefined && sign !== '.' ? [[Number(one), Number(other)] as const] : [];
  });
  const dayFirst = found.filter(([one, other]) => one > 12 && other <= 12).length;
  const monthFirst = found.filter(([one, other]) => other > 12 && one <= 12).length;
  return {
    order: monthFirst > dayFirst ? 'month first' : 'day first',
    asked: found.some(([one, other]) => one <= 12 && other <= 12 && one !== other),
  };
}

/** "2", "2 people", "two"; null for anything else. */
export function readCount(text: string): number | null {
  const [, figures] = /^(\d{1,3})(?:\s*(?:people|persons|plates?|sitters?|x))?$/i.exec(text.trim()) ?? [];
  if (figures !== undefined) return Number(figures);
  const at = ['one', 'two', 'three', 'four', 'five', 'six'].indexOf(text.trim().toLowerCase());
  return at < 0 ? null : at + 1;
}
