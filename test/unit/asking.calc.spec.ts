// What requests ask of a day, and that those who ask for the same are reckoned once.
import { expect, it } from '@jest/globals';
import { askingKey, askingOf, askingsOf } from '../../src/sittings/asking.calc.js';

type Asks = Parameters<typeof askingOf>[0];
const asks = (plates: string[][], kindId: string | null = null) =>
  ({ plates: plates.map((sitterIds) => ({ sitterIds })), sitting: { kindId } }) as unknown as Asks;

it('asks for each plate, and for each of the people on them once', () => {
  expect(askingOf(asks([['a'], ['a', 'b']], 'series'))).toEqual({ plates: 2, sitters: 2, kindId: 'series' });
});

it('is one asking for all who ask for as many plates and people of one kind', () => {
  const [two, other, couple, series] = [
    asks([['a'], ['a']]),
    asks([['x'], ['x']]),
    asks([['a'], ['b']]),
    asks([['a'], ['a']], 'series'),
  ];
  const all = askingsOf([two, other, couple, series]);
  expect([...all.values()]).toEqual([two, couple, series].map(askingOf));
  expect(all.get(askingKey(other))).toEqual(askingOf(two));
});
