import { jest } from '@jest/globals';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isZone } from '../../src/lib/zoned-time.js';
import { buildGazetteer } from '../../src/travel/gazetteer.build.js';
import { openGazetteer } from '../../src/travel/gazetteer.service.js';
import { foldName, type Place } from '../../src/travel/place.calc.js';
import { placeLabel } from '../../src/travel/place-label.calc.js';
import { unpackPlaces } from '../../src/travel/places-file.js';

const folder = mkdtempSync(join(tmpdir(), 'places-'));
const file = join(folder, 'made', 'places.bin');
const places = openGazetteer(file);
const text = ({ name, region, country }: Place) => [name, region, country].join(', ');

beforeAll(() => {
  expect(buildGazetteer(file)).toBe(true);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true }));

test('the list is small: under 40 MB, on disk as in memory', () => {
  expect(statSync(file).size).toBeLessThan(40_000_000);
});

test('a place has name, region, country, where it is, zone and size', () => {
  // GeoNames 2634135
  const whitby: Place = {
    id: 2634135,
    name: 'Whitby',
    region: 'England',
    country: 'United Kingdom',
    countryCode: 'GB',
    lat: 54.48774,
    lon: -0.61498,
    zone: 'Europe/London',
    population: 13213,
  };
  expect(places.search('whitby', 10)[0]).toEqual(whitby);
  expect(places.byId(2634135)).toEqual(whitby);
});

test('an id nobody has is null', () => {
  expect([1, -5, 0, 2634135.5, Number.NaN, Number.MAX_SAFE_INTEGER].map((id) => places.byId(id))).toEqual([
    null,
    null,
    null,
    null,
    null,
    null,
  ]);
});

test.each([
  ['Saint-Étienne', 'Saint-Étienne, Auvergne-Rhône-Alpes, France'],
  ['saint etienne', 'Saint-Étienne, Auvergne-Rhône-Alpes, France'],
  ['KÖLN', 'Köln, North Rhine-Westphalia, Germany'],
  ['koeln', 'Köln, North Rhine-Westphalia, Germany'],
  ['cologne, germany', 'Köln, North Rhine-Westphalia, Germany'],
  ['stoke on tr', 'Stoke-on-Trent, England, United Kingdom'],
  ['Łódź', 'Łódź, Łódź Voivodeship, Poland'],
  ['lodz', 'Łódź, Łódź Voivodeship, Poland'],
  ['san fran', 'San Francisco, California, United States'],
  ['springfield, illinois', 'Springfield, Illinois, United States'],
  ['Springfield, IL', 'Springfield, Illinois, United States'],
  ['paris, texas, usa', 'Paris, Texas, United States'],
  ['london, canada', 'London, Ontario, Canada'],
  ['york, uk', 'York, England, United Kingdom'],
])('"%s" finds %s first', (query, first) => {
  const [found] = places.search(query, 5);
  expect(found && text(found)).toBe(first);
});

test('the very name comes before larger places that only begin with it or contain it', () => {
  const found = places.search('york', 30);
  const names = found.map(({ name }) => name);
  const exact = names.filter((name) => name === 'York').length;
  expect(names.slice(0, exact)).toEqual(Array(exact).fill('York'));
  expect(names[exact]).toBe('New York City');
  const sizes = found.slice(0, exact).map(({ population }) => population);
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
});

test('every Springfield of the United States is shown, and no two look alike', () => {
  const found = places.search('springfield, us', 100).filter(({ name }) => name === 'Springfield');
  expect(found.length).toBeGreaterThan(15);
  expect(new Set(found.map(text)).size).toBe(found.length);
});

test('the beginning of a word is found inside a name, other letters are not', () => {
  const names = places.search('upon hu', 20).map(({ name }) => name);
  expect(names).toContain('Kingston upon Hull');
  const besideHull = places.search('hull, england', 50).map(({ name }) => foldName(name));
  expect(besideHull).toContain('hullavington');
  for (const name of besideHull) expect(` ${name}`).toMatch(/ hull/);
});

test('there are no more answers than asked for, and none to an empty question', () => {
  expect(places.search('a', 7)).toHaveLength(7);
  for (const nothing of ['', '  ', ',', ', uk', '---', 'zzzzzz', '\u0000'])
    expect(places.search(nothing, 5)).toEqual([]);
  expect(places.search('london', 0)).toEqual([]);
});

test('what the page wrote for a place finds that place again', () => {
  for (const query of ['cologne', 'springfield', 'paris', 'florence', 'san jose', 'whitby'])
    for (const place of places.search(query, 8))
      expect(places.search(text(place), 20).map(({ id }) => id)).toContain(place.id);
});

test('a question within a country no place lies in reads few rows, however short the name', () => {
  const folded = jest.spyOn(String.prototype, 'toLowerCase');
  const read = jest.spyOn(Buffer.prototype, 'toString');
  try {
    for (const query of ['a, zz', 'b, qqqq', 'san, zz']) {
      folded.mockClear();
      read.mockClear();
      expect(places.search(query, 8)).toEqual([]);
      expect(folded.mock.calls.length).toBeLessThan(10_000); // a few for each region, none for each place
      expect(read.mock.calls.length).toBeLessThan(15_000);
    }
  } finally {
    folded.mockRestore();
    read.mockRestore();
  }
  expect(places.search('san, luxembourg', 8).length).toBeGreaterThan(0);
});

test('a place is meant by its id while its name stands there, by its name when there is only one', () => {
  const [springfield] = places.search('springfield, illinois', 1);
  if (!springfield) throw new Error('Springfield, Illinois, is not in the list.');
  const meant = (typed: string, id: number | null) => places.meant(typed, id, 8).place;
  expect(meant('Springfield', springfield.id)).toEqual(springfield);
  expect(meant(placeLabel(springfield), springfield.id)).toEqual(springfield);
  expect(meant('Springfield', null)).toBeNull();
  expect(places.meant('Springfield', null, 8).found).toHaveLength(8);
  expect(meant('saint etienne de tinee', null)?.name).toBe('Saint-Étienne-de-Tinée');
  expect(meant('Whitby, England', springfield.id)?.id).toBe(2634135); // the id is left from a question before
  expect(meant('zzzzzz', springfield.id)).toBeNull();
  expect(meant('', springfield.id)).toBeNull();
});

test('read beforehand, the list is the same', async () => {
  const warmed = openGazetteer(file);
  await warmed.warm();
  expect(warmed.search('whitby', 5)).toEqual(places.search('whitby', 5));
  await expect(openGazetteer(join(folder, 'none')).warm()).rejects.toThrow(/npm run build/);
});

test('every zone of the list is one our zone data knows, every position is on the earth, every id is its own', () => {
  const lines = unpackPlaces(readFileSync(file))?.text.toString().split('\n').slice(0, -1) ?? [];
  const fields = lines.map((line) => line.split('\t'));
  expect(fields.length).toBeGreaterThan(190_000);
  expect(new Set(fields.map((row) => row.length))).toEqual(new Set([11]));
  expect([...new Set(fields.map((row) => row[10] ?? ''))].filter((zone) => !isZone(zone))).toEqual([]);
  expect(fields.filter((row) => Math.abs(Number(row[4])) > 90 || Math.abs(Number(row[5])) > 180)).toEqual([]);
  expect(new Set(fields.map((row) => row[0])).size).toBe(fields.length);
});

test('names are compared without marks, case and punctuation', () => {
  expect(
    ['Ærøskøbing', 'STRASSE', 'Straße', "L'Aquila", '  Łódź-Górna ', 'İstanbul', '東京', '…'].map(foldName),
  ).toEqual(['aeroskobing', 'strasse', 'strasse', 'l aquila', 'lodz gorna', 'istanbul', '東京', '']);
});

test('a list that is missing or of another version says what to do', () => {
  expect(() => openGazetteer(join(folder, 'none')).search('york', 1)).toThrow(/npm run build/);
  const other = join(folder, 'other');
  writeFileSync(other, 'plateday places 0\n1\tx\n');
  expect(() => openGazetteer(other).byId(1)).toThrow(/another version/);
});
