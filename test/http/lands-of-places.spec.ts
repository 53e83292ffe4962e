// The outlines of land, held against every place of the gazetteer, which is there once the program is built.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { landOf } from '../../src/travel/land.calc.js';
import { unpackPlaces } from '../../src/travel/places-file.js';

/** Every place of the gazetteer (GeoNames cities500), with its country: what the outlines are held against. */
function landsByCountry(): Map<string, Set<string>> {
  const file = join(import.meta.dirname, '../../dist/places.bin');
  const rows = unpackPlaces(readFileSync(file))?.text.toString('utf8').split('\n').slice(0, -1) ?? [];
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
