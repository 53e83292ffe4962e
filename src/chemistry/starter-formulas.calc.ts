// The starter library: formulas printed in the old books and a few later ones, in the words and units they were
// printed in and converted, with where each was printed and what is assumed. An owner takes one and makes it theirs.
import { STARTER_COLLODIONS } from './starter-collodions.calc.js';
import {
  STARTER_BATHS,
  STARTER_DEVELOPERS,
  STARTER_FIXERS,
  STARTER_VARNISHES,
} from './starter-solutions.calc.js';
import type { StarterFormula } from './starter-lines.calc.js';

export const STARTER_FORMULAS: readonly StarterFormula[] = [
  ...STARTER_COLLODIONS,
  ...STARTER_BATHS,
  ...STARTER_DEVELOPERS,
  ...STARTER_FIXERS,
  ...STARTER_VARNISHES,
];

/** The starter formula of a key, or null. */
export const starterFormula = (key: string): StarterFormula | null =>
  STARTER_FORMULAS.find((one) => one.key === key) ?? null;
