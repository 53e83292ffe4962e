// The places of many days at once: the rules, what holds the room, and the light of each day. Pure, so that a
// change of the rules can be looked at before it is made.
import { Temporal } from 'temporal-polyfill';
import { type LightWindow, lightWindow } from '../daylight/window.calc.js';
import { dayBounds } from '../lib/zoned-time.js';
import type { Elsewhere } from '../outside/blocking.calc.js';
import { isThere } from './attendance.calc.js';
import type { Occupancy } from './occupancy.schemas.js';
import { type Busy, type RoomLight, rhythmOn, type Slot, slotsOfDay, type Wanted } from './openings.calc.js';
import type { RoomRules } from './rules.schemas.js';

export interface DayOfPlaces {
  date: Temporal.PlainDate;
  /** Good light from ... until ..., or null when the day has none. */
  light: LightWindow | null;
  openings: Slot[];
  /** Whether a helper is there that day. */
  helper: boolean;
}

export interface DateRange {
  from: Temporal.PlainDate;
  until: Temporal.PlainDate;
}

/** What of a studio its openings depend on. */
export interface Booking extends RoomLight {
  lightFloorDegrees: number;
  horizonMonths: number;
  leastNoticeDays: number;
}

/** Confirmed sittings by kind and calendar year. */
export interface KindYear {
  kindId: string;
  year: number;
  sittings: number;
}

export interface RoomFacts {
  rules: RoomRules;
  booking: Booking;
  /** What holds the room in the range. */
  holding: Occupancy[];
  kindYears: KindYear[];
  today: Temporal.PlainDate;
}

/** The dates for which places can be asked: from the least notice to the booking horizon, both included. */
export function bookableFrom(today: Temporal.PlainDate, booking: Booking): DateRange {
  return {
    from: today.add({ days: booking.leastNoticeDays }),
    until: today.add({ months: booking.horizonMonths }),
  };
}

/** The days of the rhythm in a range, both ends included, each with its places; days without one are left out. */
export function daysOf(facts: RoomFacts, range: DateRange, wanted: Wanted): DayOfPlaces[] {
  const { rules, booking, today } = facts;
  const { taken, byDay } = usedRoom(facts.holding);
  const notBefore = dayBounds(booking.zone, bookableFrom(today, booking).from).start;
  const elsewhere = rules.elsewhere.flatMap(({ times }) => times);
  const days: DayOfPlaces[] = [];
  const weekdays = new Set(rules.rhythms.map((one) => one.weekday));
  const last = range.from.until(range.until).days;
  for (let day = 0; day <= last; day++) {
    if (!weekdays.has(((range.from.dayOfWeek - 1 + day) % 7) + 1)) continue;
    const date = range.from.add({ days: day });
    const rhythm = rhythmOn(rules.rhythms, date);
    if (!rhythm) continue;
    const light = lightWindow(booking, date, booking.lightFloorDegrees);
    const helper = isThere(rules.helper, date);
    const dayFacts = {
      date,
      room: booking,
      window: light,
      taken,
      ...(byDay.get(date.toString()) ?? { sittings: 0, plates: 0 }),
      ofKind: ofKind(facts.kindYears, wanted, date.year),
      owner: isThere(rules.owner, date),
      elsewhere: elsewhere.length === 0 ? elsewhere : around(elsewhere, booking.zone, date),
      helper,
      today,
      notBefore,
    };
    days.push({ date, light, helper, openings: slotsOfDay(rhythm, wanted, dayFacts) });
  }
  return days;
}

/** What of it touches a date or the night after, into which a sitting may run. */
function around(all: Elsewhere[], zone: string, date: Temporal.PlainDate): Elsewhere[] {
  const from = dayBounds(zone, date).start.epochMilliseconds;
  const until = dayBounds(zone, date.add({ days: 1 })).end.epochMilliseconds;
  return all.filter((one) => one.from < until && from < one.until);
}

const ofKind = (kindYears: KindYear[], { kind }: Wanted, year: number): number =>
  kindYears.find((one) => one.kindId === kind?.id && one.year === year)?.sittings ?? 0;

/** What is taken, in milliseconds, and how many sittings and plates each day has. */
function usedRoom(holding: Occupancy[]) {
  const taken: Busy[] = [];
  const byDay = new Map<string, { sittings: number; plates: number }>();
  for (const one of holding) {
    const closure = one.kind === 'closure';
    taken.push({ from: one.startsAt.epochMilliseconds, until: one.busyUntil.epochMilliseconds, closure });
    if (one.kind !== 'sitting') continue;
    const day = one.wallStart.toPlainDate().toString();
    const { sittings, plates } = byDay.get(day) ?? { sittings: 0, plates: 0 };
    byDay.set(day, { sittings: sittings + 1, plates: plates + one.plates });
  }
  return { taken, byDay };
}
