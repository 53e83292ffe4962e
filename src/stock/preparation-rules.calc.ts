// The usual preparation of a studio that has not written down its own. All of it is common practice, no source;
// minutes are assumptions. The ids are fixed, so that a tick made by these rules stays one when they are changed.
import type { Rule } from './preparation.schemas.js';

const usual = {
  forDay: 'both',
  minutesEach: 0,
  notWith: null,
  condition: 'always',
  amount: 'none',
  note: '',
  archived: false,
} as const;
const id = (number: number) => `5f0c1a00-0000-4000-8000-00000000000${number}`;

const GLASS = id(1);
const DECANT = id(2);

export const USUAL_RULES: readonly Rule[] = [
  {
    ...usual,
    id: GLASS,
    position: 1,
    what: 'Cut, clean and polish the glass',
    daysBefore: 1,
    minutes: 15,
    minutesEach: 4,
    darkroom: false,
    amount: 'sheets',
    note: 'Edges ground, both sides cleaned, the face polished last. The spare tries are counted in.',
  },
  {
    ...usual,
    id: DECANT,
    position: 2,
    what: 'Decant the collodion for the day and date the bottle',
    daysBefore: 1,
    minutes: 20,
    darkroom: false,
    notWith: GLASS,
    note: 'Not on the day of the glass: its dust gets into the collodion. No flame and no heater in the room.',
  },
  {
    ...usual,
    id: id(3),
    position: 3,
    what: 'Filter the bath and check its strength and acidity',
    daysBefore: 1,
    minutes: 40,
    darkroom: true,
    note: 'Write the reading down on the page of the bath.',
  },
  {
    ...usual,
    id: id(4),
    position: 4,
    what: 'Look over developer, fixer, varnish and wash water',
    daysBefore: 1,
    minutes: 20,
    darkroom: true,
  },
  {
    ...usual,
    id: id(5),
    position: 5,
    what: 'Make a test plate before the first sitter',
    daysBefore: 0,
    minutes: 30,
    darkroom: true,
  },
  {
    ...usual,
    id: id(6),
    position: 6,
    what: 'Hot room: bath and developer into the cool, a damp cloth for the holder',
    daysBefore: 0,
    minutes: 15,
    darkroom: true,
    condition: 'hot',
    note: 'Plates dry sooner: from bath to developer in less time than usual.',
  },
  {
    ...usual,
    id: id(7),
    position: 7,
    what: 'Cold room: warm bath and developer to the room',
    daysBefore: 0,
    minutes: 30,
    darkroom: true,
    condition: 'cold',
    note: 'In warm water, never over a flame. A cold bath wants plates longer in it.',
  },
];
