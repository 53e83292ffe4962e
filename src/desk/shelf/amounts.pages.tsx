// Amounts on the shelf's pages: three big figures, and a box to type one into. A bare number is read in the unit
// beside the box, so that it can be typed on a phone's number keys; any other unit may be written after it.
import { formatQuantity } from '../../lib/quantity-text.js';
import { NumberField } from '../../platform/html/kit/form.js';
import type { Standing } from '../../stock/levels.calc.js';
import type { Unit } from '../../stock/stock.schemas.js';
import { TYPED_IN } from './words.calc.js';

export function Levels({ usable, setAside, free, item }: Standing) {
  const figures = [
    { term: 'Usable now', amount: usable },
    { term: 'Set aside', amount: setAside },
    { term: 'Free', amount: free },
  ];
  return (
    <dl class="levels">
      {figures.map(({ term, amount }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{formatQuantity(amount, item.unit)}</dd>
        </div>
      ))}
    </dl>
  );
}

interface AmountFieldProps {
  name: string;
  label: string;
  unit: Unit;
  hint?: string | undefined;
  value?: string | undefined;
  optional?: boolean | undefined;
}

export function AmountField({ name, label, unit, hint, value, optional }: AmountFieldProps) {
  const { shown, sent } = TYPED_IN[unit];
  return (
    <>
      <input type="hidden" name={`${name}-in`} value={sent} />
      <NumberField
        name={name}
        label={label}
        hint={hint}
        value={value}
        unit={shown}
        optional={optional}
        decimal={sent !== ''}
      />
    </>
  );
}
