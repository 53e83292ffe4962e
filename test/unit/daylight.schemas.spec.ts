// What the daylight door takes and refuses, each refusal with its own sentence; and the day it reckons.
import { Temporal } from 'temporal-polyfill';
import { dayOfLight, exposureAt } from '../../src/daylight/day.calc.js';
import { daylightQuery } from '../../src/daylight/daylight.schemas.js';
import { WEATHERS } from '../../src/daylight/exposure.calc.js';
import { secondsInWords } from '../../src/daylight/words.calc.js';
import { withOffset } from '../../src/lib/zoned-time.js';
import { fieldProblems } from '../../src/platform/input.js';

const GOOD = { lat: '54.49', lon: '-0.61', zone: 'Europe/London', date: '2027-05-14' };

function refusals(changed: Record<string, unknown>): string[] {
  const parsed = daylightQuery.safeParse({ ...GOOD, ...changed });
  return parsed.success
    ? []
    : fieldProblems(parsed.error).map(({ field, message }) => `${field}: ${message}`);
}

describe('the daylight query', () => {
  it('takes place, zone and date, and fills in the rest', () => {
    const { date, ...rest } = daylightQuery.parse(GOOD);
    expect(date.toString()).toBe('2027-05-14');
    expect(rest).toEqual({
      lat: 54.49,
      lon: -0.61,
      zone: 'Europe/London',
      floor: 10,
      window: 'north window',
      referenceSeconds: 6,
      referenceAltitude: 45,
    });
  });

  it('takes empty boxes of a form for no answer, a comma for a point, and a hyphen in the window', () => {
    const read = daylightQuery.parse({ ...GOOD, lat: ' 54,49 ', floor: '', window: 'glass-room' });
    expect(read).toMatchObject({ lat: 54.49, floor: 10, window: 'glass room' });
  });

  it('takes the very limits', () => {
    for (const limit of [
      { lat: '90' },
      { lat: '-90' },
      { lon: '180' },
      { lon: '-180' },
      { floor: '0' },
      { floor: '60' },
    ])
      expect(refusals(limit)).toEqual([]);
    for (const date of ['1972-01-01', '2099-12-31', '2028-02-29']) expect(refusals({ date })).toEqual([]);
  });

  it.each([
    [{ lat: '91' }, /^lat: The latitude .* -90 to 90/],
    [{ lat: '' }, /^lat: The latitude/],
    [{ lat: undefined }, /^lat: The latitude/],
    [{ lat: ['1', '2'] }, /^lat: The latitude/],
    [{ lat: '1e9' }, /^lat: The latitude/],
    [{ lat: 'NaN' }, /^lat: The latitude/],
    [{ lon: '180.5' }, /^lon: The longitude/],
    [{ zone: 'Europe/Atlantis' }, /^zone: This time zone is not known/],
    [{ zone: 'europe/london' }, /^zone: This time zone is not known/],
    [{ zone: undefined }, /^zone: The time zone is needed/],
    [{ date: '2027-02-30' }, /^date: There is no such day/],
    [{ date: '14 May 2027' }, /^date: Please give the date/],
    [
      { date: '1750-06-01' },
      /^date: The reckoning is good for dates from Saturday 1 January 1972 to Thursday 31 December 2099 only/,
    ],
    [{ date: '2100-01-01' }, /^date: The reckoning is good/],
    [{ floor: '61' }, /^floor: The least height of the sun/],
    [{ floor: '-1' }, /^floor: The least height/],
    [{ window: 'south window' }, /^window: The window is one of: north window, open shade, glass room/],
    [{ referenceSeconds: '0' }, /^referenceSeconds: /],
    [{ referenceAltitude: '91' }, /^referenceAltitude: /],
  ])('refuses %j in one sentence', (changed, sentence) => {
    expect(refusals(changed)).toEqual([expect.stringMatching(sentence)]);
  });

  it('names every wrong field at once', () => {
    expect(refusals({ lat: 'x', lon: 'x', zone: 'x', date: 'x' })).toHaveLength(4);
  });
});

describe('a day of light', () => {
  const place = { lat: 54.49, lon: -0.61, zone: 'Europe/London' };
  const studio = { windowKind: 'north window', referenceSeconds: 6, referenceAltitudeDegrees: 45 } as const;
  const day = (date: string) => dayOfLight(place, Temporal.PlainDate.from(date), 10, studio);

  it('has 48 half hours, and 46 or 50 when clocks change', () => {
    expect(day('2027-05-14').moments).toHaveLength(48);
    expect(day('2027-03-28').moments).toHaveLength(46);
    expect(day('2027-10-31').moments).toHaveLength(50);
  });

  it('gives seconds just while the sun is up', () => {
    for (const { altitude, exposure } of day('2027-05-14').moments)
      expect(exposure !== null).toBe(altitude >= 0);
  });

  it('gives the reference itself at the reference altitude, and the weather as a factor on it', () => {
    expect(exposureAt(studio, 45)).toEqual({
      clear: { from: 6, to: 6 },
      broken: { from: 0.8 * 6, to: 1.2 * 6 },
      'bright overcast': { from: 18, to: 18 },
      dull: { from: 24, to: 24 },
      heavy: { from: 48, to: 96 },
    });
    expect(Object.keys(exposureAt(studio, 20) ?? {})).toEqual([...WEATHERS]);
    expect(exposureAt(studio, -0.1)).toBeNull();
  });

  it('has neither rise nor set at a polar midnight sun, and no seconds in a polar night', () => {
    const north = { lat: 78.22, lon: 15.65, zone: 'Arctic/Longyearbyen' };
    const summer = dayOfLight(north, Temporal.PlainDate.from('2027-06-21'), 10, studio);
    expect(summer.times).toMatchObject({ sunrise: null, sunset: null, state: 'up all day' });
    expect(summer.moments.every(({ exposure }) => exposure !== null)).toBe(true);
    const winter = dayOfLight(north, Temporal.PlainDate.from('2027-12-21'), 10, studio);
    expect(winter).toMatchObject({ window: null, times: { state: 'down all day' } });
    expect(winter.moments.every(({ exposure }) => exposure === null)).toBe(true);
  });
});

describe('words and times', () => {
  it('writes an instant with the offset of its zone, rounded to the second', () => {
    const at = Temporal.Instant.from('2027-05-14T03:58:11.600Z');
    expect(withOffset('Europe/London', at)).toBe('2027-05-14T04:58:12+01:00');
    expect(withOffset('America/St_Johns', at)).toBe('2027-05-14T01:28:12-02:30');
    expect(withOffset('Asia/Kathmandu', at)).toBe('2027-05-14T09:43:12+05:45');
    expect(withOffset('Etc/UTC', Temporal.Instant.from('2027-12-31T23:59:59.700Z'))).toBe(
      '2028-01-01T00:00:00+00:00',
    );
  });

  it('tells seconds as people do', () => {
    expect(secondsInWords({ from: 7.8, to: 12.2 })).toBe('8 to 12');
    expect(secondsInWords({ from: 7.9, to: 8.2 })).toBe('8');
    expect(secondsInWords({ from: 1.44, to: 1.9 })).toBe('1.4 to 1.9');
    expect(secondsInWords({ from: 0.01, to: 0.02 })).toBe('0.1');
  });
});
