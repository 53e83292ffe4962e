// Tasks of preparation in words: the same on the list and in the calendar.
import { counted } from '../lib/words.js';
import type { Task } from './preparation.calc.js';
import type { PlateSize } from './stock.schemas.js';

/** "Cut, clean and polish the glass: 8 × Whole plate, 4 × Half plate", in the order of the sizes. */
export function taskInWords(
  { rule, ahead }: Pick<Task, 'rule' | 'ahead'>,
  sizes: readonly PlateSize[],
): string {
  if (rule.amount === 'none') return rule.what;
  const sheets = sizes.flatMap(({ id, name }) => {
    const found = ahead.sheets.find((one) => one.plateSizeId === id);
    return found ? [`${found.sheets} × ${name}`] : [];
  });
  return sheets.length === 0 ? rule.what : `${rule.what}: ${sheets.join(', ')}`;
}

/** "45 min"; "2 h 5 min". */
export function minutesInWords(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [hours > 0 ? `${hours} h` : '', rest > 0 || hours === 0 ? `${rest} min` : '']
    .filter(Boolean)
    .join(' ');
}

/** "on the day itself"; "the day before"; "3 days before". */
export function daysBeforeInWords(days: number): string {
  if (days === 0) return 'on the day itself, before the first sitter';
  return days === 1 ? 'the day before' : `${counted(days, 'day')} before`;
}
