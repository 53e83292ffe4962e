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
