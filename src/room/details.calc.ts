// What a change alters, value by value, old beside new, and what its owner may not have meant. In words, for the
// preview; closures and removals tell themselves in their one sentence.
import { Temporal } from 'temporal-polyfill';
import { WINDOW_WORDS } from '../daylight/words.calc.js';
import { counted, dayInWords } from '../lib/words.js';
import type { Attendance } from './attendance.calc.js';
import type { Settings } from './changes.calc.js';
import type { Change } from './changes.schemas.js';
import { isExtraDay, rhythmOn } from './openings.calc.js';
import type { Kind, Rhythm, RoomRules } from './rules.schemas.js';
import { breaksInWords, startsInWords, weekdaysInWords } from './words.calc.js';

export interface Detail {
  term: string;
  /** '' where there was nothing before. */
  before: string;
  after: string;
}

type Told = [term: string, words: string][];

/** The values that differ, in the order of the form; all of them for something new. */
export function detailsOf(before: Settings, after: Settings, change: Change): Detail[] {
  const [old, fresh] = [told(before, before, change), told(after, before, change)];
  return fresh.flatMap(([term, words], at) => {
    const was = old[at]?.[1] ?? '';
    return was === words ? [] : [{ term, before: was, after: words }];
  });
}

function told(settings: Settings, before: Settings, change: Change): Told {
  const { rules, booking } = settings;
  switch (change.do) {
    case 'rhythm':
      return rhythmTold(rhythmOn(rules.rhythms, firstOn(change.weekday, change.from)));
    case 'extra day':
      return rhythmTold(rhythmOn(rules.rhythms, change.date));
    case 'kind': {
      const isNew = change.kindId === null && settings !== before;
      return kindTold(isNew ? rules.kinds.at(-1) : rules.kinds.find((one) => one.id === change.kindId));
    }
    case 'people':
      return [...attendanceTold('The owner', rules.owner), ...attendanceTold('The helper', rules.helper)];
    case 'pose':
      return [
        ['A child under 8', seconds(rules.limits.under8)],
        ['A child of 8 to 14', seconds(rules.limits.from8To14)],
        ['Somebody older, without a head rest', seconds(rules.limits.adult)],
        ['Somebody older, with a head rest', seconds(rules.limits.headRest)],
        ['Three people or more on one plate', seconds(rules.limits.groupOf3)],
      ];
    case 'light':
      return [
        ['What lights the sitter', WINDOW_WORDS[booking.windowKind]],
        ['Light is good while the sun stands above', degrees(booking.lightFloorDegrees)],
        ['An exposure that gave a good plate under a clear sky', seconds(booking.referenceSeconds)],
        ['The height of the sun at that time', degrees(booking.referenceAltitudeDegrees)],
        ['No place is opened that asks for more than', seconds(booking.exposureCapSeconds)],
      ];
    case 'booking':
      return [
        ['How far ahead places are given', counted(booking.horizonMonths, 'month')],
        ['Least notice', counted(booking.leastNoticeDays, 'day')],
      ];
    case 'end weekday':
    case 'drop rhythm':
    case 'close':
    case 'reopen':
      return [];
  }
}

/** The first date of a weekday, from a date on. */
const firstOn = (weekday: number, from: Temporal.PlainDate) =>
  from.add({ days: (weekday - from.dayOfWeek + 7) % 7 });

function rhythmTold(rhythm: Rhythm | null): Told {
  if (!rhythm) return [];
  return [
    ['A sitting may start at', startsInWords(rhythm.starts)],
    ['Last day', rhythm.effectiveUntil === null ? 'no end' : dayInWords(rhythm.effectiveUntil)],
    ['A sitting with one plate', minutes(rhythm.firstPlateMinutes)],
    ['Each further plate', minutes(rhythm.furtherPlateMinutes)],
    ['Each further sitter', minutes(rhythm.furtherSitterMinutes)],
    ['Change-over after it', minutes(rhythm.changeoverMinutes)],
    ['Breaks', breaksInWords(rhythm.breaks) || 'none'],
    ['Sittings when the owner is alone', String(rhythm.mostSittings)],
    ['Sittings with a helper', String(rhythm.mostSittingsWithHelper)],
    ['Plates', String(rhythm.mostPlates)],
    ['Places kept off the public page', String(rhythm.heldBack)],
    ['They show themselves', `${counted(rhythm.heldBackDays, 'day')} before`],
  ];
}

const OFFERED: Record<Kind['offered'], string> = {
  public: 'everybody',
  owner: 'nobody by themselves; the owner gives it',
  'not any more': 'nobody any more',
};
const KEEPER: Record<Kind['keepsPlate'], string> = {
  sitter: 'the sitter',
  studio: 'the studio',
  series: 'the series',
};

function kindTold(kind: Kind | undefined): Told {
  if (!kind) return [];
  const { firstPlateMinutes, yearlyQuota } = kind;
  return [
    ['Name', kind.name],
    ['Offered to', OFFERED[kind.offered]],
    ['Length with one plate', firstPlateMinutes === null ? 'as the rhythm says' : minutes(firstPlateMinutes)],
    ['Usual number of plates', String(kind.plates)],
    ['Fee', kind.fee || 'none'],
    ['Deposit', kind.deposit || 'none'],
    ['Who keeps the plate', KEEPER[kind.keepsPlate]],
    ['Only on these weekdays', weekdaysInWords(kind.weekdays, 'all of the rhythm')],
    ['Confirmed sittings a year', yearlyQuota === null ? 'any number' : `at most ${yearlyQuota}`],
  ];
}

function attendanceTold(who: string, { weekdays, also, away }: Attendance): Told {
  const days = (dates: string[]) =>
    dates.map((date) => dayInWords(Temporal.PlainDate.from(date))).join(', ') || 'no day';
  return [
    [`${who} is there on`, weekdaysInWords(weekdays, 'no day')],
    [`${who} is away on`, days(away)],
    [`${who} is there as well on`, days(also)],
  ];
}

const seconds = (count: number) => counted(count, 'second');
const minutes = (count: number) => counted(count, 'minute');
const degrees = (count: number) => counted(count, 'degree');

/** Kinds that a change leaves without a place on a weekday of theirs, as it has no rhythm (any more). */
export function warningsOf(before: RoomRules, after: RoomRules, today: Temporal.PlainDate): string[] {
  return after.kinds.flatMap((kind) => {
    const old = before.kinds.find((one) => one.id === kind.id);
    const known = old ? withoutRhythm(before, old, today) : [];
    const missing = withoutRhythm(after, kind, today);
    if (kind.offered === 'not any more' || missing.every((weekday) => known.includes(weekday))) return [];
    const all = missing.length === kind.weekdays.length;
    const days = weekdaysInWords(missing, '');
    return [
      `There are no sittings on ${days}, so ${kind.name} has no place ${all ? 'at all' : 'then'}. Enter a rhythm for ${days}, or choose other days for it.`,
    ];
  });
}

function withoutRhythm({ rhythms }: RoomRules, kind: Kind, today: Temporal.PlainDate): number[] {
  const ahead = rhythms.filter(
    (one) =>
      !isExtraDay(one) &&
      (one.effectiveUntil === null || Temporal.PlainDate.compare(one.effectiveUntil, today) >= 0),
  );
  return kind.weekdays.filter((weekday) => !ahead.some((one) => one.weekday === weekday));
}
