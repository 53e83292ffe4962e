// A journey reckoned for programs: by names, coordinates and a studio, with plans of one's own, and with mistakes.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

const ask = async (payload: unknown) => {
  const answer = await house.app.inject({
    method: 'POST',
    url: '/api/v1/travel/estimate',
    payload: payload as object,
  });
  return { status: answer.statusCode, body: answer.json() };
};
const YORK = { place: 'York, United Kingdom' };

describe('the journey calculator for programs', () => {
  it('tells the way from a town to a studio, with the day spelled out', async () => {
    const { status, body } = await ask({
      from: YORK,
      to: { studio: studio.slug },
      startsAt: '2027-05-14T10:00',
    });
    expect(status).toBe(200);
    expect(body).toMatchObject({
      from: { name: 'York, England, United Kingdom', zone: 'Europe/London' },
      crossing: { kind: 'none', words: null },
      mode: 'car',
      minutes: { from: 75, to: 120 },
      own: [],
      night: { before: false, words: 'There and back fit into one day.' },
      bookDaysBefore: null,
      day: {
        leaveBy: '2027-05-14T07:30:00+01:00',
        leaveByInWords: 'Friday 14 May 2027, 07:30',
        atStudioBy: '2027-05-14T09:30:00+01:00',
        hoursOutAndBack: 6.5,
      },
    });
    expect(body.ways.map(({ mode }: { mode: string }) => mode)).toEqual(['car', 'coach', 'train']);
    expect(body.notes.length).toBeGreaterThan(3);
  });

  it('takes a plan of one’s own over each figure, across the date line', async () => {
    const { body } = await ask({
      from: { lat: 34.05, lon: -118.24 },
      to: { place: 'Auckland, New Zealand' },
      startsAt: '2027-01-15T10:00',
      plan: { mode: 'flight', minutes: 1200, night: 'yes', marginMinutes: 60 },
    });
    expect(body).toMatchObject({
      from: { zone: 'America/Los_Angeles' },
      own: ['mode', 'minutes', 'night', 'margin'],
      minutes: { from: 1200, to: 1200 },
      bookDaysBefore: 90,
      day: {
        leaveBy: '2027-01-13T03:00:00-08:00',
        thereBy: '2027-01-14T20:00:00+13:00',
        clockDifferenceMinutes: 1260,
      },
    });
  });

  it('tells of the sea, and lets the zone be corrected', async () => {
    const { body } = await ask({
      from: { place: 'Dublin, Ireland', zone: 'Europe/Paris' },
      to: { studio: studio.slug },
    });
    expect(body).toMatchObject({
      from: { zone: 'Europe/Paris' },
      crossing: { kind: 'sea' },
      mode: 'ferry',
      day: null,
    });
    expect(body.crossing.words).toContain(
      'A sea is on the way from Ireland to Great Britain: a ferry or a flight is needed.',
    );
  });

  it('has a point far from any town say its zone', async () => {
    const there = { studio: studio.slug };
    const { status, body } = await ask({ from: { lat: -50, lon: -120 }, to: there });
    expect([status, body.errors]).toEqual([
      422,
      [{ pointer: '/from/zone', detail: 'No town is near this point; please give its time zone.' }],
    ]);
    expect((await ask({ from: { lat: -50, lon: -120, zone: 'Etc/GMT+8' }, to: there })).status).toBe(200);
  });

  const good = { from: YORK, to: { place: 'Whitby, United Kingdom' } };
  it.each<[string, object, string]>([
    ['nothing', {}, '/from'],
    ['no place', { ...good, from: {} }, '/from/place'],
    ['a place and a point', { ...good, from: { ...YORK, lat: 1, lon: 2 } }, '/from/place'],
    ['half a point', { ...good, from: { lat: 1 } }, '/from/place'],
    ['a latitude beyond the pole', { ...good, from: { lat: 91, lon: 2 } }, '/from/lat'],
    ['a place of which there are several', { ...good, to: { place: 'Springfield' } }, '/to/placeId'],
    ['an unknown place', { ...good, to: { place: 'Zzyqqx' } }, '/to/place'],
    ['a postcode', { ...good, from: { place: 'YO1 7HH' } }, '/from/place'],
    ['an unknown zone', { ...good, from: { ...YORK, zone: 'Mars/Olympus' } }, '/from/zone'],
    ['a studio and a place', { ...good, to: { studio: 'x', place: 'Whitby' } }, '/to/place'],
    ['a start in words', { ...good, startsAt: 'on Friday' }, '/startsAt'],
    ['a day that the calendar has not', { ...good, startsAt: '2027-02-30T10:00' }, '/startsAt'],
    ['an hour that clocks skip', { ...good, startsAt: '2027-03-28T01:30' }, '/startsAt'],
    ['a journey of a fortnight', { ...good, plan: { minutes: 20_160 } }, '/plan/minutes'],
    ['a way of travelling that is none', { ...good, plan: { mode: 'broom' } }, '/plan/mode'],
  ])('tells a mistake where it is: %s', async (_name, sent, pointer) => {
    const { status, body } = await ask(sent);
    expect(status).toBe(422);
    expect(body.errors.map((one: { pointer: string }) => one.pointer)).toContain(pointer);
  });

  it('knows no studio that is not there', async () => {
    const { status, body } = await ask({ ...good, to: { studio: 'nowhere' } });
    expect([status, body.code]).toEqual([404, 'unknown_studio']);
  });

  it('has its examples in the description of the API, and both are answered', async () => {
    const { paths } = (await house.app.inject({ url: '/api/openapi.json' })).json();
    const { examples } = paths['/api/v1/travel/estimate'].post.requestBody.content['application/json'];
    expect(Object.keys(examples)).toHaveLength(2);
    for (const { value: example } of Object.values<{ value: { to: { studio?: string } } }>(examples)) {
      const to = example.to.studio ? { studio: studio.slug } : example.to;
      expect((await ask({ ...example, to })).status).toBe(200);
    }
  });
});
