// The substances of the trade: what they are made of, how they are measured, kept and posted, and what they do to
// each other. It knows no shelf; an item of the shelf names its substance by the key.
import { HALIDE_SALTS, molarMass, SILVER_NITRATE_G_PER_MOL } from './stoichiometry.calc.js';

/** What a substance, or a solution with it, brings to a bench; pairs are judged by these, never by name. */
export type Property =
  | 'acid'
  | 'nitric acid'
  | 'cyanide'
  | 'thiosulfate'
  | 'silver salt'
  | 'oxidiser'
  | 'bleach'
  | 'ammonia'
  | 'alcohol'
  | 'makes peroxides'
  | 'flammable vapour'
  | 'burns'
  | 'light metal'
  | 'cadmium';

export interface Substance {
  name: string;
  /** As a chemist writes it; null for mixtures. */
  formula: string | null;
  /** Grams per mole; null for mixtures. */
  gPerMol: number | null;
  /** How the shelf counts it. */
  unit: 'mg' | 'uL';
  /** Grams in a millilitre of a liquid at 20 C, from memory of handbook tables; null for solids. */
  gPerMl: number | null;
  has: readonly Property[];
  storage: string;
  /** Days from receipt, and from opening; null where it keeps. Common practice, no source. */
  lifeDays: number | null;
  openedLifeDays: number | null;
  /** Cannot go by post or air, as a rule; the carrier decides. Assumption. */
  noPost: boolean;
}

type Traits = Partial<Omit<Substance, 'name' | 'formula' | 'gPerMol' | 'unit'>>;

const entry = (
  name: string,
  formula: string | null,
  gPerMol: number | null,
  unit: 'mg' | 'uL',
  { gPerMl = null, has = [], lifeDays = null, openedLifeDays = null, noPost = false, ...rest }: Traits,
): Substance => {
  const storage = rest.storage ?? 'Closed, dry, in its own labelled bottle.';
  return { name, formula, gPerMol, unit, gPerMl, has, storage, lifeDays, openedLifeDays, noPost };
};
const solid = (name: string, formula: string | null, gPerMol: number | null, traits: Traits = {}) =>
  entry(name, formula, gPerMol, 'mg', traits);
const liquid = (
  name: string,
  formula: string | null,
  gPerMol: number | null,
  gPerMl: number,
  traits: Traits = {},
) => entry(name, formula, gPerMol, 'uL', { ...traits, gPerMl });

const halide = (key: keyof typeof HALIDE_SALTS, name: string, formula: string, traits: Traits = {}) =>
  solid(name, formula, HALIDE_SALTS[key].gPerMol, { storage: 'Dry, dark, tightly closed.', ...traits });

const COOL = 'Cool, dark, away from flames, sparks and heaters; static is enough to light it.';
const LOCKED = 'Locked away, dry, alone: never near an acid.';
const ALONE = 'Alone, away from whatever burns, from alcohol and from metals.';
const cadmium = { has: ['cadmium'] } as const;
const solvent = { has: ['alcohol', 'flammable vapour', 'burns'], storage: COOL, noPost: true } as const;

/** The key is stable and stored with items and formulas. */
export const SUBSTANCES = {
  'diethyl ether': liquid('Ether', 'C4H10O', molarMass({ C: 4, H: 10, O: 1 }), 0.714, {
    has: ['makes peroxides', 'flammable vapour', 'burns'],
    storage: `${COOL} Date it on receipt and on opening; never open it when crystals or clouds show.`,
    lifeDays: 730,
    openedLifeDays: 365,
    noPost: true,
  }),
  ethanol: liquid('Alcohol (ethanol)', 'C2H6O', molarMass({ C: 2, H: 6, O: 1 }), 0.789, solvent),
  'methylated spirit': liquid('Methylated spirit', null, null, 0.8, solvent),
  'gun-cotton': solid('Gun-cotton (pyroxylin)', null, null, {
    has: ['burns'],
    storage: 'Damp or as delivered, cool, in small amounts, away from heat, blows and sparks.',
    noPost: true,
  }),
  celloidin: solid('Celloidin', null, null, { has: ['burns'], storage: COOL, noPost: true }),
  'cadmium bromide, anhydrous': halide(
    'cadmium bromide, anhydrous',
    'Cadmium bromide, anhydrous',
    'CdBr2',
    cadmium,
  ),
  'cadmium bromide, tetrahydrate': halide(
    'cadmium bromide, tetrahydrate',
    'Cadmium bromide, tetrahydrate',
    'CdBr2(H2O)4',
    cadmium,
  ),
  'cadmium iodide': halide('cadmium iodide', 'Cadmium iodide', 'CdI2', cadmium),
  'ammonium iodide': halide('ammonium iodide', 'Ammonium iodide', 'NH4I'),
  'ammonium bromide': halide('ammonium bromide', 'Ammonium bromide', 'NH4Br'),
  'potassium iodide': halide('potassium iodide', 'Potassium iodide', 'KI'),
  'potassium bromide': halide('potassium bromide', 'Potassium bromide', 'KBr'),
  'lithium bromide': halide('lithium bromide', 'Lithium bromide', 'LiBr'),
  'copper bromide': halide('copper bromide', 'Copper(II) bromide', 'CuBr2'),
  'zinc bromide': halide('zinc bromide', 'Zinc bromide', 'ZnBr2'),
  'zinc iodide': halide('zinc iodide', 'Zinc iodide', 'ZnI2'),
  'silver nitrate': solid('Silver nitrate', 'AgNO3', SILVER_NITRATE_G_PER_MOL, {
    has: ['silver salt', 'oxidiser'],
    storage: `Dark glass. ${ALONE}`,
    noPost: true,
  }),
  'nitric acid': liquid('Nitric acid', 'HNO3', molarMass({ H: 1, N: 1, O: 3 }), 1.41, {
    has: ['acid', 'nitric acid', 'oxidiser'],
    storage: ALONE,
    noPost: true,
  }),
  'barium nitrate': solid('Barium nitrate', 'Ba(NO3)2', molarMass({ Ba: 1, N: 2, O: 6 }), {
    has: ['oxidiser'],
    storage: ALONE,
    noPost: true,
  }),
  'ferrous sulfate heptahydrate': solid(
    'Iron sulfate (ferrous sulfate, heptahydrate)',
    'FeSO4(H2O)7',
    molarMass({ Fe: 1, S: 1, O: 11, H: 14 }),
    { storage: 'Airtight: it rusts in moist air.', openedLifeDays: 730 },
  ),
  'ferrous sulfate, saturated solution': liquid('Saturated solution of iron sulfate', null, null, 1.2, {
    storage: 'Full and closed; filter before use.',
    lifeDays: 90,
  }),
  'acetic acid, glacial': liquid('Acetic acid, glacial', 'C2H4O2', molarMass({ C: 2, H: 4, O: 2 }), 1.05, {
    has: ['acid', 'flammable vapour'],
    storage: 'Above 17 °C (it freezes below), away from oxidisers and from every cyanide.',
    noPost: true,
  }),
  'acetic acid, dilute': liquid('Acetic acid of the old shops (about 30 %)', null, null, 1.04, {
    has: ['acid'],
  }),
  'citric acid': solid('Citric acid', 'C6H8O7', molarMass({ C: 6, H: 8, O: 7 }), { has: ['acid'] }),
  'potassium cyanide': solid('Potassium cyanide', 'KCN', molarMass({ K: 1, C: 1, N: 1 }), {
    has: ['cyanide'],
    storage: LOCKED,
    noPost: true,
  }),
  'sodium thiosulfate pentahydrate': solid(
    'Hypo (sodium thiosulfate, pentahydrate)',
    'Na2S2O3(H2O)5',
    molarMass({ Na: 2, S: 2, O: 8, H: 10 }),
    { has: ['thiosulfate'] },
  ),
  'gum sandarac': solid('Gum sandarac', null, null, { has: ['burns'] }),
  'seed-lac': solid('Seed-lac or shellac', null, null, { has: ['burns'] }),
  'lavender oil': liquid('Oil of lavender', null, null, 0.88, {
    has: ['burns'],
    storage: COOL,
    openedLifeDays: 730,
  }),
  'ammonia solution': liquid('Ammonia solution', null, null, 0.9, {
    has: ['ammonia'],
    storage: 'Cool, closed, away from everything with silver in it and from bleach.',
    noPost: true,
  }),
  bleach: liquid('Bleach (sodium hypochlorite solution)', null, null, 1.1, {
    has: ['bleach', 'oxidiser'],
    storage: 'Not in this room.',
    lifeDays: 365,
  }),
  whiting: solid('Whiting (calcium carbonate)', 'CaCO3', molarMass({ Ca: 1, C: 1, O: 3 })),
  'distilled water': liquid('Distilled water', 'H2O', molarMass({ H: 2, O: 1 }), 0.998, {
    storage: 'Closed; a bottle left open takes up dust and carbon dioxide.',
  }),
} as const satisfies Record<string, Substance>;

export type SubstanceKey = keyof typeof SUBSTANCES;

/** The substance of a key, or null for one that is not in the catalogue. */
export function substanceOf(key: string | null): Substance | null {
  return key !== null && Object.hasOwn(SUBSTANCES, key) ? SUBSTANCES[key as SubstanceKey] : null;
}

/**
 * The weight of the one cadmium bromide that holds as much bromide as this weight of the other, in milligrams,
 * rounded up: a formula that does not say which is meant is 21 % apart.
 */
export function asOtherCadmiumBromide(mg: bigint, from: 'anhydrous' | 'tetrahydrate'): bigint {
  const { 'cadmium bromide, anhydrous': dry, 'cadmium bromide, tetrahydrate': wet } = HALIDE_SALTS;
  const ratio = from === 'anhydrous' ? wet.gPerMol / dry.gPerMol : dry.gPerMol / wet.gPerMol;
  return BigInt(Math.ceil(Number(mg) * ratio));
}
