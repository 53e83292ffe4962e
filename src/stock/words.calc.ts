// What is said at the shelf when an amount cannot be read or an act cannot be done.
import { formatQuantity, type QuantityProblem } from '../lib/quantity-text.js';
import type { ActProblem } from './acts.calc.js';
import type { Unit } from './stock.schemas.js';
import type { YieldProblem } from './yield.calc.js';

const LIKE: Record<Unit, string> = {
  mg: 'Please write how much with its unit, like 25 g.',
  uL: 'Please write how much with its unit, like 250 ml.',
  sheet: 'Please write a number of sheets, like 12.',
  piece: 'Please write a number, like 3.',
};

/** Why an amount was not taken, and how to write it. */
export function amountProblem(reason: QuantityProblem, unit: Unit): string {
  switch (reason) {
    case 'which ounce':
      return 'Which ounce: US fl oz or imperial fl oz? Millilitres and grams are taken too.';
    case 'comma or thousands':
      return 'This can be read in two ways; please write a point for decimals and no thousands.';
    case 'below zero':
      return 'This cannot be below nothing.';
    case 'too much':
      return 'This is more than any shelf holds.';
    case 'too fine':
      return unit === 'mg' || unit === 'uL'
        ? 'This is finer than can be kept account of.'
        : 'Whole ones only.';
    case 'other kind of unit':
    case 'unit unknown':
    case 'unit missing':
    case 'not a number':
    case 'empty':
      return LIKE[unit];
  }
}

/** @param volume of a full bath, microlitres */
export const moreThanFull = (volume: bigint): string =>
  `This is more than the ${formatQuantity(volume, 'uL')} it holds when full.`;

/** Why so much cannot have been mixed of what was taken, and what to do. */
export function yieldInWords(wrong: YieldProblem): string {
  return wrong.reason === 'more than went in'
    ? `So much does not come of what was taken: ${formatQuantity(wrong.most, 'uL')} at most. Please check both.`
    : `${formatQuantity(wrong.liquids, 'uL')} of liquids were taken for it. Please check both; if some was spilt, note all that was made and count the bottle afterwards.`;
}

/** Why an act was not done: the field it is told at ('' when it is none's fault), and the sentence. */
export const ACT_PROBLEMS: Record<ActProblem, { field: string; message: string }> = {
  'more than is in it': {
    field: 'quantity',
    message: 'There is not so much in it. If there is, please count it first.',
  },
  'nothing taken': { field: 'quantity', message: 'Please say how much.' },
  'nothing in it': { field: '', message: 'Nothing is left in it.' },
  'opened already': { field: '', message: 'It was opened before.' },
  'suspect already': { field: '', message: 'It is put aside as suspect already.' },
  'good already': { field: '', message: 'It counts as good already.' },
  'other items': { field: 'lots', message: 'Only bottles of the same kind can be poured together.' },
  'needs two bottles': { field: 'lots', message: 'Please say how much of at least two bottles.' },
  itself: { field: 'solventLotId', message: 'A bottle cannot be poured into itself.' },
  'out of its days': {
    field: 'lots',
    message: 'One of the bottles has run out or is not ripe yet; please take another.',
  },
  'not usable': { field: 'lots', message: 'One of the bottles is suspect or out of date with another.' },
};
