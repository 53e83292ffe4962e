// How much silver the halides of a collodion take up: molar masses, halide per millilitre, silver per millilitre.
// It counts the silver in the film only. A plate carries more away as bath liquid; see estimate.calc.ts.

/*
 * Standard atomic weights in g/mol, as tabulated in the Python package periodictable (mass.py);
 * Cl, Ca, Fe, Cu, Zn, Br, Ba and I from memory of the IUPAC table.
 */
const ATOMIC_WEIGHTS = {
  H: 1.00794,
  Li: 6.941,
  C: 12.0107,
  N: 14.0067,
  O: 15.9994,
  Na: 22.98977,
  S: 32.065,
  Cl: 35.453,
  K: 39.0983,
  Ca: 40.078,
  Fe: 55.845,
  Cu: 63.546,
  Zn: 65.38,
  Br: 79.904,
  Ag: 107.8682,
  Cd: 112.411,
  Ba: 137.327,
  I: 126.90447,
} as const;

type Composition = Partial<Record<keyof typeof ATOMIC_WEIGHTS, number>>;

/** Grams per mole of what is put together from these atoms. */
export function molarMass(composition: Composition): number {
  let mass = 0;
  for (const [symbol, weight] of Object.entries(ATOMIC_WEIGHTS))
    mass += weight * (composition[symbol as keyof typeof ATOMIC_WEIGHTS] ?? 0);
  return mass;
}

export const SILVER_NITRATE_G_PER_MOL = molarMass({ Ag: 1, N: 1, O: 3 });
/** Grams of silver nitrate that make one gram of dried silver chloride. */
export const NITRATE_PER_CHLORIDE = SILVER_NITRATE_G_PER_MOL / molarMass({ Ag: 1, Cl: 1 });

/** A salt of a collodion. MX + AgNO3 -> AgX + MNO3, so a cadmium or zinc salt takes two silvers per mole. */
interface Salt {
  gPerMol: number;
  halides: number;
}
const salt = (composition: Composition): Salt => ({
  gPerMol: molarMass(composition),
  halides: (composition.Br ?? 0) + (composition.I ?? 0),
});

/** Cadmium bromide comes dry or with four waters; by weight the second gives 21 % less bromide, so they differ here. */
export const HALIDE_SALTS = {
  'potassium iodide': salt({ K: 1, I: 1 }),
  'ammonium iodide': salt({ N: 1, H: 4, I: 1 }),
  'cadmium iodide': salt({ Cd: 1, I: 2 }),
  'zinc iodide': salt({ Zn: 1, I: 2 }),
  'potassium bromide': salt({ K: 1, Br: 1 }),
  'ammonium bromide': salt({ N: 1, H: 4, Br: 1 }),
  'lithium bromide': salt({ Li: 1, Br: 1 }),
  'zinc bromide': salt({ Zn: 1, Br: 2 }),
  'copper bromide': salt({ Cu: 1, Br: 2 }),
  'cadmium bromide, anhydrous': salt({ Cd: 1, Br: 2 }),
  'cadmium bromide, tetrahydrate': salt({ Cd: 1, Br: 2, H: 8, O: 4 }),
} as const satisfies Record<string, Salt>;

export type HalideSalt = keyof typeof HALIDE_SALTS;

/** Salts in milligrams, made up to a volume in microlitres (the sum of the liquids; ether and alcohol shrink a little). */
export interface HalideFormula {
  salts: readonly { salt: HalideSalt; mg: bigint }[];
  volumeUl: bigint;
}

/** Millimoles of iodide and bromide per millilitre of collodion. Null without a volume, or with a weight below zero. */
export function halidePerMl({ salts, volumeUl }: HalideFormula): number | null {
  if (volumeUl <= 0n || salts.some(({ mg }) => mg < 0n)) return null;
  let mmol = 0;
  for (const { salt: name, mg } of salts)
    mmol += (Number(mg) / HALIDE_SALTS[name].gPerMol) * HALIDE_SALTS[name].halides;
  return mmol / (Number(volumeUl) / 1000);
}

/** Milligrams of silver nitrate that one millilitre of collodion left on the plate takes up, if all its halide reacts. */
export function silverNitratePerMl(formula: HalideFormula): number | null {
  const halide = halidePerMl(formula);
  return halide === null ? null : halide * SILVER_NITRATE_G_PER_MOL;
}
