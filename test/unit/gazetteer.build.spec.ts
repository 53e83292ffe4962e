import { mkdtempSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildGazetteer } from '../../src/travel/gazetteer.build.js';
import { openGazetteer } from '../../src/travel/gazetteer.service.js';
import { unpackPlaces } from '../../src/travel/places-file.js';

// Invented places in the columns of download.geonames.org/export/dump/readme.txt, "the main 'geoname' table".
const ZONE = 'Europe/London';
const city = (
  id: number,
  name: string,
  others: string,
  feature: string,
  district: string,
  population: number,
) =>
  [
    id,
    name,
    name,
    others,
    54.5,
    -0.6,
    'P',
    feature,
    'GB',
    '',
    'ENG',
    district,
    '',
    '',
    population,
    '',
    14,
    ZONE,
    '',
  ].join('\t');
const TABLE = [
  city(1, 'Gullwick', '', 'PPL', 'A1', 900),
  city(2, 'Gullwick', '', 'PPL', 'B2', 800),
  city(3, 'Old Gullwick', '', 'PPLQ', 'A1', 0),
  city(4, 'Great Kelp', 'Kelpen,Grand Varech,GKP,Келп', 'PPLA', 'A1', 100_000),
  city(5, 'Little Kelp', 'Klein Kelpen', 'PPL', 'A1', 99_999),
  'a row that is none',
  '',
].join('\n');

const folder = mkdtempSync(join(tmpdir(), 'places-build-'));
const sources = {
  cities: join(folder, 'cities.txt'),
  regions: join(folder, 'regions.json'),
  districts: join(folder, 'districts.json'),
};
const file = join(folder, 'made', 'places.bin');
const rows = () => unpackPlaces(readFileSync(file))?.text.toString().split('\n') ?? [];

beforeEach(() => {
  rmSync(file, { force: true });
  writeFileSync(sources.cities, TABLE);
  writeFileSync(sources.regions, JSON.stringify([{ code: 'GB.ENG', name: 'England' }]));
  writeFileSync(
    sources.districts,
    JSON.stringify([
      { code: 'GB.ENG.A1', name: 'Foreshire' },
      { code: 'GB.ENG.B2', name: 'Aftshire' },
    ]),
  );
  expect(buildGazetteer(file, sources)).toBe(true);
});
afterAll(() => rmSync(folder, { recursive: true }));

test('the largest place comes first, what is no more is left out, the end is a whole line', () => {
  expect(rows().map((row) => row.split('\t')[0])).toEqual(['4', '5', '1', '2', '']);
});

test('only places of one name in one region are told apart by their district', () => {
  const places = openGazetteer(file);
  expect(places.search('gullwick', 5).map(({ region }) => region)).toEqual([
    'Foreshire, England',
    'Aftshire, England',
  ]);
  expect(places.search('gullwick, aftshire', 5).map(({ id }) => id)).toEqual([2]);
  expect(places.byId(4)?.region).toBe('England');
});

test('a large place is found by its names in other languages, a small one by its own only', () => {
  const places = openGazetteer(file);
  expect(places.search('grand varech', 5).map(({ id }) => id)).toEqual([4]);
  expect(places.search('klein kelpen', 5)).toEqual([]);
  expect(places.search('gkp', 5)).toEqual([]);
});

test('the list is made again only when a source is newer or its form is an old one', () => {
  const made = statSync(file).mtimeMs;
  expect(buildGazetteer(file, sources)).toBe(false);
  expect(statSync(file).mtimeMs).toBe(made);
  utimesSync(sources.districts, made / 1000 + 60, made / 1000 + 60);
  expect(buildGazetteer(file, sources)).toBe(true);
  utimesSync(sources.districts, 1, 1);
  for (const other of [Buffer.from('plateday places 0\n'), readFileSync(file).subarray(0, -8)]) {
    writeFileSync(file, other);
    expect(buildGazetteer(file, sources)).toBe(true);
    expect(rows()).toHaveLength(5);
  }
});
