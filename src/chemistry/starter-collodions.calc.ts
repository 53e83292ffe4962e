// Iodised collodions of the starter library. The books say "ounce" and "bromide of cadmium" without saying which:
// American books are taken to mean the American fluid ounce, British ones the imperial, and the salt to be anhydrous.
import {
  grains,
  liquidOf,
  ounces,
  toTheOunce,
  type StarterFormula,
  type StarterLine,
} from './starter-lines.calc.js';

const us = ounces('US');
const imperial = ounces('imperial');

const METHOD = [
  'Outdoors or under an exhaust; no flame, heater or spark in the room.',
  'Put the gun-cotton into half of the alcohol and wet it through; add the ether and shake until it is clear.',
  'Dissolve the salts in the rest of the alcohol, the bromides first; filter.',
  'Pour the salts into the plain collodion, a little at a time, shaking.',
  'Date the bottle; let it stand, and decant it from what has settled.',
];
/** In the notes of every formula with cadmium bromide. */
const BROMIDE =
  'The book does not say which cadmium bromide: anhydrous is assumed; as tetrahydrate weigh 26 % more for the same bromide.';
/** What stands there instead once the line is reckoned for tetrahydrate, so that nobody adds the water twice. */
const WET_BROMIDE =
  'The book does not say which cadmium bromide: anhydrous is assumed there, and its line is reckoned for tetrahydrate here.';
export const noteForTetrahydrate = (note: string): string => note.replace(BROMIDE, WET_BROMIDE);
const MEMORY = 'Ripening and life: from memory, for quick mixes with ammonium or potassium salts.';

type Told = Pick<
  StarterFormula,
  'key' | 'name' | 'batchAsWritten' | 'ripenDays' | 'lifeDays' | 'source' | 'note'
>;

const collodion = (told: Told, lines: StarterLine[]): StarterFormula => ({
  ...told,
  kind: 'collodion',
  lines,
  batch: liquidOf(lines),
  method: METHOD,
});

const ESTABROOKE = 'E. M. Estabrooke, Photography in the Studio and in the Field (1887)';
const WILSON = 'E. L. Wilson, Wilson’s Photographics (1881)';

export const STARTER_COLLODIONS: readonly StarterFormula[] = [
  collodion(
    {
      key: 'collodion-schriever-ferrotype',
      name: 'Ferrotype collodion (Schriever)',
      batchAsWritten: '40 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: 90,
      source:
        'J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), Ferrotype process, par. 1005 to 1007',
      note: `The line with the alcohol was missing in the copy that was read: as much as of ether is assumed. ${BROMIDE} ${MEMORY}`,
    },
    [
      us('diethyl ether', '20'),
      us('ethanol', '20', 'assumed; the line was missing'),
      grains('gun-cotton', '200'),
      grains('cadmium bromide, anhydrous', '100'),
      grains('cadmium iodide', '80'),
      grains('ammonium iodide', '120'),
    ],
  ),
  collodion(
    {
      key: 'collodion-estabrooke-positive',
      name: 'Positive collodion (Estabrooke)',
      batchAsWritten: 'by the ounce; a batch of 16 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: 90,
      source: `${ESTABROOKE}, p. 16 to 17`,
      note: `Cotton 5 to 6 grains to the ounce: the middle is taken. ${BROMIDE} ${MEMORY}`,
    },
    [
      us('diethyl ether', '8'),
      us('ethanol', '8'),
      toTheOunce('gun-cotton', '5.5', '16', '5 to 6 in the book'),
      toTheOunce('ammonium iodide', '4', '16'),
      toTheOunce('cadmium iodide', '2', '16'),
      toTheOunce('cadmium bromide, anhydrous', '1', '16'),
      toTheOunce('copper bromide', '1', '16'),
    ],
  ),
  collodion(
    {
      key: 'collodion-estabrooke-negative-c',
      name: 'Negative collodion C (Estabrooke)',
      batchAsWritten: '64 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: 90,
      source: `${ESTABROOKE}, p. 27 to 28`,
      note: `Ripen a day or two, or mix with old; when deep red it has lost its speed, and a little of it is blended into fresh (p. 27). ${BROMIDE} Life: from memory.`,
    },
    [
      us('diethyl ether', '32'),
      us('ethanol', '32'),
      grains('gun-cotton', '320'),
      grains('ammonium iodide', '192'),
      grains('cadmium bromide, anhydrous', '128'),
      grains('potassium bromide', '96'),
    ],
  ),
  collodion(
    {
      key: 'collodion-estabrooke-p29',
      name: 'Quick collodion (Estabrooke, p. 29)',
      batchAsWritten: '20 fl oz (US assumed)',
      ripenDays: 1,
      lifeDays: 120,
      source: `${ESTABROOKE}, p. 29`,
      note: `Ready in a few hours and improves with age. Workshop Receipts, 4th series, has the same salts with alcohol 10 + 5 and ether 5 ounces: one of the two swapped them. ${BROMIDE} Life: from memory.`,
    },
    [
      us('ethanol', '10', '5 + 5 in the book'),
      us('diethyl ether', '10'),
      grains('gun-cotton', '100'),
      grains('ammonium iodide', '60'),
      grains('cadmium iodide', '30'),
      grains('cadmium bromide, anhydrous', '20'),
    ],
  ),
  collodion(
    {
      key: 'collodion-wilson-131',
      name: 'Portrait collodion (Wilson)',
      batchAsWritten: '35 fl oz (US assumed)',
      ripenDays: 3,
      lifeDays: 120,
      source: `${WILSON}, note to par. 131`,
      note: `The note tells no cotton: 5 to 6 grains to the ounce is usual (Estabrooke, p. 16). Ether and alcohol in equal parts. ${BROMIDE} ${MEMORY}`,
    },
    [
      us('diethyl ether', '17.5'),
      us('ethanol', '17.5'),
      toTheOunce('gun-cotton', '5.5', '35', 'not in the note'),
      grains('cadmium iodide', '135'),
      grains('potassium iodide', '70'),
      grains('cadmium bromide, anhydrous', '70'),
      grains('ammonium iodide', '12'),
    ],
  ),
  collodion(
    {
      key: 'collodion-oneil-hot-weather',
      name: 'Collodion for hot weather (O’Neil)',
      batchAsWritten: '22 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: 90,
      source: `${WILSON}, par. 131, Collodion for hot weather`,
      note: `The note tells no cotton: 5 to 6 grains to the ounce is usual (Estabrooke, p. 16). ${BROMIDE} ${MEMORY}`,
    },
    [
      us('diethyl ether', '10'),
      us('ethanol', '12'),
      toTheOunce('gun-cotton', '5.5', '22', 'not in the note'),
      toTheOunce('cadmium bromide, anhydrous', '1', '22'),
      toTheOunce('ammonium bromide', '1', '22'),
      toTheOunce('cadmium iodide', '1.5', '22'),
      toTheOunce('ammonium iodide', '3', '22'),
    ],
  ),
  collodion(
    {
      key: 'collodion-chambers',
      name: 'Collodion of the encyclopaedia (Chambers)',
      batchAsWritten: '22 fl oz (imperial assumed)',
      ripenDays: 1,
      lifeDays: 90,
      source: 'Chambers’s Encyclopaedia, "Collodion"',
      note: `A potassium collodion is usable after a few hours (Wilson, par. 131). ${BROMIDE} Life: from memory.`,
    },
    [
      imperial('diethyl ether', '16'),
      imperial('ethanol', '6', '2 + 4 in the book'),
      grains('gun-cotton', '104'),
      grains('cadmium iodide', '48'),
      grains('potassium iodide', '30'),
      grains('cadmium bromide, anhydrous', '25'),
    ],
  ),
  collodion(
    {
      key: 'collodion-cooley',
      name: 'Cadmium collodion (Cooley)',
      batchAsWritten: '4 1/2 fl oz (imperial assumed)',
      ripenDays: 2,
      lifeDays: 60,
      source:
        'Cooley’s Cyclopaedia of Practical Receipts, 6th edition by R. V. Tuson, volume I, "Collodion, Iodised"',
      note: `Keep it two days before use; less to be relied on when kept long: two months are assumed. From memory cadmium alone wants weeks and keeps a year: the book is followed. ${BROMIDE}`,
    },
    [
      imperial('ethanol', '1 1/2', 'spirit'),
      imperial('diethyl ether', '3'),
      grains('gun-cotton', '16'),
      grains('cadmium iodide', '18'),
      grains('cadmium bromide, anhydrous', '6'),
    ],
  ),
  collodion(
    {
      key: 'collodion-wilkinson-zinc',
      name: 'Zinc collodion (Wilkinson)',
      batchAsWritten: '80 fl oz (US assumed)',
      ripenDays: 7,
      lifeDays: 180,
      source: 'W. T. Wilkinson, Photo-Engraving, chapter II',
      note: 'Stand a week; it improves up to six months, then blend it with new. Made for line work. A British book: by imperial ounces it is 4 % stronger.',
    },
    [
      us('ethanol', '40', '30 + 10 in the book'),
      us('diethyl ether', '40'),
      {
        ingredient: 'Celloidin, cakes',
        substance: 'celloidin',
        quantity: 2n,
        unit: 'piece',
        asWritten: '1 1/2 cakes',
        note: 'a cake and a half; counted as two',
      },
      grains('zinc bromide', '150'),
      grains('zinc iodide', '350'),
    ],
  ),
];
