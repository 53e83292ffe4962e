// A kind of sitting may have days of the week of its own: whether those that somebody asks for are among them.
import { dayInWords } from '../lib/words.js';
import type { Kind } from '../room/rules.schemas.js';
import { weekdaysInWords } from '../room/words.calc.js';
import type { SuitingDays } from './sittings.schemas.js';

/** What is wrong with days named one by one; empty for a range, and for a kind with no weekdays of its own. */
export function kindDayProblems(
  kind: Pick<Kind, 'name' | 'weekdays'>,
  suits: SuitingDays,
): { field: string; message: string }[] {
  if (suits.kind !== 'these' || kind.weekdays.length === 0) return [];
  const others = suits.days.filter((day) => !kind.weekdays.includes(day.dayOfWeek));
  if (others.length === 0) return [];
  const has = `${kind.name} is on ${weekdaysInWords(kind.weekdays, 'no day')} only`;
  return [
    {
      field: 'suits/days',
      message: `${has}. Please choose other days than ${others.map(dayInWords).join(', ')}.`,
    },
  ];
}
