import fc from 'fast-check';
import { drivingHours, geodesicMetres, roadKm } from '../../src/travel/distance.calc.js';
import { journeyGlance } from '../../src/travel/journey-glance.calc.js';
import { NO_PLAN } from '../../src/travel/plan.schemas.js';

const LONDON = 'Europe/London';
const KITTIWAKE_YARD = { lat: 54.49, lon: -0.61, zone: LONDON };
const from = (lat: number, lon: number, plan = NO_PLAN, zone = LONDON) =>
  journeyGlance({ lat, lon, zone }, KITTIWAKE_YARD, plan);

test('from next door, from York, London, Land’s End, Dublin, Bergen and New York', () => {
  expect(from(54.486, -0.615)).toMatchObject({ km: 1, mode: 'walk', overnight: false, farAway: 'near' });
  // by hand: 66.7 km x 1.3 = 86.7 km, 73.7 to 99.7 km, at 60 km/h 1.23 to 1.66 h, with 5 and 15 minutes to park
  expect(from(53.958, -1.083)).toMatchObject({
    km: 67,
    mode: 'car',
    own: false,
    roadKm: { from: 70, to: 100 },
    hours: { from: 75 / 60, to: 2 },
    overnight: false,
    farAway: 'day trip',
  });
  expect(from(51.5085, -0.1257)).toMatchObject({ km: 330, overnight: true, farAway: 'night stay' });
  expect(from(50.066, -5.715)).toMatchObject({ km: 600, overnight: true, farAway: 'night stay' });
  expect(from(53.333, -6.249)).toMatchObject({
    km: 390,
    mode: 'ferry',
    roadKm: null,
    overnight: true,
    crossing: { kind: 'sea', from: 'Ireland', to: 'Great Britain' },
  });
  expect(from(60.393, 5.324, NO_PLAN, 'Europe/Oslo')).toMatchObject({ mode: 'flight', farAway: 'flight' });
  expect(from(40.714, -74.006)).toMatchObject({
    km: 5460,
    roadKm: null,
    hours: null,
    overnight: true,
    farAway: 'flight',
  });
});

test('further along one land it only ever becomes further: near, day trip, night stay, flight', () => {
  const studio = { lat: 48.85, lon: 2.35, zone: 'Europe/Paris' };
  const kinds: string[] = [];
  let last = 0;
  for (let lon = 2.35; lon < 20; lon += 0.05) {
    const glance = journeyGlance({ lat: 48.85, lon, zone: 'Europe/Paris' }, studio);
    if (kinds.at(-1) !== glance.farAway) kinds.push(glance.farAway);
    expect(glance.km).toBeGreaterThanOrEqual(last);
    last = glance.km;
  }
  expect(kinds).toEqual(['near', 'day trip', 'night stay', 'flight']);
});

test('what somebody says of their journey wins over what is guessed, each for itself', () => {
  expect(from(51.5085, -0.1257, { ...NO_PLAN, night: 'no' })).toMatchObject({
    own: true,
    overnight: false,
    farAway: 'day trip',
  });
  expect(from(51.5085, -0.1257, { ...NO_PLAN, mode: 'train', minutes: 200 })).toMatchObject({
    mode: 'train',
    hours: { from: 200 / 60, to: 200 / 60 },
    overnight: false,
  });
  expect(from(53.958, -1.083, { ...NO_PLAN, mode: 'flight' })).toMatchObject({
    farAway: 'flight',
    hours: null,
  });
  expect(from(40.714, -74.006, { ...NO_PLAN, minutes: 780 })).toMatchObject({ hours: { from: 13, to: 13 } });
});

test('the range shown holds the guess it is made from', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 49, max: 58, noNaN: true }),
      fc.double({ min: -10, max: 8, noNaN: true }),
      (lat, lon) => {
        const { roadKm: road, hours, mode } = from(lat, lon);
        const guess = roadKm(geodesicMetres({ lat, lon }, KITTIWAKE_YARD) / 1000);
        if (mode !== 'car' || road === null || hours === null) return;
        expect(road.from).toBeLessThanOrEqual(guess);
        expect(road.to).toBeGreaterThanOrEqual(guess);
        expect(hours.from).toBeLessThanOrEqual(drivingHours(guess) + 0.1);
        expect(hours.to).toBeGreaterThanOrEqual(drivingHours(guess));
      },
    ),
  );
});
