// A change of the rules, as a new state of them: what is previewed is what is saved. It reads no room.
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../lib/zoned-time.js';
import type { Change } from './changes.schemas.js';
import type { Booking } from './days.calc.js';
import { isExtraDay, rhythmOn } from './openings.calc.js';
import { RHYTHM_DEFAULTS, type Rhythm, type RoomRules } from './rules.schemas.js';

export interface Settings {
  rules: RoomRules;
  booking: Booking;
}

export type Refusal = 'gone' | 'past' | 'other weekday' | 'no such hour' | 'same name';
export type Changed = { ok: true; after: Settings } | { ok: false; field: string; reason: Refusal };

type Of<D extends Change['do']> = Extract<Change, { do: D }>;

/** The settings after a change. `id` is that of what it enters; `today` is the studio's. */
export function changed(before: Settings, change: Change, id: string, today: Temporal.PlainDate): Changed {
  switch (change.do) {
    case 'rhythm':
      return withRhythm(before, change, id, today);
    case 'end weekday':
      return endWeekday(before, change, today);
    case 'extra day':
      return extraDay(before, change, id, today);
    case 'drop rhythm': {
      const rhythms = before.rules.rhythms.filter((one) => one.id !== change.rhythmId);
      return rhythms.length === before.rules.rhythms.length ? no('', 'gone') : rules(before, { rhythms });
    }
    case 'close':
      return close(before, change, id, today);
    case 'reopen': {
      const closures = before.rules.closures.filter((one) => one.id !== change.closureId);
      return closures.length === before.rules.closures.length ? no('', 'gone') : rules(before, { closures });
    }
    case 'kind':
      return withKind(before, change, id);
    case 'people':
      return rules(before, {
        owner: { weekdays: change.ownerWeekdays, also: change.ownerAlso, away: change.ownerAway },
        helper: { weekdays: change.helperWeekdays, also: change.helperAlso, away: change.helperAway },
      });
    case 'pose': {
      const { do: _, ...limits } = change;
      return rules(before, { limits });
    }
    case 'light':
    case 'booking': {
      const { do: _, ...fields } = change;
      return { ok: true, after: { ...before, booking: { ...before.booking, ...fields } } };
    }
  }
}

const rules = (before: Settings, part: Partial<RoomRules>): Changed => ({
  ok: true,
  after: { ...before, rules: { ...before.rules, ...part } },
});
const no = (field: string, reason: Refusal): Changed => ({ ok: false, field, reason });
const isPast = (date: Temporal.PlainDate, today: Temporal.PlainDate) =>
  Temporal.PlainDate.compare(date, today) < 0;

/** Enters a rhythm; one of the same weekday that begins on the same date gives way to it. */
function withRhythm(before: Settings, change: Of<'rhythm'>, id: string, today: Temporal.PlainDate): Changed {
  if (isPast(change.until ?? today, today)) return no('until', 'past');
  if (change.until?.equals(change.from) && change.from.dayOfWeek !== change.weekday)
    return no('from', 'other weekday');
  const { do: _, from, until, ...numbers } = change;
  const entered: Rhythm = { id, ...numbers, effectiveFrom: from, effectiveUntil: until };
  const kept = before.rules.rhythms.filter(
    (one) => isExtraDay(one) || one.weekday !== change.weekday || !one.effectiveFrom.equals(from),
  );
  return rules(before, { rhythms: inOrder([...kept, entered]) });
}

function endWeekday(before: Settings, change: Of<'end weekday'>, today: Temporal.PlainDate): Changed {
  if (isPast(change.last, today.subtract({ days: 1 }))) return no('last', 'past');
  const { compare } = Temporal.PlainDate;
  const rhythms = before.rules.rhythms.flatMap((one) => {
    if (one.weekday !== change.weekday || isExtraDay(one)) return [one];
    if (compare(one.effectiveFrom, change.last) > 0) return [];
    const ends = one.effectiveUntil !== null && compare(one.effectiveUntil, change.last) <= 0;
    return [ends ? one : { ...one, effectiveUntil: change.last }];
  });
  return rules(before, { rhythms });
}

function extraDay(
  before: Settings,
  { date, starts }: Of<'extra day'>,
  id: string,
  today: Temporal.PlainDate,
): Changed {
  if (isPast(date, today)) return no('date', 'past');
  const like = rhythmOn(before.rules.rhythms, date) ?? before.rules.rhythms.find((one) => !isExtraDay(one));
  const entered: Rhythm = {
    ...(like ?? { ...RHYTHM_DEFAULTS }),
    id,
    weekday: date.dayOfWeek,
    starts,
    effectiveFrom: date,
    effectiveUntil: date,
  };
  const kept = before.rules.rhythms.filter((one) => !isExtraDay(one) || !one.effectiveFrom.equals(date));
  return rules(before, { rhythms: inOrder([...kept, entered]) });
}

function close(before: Settings, change: Of<'close'>, id: string, today: Temporal.PlainDate): Changed {
  if (isPast(change.until, today)) return no('until', 'past');
  const at = (date: Temporal.PlainDate, minute: number) =>
    date.add({ days: Math.floor(minute / 1440) }).toPlainDateTime({
      hour: Math.floor((minute % 1440) / 60),
      minute: minute % 60,
    });
  const wallFrom = at(change.from, change.fromTime ?? 0);
  const wallUntil = at(change.until, change.untilTime ?? 1440);
  const missing = (wall: Temporal.PlainDateTime) => {
    const answer = wallToInstant(before.booking.zone, wall);
    return !answer.ok && answer.reason === 'gap';
  };
  if (change.fromTime !== null && missing(wallFrom)) return no('fromTime', 'no such hour');
  if (change.untilTime !== null && missing(wallUntil)) return no('untilTime', 'no such hour');
  const entered = { id, title: change.title, wallFrom, wallUntil };
  const closures = [...before.rules.closures, entered].sort(
    (a, b) => Temporal.PlainDateTime.compare(a.wallFrom, b.wallFrom) || (a.id < b.id ? -1 : 1),
  );
  return rules(before, { closures });
}

function withKind(before: Settings, change: Of<'kind'>, id: string): Changed {
  const { do: _, kindId, ...fields } = change;
  const { kinds } = before.rules;
  const same = (name: string) => name.toLowerCase() === change.name.toLowerCase();
  if (kinds.some((one) => one.id !== kindId && same(one.name))) return no('name', 'same name');
  if (kindId === null) {
    const position = Math.max(0, ...kinds.map((one) => one.position)) + 1;
    return rules(before, { kinds: [...kinds, { id, position, ...fields }] });
  }
  if (!kinds.some((one) => one.id === kindId)) return no('', 'gone');
  return rules(before, { kinds: kinds.map((one) => (one.id === kindId ? { ...one, ...fields } : one)) });
}

/** As the store reads them. */
function inOrder(rhythms: Rhythm[]): Rhythm[] {
  return rhythms.sort(
    (a, b) =>
      a.weekday - b.weekday ||
      Temporal.PlainDate.compare(a.effectiveFrom, b.effectiveFrom) ||
      (a.id < b.id ? -1 : 1),
  );
}
