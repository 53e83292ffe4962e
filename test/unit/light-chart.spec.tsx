// The pictures of a year and of a day: every slot is a mark, light is drawn to scale, clock changes show as steps.
import { render } from 'preact-render-to-string';
import { Temporal } from 'temporal-polyfill';
import { dayOfLight } from '../../src/daylight/day.calc.js';
import { exposureRows, highestSun, lightOnTheWall, sunPath } from '../../src/daylight/drawing.calc.js';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { type ChartDay, LightChart } from '../../src/platform/html/kit/light-chart.js';
import { curveInWords, SunCurve } from '../../src/platform/html/kit/sun-curve.js';

const YARD = { lat: 54.49, lon: -0.61, zone: 'Europe/London' };
const STUDIO = { windowKind: 'north window', referenceSeconds: 6, referenceAltitudeDegrees: 45 } as const;
const STATES = ['open', 'held', 'taken'] as const;
const day = (text: string) => Temporal.PlainDate.from(text);
const time = (text: string) => Temporal.PlainTime.from(text);

/** Every day of a year, with an open, a held and a taken place on each Friday. */
function year(place: typeof YARD, floor = 10, first = '2027-01-01', length = 365): ChartDay[] {
  return Array.from({ length }, (_, index) => {
    const date = day(first).add({ days: index });
    const places = STATES.map((state, at) => ({
      from: time(`${10 + 2 * at}:00`),
      until: time(`${11 + 2 * at}:15`),
      state,
    }));
    return {
      date,
      light: lightOnTheWall(place.zone, lightWindow(place, date, floor)),
      places: date.dayOfWeek === 5 ? places : [],
      closed: false,
    };
  });
}
const draw = (days: ChartDay[], today = '2027-05-14', names: 'months' | 'days' = 'months') =>
  render(<LightChart days={days} today={day(today)} names={names} label="Light and places" />);
const pathOf = (html: string, name: string) =>
  new RegExp(`<path class="${name}" d="([^"]*)"`).exec(html)?.[1] ?? '';
const moves = (path: string) => path.match(/M/g)?.length ?? 0;
const numbers = (path: string) => (path.match(/-?[\d.]+/g) ?? []).map(Number);

describe('a year of light', () => {
  const days = year(YARD);
  const html = draw(days);

  it('has a mark for each place, by its state, and half a mark more for each held one', () => {
    const fridays = days.filter(({ places }) => places.length > 0).length;
    for (const state of STATES) expect(moves(pathOf(html, `place-mark ${state}`))).toBe(fridays);
    expect(moves(pathOf(html, 'place-half'))).toBe(fridays);
    expect(fridays).toBe(53);
  });

  it('draws nothing that is not a number, wherever the studio stands', () => {
    const anywhere = [
      YARD,
      { lat: 78.22, lon: 15.65, zone: 'Arctic/Longyearbyen' },
      { lat: -54.8, lon: -68.3, zone: 'America/Argentina/Ushuaia' },
      { lat: 0, lon: 172.9, zone: 'Pacific/Tarawa' },
      { lat: -13.83, lon: -171.76, zone: 'Pacific/Apia' },
    ];
    for (const place of anywhere) expect(draw(year(place))).not.toMatch(/NaN|Infinity|undefined/);
    expect(draw([])).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('steps by an hour where clocks change, and by minutes elsewhere', () => {
    const evenings = [...pathOf(html, 'light').matchAll(/H([\d.]+)V[\d.]+/g)].map((found) =>
      Number(found[1]),
    );
    const hour = (360 - 34 - 8) / 18; // three to nine in the evening, at this latitude and floor
    const steps = evenings
      .slice(0, 365)
      .map((x, index) => (index === 0 ? 0 : x - (evenings[index - 1] ?? 0)));
    const spring = steps.indexOf(Math.max(...steps));
    const autumn = steps.indexOf(Math.min(...steps.slice(0, 364)));
    expect(days[spring]?.date.toString()).toBe('2027-03-28');
    expect(days[autumn]?.date.toString()).toBe('2027-10-31');
    expect(Math.abs((steps[spring] ?? 0) - hour)).toBeLessThan(hour / 10);
  });

  it('is one band where each day has light, and falls into parts where winter has none', () => {
    expect(moves(pathOf(html, 'light'))).toBe(1);
    expect(moves(pathOf(draw(year(YARD, 15)), 'light'))).toBe(1); // from January's first light to November's last
    expect(moves(pathOf(draw(year(YARD, 15, '2027-05-01')), 'light'))).toBe(2);
    expect(pathOf(draw(year(YARD, 60)), 'light')).toBe('');
  });

  it('has a line for today when today is in it, and none otherwise', () => {
    expect(pathOf(html, 'today-line')).toMatch(/^M/);
    expect(draw(days, '2028-01-01')).not.toContain('today-line');
  });

  it('keeps marks of neighbouring days apart', () => {
    const daily = days.map((one) => ({
      ...one,
      places: days[0]?.date ? (days.find((other) => other.places.length > 0)?.places ?? []) : [],
    }));
    const heights = [...pathOf(draw(daily), 'place-mark open').matchAll(/v([\d.]+)h/g)].map((found) =>
      Number(found[1]),
    );
    expect(heights).toHaveLength(365);
    expect(Math.max(...heights)).toBeLessThan(1.7); // a day is so high
  });

  it('hatches closed days only', () => {
    expect(pathOf(html, 'closed-days')).toBe('');
    const shut = days.map((one) => ({ ...one, closed: one.date.month === 8 }));
    expect(moves(pathOf(draw(shut), 'closed-days'))).toBeGreaterThan(31);
    for (const x of numbers(pathOf(draw(shut), 'closed-days'))) expect(x).toBeLessThan(700);
  });

  it('names months in a year and days in a month', () => {
    expect(html.match(/>(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)</g)).toHaveLength(12);
    const may = draw(year(YARD, 10, '2027-05-01', 31), '2027-05-14', 'days');
    expect(may).toContain('>Fri 14<');
    expect(moves(pathOf(may, 'place-mark open'))).toBe(4);
  });

  it('weighs little', () => {
    expect(html.length).toBeLessThan(25_000);
  });
});

describe('the sun’s way through a day', () => {
  const may = dayOfLight(YARD, day('2027-05-14'), 10, STUDIO);
  const light = lightOnTheWall(YARD.zone, may.window);
  const noon = highestSun(YARD.zone, may);

  it('begins and ends on the horizon and is highest at noon', () => {
    const path = sunPath(YARD.zone, may);
    expect([path[0]?.altitude, path.at(-1)?.altitude]).toEqual([0, 0]);
    expect(Math.max(...path.map(({ altitude }) => altitude))).toBeLessThanOrEqual(noon.altitude);
    expect(noon.altitude).toBeCloseTo(54.3, 0);
  });

  it('says in words what it draws, with the places', () => {
    const places = [{ from: time('09:30'), until: time('10:45'), state: 'open' as const }];
    const html = render(
      <SunCurve points={sunPath(YARD.zone, may)} floor={10} light={light} places={places} noon={noon} />,
    );
    const words = curveInWords({ floor: 10, light, places, noon });
    expect(words).toMatch(
      /^The sun is highest at 12:59, at 54 degrees; light is good from 10 degrees on\. Good light from 06:\d\d to 19:\d\d\. Open: 09:30 to 10:45\.$/,
    );
    expect(html).toContain(`aria-label="${words}"`);
    expect(html.match(/place-mark/g)).toHaveLength(1);
    expect(html).not.toMatch(/NaN|undefined/);
  });

  it('bears a polar night, a midnight sun and days of clock changes', () => {
    const north = { lat: 78.22, lon: 15.65, zone: 'Arctic/Longyearbyen' };
    for (const date of ['2027-12-21', '2027-06-21', '2027-03-28', '2027-10-31']) {
      const one = dayOfLight(north, day(date), 10, STUDIO);
      const html = render(
        <SunCurve
          points={sunPath(north.zone, one)}
          floor={10}
          light={lightOnTheWall(north.zone, one.window)}
          noon={highestSun(north.zone, one)}
        />,
      );
      expect(html).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect(sunPath(north.zone, dayOfLight(north, day('2027-12-21'), 10, STUDIO))).toEqual([]);
  });

  it('has a row of seconds for each full hour with the sun up', () => {
    const rows = exposureRows(YARD.zone, may);
    expect(rows[0]?.[0]).toBe('06:00');
    expect(rows.at(-1)?.[0]).toBe('20:00');
    expect(rows).toHaveLength(15);
    expect(rows.every((row) => row.length === 7)).toBe(true);
  });
});
