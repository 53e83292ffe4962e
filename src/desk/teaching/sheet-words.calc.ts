// What the sheet of a teaching day says in words: works, blanks, and what is missing for it.
import type { Course, Work } from '../../teaching/course.schemas.js';
import type { Blank, Burning, Missing } from '../../teaching/sheet-check.calc.js';

export const WORK_WORDS: Record<Work, string> = {
  mixing: 'Mixing of solutions',
  ether: 'Collodion or ether is open',
  flame: 'A flame, such as the varnish lamp',
  heater: 'A heater',
};

export const BLANK_WORDS: Record<Blank, string> = {
  emergencyNumber: 'Emergency number',
  hospital: 'Nearest hospital',
  eyewash: 'Where the eyewash is',
  teacher: 'Teacher',
  secondAdult: 'Second trained adult',
};

const partOf = ({ part, work }: Burning, parts: Course['parts']): string =>
  `${WORK_WORDS[work].toLowerCase()} in part ${part + 1}, “${parts[part]?.title ?? ''}”`;

/** A sentence, and the field of the briefing where it is put right; null for what is put right elsewhere. */
export function missingInWords(
  one: Missing,
  parts: Course['parts'],
): { words: string; field: string | null } {
  switch (one.reason) {
    case 'blank':
      return {
        words: `${BLANK_WORDS[one.what]} is blank. With cyanide on the bench it must be filled in.`,
        field: one.what,
      };
    case 'one name twice':
      return {
        words: 'The teacher and the second trained adult are the same person. With cyanide nobody is alone.',
        field: 'secondAdult',
      };
    case 'age not said':
      return {
        words: 'Cyanide is on the bench, and nobody said how old the youngest in the room is.',
        field: 'youngest',
      };
    case 'under 18 with cyanide':
      return {
        words: `Cyanide is on the bench, and somebody of ${one.youngest} will be in the room. Nobody may be under 18.`,
        field: 'youngest',
      };
    case 'under the least age':
      return {
        words: `Somebody of ${one.youngest} will be in the room; the least age of this day is ${one.leastAge}.`,
        field: 'youngest',
      };
    case 'not agreed':
      return { words: `Not yet agreed to working safely: ${one.names.join(', ')}.`, field: null };
    case 'fire near vapour':
      return {
        words: `In one room within the hour: ${partOf(one.fire, parts)}, and ${partOf(one.vapour, parts)}.`,
        field: `work-${one.fire.part}`,
      };
    case 'vapour not said':
      return {
        words: `There is ${partOf(one.fire, parts)}, but nobody said in which parts collodion or ether is open.`,
        field: `work-${one.fire.part}`,
      };
  }
}
