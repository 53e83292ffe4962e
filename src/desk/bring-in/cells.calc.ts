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

/** "11:45", "at 11.45", "at 11", "10am", "10:30 a.m."; of what programs write also seconds and the zone. */
const TIME = String.raw`(?:(?:T|,?\s+|,)(at\s+)?(\d{1,2})(?:[:.h](\d{2})(?:[:.]\d{2}(?:\.\d+)?)?)?\s*(?:([ap])\.?\s?m\.?|Z|UTC|GMT|[+-]\d{2}:?\d{2})?)?`;
const BETWEEN = String.raw`(?:\s+(?:of\s+)?|[-/])`;
const YEAR = String.raw`(\d{4}|['’]?\d{2})`;
const ISO = new RegExp(String.raw`^(\d{4})-(\d{1,2})-(\d{1,2})${TIME}$`, 'i');
const FIGURED = new RegExp(String.raw`^(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})${TIME}$`, 'i');
const DAY_NAMED = new RegExp(
  String.raw`^(?:the\s+)?(\d{1,2})(?:st|nd|rd|th|\.)?${BETWEEN}(\p{L}{3,})\.?(?:,?\s+|[-/])${YEAR}${TIME}$`,
  'iu',
);
const NAME_FIRST = new RegExp(
  String.raw`^(\p{L}{3,})\.?\s+(?:the\s+)?(\d{1,2})(?:st|nd|rd|th)?,?\s+${YEAR}${TIME}$`,
  'iu',
);
const ONLY_MONTH = /^(?:(\p{L}{3,})\.?,?[\s-]+['’]?(?:\d{4}|\d{2})|\d{1,2}[./-]\d{4}|\d{4}-\d{1,2})$/u;
/** "Fri 12 March 2027" */
const WEEKDAY = /^(mon|tue|wed|thu|fri|sat|sun)\p{L}*\.?,?\s+/iu;

/** A day as people write it, with an hour where one stands there; null where it is none. */
export function readDay(text: string, order: DateOrder): ReadDay | null {
  const typed = text.trim().replace(WEEKDAY, '');
  const iso = ISO.exec(typed);
  if (iso) return made(iso[1], iso[2], iso[3], iso.slice(4));
  const figured = FIGURED.exec(typed);
  if (figured) {
    const [, one = '', sign, other = '', year = ''] = figured;
    const monthFirst = Number(other) > 12 || (Number(one) <= 12 && sign !== '.' && order === 'month first');
    const [day, month] = monthFirst ? [other, one] : [one, other];
    return made(year, month, day, figured.slice(5));
  }
  const named = DAY_NAMED.exec(typed);
  if (named) return made(named[3], monthOf(named[2]), named[1], named.slice(4));
  const first = NAME_FIRST.exec(typed);
  return first ? made(first[3], monthOf(first[1]), first[2], first.slice(4)) : null;
}

/** What to say of a cell that is no day: of a month alone, that its day is missing. */
export function noDay(text: string): string {
  const found = ONLY_MONTH.exec(text.trim());
  const isMonth = found !== null && (found[1] === undefined || monthOf(found[1]) !== '0');
  return isMonth
    ? 'This is only a month: please write the day too, like 14 August 2026.'
    : 'This is no date.';
}

/** "Sept", "Sep" and "September" alike. */
function monthOf(name = ''): string {
  const is = (month: number) => monthName(month).toLowerCase().startsWith(name.toLowerCase());
  return String([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].find(is) ?? 0);
}

type Found = string | undefined;

/** Years of two figures are of this century. */
function made(year: Found, month: Found, day: Found, [at, hour, minute, half]: Found[]): ReadDay | null {
  try {
    const parts = {
      year: Number(year?.replace(/^\D?(\d\d)$/, '20$1')),
      month: Number(month),
      day: Number(day),
    };
    if (parts.year < 1839 || parts.year > 2199) return null;
    if (hour !== undefined && at === undefined && minute === undefined && half === undefined) return null;
    return {
      day: Temporal.PlainDate.from(parts, { overflow: 'reject' }),
      time: hour === undefined ? null : timeOf(Number(hour), Number(minute ?? 0), half),
    };
  } catch {
    return null;
  }
}

/** @throws RangeError for what no clock shows, such as 13 pm */
function timeOf(hour: number, minute: number, half: Found): Temporal.PlainTime {
  const twelve = half !== undefined && (hour < 1 || hour > 12);
  const of24 = half === undefined ? hour : (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  return Temporal.PlainTime.from({ hour: twelve ? 24 : of24, minute }, { overflow: 'reject' });
}

/** By country code, from memory; everywhere else the day comes first, or the year. */
const MONTH_FIRST = ['US', 'PR', 'VI', 'GU', 'AS', 'MP', 'UM', 'PH', 'PW', 'FM', 'MH'];

/** How dates of figures are written in a country. */
export const orderIn = (countryCode = ''): DateOrder =>
  MONTH_FIRST.includes(countryCode) ? 'month first' : 'day first';

/**
 * Which order the days of a table are in, by those that can be read one way only, else as is usual; `asked` where
 * that leaves a doubt.
 */
export function guessOrder(cells: readonly string[], usual: DateOrder): { order: DateOrder; asked: boolean } {
  const found = cells.flatMap((cell) => {
    const [, one, sign, other] = FIGURED.exec(cell.trim().replace(WEEKDAY, '')) ?? [];
    return one !== undefined && sign !== '.' ? [[Number(one), Number(other)] as const] : [];
  });
  const dayFirst = found.filter(([one, other]) => one > 12 && other <= 12).length;
  const monthFirst = found.filter(([one, other]) => other > 12 && one <= 12).length;
  return {
    order: monthFirst === dayFirst ? usual : monthFirst > dayFirst ? 'month first' : 'day first',
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
