// Why a promised day or hour cannot be had, so that its owner finds another, or makes it one. Pure.
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../../lib/words.js';
import type { Occupancy } from '../../room/occupancy.schemas.js';
import type { DayOfPlaces } from '../../room/days.calc.js';
import type { Said } from './reading.calc.js';

/** What has the room, with the name of who sits then; '' for a teaching day. */
export interface Holder {
  place: Pick<Occupancy, 'wallStart' | 'wallEnd'>;
  name: string;
}

/** Null where the general reason is all there is to say. */
export function whyNotPromised(
  day: Pick<DayOfPlaces, 'openings'> | null,
  time: Temporal.PlainTime | null,
  holder: Holder | null,
): Pick<Said, 'why' | 'extraDay'> | null {
  if (!day)
    return { why: 'This is no day on which people sit; it can be entered as an extra day.', extraDay: true };
  if (!time) return null;
  const start = day.openings.find(({ wallStart }) => wallStart.toPlainTime().equals(time));
  const open = openInWords(day);
  if (!start) return { why: `No sitting starts at ${timeInWords(time)} that day; ${open}.`, extraDay: true };
  return holder && { why: `${heldInWords(time, holder)}; ${open}.` };
}

function heldInWords(time: Temporal.PlainTime, { place: { wallStart, wallEnd }, name }: Holder): string {
  if (name !== '' && wallStart.toPlainTime().equals(time))
    return `${timeInWords(time)} that day is ${name}’s already`;
  const hours = `from ${timeInWords(wallStart)} to ${timeInWords(wallEnd)}`;
  return `At ${timeInWords(time)} that day the room is taken: ${name === '' ? 'a teaching day' : name}, ${hours}`;
}

/** "open are 09:30 and 13:00" */
function openInWords({ openings }: Pick<DayOfPlaces, 'openings'>): string {
  const times = openings.filter(({ closed }) => closed === null).map((one) => timeInWords(one.wallStart));
  if (times.length === 0) return 'no other place is open that day';
  const last = times.at(-1) ?? '';
  return times.length === 1 ? `open is ${last}` : `open are ${times.slice(0, -1).join(', ')} and ${last}`;
}
