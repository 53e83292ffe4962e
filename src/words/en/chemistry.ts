// What a number of plates needs: what is asked, what is answered, and what the figures rest on.
import { counted } from '../../lib/words.js';

export const chemistry = {
  title: 'Glass and solutions for plates',
  titleOf: (plates: number): string => `What ${counted(plates, 'plate')} need`,
  lead: 'How much glass, collodion, developer, fixer, varnish and silver nitrate a number of wet plates takes.',
  another: 'Other plates',
  size: 'Size of plate',
  sizeOf: (line: number): string => `Size ${line}`,
  moreSizes: 'More sizes',
  ownSize: 'My own size, in millimetres',
  own: 'My own size',
  width: 'Width',
  height: 'Height',
  keepers: 'How many are to be kept?',
  keepersHint: 'Good plates at the end; those that fail are reckoned on top.',
  plates: 'plates',
  madeBy: 'Who makes the plates?',
  makers: {
    sittings: 'Somebody who has the practice',
    beginners: 'Beginners, as in a class',
  },
  bottles: 'And what goes into the bottles',
  bottlesHint: 'By formulas as they were printed; each has its source in the answer.',
  mixedBy: (solution: string): string => `${solution} mixed by`,
  notAsked: 'Not asked',
  reckon: 'Reckon',
  of: {
    collodion: 'Collodion',
    developer: 'Developer',
    fixer: 'Fixer',
    varnish: 'Varnish',
    'silver nitrate': 'Silver nitrate',
    'silver nitrate in the film': 'Silver nitrate in the film',
  },
  sheets: (size: string): string => `Sheets, ${size}`,
  /** Of things that are counted. */
  pieces: (count: string): string => `${count} ${count === '1' ? 'piece' : 'pieces'}`,
  table: {
    ready: 'What to have ready',
    bottles: 'What goes into the bottles',
    film: 'Of the silver nitrate, in the film',
    taken: 'Taken up by the halides',
    what: 'Of',
    heads: ['Least', 'Likely', '9 in 10', 'Most'],
    key: 'Least: every plate comes out at once. Likely: as it goes on most days. 9 in 10: enough nine times in ten. Most: to be safe.',
  },
  /** What a printed formula says of itself, and where a figure is from; its English stands with the figures. */
  printed: (text: string): string => text,
  kept: (ofHundred: number, stopAfter: number | null, source: string): string =>
    `${ofHundred} of a hundred plates are kept${stopAfter === null ? '. ' : `, and after ${counted(stopAfter, 'try', 'tries')} for a plate one stops. `}${source}`,
  /** Stands beside every estimate. */
  caution:
    'Silver nitrate, ether, collodion, cadmium salts and some fixers can blind, burn, poison or catch fire. These figures are no instruction: follow your supplier’s data sheets and local rules, and work with somebody who has the practice.',
  /** Stands beside any amount of cyanide. */
  cyanide:
    'Cyanide can kill, by the mouth, the skin and the breath. It must never meet an acid, and the developer is one. Hypo does the same work, and is the fixer for any class.',
  /** How an estimate is reckoned, one sentence a line. */
  reckoning: [
    'All plates are taken as made on one day. Each quantity is the area of all tries times what a square inch takes.',
    'Least (low): every plate comes out at the first try, with the least use. Likely: the middle number of tries, with the usual use.',
    '9 in 10 (ninety): enough in nine cases of ten, with the usual use. Most (high): those tries with the most use.',
    'Tries follow the negative binomial distribution: each has the same chance of being kept, whatever came before. On a bad day plates fail together, and more is needed.',
    'Plates below 4 x 5 in are reckoned by area too, though edges probably make small plates take more. Metal is taken as glass is: no difference was found published.',
    'Silver nitrate is what leaves the bath: what the halides of the film take up, and what clings to the plate and is carried off. It is for buying crystals.',
    'What a bath must hold to cover a plate, what stays in beakers and filters, and test plates come on top.',
  ],
};
