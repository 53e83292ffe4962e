// What is said of people, the same on the form for asking and at the desk, and of what they are to be sent.
import type { Words } from '../words/words-for.js';
import type { LetterToCome } from './letters-to-come.schemas.js';
import type { Sitter } from './people.schemas.js';

/** Ages as they are chosen among. */
export const AGES: { value: Sitter['ageBand']; label: string }[] = [
  { value: 'adult', label: '15 or older' },
  { value: '8 to 14', label: '8 to 14' },
  { value: 'under 8', label: 'Under 8' },
];

/** What is still to be sent, each with its day and what it is about, and the way in which all of it comes. */
export function lettersInWords(
  letters: LetterToCome[] | null,
  day: 'sitting' | 'teaching',
  { dates, place: { reminders } }: Words,
): { by: string; lines: string[] } | null {
  if (!letters) return null;
  const about = (kind: LetterToCome['about']) =>
    kind === 'near' ? reminders.about.near[day] : reminders.about[kind];
  return {
    by: letters[0] ? reminders.by[letters[0].by] : '',
    lines: letters.map((one) => reminders.line(dates.day(one.on), about(one.about))),
  };
}
