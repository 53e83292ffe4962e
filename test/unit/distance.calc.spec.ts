import fc from 'fast-check';
import { drivingHours, geodesicMetres, roadKm } from '../../src/travel/distance.calc.js';

const KITTIWAKE_YARD = { lat: 54.49, lon: -0.61 };

// geographiclib/geographiclib-js, geodesic/test/geodesictest.js: the table of test cases, and GeodSolve0, 2, 5 and
// others by their comments. Last column: how near it has to come, in metres.
const VECTORS: [string, [number, number], [number, number], number, number][] = [
  ['New York JFK to Paris CDG', [40.6, -73.8], [49.01666667, 2.55], 5853226, 0.5],
  ['over the north', [35.60777, -139.44815], [-11.17491, -69.95921], 8935244.5604818305, 1e-8],
  ['across the date line', [55.52454, 106.05087], [77.03196, 197.18234], 4105086.1713924406, 1e-8],
  ['over the equator', [-21.97856, 142.59065], [41.84138, 98.56635], 8394328.894657671, 1e-8],
  ['a walk', [54.1589, 15.3872], [54.1591, 15.3877], 39.527686385, 5e-9],
  ['nearly opposite on the equator', [0, 0], [0, 179], 19926189, 0.5],
  ['nearer to opposite on the equator', [0, 0], [0, 179.5], 19980862, 0.5],
  ['nearly opposite', [88.202499451857, 0], [-88.202499451857, 179.981022032992859592], 20003898.214, 0.5e-3],
  // T. Vincenty's formulae as Geoscience Australia prints them worked through (GDA Technical Manual): Flinders Peak,
  // 37 57 03.72030 S 144 25 29.52440 E, to Buninyong, 37 39 10.15610 S 143 55 35.38390 E; on GRS80, not 0.1 mm from WGS84.
  [
    'Flinders Peak to Buninyong',
    [-37.95103341666667, 144.42486788888889],
    [-37.65282113888889, 143.92649552777778],
    54972.271,
    1e-3,
  ],
];
test.each(VECTORS)('%s: %p to %p is %d m', (_name, [lat, lon], [lat2, lon2], metres, gate) => {
  const found = geodesicMetres({ lat, lon }, { lat: lat2, lon: lon2 });
  expect(Math.abs(found - metres)).toBeLessThanOrEqual(gate);
});

test('the way back is as long, and a whole turn of longitude changes nothing', () => {
  const there = geodesicMetres(KITTIWAKE_YARD, { lat: -41.32, lon: 174.81 });
  expect(geodesicMetres({ lat: -41.32, lon: 174.81 }, KITTIWAKE_YARD)).toBeCloseTo(there, 6);
  expect(geodesicMetres(KITTIWAKE_YARD, { lat: -41.32, lon: 174.81 - 360 })).toBeCloseTo(there, 6);
});

test('beyond the poles there is no distance', () => {
  expect(() => geodesicMetres(KITTIWAKE_YARD, { lat: 90.1, lon: 0 })).toThrow(RangeError);
  expect(() => geodesicMetres({ lat: Number.NaN, lon: 0 }, KITTIWAKE_YARD)).toThrow(RangeError);
});

test('the road is 1.4 times as long nearby, 1.3 further on, 1.2 far away', () => {
  expect([20, 100, 250, 500].map((km) => [km, Number((roadKm(km) / km).toFixed(6))])).toEqual([
    [20, 1.4],
    [100, 1.3],
    [250, 1.3],
    [500, 1.2],
  ]);
});

test('between the lengths the road stays within 1.2 and 1.4 times the straight line', () => {
  for (let km = 1; km <= 800; km += 1) {
    expect(roadKm(km) / km).toBeGreaterThanOrEqual(1.2 - 1e-9);
    expect(roadKm(km) / km).toBeLessThanOrEqual(1.4 + 1e-9);
  }
});

test('who lives further away never has the shorter way or the earlier arrival', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 800, noNaN: true }),
      fc.double({ min: 0, max: 50, noNaN: true }),
      (km, more) => {
        expect(roadKm(km + more)).toBeGreaterThanOrEqual(roadKm(km));
        expect(drivingHours(roadKm(km + more))).toBeGreaterThanOrEqual(drivingHours(roadKm(km)));
      },
    ),
  );
});

test('a quarter of an hour is rested after every two hours at the wheel', () => {
  expect(drivingHours(20)).toBe(0.5);
  expect(drivingHours(88 * 4)).toBe(4 + 0.25); // arrived when the second break is due
  expect(drivingHours(88 * 5)).toBe(5 + 0.5);
});
