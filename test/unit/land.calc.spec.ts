import { crossingBetween } from '../../src/travel/crossing.calc.js';
import type { Point } from '../../src/travel/distance.calc.js';

const whitby: Point = { lat: 54.486, lon: -0.615 };
const at = (lat: number, lon: number): Point => ({ lat, lon });
// Places by their coordinates of GeoNames, rounded.
const BETWEEN: [string, Point, Point, string, string][] = [
  ['Whitby to Truro', whitby, at(50.263, -5.051), 'none', ''],
  ['Whitby to Belfast', whitby, at(54.597, -5.93), 'sea', ''],
  ['Whitby to Bergen', whitby, at(60.393, 5.324), 'sea', ''],
  ['Whitby to Paris', whitby, at(48.853, 2.349), 'sea', ''],
  ['Portsmouth to Cowes', at(50.8, -1.091), at(50.763, -1.297), 'sea', ''],
  ['Swansea to Barnstaple', at(51.62, -3.943), at(51.08, -4.06), 'round', 'the Bristol Channel'],
  ['Helsinki to Tallinn', at(60.17, 24.935), at(59.437, 24.754), 'round', 'the Gulf of Finland'],
  ['Ancona to Split', at(43.598, 13.51), at(43.509, 16.439), 'round', 'the Adriatic'],
  ['Milwaukee to Muskegon', at(43.039, -87.907), at(43.234, -86.248), 'round', 'Lake Michigan'],
  ['Buenos Aires to Montevideo', at(-34.613, -58.377), at(-34.903, -56.188), 'round', 'the River Plate'],
  ['Copenhagen to Malmö', at(55.676, 12.566), at(55.606, 13.001), 'none', ''],
  ['Cairo to Jerusalem', at(30.063, 31.25), at(31.769, 35.216), 'none', ''],
  ['Tangier to Tarifa', at(35.767, -5.8), at(36.014, -5.604), 'sea', ''],
  ['Wellington to Picton', at(-41.287, 174.776), at(-41.29, 174.001), 'sea', ''],
  ['Osaka to Fukuoka', at(34.694, 135.502), at(33.6, 130.417), 'none', ''],
  ['New York to Boston', at(40.714, -74.006), at(42.358, -71.06), 'none', ''],
  ['Mariehamn to Jomala', at(60.097, 19.935), at(60.149, 19.951), 'none', ''],
  ['Las Palmas to Arrecife', at(28.1, -15.41), at(28.963, -13.548), 'perhaps', ''],
];
test.each(BETWEEN)('water between: %s', (_name, from, to, kind, water) => {
  expect(crossingBetween(from, to)).toMatchObject({ kind, water });
  expect(crossingBetween(to, from)).toMatchObject({ kind, water });
  expect(crossingBetween(from, { ...to, lon: to.lon + 360 })).toMatchObject({ kind, water });
});

test('trains go to the mainland under the Channel, and to no island without a tunnel or a train ferry', () => {
  // by hand, 111.2 km to a degree: 387 north and 142 east make 412 km to the tunnel; 240 and 61 make 248 on to Paris
  expect(crossingBetween(whitby, at(48.853, 2.349)).railKm).toBeCloseTo(660, -1);
  expect(crossingBetween(at(41.903, 12.496), at(38.116, 13.361)).railKm).not.toBeNull(); // Rome to Palermo
  // the way to the tunnel leads over the North Sea, or round it by Denmark
  expect(crossingBetween(whitby, at(60.393, 5.324)).railKm).toBeNull(); // Bergen
  expect(crossingBetween(whitby, at(54.597, -5.93)).railKm).toBeNull();
});
