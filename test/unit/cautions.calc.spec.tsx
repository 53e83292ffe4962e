// What must stand apart, told of the things on a shelf and of a formula on the bench.
import { hazardsOf } from '../../src/chemistry/hazards.calc.js';
import { hazardsInWords, ShelfCautions } from '../../src/desk/shelf/cautions.pages.js';
import { benchCautions, keptOf, notChecked, shelfCautions } from '../../src/stock/cautions.calc.js';
import type { FormulaLine } from '../../src/stock/formulas.schemas.js';
import { type Item, type NewItem, withExtras } from '../../src/stock/stock.schemas.js';
import { text } from '../support/desk-props.js';

const item = (name: string, more: Partial<NewItem> = {}): Item => ({
  id: name,
  ...withExtras({
    name,
    kind: 'chemical',
    unit: 'uL',
    plateSizeId: null,
    leadDays: null,
    ripenDays: null,
    lifeDays: null,
    ...more,
  }),
});
const line = (ingredient: string, substance: string | null, itemId: string | null = null): FormulaLine => ({
  ingredient,
  substance,
  itemId,
  quantity: 1n,
  unit: 'mg',
  asWritten: '',
  note: '',
});
const developer = item('Jug', { kind: 'developer' });
const cyanide = item('Fixer', { kind: 'fixer', formulaId: 'f' });
const substances = new Map([['f', ['potassium cyanide', 'distilled water']]]);

// Without the formulas of items the shelf would say nothing: the names tell neither cyanide nor acid.
test('a fixer mixed from cyanide is flagged beside any developer', () => {
  const [first] = shelfCautions([item('Water'), developer, cyanide], substances);
  expect(first?.rule).toMatchObject({ one: 'cyanide', other: 'acid', grave: true });
  expect([first?.ones, first?.others]).toEqual([['Fixer'], ['Jug']]);
  expect(shelfCautions([developer, cyanide], new Map())).toEqual([]);
});

test('the label of a bottle is believed', () => {
  const bottle = item('Old tin', { hCodes: ['H300', 'EUH032'] });
  expect(keptOf(bottle, substances).has).toContain('cyanide');
});

test('on the bench only what has to do with the formula is told, and not the bottles it is mixed from', () => {
  const made = { name: 'Weak fixer', kind: 'fixer', lines: [line('KCN', 'potassium cyanide', 'KCN tin')] };
  const tin = item('KCN tin', { substance: 'potassium cyanide' });
  const others = [
    tin,
    developer,
    item('Silver', { substance: 'silver nitrate' }),
    item('Rum', { kind: 'varnish' }),
  ];
  const pairs = benchCautions(made, others, substances);
  expect(pairs.map(({ rule, ones, others: beside }) => [rule.other, ones, beside])).toEqual([
    ['acid', ['Weak fixer'], ['Jug']],
    ['oxidiser', ['Weak fixer'], ['Silver']],
  ]);
});

test('what a formula mixes together is set against itself', () => {
  const lines = [line('Nitric acid', 'nitric acid'), line('Alcohol', 'ethanol')];
  const [first] = benchCautions({ name: 'X', kind: 'chemical', lines }, [], substances);
  expect(first?.rule).toMatchObject({ one: 'nitric acid', other: 'alcohol' });
});

test('a cyanide known only by the label of its tin is told on the bench, and what is not known is named', () => {
  const tin = item('Old tin', { hCodes: ['EUH032'] });
  const lines = [line('Old tin', null, 'Old tin'), line('Powder', null)];
  const items = [tin, developer];
  const [first] = benchCautions({ name: 'Weak fixer', kind: 'fixer', lines }, items, substances);
  expect([first?.rule.one, first?.rule.other, first?.others]).toEqual(['cyanide', 'acid', ['Jug']]);
  expect(notChecked(lines, items, substances)).toEqual(['Powder']);
  expect(keptOf(cyanide, new Map([['f', ['EUH032']]])).has).toContain('cyanide');
});

test('the shelf tells at once what kills, and folds away what is merely to be kept apart', () => {
  const hypo = item('Hypo', { substance: 'sodium thiosulfate pentahydrate' });
  const page = text(ShelfCautions({ pairs: shelfCautions([developer, cyanide, hypo], substances) }) as never);
  expect(page).toMatch(
    /Must not stand together Fixer with Jug: Hydrogen cyanide gas.*one pair to keep apart Hypo/,
  );
});

// Without the basis a warning from memory would stand there like one that was read.
test('warnings from memory are told by code and never in words', () => {
  const words = hazardsInWords(hazardsOf('silver nitrate'));
  expect(words).toMatch(/May intensify fire; oxidiser \(H272\).*Read in: Chem-Supply/);
  expect(words).toMatch(/Besides, from memory H410, H290: check your supplier’s safety data sheet\.$/);
  expect(hazardsInWords(hazardsOf('potassium cyanide'))).toMatch(/^From memory H300, [^a-z]*: check/);
  expect(hazardsInWords([])).toBe('');
});
