// A studio for benchmarks: two years of Fridays with four places each, every second one taken.
import type { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { HELPER_NEVER, OWNER_ALWAYS } from '../../src/room/attendance.calc.js';
import type { Booking, DateRange, RoomFacts } from '../../src/room/days.calc.js';
import type { Occupancy } from '../../src/room/occupancy.schemas.js';
import { DEFAULT_POSE_LIMITS } from '../../src/room/pose.calc.js';
import { RHYTHM_DEFAULTS, type Rhythm } from '../../src/room/rules.schemas.js';

const booking: Booking = {
  lat: 54.49,
  lon: -0.61,
  zone: 'Europe/London',
  windowKind: 'north window',
  referenceSeconds: 6,
  referenceAltitudeDegrees: 45,
  exposureCapSeconds: 20,
  lightFloorDegrees: 10,
  horizonMonths: 24,
  leastNoticeDays: 3,
};

const STARTS = [570, 675, 780, 885];

/** Two years from `first`, with the Fridays in them. */
export function fullYears(first: Temporal.PlainDate): {
  facts: RoomFacts;
  range: DateRange;
  fridays: Temporal.PlainDate[];
} {
  const range = { from: first, until: first.add({ months: 24 }) };
  const friday = first.add({ days: (5 - first.dayOfWeek + 7) % 7 });
  const weeks = Math.floor(friday.until(range.until).days / 7) + 1;
  const fridays = Array.from({ length: weeks }, (_, week) => friday.add({ weeks: week }));
  const rhythm: Rhythm = {
    id: 'rhythm',
    weekday: 5,
    starts: STARTS,
    ...RHYTHM_DEFAULTS,
    effectiveFrom: first,
    effectiveUntil: null,
  };
  const all = fridays.flatMap((date) => STARTS.map((minute) => sittingAt(date, minute)));
  const holding = all.filter((_, at) => at % 2 === 0);
  const rules = {
    rhythms: [rhythm],
    owner: OWNER_ALWAYS,
    helper: HELPER_NEVER,
    kinds: [],
    closures: [],
    elsewhere: [],
    limits: DEFAULT_POSE_LIMITS,
  };
  return {
    facts: { rules, booking, holding, kindYears: [], today: first.subtract({ days: 30 }) },
    range,
    fridays,
  };
}

function sittingAt(date: Temporal.PlainDate, minute: number): Occupancy {
  const wallStart = date.toPlainDateTime().add({ minutes: minute });
  const start = wallToInstant(booking.zone, wallStart);
  if (!start.ok) throw new Error('The benchmark has no sitting in a gap of the clock.');
  const id = `${date} ${minute}`;
  return {
    id,
    resource: 'room',
    kind: 'sitting',
    heldFor: id,
    holds: true,
    tentative: false,
    zone: booking.zone,
    wallStart,
    wallEnd: wallStart.add({ minutes: 75 }),
    startsAt: start.instant,
    endsAt: start.instant.add({ minutes: 75 }),
    busyUntil: start.instant.add({ minutes: 105 }),
    title: '',
    plates: 1,
    kindId: null,
    uid: id,
    sequence: 0,
    revisedAt: start.instant,
    createdAt: start.instant,
  };
}
