// What stands in the calendars of who sits, of who learns, and of anybody who follows the teaching days.
import { counted } from '../../lib/words.js';

export const calendar = {
  /** After the studio's name, the name of a calendar. */
  names: { student: ': your teaching days', workshops: ': teaching days' },
  cancelled: (what: string): string => `Cancelled: ${what}`,
  sitting: (studio: string): string => `Sitting at ${studio}`,
  bring: (what: string): string => `Bring: ${what}`,
  bringNothing: 'You need to bring nothing but what we agreed on.',
  light: (from: string, until: string): string => `Good light from ${from} to ${until}.`,
  course: (course: string, studio: string): string => `${course} at ${studio}`,
  learns: (names: string): string => `Who learns: ${names}`,
  wear: (what: string): string => `Wear: ${what}`,
  part: (at: string, title: string, where: string): string => `${at} ${title} (${where})`,
  noneLeft: 'No places left; there is a waiting list.',
  left: (left: number, of: number): string => `${counted(left, 'place')} of ${of} left.`,
  leastAge: (years: number): string => `From ${years} years on.`,
  fee: (fee: string): string => `Fee: ${fee}`,
  journey: {
    there: (studio: string): string => `Journey to ${studio}`,
    back: (studio: string): string => `Journey home from ${studio}`,
    how: (how: string, long: string): string => `${how}: ${long} from door to door.`,
    /** `zone` in brackets, where it is not the studio's. */
    leave: (when: string, zone: string, from: string): string => `Leave by ${when}${zone}, from ${from}.`,
    estimate: 'An estimate: what you say of your journey on your page counts more.',
    nightAfter: 'A night’s stay after it is wise as well.',
  },
};
