// What can have been mixed of what was taken, by hand: a collodion all from the shelf, a developer with tap water.
import { expect, it } from '@jest/globals';
import { type Ingredient, yieldProblem } from '../../src/stock/yield.calc.js';

const ml = (itemId: string | null, quantity: number): Ingredient => ({
  itemId,
  unit: 'uL',
  quantity: BigInt(quantity * 1000),
});
const g = (itemId: string, quantity: number): Ingredient => ({ ...ml(itemId, quantity), unit: 'mg' });
const told = (made: number, taken: Ingredient[], lines: Ingredient[] | null) => {
  const formula = lines && { batchQuantity: 1_000_000n, lines };
  return yieldProblem(BigInt(made * 1000), taken, formula)?.reason ?? 'fine';
};

const COLLODION = [ml('ether', 500), ml('alcohol', 500), g('iodide', 10)];
const DEVELOPER = [ml(null, 1000), g('copperas', 50), ml('alcohol', 40)];
const BATH = [g('silver', 90)]; // its water is not named

it.each([
  [250, 'fine'],
  [277, 'fine'],
  [283, 'more than went in'],
  [5000, 'more than went in'],
  [126, 'fine'],
  [124, 'less than half'],
])('of 125 mL ether, 125 mL alcohol and 2.5 g iodide come %i mL: %s', (made, answer) => {
  expect(told(made, [ml('ether', 125), ml('alcohol', 125), g('iodide', 2.5)], COLLODION)).toBe(answer);
});

it('leaves room for what the formula names or lacks and nothing was taken for', () => {
  expect(told(1000, [g('copperas', 50), ml('alcohol', 40)], DEVELOPER)).toBe('fine');
  expect(told(1000, [], DEVELOPER)).toBe('fine');
  expect(told(2000, [g('silver', 180)], BATH)).toBe('fine');
  expect(told(1000, [ml('ether', 125)], COLLODION)).toBe('more than went in'); // 125 + 500 + 10
});

it('without a formula tells only where far too little came of what was taken', () => {
  expect(told(5000, [ml('alcohol', 10)], null)).toBe('fine');
  expect(told(250, [ml('alcohol', 5000)], null)).toBe('less than half');
  expect(told(250, [g('silver', 5000)], null)).toBe('fine');
});

it('says how much can have come of it', () => {
  const formula = { batchQuantity: 1_000_000n, lines: COLLODION };
  expect(yieldProblem(5_000_000n, [ml('ether', 100), ml('alcohol', 100), g('iodide', 10)], formula)).toEqual({
    reason: 'more than went in',
    most: 231_000n, // 100 + 100 + 10 mL, and a tenth
  });
});

it('believes a formula of which far less is left than goes in, as it has it', () => {
  const filtered = [ml('alcohol', 3000)]; // of each litre
  expect(told(100, [ml('alcohol', 300)], filtered)).toBe('fine');
  expect(told(100, [ml('alcohol', 400)], filtered)).toBe('less than half');
});
