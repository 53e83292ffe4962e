// What the calculator says of its figures, in its page and through its API alike.
import type { UsePerArea } from './use-per-area.calc.js';

/** How an estimate is reckoned, one sentence a line. */
export const RECKONING = [
  'All plates are taken as made on one day. Each quantity is the area of all tries times what a square inch takes.',
  'Least (low): every plate comes out at the first try, with the least use. Likely: the middle number of tries, with the usual use.',
  '9 in 10 (ninety): enough in nine cases of ten, with the usual use. Most (high): those tries with the most use.',
  'Tries follow the negative binomial distribution: each has the same chance of being kept, whatever came before. On a bad day plates fail together, and more is needed.',
  'Plates below 4 x 5 in are reckoned by area too, though edges probably make small plates take more. Metal is taken as glass is: no difference was found published.',
  'Silver nitrate is what leaves the bath: what the halides of the film take up, and what clings to the plate and is carried off. It is for buying crystals.',
  'What a bath must hold to cover a plate, what stays in beakers and filters, and test plates come on top.',
] as const;

/** Stands beside every estimate. */
export const CAUTION =
  'Silver nitrate, ether, collodion, cadmium salts and some fixers can blind, burn, poison or catch fire. These figures are no instruction: follow your supplier’s data sheets and local rules, and work with somebody who has the practice.';

/** How the strength of a bath and what its plates take are reckoned, one sentence a line. */
export const BATH_RECKONING = [
  'Density: the table of clean silver nitrate in water at 20 °C of engineeringtoolbox.com (page d_1958); between its lines volumes are taken to add.',
  'A reading away from 20 °C is carried over as if the bath swelled like water (M. Tanaka et al., Metrologia 38, 2001); the further from 20, the rougher.',
  'Titration: one mole of thiocyanate for one of silver. Dried silver chloride times 1.185 is the silver nitrate, by the molar masses; old books have 1.18.',
  'A plate takes silver into its film, and carries off some of the bath as it is: only the film makes a bath weaker. By square inch 1.9 to 4.7 mg, likely 3.2, into the film (amounts of collodion from memory, silver by molar masses of two old formulas), and 70 to 78 microlitres carried off (E. L. Wilson, Wilson’s Photographics, 1881).',
  'A test of 2026 (B. Cuyler, UV Photographics blog: 9 mg by square inch in all) lies within that range. Wilson’s own record of 180 plates does not: his bath lost more than film and drops can explain. Measure your own.',
] as const;

/** Stands beside any amount of cyanide. */
export const CYANIDE_CAUTION =
  'Cyanide can kill, by the mouth, the skin and the breath. It must never meet an acid, and the developer is one. Hypo does the same work, and is the fixer for any class.';

/** Where each figure of use is from. */
export function sourcesOf({ solutions, silverNitrate, silverPerMlCollodion }: UsePerArea) {
  return [
    ...Object.entries(solutions).map(([of, { source }]) => ({ of, source })),
    { of: 'silver nitrate', source: silverNitrate.source },
    { of: 'silver nitrate in the film', source: silverPerMlCollodion.source },
  ];
}
