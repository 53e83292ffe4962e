// A formula as it is printed on a card, as the props of a table: what to weigh and measure for one batch.
import { formatQuantity } from '../lib/quantity-text.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { Mixed } from './formulas.schemas.js';

export function cardTable({ formulaName, text }: Mixed, { student }: Words = wordsFor(LANGUAGE_OF_DESK)) {
  const { card } = student.after;
  return {
    caption: card.caption(formulaName, formatQuantity(text.batch, 'uL')),
    columns: [{ head: card.ingredient }, { head: card.amount, figures: true }, { head: card.asWritten }],
    rows: text.lines.map(({ ingredient, note, quantity, unit, asWritten }) => [
      note === '' ? ingredient : `${ingredient} (${note})`,
      formatQuantity(quantity, unit),
      asWritten,
    ]),
  };
}
