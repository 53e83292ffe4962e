// The first and last years that the daylight door takes, held against astronomy-engine (MIT, tests only).
import * as astronomy from 'astronomy-engine';
import { FIRST_DATE, LAST_DATE } from '../../src/daylight/day.calc.js';
import { sunTimes } from '../../src/daylight/sun.calc.js';

const LATITUDES = [-55, -35, 0, 35, 54.49, 60];
const days = [FIRST_DATE, LAST_DATE.with({ month: 1, day: 1 })].flatMap((first) =>
  Array.from({ length: 24 }, (_, step) => first.add({ days: step * 15 })),
);

it('rise and set stay within 15 seconds of the reference library in the first and the last year', () => {
  const apart: number[] = [];
  for (const lat of LATITUDES)
    for (const date of days) {
      const { sunrise, sunset, solarNoon } = sunTimes({ lat, lon: 0, zone: 'Etc/UTC' }, date);
      const observer = new astronomy.Observer(lat, 0, 0);
      const noon = solarNoon.epochMilliseconds;
      const rise = astronomy.SearchRiseSet(astronomy.Body.Sun, observer, 1, new Date(noon - 43_200_000), 0.5);
      const set = astronomy.SearchRiseSet(astronomy.Body.Sun, observer, -1, new Date(noon), 0.5);
      for (const [ours, theirs] of [[sunrise, rise] as const, [sunset, set] as const])
        apart.push(
          Math.abs((ours?.epochMilliseconds ?? Number.NaN) - (theirs?.date.getTime() ?? Number.NaN)) / 1000,
        );
    }
  expect(apart).toHaveLength(LATITUDES.length * days.length * 2);
  expect(apart.every((seconds) => seconds <= 15)).toBe(true);
  expect(Math.max(...apart)).toBeGreaterThan(0);
});
