// The sun against astronomy-engine (MIT, github.com/cosinekitty/astronomy), which follows VSOP87 and is itself
// tested against JPL Horizons and NOVAS: a reference library, used in tests only. Random places and days; where
// the sun skims a limit a hundredth of a degree is minutes, so there the altitude at our time is judged instead.
import * as astronomy from 'astronomy-engine';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { crossingsAround, type Place, sunAt, sunTimes } from '../../src/daylight/sun.calc.js';
import { instantToWall } from '../../src/lib/zoned-time.js';
import { scale } from '../support/scale.js';

const HALF_DAY = 43_200_000;
const SUN = astronomy.Body.Sun;
const RUNS = { numRuns: scale(10_000, 1_500), seed: 20_270_312 };
/** Centre of the sun without refraction when its upper limb is on the horizon, in degrees. */
const RISE_ALTITUDE = -0.833;

const places: fc.Arbitrary<Place> = fc
  .tuple(fc.double({ min: -88, max: 88, noNaN: true }), fc.double({ min: -180, max: 180, noNaN: true }))
  .map(([lat, lon]) => {
    const hours = Math.round(lon / 15);
    // zones of the sea are named with the sign turned: Etc/GMT+5 is 5 hours west
    return { lat, lon, zone: hours === 0 ? 'Etc/GMT' : `Etc/GMT${hours > 0 ? '-' : '+'}${Math.abs(hours)}` };
  });
const dates = fc
  .integer({ min: 0, max: 365 * 30 })
  .map((days) => Temporal.PlainDate.from('2010-01-01').add({ days }));

function positionOf(place: Place, at: number, refraction: 'normal' | '' = '') {
  const observer = new astronomy.Observer(place.lat, place.lon, 0);
  const { ra, dec } = astronomy.Equator(SUN, new Date(at), observer, true, true);
  return astronomy.Horizon(new Date(at), observer, ra, dec, refraction || undefined);
}

/**
 * Compares one crossing: the instants to `seconds`, or, where the sun climbs slowly, its altitude at ours to
 * 0.02 degrees. If only one of us has the crossing, the sun's extreme must be within 0.02 degrees of the limit.
 */
function judge(
  place: Place,
  noon: number,
  side: -1 | 1,
  limit: number,
  seconds: number,
  ours: Temporal.Instant | null,
) {
  const observer = new astronomy.Observer(place.lat, place.lon, 0);
  const from = new Date(side < 0 ? noon - HALF_DAY : noon);
  const theirs =
    limit === RISE_ALTITUDE
      ? astronomy.SearchRiseSet(SUN, observer, -side, from, 0.5)
      : astronomy.SearchAltitude(SUN, observer, -side, from, 0.5, limit);
  if (theirs && ours) {
    const gap = Math.abs(ours.epochMilliseconds - theirs.date.getTime()) / 1000;
    if (gap <= seconds) return 'same instant';
    expect(Math.abs(positionOf(place, ours.epochMilliseconds).altitude - limit)).toBeLessThanOrEqual(0.02);
    return 'same altitude';
  }
  if (!theirs && !ours) return 'none';
  const extremes = [noon, noon + side * HALF_DAY].map((at) =>
    Math.abs(positionOf(place, at).altitude - limit),
  );
  expect(Math.min(...extremes)).toBeLessThanOrEqual(0.02);
  return 'grazing';
}

/** The reference's noon nearest to 12:00 on the clocks, looked for from half a day before. */
function noonOf(place: Place, date: Temporal.PlainDate, ours: Temporal.Instant): number {
  const from = new Date(ours.epochMilliseconds - HALF_DAY);
  const noon = astronomy.SearchHourAngle(SUN, new astronomy.Observer(place.lat, place.lon, 0), 0, from);
  expect(instantToWall(place.zone, ours).toPlainDate().equals(date)).toBe(true);
  return noon.time.date.getTime();
}

describe('random places and days against the reference library', () => {
  it('agree on solar noon, rise and set', () => {
    const counted = new Map<string, number>();
    const property = fc.property(places, dates, (place, date) => {
      const { solarNoon, noonAltitude, sunrise, sunset } = sunTimes(place, date);
      const noon = noonOf(place, date, solarNoon);
      expect(Math.abs(solarNoon.epochMilliseconds - noon)).toBeLessThanOrEqual(5_000);
      const reference = positionOf(place, noon, 'normal').altitude;
      if (reference > 5) expect(Math.abs(noonAltitude - reference)).toBeLessThanOrEqual(0.02);
      for (const [side, event] of [
        [-1, sunrise],
        [1, sunset],
      ] as const) {
        const verdict = judge(place, noon, side, RISE_ALTITUDE, 15, event);
        if (Math.abs(place.lat) < 60) expect(verdict).toBe('same instant');
        counted.set(verdict, (counted.get(verdict) ?? 0) + 1);
      }
    });
    fc.assert(property, RUNS);
    expect(counted.get('same instant')).toBeGreaterThan(RUNS.numRuns * 1.6);
    expect(counted.get('none')).toBeGreaterThan(RUNS.numRuns * 0.1);
  });

  it('agree on when the sun passes an altitude floor', () => {
    const counted = new Map<string, number>();
    const floors = fc.constantFrom(5, 8, 10, 12, 15, 20, 30, 45);
    const property = fc.property(places, dates, floors, (place, date, floor) => {
      const { solarNoon, noonAltitude } = sunTimes(place, date);
      const { before, after } = crossingsAround(place, solarNoon, floor);
      // the reference searches without refraction: lower the floor by what the air lifts there
      const limit = floor + astronomy.InverseRefraction('normal', floor);
      for (const [side, at] of [
        [-1, before],
        [1, after],
      ] as const) {
        const verdict = judge(place, solarNoon.epochMilliseconds, side, limit, 15, at);
        if (Math.abs(place.lat) < 60 && noonAltitude > floor + 1) expect(verdict).toBe('same instant');
        counted.set(verdict, (counted.get(verdict) ?? 0) + 1);
      }
    });
    fc.assert(property, { ...RUNS, numRuns: scale(10_000, 1_000) });
    expect(counted.get('same instant')).toBeGreaterThan(scale(10_000, 1_000));
  });

  it('agree on altitude above 5 degrees and on azimuth, at any instant', () => {
    let above = 0;
    const instants = fc.integer({ min: Date.UTC(2010, 0, 1), max: Date.UTC(2040, 0, 1) });
    const property = fc.property(places, instants, (place, at) => {
      const reference = positionOf(place, at, 'normal');
      if (reference.altitude <= 5) return;
      above++;
      const ours = sunAt(place, Temporal.Instant.fromEpochMilliseconds(at));
      expect(Math.abs(ours.altitude - reference.altitude)).toBeLessThanOrEqual(0.02);
      const turn = Math.abs(((ours.azimuth - reference.azimuth + 540) % 360) - 180);
      expect(turn * Math.cos((reference.altitude * Math.PI) / 180)).toBeLessThanOrEqual(0.02);
    });
    fc.assert(property, { ...RUNS, numRuns: 10_000 });
    expect(above).toBeGreaterThan(3_000);
  });
});
