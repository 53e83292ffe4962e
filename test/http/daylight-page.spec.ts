// The public daylight calculator, without a script: by name, by coordinates, with mistakes.
import { jest } from '@jest/globals';
import { Gazetteer } from '../../src/travel/gazetteer.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let visitor: Visitor;
beforeAll(async () => {
  house = await openTestHouse();
  visitor = new Visitor(house);
});
afterAll(() => house.close());

const look = (query: Record<string, string>) => visitor.get(`/daylight?${new URLSearchParams(query)}`);
const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');
const DAY = { 'date-day': '14', 'date-month': 'May', 'date-year': '2027' };

describe('the daylight page', () => {
  it('asks for a place first, with today and the usual figures filled in', async () => {
    const { status, html } = await visitor.get('/daylight');
    expect(status).toBe(200);
    expect(html).toContain('method="get"');
    expect(html).toMatch(/name="date-year"[^>]*value="2026"/);
    expect(html).toMatch(/name="floor"[^>]*value="10"/);
    expect(html).not.toContain('<svg class="sun-curve"');
  });

  it('finds a place by its name and shows the day in words, picture and table', async () => {
    const { status, html } = await look({ place: 'Whitby, United Kingdom', ...DAY });
    const text = textOf(html);
    expect(status).toBe(200);
    expect(text).toContain('Light on Friday 14 May 2027');
    expect(text).toMatch(/Whitby, England, United Kingdom\s*: good light from 06:\d\d to 19:\d\d/);
    expect(html).toContain('<svg class="sun-curve"');
    expect(html.match(/<th[^>]*scope="row"/g)?.length).toBeGreaterThan(14); // an hour a row while the sun is up
    expect(text).toContain('not confirmed');
    expect(text).toContain('GeoNames');
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('shows the same day for the same place by its coordinates, and by a day in the address', async () => {
    const { html } = await look({ lat: '54.49', lon: '-0.61', zone: 'Europe/London', date: '2027-05-14' });
    expect(textOf(html)).toMatch(/54\.49°, -0\.61°\s*: good light from 06:\d\d to 19:\d\d/);
  });

  // U.S. Naval Observatory, 2026-12-21, Stockholm: rise 07:43 and set 13:48 UTC (mourner/suncalc, test/fixtures.json).
  it('rises and sets as the Naval Observatory says, by the clocks of the place', async () => {
    const { html } = await look({
      lat: '59.32938',
      lon: '18.06871',
      zone: 'Europe/Stockholm',
      date: '2026-12-21',
    });
    const times = /Sunrise.*?(\d\d:\d\d).*?Sunset.*?(\d\d:\d\d)/.exec(textOf(html));
    expect(['08:42', '08:43', '08:44']).toContain(times?.[1]);
    expect(['14:47', '14:48', '14:49']).toContain(times?.[2]);
  });

  it('asks which place is meant, and takes the answer', async () => {
    const first = await look({ place: 'Springfield', ...DAY });
    expect(first.status).toBe(422);
    expect(textOf(first.html)).toContain('Please choose which of these places it is.');
    const id = /type="radio" name="placeId" value="(\d+)"/.exec(first.html)?.[1] ?? '';
    const { status, html } = await look({ place: 'Springfield', placeId: id, ...DAY });
    expect(status).toBe(200);
    expect(textOf(html)).toMatch(/Springfield, [^:]+: good light/);
  });

  it('goes by the name typed last, whatever place was chosen before', async () => {
    const first = await look({ place: 'Springfield', ...DAY });
    const id = /type="radio" name="placeId" value="(\d+)"/.exec(first.html)?.[1] ?? '';
    const { html } = await look({ place: 'Whitby, United Kingdom', placeId: id, ...DAY });
    expect(textOf(html)).toContain('Whitby, England, United Kingdom');
  });

  it('tells every mistake beside its field and keeps what was typed', async () => {
    const { status, html } = await look({
      lat: '95',
      lon: '0',
      zone: 'Mars/Olympus',
      'date-day': '30',
      'date-month': '2',
      'date-year': '2027',
      floor: 'high',
    });
    expect(status).toBe(422);
    const text = textOf(html);
    expect(html).toContain('<title>Error: ');
    for (const sentence of [
      /latitude is a number/,
      /time zone is not known/,
      /Please give the date/,
      /least height/,
    ])
      expect(text).toMatch(sentence);
    for (const typed of ['95', 'Mars/Olympus', 'high']) expect(html).toContain(`value="${typed}"`);
  });

  it('answers strange questions with a sentence, never with a failure', async () => {
    for (const query of [
      'place=',
      'place=zzzzqqq',
      'placeId=999999999',
      'place[]=1&lat=1&lat=2',
      'date=2027-13-45&lat=1&lon=1&zone=Etc/UTC',
      'lat=90&lon=0&zone=Etc/UTC&date=2027-12-21',
      'lat=-90&lon=180&zone=Pacific/Apia&date=2011-12-30',
    ]) {
      const { status, html } = await visitor.get(`/daylight?${query}`);
      expect([query, [200, 422].includes(status)]).toEqual([query, true]);
      expect(html).not.toMatch(/NaN|Infinity/);
    }
  });

  it('says so where the sun does not rise or does not set', async () => {
    const at = { lat: '78.22', lon: '15.65', zone: 'Arctic/Longyearbyen' };
    expect(textOf((await look({ ...at, date: '2027-12-21' })).html)).toContain(
      'The sun does not rise that day.',
    );
    expect(textOf((await look({ ...at, date: '2027-06-21' })).html)).toContain('does not set');
  });
});

it('the list of places is read once pages are answered, before anybody asks', async () => {
  const warm = jest.spyOn(Gazetteer.prototype, 'warm');
  const other = await openTestHouse();
  try {
    expect(warm).not.toHaveBeenCalled();
    await other.listen();
    await fetch(`${other.config.publicUrl}/healthz`);
    expect(warm).toHaveBeenCalledTimes(1);
    await warm.mock.results[0]?.value;
  } finally {
    warm.mockRestore();
    await other.close();
  }
});
