// The light window of a day: what lies inside it, on which date, and the places that have none or no end of it.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { type Place, sunAt, sunTimes } from '../../src/daylight/sun.calc.js';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { dayBounds, instantToWall } from '../../src/lib/zoned-time.js';
import { scale } from '../support/scale.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const hours = (window: { start: Temporal.Instant; end: Temporal.Instant } | null) =>
  window ? window.start.until(window.end).total('hours') : 0;

const kittiwake: Place = { lat: 54.49, lon: -0.61, zone: 'Europe/London' };
const longyearbyen: Place = { lat: 78.22334, lon: 15.64689, zone: 'Arctic/Longyearbyen' };

const places = fc.record({
  lat: fc.double({ min: -75, max: 75, noNaN: true }),
  lon: fc.double({ min: -12, max: 12, noNaN: true }),
  zone: fc.constant('UTC'),
});
const dates = fc.integer({ min: 0, max: 3650 }).map((days) => day('2024-01-01').add({ days }));
const runs = { numRuns: scale(5_000, 500), seed: 5_449 };

describe('a light window', () => {
  it('has the sun at the floor at both ends, never below it, and below it just outside', () => {
    const property = fc.property(
      places,
      dates,
      fc.double({ min: 0, max: 40, noNaN: true }),
      (place, date, floor) => {
        const window = lightWindow(place, date, floor);
        fc.pre(window !== null);
        const at = (instant: Temporal.Instant) => sunAt(place, instant).altitude;
        const middles = [0.2, 0.4, 0.6, 0.8].map((share) =>
          window.start.add({ milliseconds: Math.round(hours(window) * share * 3_600_000) }),
        );
        for (const instant of [window.start, ...middles, window.end])
          expect(at(instant)).toBeGreaterThanOrEqual(floor);
        const bounds = dayBounds(place.zone, date);
        // a few seconds further the sun is below, unless the window ends with a day of a sun that stays up
        if (!window.start.equals(bounds.start)) {
          expect(at(window.start)).toBeLessThan(floor + 1e-3);
          expect(at(window.start.subtract({ minutes: 5 }))).toBeLessThan(floor);
        }
        if (!window.end.equals(bounds.end)) {
          expect(at(window.end)).toBeLessThan(floor + 1e-3);
          expect(at(window.end.add({ minutes: 5 }))).toBeLessThan(floor);
        }
      },
    );
    fc.assert(property, runs);
  });

  it('lies within that of every lower floor, and within rise and set', () => {
    const property = fc.property(
      places,
      dates,
      fc.double({ min: 1, max: 40, noNaN: true }),
      (place, date, floor) => {
        const high = lightWindow(place, date, floor);
        const low = lightWindow(place, date, floor / 2);
        fc.pre(high !== null);
        if (!low) throw new Error('a lower floor cannot leave less light');
        expect(Temporal.Instant.compare(low.start, high.start)).toBeLessThanOrEqual(0);
        expect(Temporal.Instant.compare(high.end, low.end)).toBeLessThanOrEqual(0);
        const { sunrise, sunset } = sunTimes(place, date);
        if (sunrise) expect(Temporal.Instant.compare(sunrise, high.start)).toBeLessThan(0);
        if (sunset) expect(Temporal.Instant.compare(high.end, sunset)).toBeLessThan(0);
      },
    );
    fc.assert(property, runs);
  });

  it('is null on exactly the days whose noon sun stays below the floor', () => {
    for (let date = day('2026-09-01'); date.until('2027-04-01').days > 0; date = date.add({ days: 1 })) {
      const { noonAltitude } = sunTimes(kittiwake, date);
      expect([date.toString(), lightWindow(kittiwake, date, 15) === null]).toEqual([
        date.toString(),
        noonAltitude < 15,
      ]);
    }
    // 90 - 54.49 - 23.44 degrees at noon of the solstice, and a tenth of a degree lifted by the air
    expect(sunTimes(kittiwake, day('2026-12-21')).noonAltitude).toBeCloseTo(12.15, 1);
    expect(lightWindow(kittiwake, day('2026-12-21'), 15)).toBeNull();
    expect(hours(lightWindow(kittiwake, day('2026-12-21'), 10))).toBeGreaterThan(2.5);
  });

  it('is as long in the southern summer as in the northern one half a year off, to some minutes', () => {
    const south = lightWindow({ lat: -41.33, lon: 174.77, zone: 'Pacific/Auckland' }, day('2026-12-21'), 10);
    const north = lightWindow({ lat: 41.33, lon: 2, zone: 'Europe/Madrid' }, day('2026-06-21'), 10);
    expect(Math.abs(hours(south) - hours(north))).toBeLessThan(0.1);
    expect(
      instantToWall('Pacific/Auckland', south?.start ?? Temporal.Instant.from('2026-01-01T00:00Z')).day,
    ).toBe(21);
  });

  it('at the equator of an equinox is twelve hours less what floor and refraction take', () => {
    // the sun goes straight up, 15 degrees an hour: above a true altitude of 10 for (180 - 20) / 15 hours
    const window = lightWindow({ lat: 0, lon: 0, zone: 'UTC' }, day('2027-03-20'), 10);
    expect(hours(window)).toBeCloseTo(160 / 15, 1);
  });

  it('moves by an hour on the clocks when they change, and keeps its length', () => {
    const clock = (date: string) => {
      const window = lightWindow(kittiwake, day(date), 10);
      if (!window) throw new Error('no light');
      return instantToWall(kittiwake.zone, window.start).toPlainTime();
    };
    // an hour, less the two or three minutes by which the sun is earlier in spring and later in autumn
    const spring = clock('2027-03-27').until(clock('2027-03-28')).total('minutes');
    const autumn = clock('2026-10-25').until(clock('2026-10-24')).total('minutes');
    for (const jump of [spring, autumn]) expect([jump > 57, jump < 58]).toEqual([true, true]);
    const [before, after] = ['2027-03-27', '2027-03-28'].map((date) =>
      hours(lightWindow(kittiwake, day(date), 10)),
    );
    expect(Math.abs((after ?? 0) - (before ?? 0))).toBeLessThan(0.1);
  });
});

describe('in the far north', () => {
  it('the window is the whole civil day while the sun circles above the floor', () => {
    // JPL Horizons: 12.1 degrees at 00Z of 2026-06-21 and never much less that night
    const window = lightWindow(longyearbyen, day('2026-06-21'), 10);
    const { start, end } = dayBounds(longyearbyen.zone, day('2026-06-21'));
    expect([window?.start.toString(), window?.end.toString()]).toEqual([start.toString(), end.toString()]);
    expect(hours(lightWindow(longyearbyen, day('2026-06-21'), 20))).toBeLessThan(18);
  });

  it('there is no window at all in the dark months', () => {
    for (const date of ['2026-11-15', '2026-12-21', '2027-01-25']) {
      expect(lightWindow(longyearbyen, day(date), 0)).toBeNull();
    }
  });

  it('windows keep within their civil day and so never overlap, also where the light lasts past midnight', () => {
    for (const floor of [0, 5, 10, 15]) {
      for (let date = day('2026-03-01'); date.until('2026-10-15').days > 0; date = date.add({ days: 1 })) {
        const today = lightWindow(longyearbyen, date, floor);
        const tomorrow = lightWindow(longyearbyen, date.add({ days: 1 }), floor);
        if (!today || !tomorrow) continue;
        const bounds = dayBounds(longyearbyen.zone, date);
        expect(Temporal.Instant.compare(bounds.start, today.start)).toBeLessThanOrEqual(0);
        expect(Temporal.Instant.compare(today.end, bounds.end)).toBeLessThanOrEqual(0);
        expect([floor, `${date}`, Temporal.Instant.compare(today.end, tomorrow.start)]).not.toContain(1);
      }
    }
  });
});
