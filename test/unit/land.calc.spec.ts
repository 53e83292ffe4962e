import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { crossingBetween } from '../../src/travel/crossing.calc.js';
import type { Point } from '../../src/travel/distance.calc.js';
import { landOf } from '../../src/travel/land.calc.js';

/** Every place of the gazetteer (GeoNames cities500), with its country: what the outlines are held against. */
function landsByCountry(): Map<string, Set<string>> {
  const file = join(import.meta.dirname, '../../dist/places.tsv.gz');
  const rows = gunzipSync(readFileSync(file)).toString('utf8').split('\n').slice(1, -1);
  const found = new Map<string, Set<string>>();
  for (const row of rows) {
    const [, , , , lat, lon, country = ''] = row.split('\t');
    const lands = found.get(country) ?? new Set<string>();
    const { name: land } = landOf({ lat: Number(lat), lon: Number(lon) });
    lands.add(land);
    found.set(country, lands);
  }
  return found;
}

// GeoNames country codes, and where all places of that country stand. Exclaves and islands by name.
const EXPECTED: Record<string, string[]> = {
  IS: ['Iceland'],
  IE: ['Ireland'],
  IM: ['the Isle of Man'],
  // Akrotiri and Dhekelia are told as the United Kingdom's
  GB: [
    'Cyprus',
    'Great Britain',
    'Ireland',
    'Islay and Jura',
    'Arran',
    'Mull and Iona',
    'Orkney',
    'Shetland',
    'the Isle of Wight',
    'the Isles of Scilly',
    'the Outer Hebrides',
  ],
  JE: ['the Channel Islands'],
  GG: ['the Channel Islands'],
  FO: ['the Faroe Islands'],
  NO: ['the mainland of Europe and Asia'],
  SE: ['the mainland of Europe and Asia', 'Gotland'],
  FI: ['the mainland of Europe and Asia'],
  DK: ['Bornholm', 'the mainland of Europe and Asia'],
  EE: ['the mainland of Europe and Asia', 'Saaremaa and Hiiumaa'],
  DE: ['the mainland of Europe and Asia'],
  NL: ['the mainland of Europe and Asia'],
  BE: ['the mainland of Europe and Asia'],
  FR: ['Corsica', 'the mainland of Europe and Asia'],
  ES: [
    'Africa',
    'the mainland of Europe and Asia',
    'Ibiza and Formentera',
    'Mallorca',
    'Menorca',
    'the Canary Islands',
  ],
  PT: ['the mainland of Europe and Asia', 'Madeira', 'the Azores'],
  IT: ['the mainland of Europe and Asia', 'Lampedusa and Linosa', 'Pantelleria', 'Sardinia', 'Sicily'],
  MT: ['Malta'],
  CY: ['Cyprus'],
  TR: ['the mainland of Europe and Asia'],
  IN: ['the mainland of Europe and Asia'],
  LK: ['Sri Lanka'],
  TW: ['the mainland of Europe and Asia', 'Taiwan', 'islands far out'], // Kinmen and Matsu off the mainland; the Pescadores
  CU: ['Cuba'],
  JM: ['Jamaica'],
  DO: ['Hispaniola'],
  HT: ['Hispaniola'],
  BS: ['the Bahamas'],
  US: ['the mainland of Europe and Asia', 'Hawaii', 'North and Central America', 'islands far out'], // the Bering Sea, the Aleutians
  CA: ['Haida Gwaii', 'Newfoundland', 'North and Central America', 'Vancouver Island'],
  MX: ['North and Central America'],
  AR: ['South America'],
  VE: ['South America'],
  AU: ['Australia', 'Tasmania', 'islands far out'], // Thursday Island
  NZ: ['islands far out', 'the North Island of New Zealand', 'the South Island of New Zealand'], // the Chathams
  JP: ['Hokkaido', 'Honshu, Shikoku and Kyushu', 'Tsushima', 'islands far out', 'the Ryukyu Islands'],
  KR: ['Jeju', 'South Korea'],
  SG: ['the mainland of Europe and Asia'],
  ZA: ['Africa'],
  MA: ['Africa'],
  TN: ['Africa'],
  MG: ['Madagascar'],
};

test('all places of a country stand on its own land and islands, and on no other', () => {
  const found = landsByCountry();
  const told = Object.fromEntries(
    Object.keys(EXPECTED).map((country) => [country, [...(found.get(country) ?? [])].sort()]),
  );
  const expected = Object.fromEntries(
    Object.entries(EXPECTED).map(([country, lands]) => [country, [...lands].sort()]),
  );
  expect(told).toEqual(expected);
  // and the other way about: nobody of another country stands on these
  const on = (land: string) =>
    [...found]
      .filter(([, lands]) => lands.has(land))
      .map(([code]) => code)
      .sort();
  expect(on('Ireland')).toEqual(['GB', 'IE']);
  expect(on('Great Britain')).toEqual(['GB']);
  expect(on('Sicily')).toEqual(['IT']);
  expect(on('Vancouver Island')).toEqual(['CA']);
  expect(on('the North Island of New Zealand')).toEqual(['NZ']);
  expect(on('Africa')).not.toContain('IT');
});

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
