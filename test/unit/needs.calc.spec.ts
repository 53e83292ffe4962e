// What a sitting asks of the shelf, item by item.
import { needsOf } from '../../src/sittings/needs.calc.js';
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
    );
  const [clear] = needs('clear half plate');
  const [black] = needs('black half plate');
  expect(clear?.itemId).toBe('clear');
  expect(black?.itemId).toBe('black');
  expect(needs('clear half plate', 'black half plate')).toEqual([clear, black]);
});
