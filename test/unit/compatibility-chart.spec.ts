// What must not come together, judged by property, against published compatibility lists of others.
//
// EPA: H. K. Hatayama and others, A Method for Determining the Compatibility of Hazardous Wastes, EPA-600/2-80-076
// (1980), as set out by Rutgers Environmental Health and Safety, "Chemical compatibility". Its codes: H heat, F fire,
// G harmless gas, GT toxic gas, GF flammable gas. Row 11, cyanides: GT GF with groups 1, 2 and 3 (mineral acids,
// oxidising mineral acids, organic acids). Rows 4 and 14, alcohols and ethers: H F with group 2; nothing with each other.
// Glasgow: University of Glasgow, Guide to Incompatible Chemicals, GN-CHEM05/2017. Acids: inorganic cyanide salts.
import { incompatiblePairs, type Kept, propertiesOf } from '../../src/chemistry/incompatible.calc.js';
import { type SubstanceKey, SUBSTANCES } from '../../src/chemistry/substances.calc.js';

const thing = (key: SubstanceKey): Kept => ({
  name: SUBSTANCES[key].name,
  has: propertiesOf({ kind: 'chemical', substance: key, hCodes: [] }),
});
const found = (one: SubstanceKey, other: SubstanceKey) => incompatiblePairs([thing(one), thing(other)]);

it.each<[string, SubstanceKey, SubstanceKey]>([
  ['EPA 11 with 2: GT GF', 'potassium cyanide', 'nitric acid'],
  ['EPA 11 with 3: GT GF', 'potassium cyanide', 'acetic acid, glacial'],
  ['EPA 11 with 3: GT GF', 'potassium cyanide', 'acetic acid, dilute'],
  ['EPA 11 with 3: GT GF; Glasgow', 'potassium cyanide', 'citric acid'],
  ['EPA 4 with 2: H F', 'ethanol', 'nitric acid'],
  ['EPA 4 with 2: H F', 'methylated spirit', 'nitric acid'],
  ['EPA 14 with 2: H F', 'diethyl ether', 'nitric acid'],
])('%s is told gravely: %s with %s', (_, one, other) => {
  expect(found(one, other).some(({ rule }) => rule.grave)).toBe(true);
});

it('is said of cyanide and every acid of the catalogue, and of no two things that the chart leaves blank', () => {
  const acids = (Object.keys(SUBSTANCES) as SubstanceKey[]).filter((key) => thing(key).has.includes('acid'));
  expect(acids.length).toBeGreaterThan(3);
  for (const acid of acids) {
    const [first] = found('potassium cyanide', acid);
    expect([acid, first?.rule.one, first?.rule.told]).toEqual([acid, 'cyanide', 'cyanide and acid']);
  }
  expect(found('ethanol', 'diethyl ether')).toEqual([]);
});
