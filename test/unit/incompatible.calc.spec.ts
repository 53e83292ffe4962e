import { hazardsOf, STATEMENTS } from '../../src/chemistry/hazards.calc.js';
import { incompatiblePairs, type Kept, propertiesOf } from '../../src/chemistry/incompatible.calc.js';
import { starterFormula } from '../../src/chemistry/starter-formulas.calc.js';
import { SUBSTANCES, type SubstanceKey } from '../../src/chemistry/substances.calc.js';

const mixed = (name: string, key: string): Kept => {
  const formula = starterFormula(key);
  const mixedFrom = formula?.lines.map((line) => line.substance) ?? [];
  return { name, has: propertiesOf({ kind: formula?.kind ?? '', substance: null, mixedFrom, hCodes: [] }) };
};
const pure = (key: SubstanceKey): Kept => ({ name: SUBSTANCES[key].name, has: SUBSTANCES[key].has });
const developer = mixed('Developer', 'developer-towler-1');
const cyanide = mixed('Cyanide fixer', 'fixer-cyanide-schriever');
const hypo = mixed('Hypo fixer', 'fixer-hypo-20-percent');
const silver = mixed('Silver bath', 'bath-9-percent');

test('the cyanide fixer beside the acid developer is flagged before anything else', () => {
  const [first] = incompatiblePairs([hypo, developer, silver, cyanide]);
  expect(first?.rule.one).toBe('cyanide');
  expect(first?.ones).toEqual(['Cyanide fixer']);
  expect(first?.others).toEqual(['Developer', 'Silver bath']);
  expect(first?.rule.told).toBe('cyanide and acid');
});

// The acids of this trade that a check by name would have to list one by one.
test.each([['acetic acid, glacial'], ['acetic acid, dilute'], ['nitric acid'], ['citric acid']] as const)(
  '%s counts against a cyanide',
  (key) => {
    const pairs = incompatiblePairs([pure(key), pure('potassium cyanide')]);
    expect(pairs[0]?.rule.other).toBe('acid');
  },
);

test('a fixer known only by the warning on its label is a cyanide', () => {
  const label = propertiesOf({ kind: 'fixer', substance: null, hCodes: ['H300', 'EUH032'] });
  expect(incompatiblePairs([{ name: 'Bottle', has: label }, developer])[0]?.rule.one).toBe('cyanide');
});

test('silver near ammonia, nitric acid near alcohol, bleach near hypo are flagged', () => {
  const found = (a: Kept, b: Kept) =>
    incompatiblePairs([a, b]).map(({ rule }) => `${rule.one} ${rule.other}`);
  expect(found(silver, pure('ammonia solution'))).toContain('silver salt ammonia');
  expect(found(pure('nitric acid'), pure('ethanol'))).toContain('nitric acid alcohol');
  expect(found(pure('bleach'), hypo)).toContain('thiosulfate bleach');
  expect(found(pure('bleach'), cyanide)).toContain('cyanide oxidiser');
});

test('one thing alone, and things that bear each other, are not flagged', () => {
  expect(incompatiblePairs([pure('nitric acid')])).toEqual([]);
  expect(incompatiblePairs([hypo, pure('distilled water'), pure('whiting')])).toEqual([]);
});

test('asked for one thing, only pairs with it are told', () => {
  const all = [hypo, developer, silver, cyanide, pure('ethanol')];
  const asked = incompatiblePairs(all, [hypo]);
  expect(asked.map(({ rule }) => `${rule.one} ${rule.other}`)).toEqual(['thiosulfate acid']);
  expect(incompatiblePairs(all, [cyanide])[0]?.rule.one).toBe('cyanide');
});

test('every statement has words, and no hazard known from memory passes for one that was read', () => {
  for (const key of Object.keys(SUBSTANCES))
    for (const one of hazardsOf(key)) {
      expect(one.statement).toBe(STATEMENTS[one.code]);
      expect([key, one.basis === 'from memory']).toEqual([key, one.source.includes('from memory')]);
    }
  expect(hazardsOf('diethyl ether').map((one) => one.code)).toEqual([
    'H224',
    'H302',
    'H336',
    'EUH019',
    'EUH066',
  ]);
  expect(hazardsOf('nothing known')).toEqual([]);
});
