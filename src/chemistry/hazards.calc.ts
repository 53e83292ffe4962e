// What a substance may do to people and waters: hazard statements of the GHS, each with what it rests on.
// A help for choosing and storing, never a label: for that the supplier's current safety data sheet counts.
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import type { SubstanceKey } from './substances.calc.js';

/**
 * UN GHS, Annex 3, and the EUH statements of Regulation (EC) 1272/2008, Annex III. H224 to H336 were compared with
 * the list of H-phrases in the European Commission's sampling manual for customs; the wording of the rest is from
 * memory.
 */
export const STATEMENTS: Readonly<Record<string, string>> = {
  H224: 'Extremely flammable liquid and vapour',
  H225: 'Highly flammable liquid and vapour',
  H226: 'Flammable liquid and vapour',
  H228: 'Flammable solid',
  H271: 'May cause fire or explosion; strong oxidiser',
  H272: 'May intensify fire; oxidiser',
  H290: 'May be corrosive to metals',
  H300: 'Fatal if swallowed',
  H301: 'Toxic if swallowed',
  H302: 'Harmful if swallowed',
  H310: 'Fatal in contact with skin',
  H312: 'Harmful in contact with skin',
  H314: 'Causes severe skin burns and eye damage',
  H315: 'Causes skin irritation',
  H317: 'May cause an allergic skin reaction',
  H318: 'Causes serious eye damage',
  H319: 'Causes serious eye irritation',
  H330: 'Fatal if inhaled',
  H331: 'Toxic if inhaled',
  H332: 'Harmful if inhaled',
  H335: 'May cause respiratory irritation',
  H336: 'May cause drowsiness or dizziness',
  H350: 'May cause cancer',
  H372: 'Causes damage to organs through prolonged or repeated exposure',
  H373: 'May cause damage to organs through prolonged or repeated exposure',
  H400: 'Very toxic to aquatic life',
  H410: 'Very toxic to aquatic life with long lasting effects',
  H412: 'Harmful to aquatic life with long lasting effects',
  EUH019: 'May form explosive peroxides',
  EUH031: 'Contact with acids liberates toxic gas',
  EUH032: 'Contact with acids liberates very toxic gas',
  EUH066: 'Repeated exposure may cause skin dryness or cracking',
};

/**
 * seen: the code, or the class it belongs to, was read in the published source named. from memory: believed to be in
 * the harmonised list or on common suppliers' sheets, not read.
 */
export type Basis = 'seen' | 'from memory';

export interface Hazard {
  code: string;
  statement: string;
  basis: Basis;
  source: string;
}

const listed = (basis: Basis, source: string, codes: string): Hazard[] =>
  codes.split(' ').map((code) => ({ code, statement: STATEMENTS[code] ?? code, basis, source }));
const HARMONISED = 'Regulation (EC) 1272/2008, Annex VI, from memory';
const SUPPLIERS = 'suppliers’ safety data sheets, from memory';

const HAZARDS: Partial<Record<SubstanceKey, Hazard[]>> = {
  'diethyl ether': listed('seen', 'GisChem, Diethylether (states Annex VI)', 'H224 H302 H336 EUH019 EUH066'),
  ethanol: [...listed('from memory', HARMONISED, 'H225'), ...listed('from memory', SUPPLIERS, 'H319')],
  'methylated spirit': listed('from memory', SUPPLIERS, 'H225 H319'),
  'gun-cotton': listed('from memory', SUPPLIERS, 'H228'),
  celloidin: listed('from memory', SUPPLIERS, 'H228'),
  'cadmium bromide, anhydrous': cadmiumBromide(),
  'cadmium bromide, tetrahydrate': cadmiumBromide(),
  'cadmium iodide': [
    ...listed('from memory', HARMONISED, 'H301 H331 H373 H400 H410'),
    ...listed('from memory', SUPPLIERS, 'H350'),
  ],
  'ammonium iodide': listed('from memory', SUPPLIERS, 'H315 H319'),
  'potassium iodide': listed('from memory', SUPPLIERS, 'H372'),
  'copper bromide': listed('from memory', SUPPLIERS, 'H302 H314 H400'),
  'zinc bromide': listed('from memory', SUPPLIERS, 'H302 H314 H410'),
  'silver nitrate': [
    ...listed('seen', 'Chem-Supply safety data sheet, November 2020 (by class)', 'H272 H400'),
    ...listed('seen', 'Spectrum safety data sheet, 14 September 2020 (by class)', 'H302 H314 H318 H372'),
    ...listed('from memory', HARMONISED, 'H410'),
    ...listed('from memory', SUPPLIERS, 'H290'),
  ],
  'nitric acid': listed('from memory', HARMONISED, 'H272 H290 H314 H331'),
  'barium nitrate': listed('from memory', HARMONISED, 'H272 H302 H319 H332'),
  'ferrous sulfate heptahydrate': listed('from memory', HARMONISED, 'H302 H315 H319'),
  'ferrous sulfate, saturated solution': listed('from memory', HARMONISED, 'H302 H315 H319'),
  'acetic acid, glacial': listed('from memory', HARMONISED, 'H226 H314'),
  'acetic acid, dilute': listed('from memory', HARMONISED, 'H314'),
  'citric acid': listed('from memory', SUPPLIERS, 'H319 H335'),
  'potassium cyanide': [
    ...listed('from memory', HARMONISED, 'H300 H310 H330 H400 H410 EUH032'),
    ...listed('from memory', SUPPLIERS, 'H290 H372'),
  ],
  'lavender oil': listed('from memory', SUPPLIERS, 'H317 H412'),
  'ammonia solution': listed('from memory', HARMONISED, 'H314 H335 H400'),
  bleach: listed('from memory', HARMONISED, 'H314 H400 EUH031'),
};

function cadmiumBromide(): Hazard[] {
  return [
    ...listed('from memory', `${HARMONISED} (cadmium compounds)`, 'H302 H312 H332 H400 H410'),
    ...listed('from memory', SUPPLIERS, 'H350 H373'),
  ];
}

/** The hazards known of a substance; none for one that is not in the catalogue, which says nothing about it. */
export function hazardsOf(key: string | null): Hazard[] {
  return key !== null && Object.hasOwn(HAZARDS, key) ? (HAZARDS[key as SubstanceKey] ?? []) : [];
}

/** What stands instead of a statement that was not read in a published source. */
export const CHECK_THE_SHEET = 'check your supplier’s safety data sheet';

/** The end of every page and sheet of the desk with chemicals on it. */
export const STANDING_ADVICE = wordsFor(LANGUAGE_OF_DESK).meeting.advice;
