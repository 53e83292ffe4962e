import fc from 'fast-check';
import { looksLikePostcode, readCoordinates } from '../../src/travel/coordinates.calc.js';

const point = (text: string) => {
  const read = readCoordinates(text);
  return read.ok ? [read.point.lat, read.point.lon].map((one) => Number(one.toFixed(6))) : read.reason;
};

test('coordinates are read as people write them', () => {
  expect(point('54.49, -0.61')).toEqual([54.49, -0.61]);
  expect(point('54.49 -0.61')).toEqual([54.49, -0.61]);
  expect(point(' 54.49 N 0.61 W ')).toEqual([54.49, -0.61]);
  expect(point('54.49N, 0.61W')).toEqual([54.49, -0.61]);
  expect(point('54°29′24″N 0°36′36″W')).toEqual([54.49, -0.61]);
  expect(point('54° 29\' 24" N, 0° 36\' 36" W')).toEqual([54.49, -0.61]);
  expect(point('33.87 s 151.21 e')).toEqual([-33.87, 151.21]);
  expect(point('54°29.4′N; 0°36.6′W')).toEqual([54.49, -0.61]);
});

test('what is no pair of coordinates is none, and beyond the poles is told apart', () => {
  for (const text of [
    '',
    'York',
    'YO1 7HH',
    '54.49',
    '-54 N 3 W',
    '54°70′N 3°W',
    '1, 2, 3',
    '75008',
    '12345 6',
    '113 30', // Stockholm
    ' 811 02 ', // Bratislava
    '040 01', // Košice, not 40 north and 1 east
  ])
    expect(point(text)).toBe('not coordinates');
  expect(point('91, 0')).toBe('beyond');
  expect(point('0, 181')).toBe('beyond');
  expect(point('113, 30')).toBe('beyond');
  expect(point('113.5 30')).toBe('beyond');
  expect(point('40 01')).toEqual([40, 1]);
});

test('any point that is written out is read back', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -90_000, max: 90_000 }),
      fc.integer({ min: -180_000, max: 180_000 }),
      (lat, lon) => {
        expect(point(`${lat / 1000}, ${lon / 1000}`)).toEqual([lat / 1000, lon / 1000].map((one) => one + 0));
      },
    ),
  );
});

test('a postcode is told by its figures and its length', () => {
  expect(['YO1 7HH', '75008', '1010', 'K1A 0B1'].map(looksLikePostcode)).toEqual([true, true, true, true]);
  expect(['York', '', 'Rue du Faubourg Saint-Honoré 55'].map(looksLikePostcode)).toEqual([
    false,
    false,
    false,
  ]);
});
