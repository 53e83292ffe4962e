// A formula as it is printed on a card, as the props of a table: what to weigh and measure for one batch.
import { formatQuantity } from '../lib/quantity-text.js';
import type { Mixed } from './formulas.schemas.js';

export function cardTable({ formulaName, text }: Mixed) {
  return {
    caption: `${formulaName}, for ${formatQuantity(text.batch, 'uL')}`,
    columns: [{ head: 'Ingredient' }, { head: 'Amount', figures: true }, { head: 'As written' }],
    rows: text.lines.map(({ ingredient, note, quantity, unit, asWritten }) => [
      note === '' ? ingredient : `${ingredient} (${note})`,
      formatQuantity(quantity, unit),
      asWritten,
    ]),
  };
}
