// The settings in words, for the preview, the history and the pages alike.
import type { Temporal } from 'temporal-polyfill';
import { counted, dayInWords, timeInWords, weekdayName } from '../lib/words.js';
import type { Refusal } from './changes.calc.js';
import type { Change } from './changes.schemas.js';
import type { TouchedReason } from './preview.calc.js';
import type { Closure, RoomRules } from './rules.schemas.js';

export const REFUSAL_WORDS: Record<Refusal, string> = {
  gone: 'This was changed or removed in the meantime.',
  past: 'This day is past.',
  'other weekday': 'This date is another weekday.',
  'no such hour': 'The clocks skip this hour that day.',
  'same name': 'There is a kind of this name already.',
};

/** Why a confirmed sitting is touched: "Friday 14 May, Linnea Harrow: ..." */
export const TOUCHED_WORDS: Record<TouchedReason, string> = {
  closed: 'the room would be closed',
  'owner away': 'the owner would be away',
  elsewhere: 'the owner would be elsewhere, by an outside calendar',
  'no rhythm': 'there would be no sittings that day',
  'other start': 'no sitting would start at that time',
  break: 'it would run into a break',
  light: 'the light would not do',
  'day full': 'the day would have more sittings than it takes',
  'no more plates': 'the day would have more plates than it takes',
  'other days': 'its kind would have other days',
  'year full': 'its kind would be over its number for the year',
};

/** 570 -> "09:30". */
export const minuteInWords = (minute: number): string =>
  timeInWords({ hour: Math.floor(minute / 60), minute: minute % 60 });

export const startsInWords = (starts: number[]): string => starts.map(minuteInWords).join(', ');

/** Pairs of from and until -> "12:30 to 13:00". */
export function breaksInWords(breaks: number[], to = ' to '): string {
  return breaks
    .flatMap((from, at) => {
      const until = breaks[at + 1];
      return at % 2 === 0 && until !== undefined
        ? [`${minuteInWords(from)}${to}${minuteInWords(until)}`]
        : [];
    })
    .join(', ');
}

/** [1, 5] -> "Mondays and Fridays". */
export function weekdaysInWords(weekdays: number[], none: string): string {
  if (weekdays.length === 7) return 'every day';
  const names = weekdays.map((day) => `${weekdayName(day)}s`);
  const last = names.pop();
  if (last === undefined) return none;
  return names.length === 0 ? last : `${names.join(', ')} and ${last}`;
}

/** "Friday 14 May 2027"; "Friday 14 May 2027, 12:00, to Saturday 15 May 2027". Midnights mean whole days. */
export function closureInWords({ wallFrom, wallUntil }: Pick<Closure, 'wallFrom' | 'wallUntil'>): string {
  const midnight = (wall: Temporal.PlainDateTime) => wall.hour === 0 && wall.minute === 0;
  const last = midnight(wallUntil) ? wallUntil.subtract({ days: 1 }) : wallUntil;
  const sameDay = last.toPlainDate().equals(wallFrom.toPlainDate());
  const from = `${dayInWords(wallFrom)}${midnight(wallFrom) ? '' : `, ${timeInWords(wallFrom)}`}`;
  const end = midnight(wallUntil) ? '' : timeInWords(wallUntil);
  if (sameDay) return end === '' ? from : `${from}${midnight(wallFrom) ? ',' : ''} until ${end}`;
  return `${from} to ${dayInWords(last)}${end === '' ? '' : `, ${end}`}`;
}

/** The change in one sentence, as the preview and the history tell it. */
export function changeInWords(change: Change, rules: RoomRules): string {
  switch (change.do) {
    case 'rhythm': {
      const until = change.until === null ? '' : ` until ${dayInWords(change.until)}`;
      return `${weekdayName(change.weekday)}s from ${dayInWords(change.from)}${until}: starts at ${startsInWords(change.starts)}.`;
    }
    case 'end weekday':
      return `No more sittings on ${weekdayName(change.weekday)}s after ${dayInWords(change.last)}.`;
    case 'extra day':
      return `${dayInWords(change.date)} has starts of its own: ${startsInWords(change.starts)}.`;
    case 'drop rhythm': {
      const found = rules.rhythms.find((one) => one.id === change.rhythmId);
      if (!found) return 'A rhythm is removed.';
      if (found.effectiveUntil?.equals(found.effectiveFrom))
        return `${dayInWords(found.effectiveFrom)} has no starts of its own any more.`;
      return `The rhythm of ${weekdayName(found.weekday)}s that begins on ${dayInWords(found.effectiveFrom)} is removed.`;
    }
    case 'close':
      return `Closed: ${closureInWords(wallsOf(change))}${change.title === '' ? '' : ` (${change.title})`}.`;
    case 'reopen': {
      const found = rules.closures.find((one) => one.id === change.closureId);
      return found ? `No longer closed: ${closureInWords(found)}.` : 'A closure is removed.';
    }
    case 'kind':
      return `${change.kindId === null ? 'A new kind of sitting' : 'Kind of sitting'}: ${change.name}.`;
    case 'people':
      return `The owner is there on ${weekdaysInWords(change.ownerWeekdays, 'no day')}, the helper on ${weekdaysInWords(change.helperWeekdays, 'no day')}${singleDays(change)}.`;
    case 'pose':
      return `People hold still: under 8 years ${change.under8} s, 8 to 14 ${change.from8To14} s, adults ${change.adult} s, with a head rest ${change.headRest} s, groups ${change.groupOf3} s.`;
    case 'light':
      return `Light: ${change.windowKind}, good from ${change.lightFloorDegrees} degrees, ${change.referenceSeconds} s at ${change.referenceAltitudeDegrees} degrees, at most ${change.exposureCapSeconds} s.`;
    case 'booking':
      return `Places are given ${counted(change.horizonMonths, 'month')} ahead, with a notice of ${counted(change.leastNoticeDays, 'day')} at least.`;
  }
}

function singleDays(change: Extract<Change, { do: 'people' }>): string {
  const days = [change.ownerAlso, change.ownerAway, change.helperAlso, change.helperAway].flat().length;
  return days === 0 ? '' : `, with ${counted(days, 'single day')} otherwise`;
}

function wallsOf(change: Extract<Change, { do: 'close' }>): Pick<Closure, 'wallFrom' | 'wallUntil'> {
  return {
    wallFrom: change.from.toPlainDateTime().add({ minutes: change.fromTime ?? 0 }),
    wallUntil: change.until.toPlainDateTime().add({ minutes: change.untilTime ?? 1440 }),
  };
}
