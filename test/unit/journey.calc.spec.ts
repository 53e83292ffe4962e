// Leave-by worked by hand over both changes of the clocks and the date line, on the zone data 2026f, and what must hold
// for every zone there is.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant, zoneNames } from '../../src/lib/zoned-time.js';
import { journeyOf, type Spot, travelOf } from '../../src/travel/journey.calc.js';
import { MODES } from '../../src/travel/modes.calc.js';
import { NO_PLAN, type TravelPlan } from '../../src/travel/plan.schemas.js';

const spot = (lat: number, lon: number, zone: string): Spot => ({ lat, lon, zone });
const LONDON = spot(51.51, -0.13, 'Europe/London');
const PLACES = {
  'Europe/London': LONDON,
  'Europe/Paris': spot(48.85, 2.35, 'Europe/Paris'),
  'America/New_York': spot(40.71, -74.01, 'America/New_York'),
  'America/Los_Angeles': spot(34.05, -118.24, 'America/Los_Angeles'),
  'America/Vancouver': spot(49.25, -123.12, 'America/Vancouver'),
  'America/Denver': spot(39.74, -104.98, 'America/Denver'),
  'America/Phoenix': spot(33.45, -112.07, 'America/Phoenix'),
  'America/Santiago': spot(-33.45, -70.65, 'America/Santiago'),
  'Africa/Casablanca': spot(33.59, -7.61, 'Africa/Casablanca'),
  'Asia/Kathmandu': spot(27.72, 85.32, 'Asia/Kathmandu'),
  'Asia/Kolkata': spot(28.65, 77.23, 'Asia/Kolkata'),
  'Australia/Sydney': spot(-33.87, 151.21, 'Australia/Sydney'),
  'Pacific/Auckland': spot(-36.85, 174.76, 'Pacific/Auckland'),
  'Pacific/Chatham': spot(-43.95, -176.56, 'Pacific/Chatham'),
  'Pacific/Honolulu': spot(21.31, -157.86, 'Pacific/Honolulu'),
};
type Zone = keyof typeof PLACES;

const at = (zone: string, text: string): Temporal.Instant => {
  const answer = wallToInstant(zone, Temporal.PlainDateTime.from(text));
  if (!answer.ok) throw new RangeError(text);
  return answer.instant;
};
const visit = (zone: string, start: string, hours = 2) => {
  const startsAt = at(zone, start);
  return { startsAt, endsAt: startsAt.add({ hours }) };
};
const own = (minutes: number, marginMinutes = 30, night: TravelPlan['night'] = 'no'): TravelPlan => ({
  mode: null,
  minutes,
  night,
  marginMinutes,
});

const LEAVE_BY: [string, Zone, Zone, string, TravelPlan, string][] = [
  // Clocks go forward in the night: 10:00 BST is 09:00Z; less 9 h 30 is 23:30Z, 23:30 GMT the day before.
  [
    'the night that clocks go forward',
    'Europe/London',
    'Europe/London',
    '2027-03-28T10:00',
    own(540),
    '2027-03-27T23:30',
  ],
  // Clocks go back: 10:00 GMT is 10:00Z; less 9 h 30 is 00:30Z, still summer time: 01:30 BST.
  [
    'the night that clocks go back',
    'Europe/London',
    'Europe/London',
    '2026-10-25T10:00',
    own(540),
    '2026-10-25T01:30',
  ],
  // New York goes forward on 14 March 2027: 10:00 EDT is 14:00Z; less 8 h 30 is 05:30Z, 00:30 EST.
  [
    'New York, clocks forward',
    'America/New_York',
    'America/New_York',
    '2027-03-14T10:00',
    own(480),
    '2027-03-14T00:30',
  ],
  // New York goes back on 1 November 2026: 10:00 EST is 15:00Z; less 9 h 30 is 05:30Z, the first 01:30 (EDT).
  [
    'New York, clocks back',
    'America/New_York',
    'America/New_York',
    '2026-11-01T10:00',
    own(540),
    '2026-11-01T01:30',
  ],
  // Weeks that differ: London is on GMT from 25 October 2026, New York on EDT until 1 November: four hours, not five.
  // 10:00 GMT is 10:00Z; less 11 h is 23:00Z, 19:00 EDT the day before.
  [
    'London from New York between the changes',
    'America/New_York',
    'Europe/London',
    '2026-10-30T10:00',
    own(600, 60),
    '2026-10-29T19:00',
  ],
  // Again in spring: New York is on EDT from 14 March 2027, London on GMT until 28 March. 21:00Z less 11 h is 10:00Z.
  [
    'New York from London between the changes',
    'Europe/London',
    'America/New_York',
    '2027-03-19T17:00',
    own(600, 60),
    '2027-03-19T10:00',
  ],
  // Three weeks later five hours again: 17:00 EDT is 21:00Z, less 11 h 10:00Z, 11:00 BST.
  [
    'New York from London after the changes',
    'Europe/London',
    'America/New_York',
    '2027-04-09T17:00',
    own(600, 60),
    '2027-04-09T11:00',
  ],
  // Sydney is on AEDT until 4 April 2027, London on BST from 28 March: ten hours. 12:00 AEDT is 01:00Z; less 24 h 30 is
  // 00:30Z of the day before, 01:30 BST.
  [
    'Sydney from London, ten hours apart',
    'Europe/London',
    'Australia/Sydney',
    '2027-04-02T12:00',
    own(24 * 60),
    '2027-04-01T01:30',
  ],
  // A gap at midnight: Santiago goes from 24:00 to 01:00 on 6 September 2026. 10:00 (-03) is 13:00Z; less 9 h is 04:00Z,
  // the very moment: 01:00.
  [
    'Santiago, where midnight is skipped',
    'America/Santiago',
    'America/Santiago',
    '2026-09-06T10:00',
    own(510),
    '2026-09-06T01:00',
  ],
  // British Columbia keeps -07 in winter since 2026: 12:00 in Los Angeles is 20:00Z; less 4 h 30 is 15:30Z, 08:30.
  [
    'Vancouver under its new law',
    'America/Vancouver',
    'America/Los_Angeles',
    '2026-12-15T12:00',
    own(240),
    '2026-12-15T08:30',
  ],
  // Morocco is at +00 since September 2026: 10:00 in London is 10:00Z; less 8 h 30 is 01:30Z, 01:30.
  [
    'Casablanca under its new law',
    'Africa/Casablanca',
    'Europe/London',
    '2027-01-15T10:00',
    own(480),
    '2027-01-15T01:30',
  ],
  // The date line: 10:00 NZDT on 15 January is 21:00Z on the 14th; less 21 h is 00:00Z, 16:00 PST on the 13th.
  [
    'Auckland from Los Angeles',
    'America/Los_Angeles',
    'Pacific/Auckland',
    '2027-01-15T10:00',
    own(1200, 60),
    '2027-01-13T16:00',
  ],
  // And the other way: 10:00 in Honolulu is 20:00Z on the 15th; less 12 h is 08:00Z, 21:00 NZDT of the same date.
  [
    'Honolulu from Auckland',
    'Pacific/Auckland',
    'Pacific/Honolulu',
    '2027-01-15T10:00',
    own(720, 0),
    '2027-01-15T21:00',
  ],
  // Quarters of an hour: 10:00 at +05:45 is 04:15Z; less 3 h 30 is 00:45Z, 06:15 at +05:30.
  [
    'Kathmandu from Delhi',
    'Asia/Kolkata',
    'Asia/Kathmandu',
    '2027-01-15T10:00',
    own(180),
    '2027-01-15T06:15',
  ],
  // 10:00 at +13:45 is 20:15Z on the 14th; less 3 h is 17:15Z, 06:15 NZDT on the 15th.
  [
    'the Chathams from Auckland',
    'Pacific/Auckland',
    'Pacific/Chatham',
    '2027-01-15T10:00',
    own(150),
    '2027-01-15T06:15',
  ],
  // Arizona has no summer time: 10:00 MDT is 16:00Z; less 9 h 30 is 06:30Z, 23:30 MST; in winter 10:00 MST is 17:00Z: 00:30.
  [
    'Denver from Phoenix in summer',
    'America/Phoenix',
    'America/Denver',
    '2027-07-16T10:00',
    own(540),
    '2027-07-15T23:30',
  ],
  [
    'Denver from Phoenix in winter',
    'America/Phoenix',
    'America/Denver',
    '2027-01-15T10:00',
    own(540),
    '2027-01-15T00:30',
  ],
];
test.each(LEAVE_BY)('to leave by, by hand: %s', (_name, home, studio, start, plan, expected) => {
  const { leaveByWall, leaveBy } = journeyOf(PLACES[home], PLACES[studio], visit(studio, start), plan);
  expect(leaveByWall.toString({ smallestUnit: 'minute' })).toBe(expected);
  expect(instantToWall(home, leaveBy).equals(leaveByWall)).toBe(true);
});

test('who stays the night is there by eight in the evening before, the same hour of the wall over a change of clocks', () => {
  // 28 March 2027: the evening before is 20:00 GMT, 13 hours before 10:00 BST, not 14. Less 5 h: 15:00Z.
  const spring = journeyOf(LONDON, LONDON, visit('Europe/London', '2027-03-28T10:00'), own(300, 30, 'yes'));
  expect(spring.thereBy.toString()).toBe('2027-03-27T20:00:00Z');
  expect(spring.leaveByWall.toString()).toBe('2027-03-27T15:00:00');
  // 25 October 2026: 20:00 BST is 19:00Z.
  const autumn = journeyOf(LONDON, LONDON, visit('Europe/London', '2026-10-25T10:00'), own(300, 30, 'yes'));
  expect(autumn.leaveBy.toString()).toBe('2026-10-24T14:00:00Z');
  // Auckland from Los Angeles: 20:00 NZDT on the 14th is 07:00Z; less 20 h is 11:00Z on the 13th, 03:00 PST.
  const [home, studio] = [PLACES['America/Los_Angeles'], PLACES['Pacific/Auckland']];
  const far = journeyOf(home, studio, visit('Pacific/Auckland', '2027-01-15T10:00'), own(1200, 60, 'yes'));
  expect(far.leaveByWall.toString()).toBe('2027-01-13T03:00:00');
  expect(far.clockDifference).toBe(21 * 60);
});

test('the clocks differ by what both laws say on the day', () => {
  const difference = (home: Zone, studio: Zone, start: string) =>
    journeyOf(PLACES[home], PLACES[studio], visit(studio, start)).clockDifference / 60;
  expect(difference('America/Phoenix', 'America/Denver', '2027-07-16T10:00')).toBe(1);
  expect(difference('America/Phoenix', 'America/Denver', '2027-01-15T10:00')).toBe(0);
  expect(difference('America/Phoenix', 'America/Los_Angeles', '2027-07-16T10:00')).toBe(0);
  expect(difference('America/New_York', 'Europe/London', '2026-10-30T10:00')).toBe(4);
  expect(difference('Europe/London', 'Pacific/Chatham', '2027-01-15T10:00')).toBe(13.75);
});

test('a law that moves a zone moves the leave-by of whoever leaves from there, and nothing else', () => {
  // as in LEAVE_BY; by the law before, -08 in winter, the same moment would have been 07:30
  const start = visit('America/Los_Angeles', '2026-12-15T12:00');
  const [home, studio] = [PLACES['America/Vancouver'], PLACES['America/Los_Angeles']];
  const now = journeyOf(home, studio, start, own(240));
  const before = journeyOf({ ...home, zone: 'America/Los_Angeles' }, studio, start, own(240));
  expect(before.leaveBy.equals(now.leaveBy)).toBe(true);
  expect([before, now].map(({ leaveByWall }) => leaveByWall.hour)).toEqual([7, 8]);
});

const YARD = spot(54.49, -0.61, 'Europe/London');
const YORK = spot(53.958, -1.083, 'Europe/London');

test('there and back in a day, or a night’s stay, and why', () => {
  const early = visit('Europe/London', '2027-05-14T10:00');
  // York: two hours at most; 30 minutes before ten: 07:30
  expect(journeyOf(YORK, YARD, early)).toMatchObject({ night: false, nightReason: 'none', dayHours: 6.5 });
  expect(journeyOf(YORK, YARD, early).leaveByWall.toString()).toBe('2027-05-14T07:30:00');
  // at half past seven they would have to leave at five
  const dawn = journeyOf(YORK, YARD, visit('Europe/London', '2027-05-14T07:30'));
  expect(dawn).toMatchObject({
    night: true,
    nightReason: 'leaves at night',
    farAway: 'night stay',
    bookDaysBefore: 21,
  });
  expect(dawn.leaveByWall.toString()).toBe('2027-05-13T18:00:00');
  expect(journeyOf(LONDON, YARD, early)).toMatchObject({
    nightReason: 'too long for a day',
    bookDaysBefore: 21,
  });
  // they will not stay the night: five in the morning it is
  const tough = journeyOf(YORK, YARD, visit('Europe/London', '2027-05-14T07:30'), {
    ...NO_PLAN,
    night: 'no',
  });
  expect(tough).toMatchObject({ night: false, farAway: 'day trip', bookDaysBefore: null });
  expect(tough.leaveByWall.toString()).toBe('2027-05-14T05:00:00');
  // late in the day there is no way home before midnight: 16:00 + 2 h + 7 h is 01:00
  const late = journeyOf(YORK, YARD, visit('Europe/London', '2027-05-14T16:00'), own(420));
  expect(late).toMatchObject({ nightAfter: true });
  expect(late.homeByWall.toString()).toBe('2027-05-15T01:00:00');
});

test('more driving than a day’s has its nights on the way, and nobody drives through one of them', () => {
  // 20 hours at the wheel: two nights on the way, 4 h on the first day: there by 20:00 on the 13th, off at 16:00 on the 11th
  const plan = { ...own(20 * 60, 30, 'yes'), mode: 'car' as const };
  const home = spot(40.42, -3.7, 'Europe/Madrid');
  const studio = spot(48.85, 2.35, 'Europe/Paris');
  const far = journeyOf(home, studio, visit('Europe/Paris', '2027-05-14T10:00'), plan);
  expect(far).toMatchObject({ nightsOnTheWay: 2, nightAfter: true });
  expect(far.leaveByWall.toString()).toBe('2027-05-11T16:00:00');
});

test('when to book: a flight abroad, a flight, a bed, and nothing for a drive of a day', () => {
  const ahead = (home: Spot, plan?: TravelPlan) => travelOf(home, YARD, plan).bookDaysBefore;
  expect(ahead(PLACES['America/New_York'])).toBe(90);
  expect(ahead(LONDON, { ...NO_PLAN, mode: 'flight' })).toBe(60);
  expect(ahead(LONDON)).toBe(21);
  expect(ahead(YORK, { ...NO_PLAN, mode: 'train' })).toBe(21);
  expect(ahead(YORK)).toBeNull();
});

const anyPlan = fc.record({
  mode: fc.constantFrom(null, ...MODES),
  minutes: fc.option(fc.integer({ min: 1, max: 10_080 })),
  night: fc.constantFrom(null, 'yes' as const, 'no' as const),
  marginMinutes: fc.option(fc.integer({ min: 0, max: 720 })),
});
const anyInstant = fc
  .integer({ min: Date.UTC(2026, 0, 1) / 300_000, max: Date.UTC(2031, 0, 1) / 300_000 })
  .map((steps) => Temporal.Instant.fromEpochMilliseconds(steps * 300_000));
const anyPoint = fc.record({
  lat: fc.double({ min: -60, max: 70, noNaN: true }),
  lon: fc.double({ min: -180, max: 180, noNaN: true }),
});

test('from every zone whoever leaves in time arrives at least the margin before the start', () => {
  for (const zone of zoneNames()) {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyInstant, anyPlan, (from, to, startsAt, plan) => {
        const home = { ...from, zone };
        const there = journeyOf(
          home,
          { ...to, zone: 'Europe/London' },
          { startsAt, endsAt: startsAt.add({ hours: 2 }) },
          plan,
        );
        const minutes = there.leaveBy.until(startsAt).total('minutes');
        expect(there.minutes.from).toBeLessThanOrEqual(there.minutes.to);
        expect(minutes).toBeGreaterThanOrEqual(there.minutes.to + there.marginMinutes);
        expect(Temporal.Instant.compare(there.thereBy, there.atStudioBy)).toBeLessThanOrEqual(0);
        const wall = wallToInstant(zone, there.leaveByWall, 'earlier');
        const again = wallToInstant(zone, there.leaveByWall, 'later');
        expect([wall, again].some((one) => one.ok && one.instant.equals(there.leaveBy))).toBe(true);
        if (plan.minutes !== null) expect(there.minutes).toEqual({ from: plan.minutes, to: plan.minutes });
        if (plan.mode !== null) expect(there.mode).toBe(plan.mode);
        if (plan.night !== null) expect(there.night).toBe(plan.night === 'yes');
        if (plan.marginMinutes !== null) expect(there.marginMinutes).toBe(plan.marginMinutes);
      }),
      { numRuns: 4 },
    );
  }
});

test('nobody who leaves it to us is sent off before six in the morning on a road', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 9, noNaN: true }), anyInstant, (east, startsAt) => {
      const home = spot(48.85, 2.35 + east, 'Europe/Paris');
      const studio = PLACES['Europe/Paris'];
      const there = journeyOf(home, studio, { startsAt, endsAt: startsAt.add({ hours: 2 }) });
      fc.pre(there.mode === 'car');
      expect(there.leaveByWall.hour).toBeGreaterThanOrEqual(6);
    }),
    { numRuns: 500 },
  );
});
