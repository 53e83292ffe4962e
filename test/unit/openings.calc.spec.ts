// Which places of a day are open, rule by rule and in the order the reasons are told in. The day is Friday
// 14 May 2027 at Kittiwake Yard, when the light is good from six to seven.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { instantToWall } from '../../src/lib/zoned-time.js';
import {
  type ClosedReason,
  type DayFacts,
  lengthOf,
  openToPublic,
  rhythmOn,
  slotsOfDay,
  type Wanted,
} from '../../src/room/openings.calc.js';
import { type Kind, RHYTHM_DEFAULTS, type Rhythm } from '../../src/room/rules.schemas.js';

const room = {
  lat: 54.49,
  lon: -0.61,
  zone: 'Europe/London',
  windowKind: 'north window' as const,
  referenceSeconds: 6,
  referenceAltitudeDegrees: 45,
  exposureCapSeconds: 20,
};
const date = (text: string) => Temporal.PlainDate.from(text);
const at = (text: string) => Temporal.Instant.from(text);

function aRhythm(change: Partial<Rhythm> = {}): Rhythm {
  return {
    id: 'a',
    weekday: 5,
    starts: [570, 675, 780, 885],
    ...RHYTHM_DEFAULTS,
    heldBack: 0,
    effectiveFrom: date('2026-01-01'),
    effectiveUntil: null,
    ...change,
  };
}

const aKind = (change: Partial<Kind> = {}): Kind => ({
  id: 'k',
  position: 1,
  name: 'Series sitting',
  offered: 'public',
  firstPlateMinutes: null,
  plates: 1,
  fee: '',
  deposit: '',
  keepsPlate: 'series',
  weekdays: [],
  yearlyQuota: null,
  ...change,
});

const one: Wanted = { plates: 1, sitters: 1, kind: null };

function aDay(change: Partial<DayFacts> = {}): DayFacts {
  const day = change.date ?? date('2027-05-14');
  return {
    date: day,
    room,
    window: lightWindow(change.room ?? room, day, 10),
    taken: [],
    sittings: 0,
    plates: 0,
    ofKind: 0,
    owner: true,
    elsewhere: [],
    helper: false,
    today: date('2027-01-04'),
    notBefore: at('2027-01-07T00:00:00Z'),
    ...change,
  };
}

const reasons = (rhythm: Rhythm, day: DayFacts, wanted = one) =>
  slotsOfDay(rhythm, wanted, day).map((slot) => slot.closed);
const busy = (from: string, until: string) => ({
  from: at(from).epochMilliseconds,
  until: at(until).epochMilliseconds,
});

describe('the length of a sitting', () => {
  it('grows with each further plate and sitter, and begins with that of its kind', () => {
    expect(lengthOf(aRhythm(), one)).toEqual({ sitting: 75, room: 105 });
    expect(lengthOf(aRhythm(), { plates: 3, sitters: 2, kind: null })).toEqual({ sitting: 135, room: 165 });
    const kind = aKind({ firstPlateMinutes: 40 });
    expect(lengthOf(aRhythm(), { plates: 2, sitters: 1, kind })).toEqual({ sitting: 65, room: 95 });
  });
});

describe('the rhythm in force', () => {
  const winter = aRhythm({ id: 'winter' });
  const summer = aRhythm({
    id: 'summer',
    effectiveFrom: date('2027-05-01'),
    effectiveUntil: date('2027-08-31'),
  });
  const extra = aRhythm({
    id: 'extra',
    effectiveFrom: date('2027-05-07'),
    effectiveUntil: date('2027-05-07'),
  });
  const samestart = aRhythm({ id: 'from that day', effectiveFrom: date('2027-05-07') });

  it('is the one that began last, and the older one again when it ends', () => {
    const on = (day: string) => rhythmOn([winter, summer, extra], date(day))?.id;
    expect(['2027-04-30', '2027-05-07', '2027-05-14', '2027-08-27', '2027-09-03'].map(on)).toEqual([
      'winter',
      'extra',
      'summer',
      'summer',
      'winter',
    ]);
    expect(rhythmOn([winter], date('2027-05-13'))).toBeNull();
    expect(rhythmOn([winter], date('2025-12-26'))).toBeNull();
  });

  it('is the day of its own where another begins on that day, in whatever order they stand', () => {
    expect(rhythmOn([extra, samestart], date('2027-05-07'))?.id).toBe('extra');
    expect(rhythmOn([samestart, extra], date('2027-05-07'))?.id).toBe('extra');
    expect(rhythmOn([samestart, extra], date('2027-05-14'))?.id).toBe('from that day');
  });
});

describe('a start of the rhythm', () => {
  const all = (reason: ClosedReason | null) => [reason, reason, reason, reason];

  it('is open when nothing is against it', () => {
    expect(reasons(aRhythm(), aDay())).toEqual(all(null));
  });

  it.each<[ClosedReason, Partial<DayFacts>, Partial<Rhythm>, Wanted]>([
    ['too soon', { notBefore: at('2027-05-15T00:00:00Z') }, {}, one],
    ['owner away', { owner: false }, {}, one],
    ['other days', {}, {}, { ...one, kind: aKind({ weekdays: [2, 6] }) }],
    ['no light that day', { window: null }, {}, one],
    ['exposure above cap', { room: { ...room, exposureCapSeconds: 3 } }, {}, one],
    ['day full', { sittings: 4 }, {}, one],
    ['no more plates', { plates: 9 }, {}, { ...one, plates: 2 }],
    ['year full', { ofKind: 12 }, {}, { ...one, kind: aKind({ yearlyQuota: 12 }) }],
  ])('is closed: %s', (reason, day, rhythm, wanted) => {
    expect(reasons(aRhythm(rhythm), aDay(day), wanted)).toEqual(all(reason));
  });

  // 11:15 to 12:30; nobody minds the change-over until 13:00
  it('is closed while the owner is elsewhere, to the minute', () => {
    const elsewhere = (from: string, until: string) =>
      aDay({ elsewhere: [{ from: at(from).epochMilliseconds, until: at(until).epochMilliseconds }] });
    const away = (day: DayFacts) => reasons(aRhythm(), day).indexOf('owner away');
    const starts = slotsOfDay(aRhythm(), one, aDay());
    const second = starts[1];
    if (!second?.startsAt || !second.endsAt) throw new Error('no second start');
    const [start, end] = [second.startsAt, second.endsAt];
    const minute = { minutes: 1 };
    expect(away(elsewhere(`${start.subtract(minute)}`, `${start}`))).toBe(-1);
    expect(away(elsewhere(`${end}`, `${end.add(minute)}`))).toBe(-1);
    expect(away(elsewhere(`${start}`, `${start.add(minute)}`))).toBe(1);
    expect(away(elsewhere(`${end.subtract(minute)}`, `${end}`))).toBe(1);
  });

  it('is open at the very limit of day, plates and year, and with a helper for longer', () => {
    expect(reasons(aRhythm(), aDay({ sittings: 3 }))).toEqual(all(null));
    expect(reasons(aRhythm(), aDay({ sittings: 5, helper: true }))).toEqual(all(null));
    expect(reasons(aRhythm(), aDay({ sittings: 6, helper: true }))).toEqual(all('day full'));
    expect(reasons(aRhythm(), aDay({ plates: 8 }), { ...one, plates: 2 })).toEqual(all(null));
    const kind = aKind({ yearlyQuota: 12, weekdays: [5] });
    expect(reasons(aRhythm(), aDay({ ofKind: 11 }), { ...one, kind })).toEqual(all(null));
  });

  it('is closed where people would sit in a break, though the change-over may fall into it', () => {
    const noon = (from: number, until: number) => reasons(aRhythm({ breaks: [from, until] }), aDay());
    expect(noon(750, 780)).toEqual([null, null, null, null]); // 11:15 ends at 12:30, then change-over
    expect(noon(749, 780)).toEqual([null, 'break', null, null]);
    expect(noon(750, 781)).toEqual([null, null, 'break', null]);
  });

  it('is closed while something holds the room, change-over included, and open when it just touches', () => {
    // 11:15 to 12:30 on the wall, an hour less in UTC, and half an hour to change over
    expect(
      reasons(aRhythm(), aDay({ taken: [busy('2027-05-14T11:59:59Z', '2027-05-14T12:00:00Z')] })),
    ).toEqual([null, 'room taken', null, null]);
    expect(
      reasons(aRhythm(), aDay({ taken: [busy('2027-05-14T08:00:00Z', '2027-05-14T08:30:00Z')] })),
    ).toEqual(all(null));
  });

  it('tells a closure from people, who come first', () => {
    const people = busy('2027-05-14T08:30:00Z', '2027-05-14T09:00:00Z');
    const closure = { ...busy('2027-05-14T00:00:00Z', '2027-05-14T12:30:00Z'), closure: true };
    const closed = ['room taken', 'room closed', 'room closed', null];
    expect(reasons(aRhythm(), aDay({ taken: [closure, people] }))).toEqual(closed);
  });

  it('is closed in a gap of the clock and where the hour comes twice', () => {
    const night = aRhythm({ weekday: 7, starts: [30, 75, 150] });
    const closed = (day: string) =>
      reasons(night, aDay({ date: date(day), notBefore: at('2020-01-01T00:00Z') }));
    expect(closed('2027-03-28')[1]).toBe('clock gap');
    expect(closed('2027-10-31')[1]).toBe('clock gap');
    expect(closed('2027-10-31')[2]).not.toBe('clock gap');
  });

  it('before dawn and at dusk says which way the light fails', () => {
    const day = aDay();
    const dawn = instantToWall(room.zone, day.window?.start ?? day.notBefore);
    const dusk = instantToWall(room.zone, day.window?.end ?? day.notBefore);
    const minute = (wall: Temporal.PlainDateTime) => wall.hour * 60 + wall.minute;
    const starts = [minute(dawn), minute(dusk) - 74];
    expect(reasons(aRhythm({ starts }), aDay({ room: { ...room, exposureCapSeconds: 500 } }))).toEqual([
      'starts before good light',
      'light ends first',
    ]);
  });
});

describe('held-back places', () => {
  const held = aRhythm({ heldBack: 1 });
  const shown = (rhythm: Rhythm, change: Partial<DayFacts>) =>
    slotsOfDay(rhythm, one, aDay(change)).map((slot) =>
      openToPublic(slot) ? 'shown' : (slot.closed ?? 'held'),
    );

  it('are the last of the day, open to the owner alone until so many days before', () => {
    expect(shown(held, {})).toEqual(['shown', 'shown', 'shown', 'held']);
    expect(shown(held, { today: date('2027-04-29') })).toEqual(['shown', 'shown', 'shown', 'held']);
    expect(shown(held, { today: date('2027-04-30') })).toEqual(['shown', 'shown', 'shown', 'shown']);
  });

  it('are not made good when one is given', () => {
    const last = [busy('2027-05-14T13:45:00Z', '2027-05-14T15:30:00Z')];
    expect(shown(held, { taken: last, sittings: 1 })).toEqual(['shown', 'shown', 'shown', 'room taken']);
  });

  it('are all that is left of a day that takes fewer sittings than it has starts', () => {
    const three = { ...held, mostSittings: 3 };
    const first = busy('2027-05-14T08:30:00Z', '2027-05-14T10:15:00Z');
    const second = busy('2027-05-14T10:15:00Z', '2027-05-14T12:00:00Z');
    expect(shown(three, { taken: [first], sittings: 1 })).toEqual(['room taken', 'shown', 'shown', 'held']);
    expect(shown(three, { taken: [first, second], sittings: 2 })).toEqual([
      'room taken',
      'room taken',
      'held',
      'held',
    ]);
  });

  it('are never the only place of a short day', () => {
    expect(shown({ ...held, starts: [675, 1260] }, {})).toEqual(['shown', 'light ends first']);
  });

  it('are chosen among the places with light', () => {
    const late = { ...held, starts: [570, 675, 1260] };
    expect(shown(late, {})).toEqual(['shown', 'held', 'light ends first']);
  });
});
