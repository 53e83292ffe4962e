import {
  isPlateSide,
  plateAreaUm2,
  STARTER_PLATE_SIZES,
  UM2_PER_SQUARE_INCH,
} from '../../src/chemistry/plate-sizes.calc.js';

const byKey = (key: string) => {
  const size = STARTER_PLATE_SIZES.find((starter) => starter.key === key);
  if (!size) throw new Error(`No size ${key}`);
  return size;
};
const squareInches = (um2: bigint): number => Number(um2) / Number(UM2_PER_SQUARE_INCH);
const area = (key: string) => plateAreaUm2(byKey(key).widthMm, byKey(key).heightMm);

test('three half plates stand apart by name, key and area', () => {
  const halves = STARTER_PLATE_SIZES.filter(({ name }) => name.startsWith('Half plate'));
  expect(halves.map(({ key, name, widthMm, heightMm }) => [key, name, widthMm, heightMm])).toEqual([
    ['half-american', 'Half plate (American ferrotype) 4 1/4 x 5 1/2 in', 107.95, 139.7],
    ['half-narrow', 'Half plate 4 1/4 x 6 1/2 in', 107.95, 165.1],
    ['half-british', 'Half plate (British) 4 3/4 x 6 1/2 in', 120.65, 165.1],
  ]);
  expect(halves.map(({ key }) => squareInches(area(key)))).toEqual([23.375, 27.625, 30.875]);
});

// Nominal inches of cwfp.biz/platesizes.php, multiplied by hand.
test.each([
  ['sixteenth', 2.234375, 14.42],
  ['ninth', 5, 32.26],
  ['sixth', 8.9375, 57.66],
  ['quarter', 13.8125, 89.11],
  ['whole', 55.25, 356.45],
  ['4x5', 20, 129.03],
  ['5x7', 35, 225.81],
  ['8x10', 80, 516.13],
  ['11x14', 154, 993.55],
])('%s has %d square inches, %d square centimetres', (key, inches, centimetres) => {
  expect(squareInches(area(key))).toBe(inches);
  expect(Number(area(key)) / 1e8).toBeCloseTo(centimetres, 2);
});

test('keys and names are unique and the narrow side comes first', () => {
  expect(new Set(STARTER_PLATE_SIZES.map(({ key }) => key)).size).toBe(STARTER_PLATE_SIZES.length);
  expect(new Set(STARTER_PLATE_SIZES.map(({ name }) => name)).size).toBe(STARTER_PLATE_SIZES.length);
  for (const { widthMm, heightMm } of STARTER_PLATE_SIZES) expect(widthMm).toBeLessThanOrEqual(heightMm);
});

test('a side that no plate has is refused', () => {
  expect([9.999, 10, 2000, 2000.001, Number.NaN].map(isPlateSide)).toEqual([false, true, true, false, false]);
  expect(() => plateAreaUm2(0, 100)).toThrow(RangeError);
  expect(() => plateAreaUm2(100, Number.NaN)).toThrow(RangeError);
});
