// The daylight API through its door, against published times of rise and set and published heights of the sun.
import { Temporal } from 'temporal-polyfill';
import type { z } from 'zod';
import type { daylightAnswer } from '../../src/daylight/daylight.schemas.js';
import { openTestHouse, type TestHouse } from '../support/house.js';

let house: TestHouse;
beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());

const GOOD = { lat: 54.49, lon: -0.61, zone: 'Europe/London', date: '2027-05-14' };

async function ask(query: Record<string, string | number>) {
  const words = Object.entries(query).map(([name, value]) => [name, String(value)] as [string, string]);
  const answer = await house.app.inject({ url: `/api/v1/daylight?${new URLSearchParams(words)}` });
  return { status: answer.statusCode, type: String(answer.headers['content-type']), body: answer.json() };
}
async function day(query: Record<string, string | number>): Promise<z.output<typeof daylightAnswer>> {
  const { status, body } = await ask(query);
  expect(status).toBe(200);
  return body;
}
const secondsApart = (a: string | null, b: string) =>
  Math.abs(
    Temporal.Instant.from(a ?? '')
      .since(Temporal.Instant.from(b))
      .total('seconds'),
  );

describe('GET /api/v1/daylight', () => {
  // U.S. Naval Observatory, one-day data of 2026, as printed in mourner/suncalc, test/fixtures.json; whole minutes.
  it.each([
    [59.32938, 18.06871, 'Europe/Stockholm', '2026-03-20', '04:50', '17:02'],
    [59.32938, 18.06871, 'Europe/Stockholm', '2026-12-21', '07:43', '13:48'],
    [64.13548, -21.89541, 'Atlantic/Reykjavik', '2026-09-23', '07:13', '19:25'],
    [50.45466, 30.5238, 'Europe/Kyiv', '2026-06-21', '01:46', '18:13'],
    [-34.61315, -58.37723, 'America/Argentina/Buenos_Aires', '2026-06-21', '11:00', '20:50'],
  ])(
    'rises and sets at %d, %d (%s) on %s as the Naval Observatory says',
    async (lat, lon, zone, date, rise, set) => {
      const { sunrise, sunset, state } = await day({ lat, lon, zone, date });
      expect(state).toBe('rises or sets');
      expect(secondsApart(sunrise, `${date}T${rise}Z`)).toBeLessThanOrEqual(60);
      expect(secondsApart(sunset, `${date}T${set}Z`)).toBeLessThanOrEqual(60);
    },
  );

  // The same source's one-year table of 2019 (cosinekitty/astronomy, riseset.txt), on both sides of a clock change.
  it('keeps the sun and moves the clock when clocks change', async () => {
    const at = { lat: 29, lon: -81, zone: 'America/New_York' };
    const before = await day({ ...at, date: '2019-03-09' });
    const after = await day({ ...at, date: '2019-03-10' });
    expect(before.sunrise).toMatch(/^2019-03-09T06:4[01]:\d\d-05:00$/);
    expect(after.sunrise).toMatch(/^2019-03-10T07:(39|40):\d\d-04:00$/);
    expect(secondsApart(after.sunrise, '2019-03-10T11:40Z')).toBeLessThanOrEqual(60);
    expect(after.halfHours).toHaveLength(46);
    expect(after.halfHours.slice(3, 5).map(({ at: time }) => time)).toEqual([
      '2019-03-10T01:30:00-05:00',
      '2019-03-10T03:00:00-04:00',
    ]);
  });

  // JPL Horizons, refracted, as printed in mourner/suncalc, test/fixtures.json.
  it.each([
    [
      59.32938,
      18.06871,
      'Europe/Stockholm',
      '2026-03-20',
      '2026-03-20T13:00:00+01:00',
      29.311911,
      198.666578,
    ],
    [
      64.13548,
      -21.89541,
      'Atlantic/Reykjavik',
      '2026-06-21',
      '2026-06-21T12:00:00+00:00',
      46.741206,
      149.40522,
    ],
  ])(
    'has the sun where Horizons has it: %d, %d (%s) on %s',
    async (lat, lon, zone, date, at, altitude, azimuth) => {
      const { halfHours } = await day({ lat, lon, zone, date });
      const found = halfHours.find((one) => one.at === at);
      expect(Math.abs((found?.altitude ?? 0) - altitude)).toBeLessThanOrEqual(0.02);
      expect(Math.abs((found?.azimuth ?? 0) - azimuth)).toBeLessThanOrEqual(0.03);
    },
  );

  it('opens and closes the light window at the floor, and may have none', async () => {
    const high = await day({ ...GOOD, floor: 20 });
    const low = await day({ ...GOOD, floor: 10 });
    const inside = low.halfHours.filter(
      ({ at }) => at >= (low.lightWindow?.start ?? '') && at <= (low.lightWindow?.end ?? ''),
    );
    expect(inside.every(({ altitude }) => altitude >= 10)).toBe(true);
    expect(inside.length).toBeGreaterThan(20);
    expect(Date.parse(high.lightWindow?.start ?? '')).toBeGreaterThan(
      Date.parse(low.lightWindow?.start ?? ''),
    );
    expect((await day({ ...GOOD, date: '2027-12-21', floor: 15 })).lightWindow).toBeNull();
  });

  it('has no rise, set or window in a polar night', async () => {
    const night = { lat: 78.22, lon: 15.65, zone: 'Arctic/Longyearbyen', date: '2027-12-21' };
    expect(await day(night)).toMatchObject({
      sunrise: null,
      sunset: null,
      lightWindow: null,
      state: 'down all day',
    });
  });

  it('says what it assumed, and that the sky figures are not confirmed', async () => {
    expect(await day(GOOD)).toMatchObject({
      floor: 10,
      window: 'north window',
      reference: { seconds: 6, altitude: 45, assumed: true },
      skyCoefficientsConfirmed: false,
    });
    const own = await day({ ...GOOD, referenceSeconds: 12, referenceAltitude: 45 });
    expect(own.reference).toEqual({ seconds: 12, altitude: 45, assumed: false });
    const usual = await day(GOOD);
    const noon = usual.halfHours.findIndex(({ altitude }) => altitude > 50);
    expect(own.halfHours[noon]?.exposure?.clear?.to).toBeCloseTo(
      2 * (usual.halfHours[noon]?.exposure?.clear?.to ?? 0),
      1,
    );
  });

  it('needs more seconds in a glass room at low sun than a north window does, by the model', async () => {
    const ratio = async (window: string) => {
      const { halfHours } = await day({ ...GOOD, window });
      const up = halfHours.flatMap(({ exposure }) => exposure?.clear?.to ?? []);
      return Math.max(...up) / Math.min(...up);
    };
    expect(await ratio('glass room')).toBeGreaterThan(2 * (await ratio('north window')));
  });

  it.each([
    [{ lat: 91 }, '/lat'],
    [{ zone: 'Mars/Olympus' }, '/zone'],
    [{ date: '2027-02-30' }, '/date'],
    [{ date: '1750-06-21' }, '/date'],
    [{ floor: 75 }, '/floor'],
    [{ window: 'east window' }, '/window'],
  ])('refuses %j with a problem document that points at the field', async (changed, pointer) => {
    const { status, type, body } = await ask({ ...GOOD, ...changed });
    expect(status).toBe(422);
    expect(type).toContain('application/problem+json');
    expect(body).toMatchObject({ code: 'bad_input', errors: [{ pointer }] });
    expect(body.errors[0].detail).toMatch(/^[A-Z].*\.$/);
  });

  it('names all that is missing', async () => {
    const { status, body } = await ask({});
    expect(status).toBe(422);
    expect(body.errors.map((one: { pointer: string }) => one.pointer)).toEqual([
      '/lat',
      '/lon',
      '/zone',
      '/date',
    ]);
  });

  it('is in the description of the API with its parameters', async () => {
    const document = (await house.app.inject({ url: '/api/openapi.json' })).json();
    const parameters = document.paths['/api/v1/daylight'].get.parameters;
    expect(
      parameters
        .filter((one: { required: boolean }) => one.required)
        .map((one: { name: string }) => one.name),
    ).toEqual(['lat', 'lon', 'zone', 'date']);
  });
});
