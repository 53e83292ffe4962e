// What a sitting asks of the shelf, item by item.
import { ownFigures } from '../../src/chemistry/learning.calc.js';
import { bottleFor, needsOf } from '../../src/sittings/needs.calc.js';
import { type Item, type PlateSize, withExtras } from '../../src/stock/stock.schemas.js';

const size = (id: string): PlateSize => ({
  id,
  name: id,
  widthMm: 165.1,
  heightMm: 120.65,
  offered: true,
  position: 1,
});
const glass = (id: string, plateSizeId: string): Item => ({
  id,
  ...withExtras({
    name: id,
    kind: 'glass',
    unit: 'sheet',
    plateSizeId,
    leadDays: 21,
    ripenDays: null,
    lifeDays: null,
  }),
});

test('two sizes of equal measure each take their own glass', () => {
  const sizes = [size('clear half plate'), size('black half plate')];
  const items = [glass('clear', 'clear half plate'), glass('black', 'black half plate')];
  const needs = (...ids: string[]) =>
    needsOf(
      ids.map((plateSizeId) => ({ plateSizeId })),
      sizes,
      items,
      'likely',
      ownFigures([]),
    );
  const [clear] = needs('clear half plate');
  const [black] = needs('black half plate');
  expect(clear?.itemId).toBe('clear');
  expect(black?.itemId).toBe('black');
  expect(needs('clear half plate', 'black half plate')).toEqual([clear, black]);
});

test('what the studio has learned of itself is what a sitting asks for', () => {
  const sizes = [size('half plate')];
  const collodion: Item = {
    id: 'collodion',
    ...withExtras({
      name: 'Collodion',
      kind: 'collodion',
      unit: 'uL',
      plateSizeId: null,
      leadDays: null,
      ripenDays: 7,
      lifeDays: 120,
    }),
  };
  const asked = (figures: ReturnType<typeof ownFigures>) =>
    needsOf([{ plateSizeId: 'half plate' }], sizes, [collodion], 'likely', figures);
  // 30.875 square inches, 200 microlitres each as usual; twice as much on very many days
  expect(asked(ownFigures([]))).toEqual([{ itemId: 'collodion', quantity: 6_175n }]);
  const days = Array.from({ length: 995 }, () => ({
    madeBy: 'sittings' as const,
    plates: [{ areaUm2: 645_160_000n, tries: 10, keepers: 9 }],
    used: { collodion: 4_000n },
  }));
  expect(asked(ownFigures(days))).toEqual([{ itemId: 'collodion', quantity: 12_320n }]); // 399 x 30.875, rounded up
});

test('what is not kept any more is not asked for', () => {
  const sizes = [size('half plate')];
  const items = [{ ...glass('old', 'half plate'), archived: true }, glass('now', 'half plate')];
  const needs = needsOf([{ plateSizeId: 'half plate' }], sizes, items, 'likely', ownFigures([]));
  expect(needs.map(({ itemId }) => itemId)).toEqual(['now']);
});

test('a child on a plate asks for a fresh bottle, grown people for any', () => {
  expect(bottleFor([{ ageBand: 'adult' }])).toBe('any');
  expect(bottleFor([{ ageBand: 'adult' }, { ageBand: '8 to 14' }])).toBe('fresh');
  expect(bottleFor([{ ageBand: 'under 8' }])).toBe('fresh');
});
