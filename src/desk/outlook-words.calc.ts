// How the shelf's outlook is told on the desk: what to mix or order by when, and why something cannot be had.
import type { ShortReason } from '../stock/netting.calc.js';
import type { StockReason } from '../stock/outlook.calc.js';
import { shortDay } from './words.calc.js';

/** "Iodised collodion: mix by Friday 7 May"; "Ether: order by …, for iodised collodion"; "Glass: it cannot be had in time". */
export function reasonInWords({ item, action, by, into, why }: StockReason): string {
  const mixedInto = into === null ? '' : `, for ${into}`;
  if (action === null || by === null) return `${item}: ${lackInWords(why)}${mixedInto}`;
  const limit = why === 'over the limit' ? ` (${lackInWords(why)})` : '';
  return `${item}: ${action} by ${shortDay(by)}${mixedInto}${limit}`;
}

/** Why something cannot be had, as the end of a sentence. */
export function lackInWords(why: ShortReason | null): string {
  if (why === 'over the limit') return 'that would be more than you keep at most';
  return why === 'never comes' ? 'it is not said how more of it comes' : 'it cannot be had in time';
}
