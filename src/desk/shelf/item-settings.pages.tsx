import { SUBSTANCES } from '../../chemistry/substances.calc.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { type Item, type Unit } from '../../stock/stock.schemas.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import { AmountField } from './amounts.pages.js';
import { typedAmount } from './words.calc.js';

export interface SentItem {
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

export function Settings({ unit: of, suppliers }: { unit: Unit | null; suppliers: Supplier[] }) {
  return (
    <>
      <TextField name="name" label="Name" width="full" />
      <Fieldset legend="How more of it comes">
        <SelectField
          name="supplierId"
          label="Supplier"
          empty="None"
          options={suppliers.map(({ id, name }) => ({ value: id, label: name }))}
        />
        <NumberField
          name="leadDays"
          label="Days from order to arrival"
          hint="Empty: as the supplier’s; without one it cannot be bought."
          unit="days"
          optional
        />
        <Amount name="packQuantity" label="In one pack" unit={of} />
        <NumberField name="leastPacks" label="Least order" unit="packs" optional />
        <NumberField
          name="ripenDays"
          label="Mixed here: days until it can be used"
          hint="0 for the same day. Empty: it is not mixed here."
          unit="days"
          optional
        />
      </Fieldset>
      <Fieldset legend="How long it keeps">
        <NumberField
          name="lifeDays"
          label="From mixing or arrival"
          hint="Empty: it does not run out."
          unit="days"
          optional
        />
        <NumberField name="openedLifeDays" label="Once opened" unit="days" optional />
      </Fieldset>
      <Fieldset legend="How much of it counts">
        <Amount name="heel" label="Heel: what stays in the bottle" unit={of} />
        <Amount name="leastPour" label="Least that can be poured from" unit={of} />
        <Amount
          name="mostOnHand"
          label="Most that may be kept"
          hint="By your local rules. It is never proposed to buy past it."
          unit={of}
        />
      </Fieldset>
      <Fieldset
        legend="Safety"
        hint="From the supplier’s data sheet and the bottle’s own label, which hold before anything here."
      >
        <SelectField
          name="substance"
          label="Which substance is it?"
          hint="What is known of it is told then, and what it must not meet. Mind its form: with or without water."
          empty="None of these, or a mixture"
          options={Object.entries(SUBSTANCES).map(([value, { name }]) => ({ value, label: name }))}
        />
        <TextField name="hCodes" label="H-statements" hint="Like H225 H319." width="full" optional />
        <TextArea name="hazardNote" label="What its label warns of" rows={2} optional />
        <TextField name="storage" label="How it is kept" width="full" optional />
        <CheckboxGroup
          name="noPost"
          label="Transport"
          options={[{ value: 'yes', label: 'Cannot go by post or air' }]}
          optional
        />
      </Fieldset>
    </>
  );
}

/** With no unit chosen yet, an amount is written with its own. */
function Amount({
  name,
  label,
  hint,
  unit: of,
}: {
  name: string;
  label: string;
  hint?: string;
  unit: Unit | null;
}) {
  if (of !== null) return <AmountField name={name} label={label} hint={hint} unit={of} optional />;
  return (
    <TextField
      name={name}
      label={label}
      hint={hint ?? 'With its unit: 500 ml, 25 g, 10.'}
      width="short"
      optional
    />
  );
}

export function answersOf(item: Item): Record<string, unknown> {
  const amount = (quantity: bigint | null) => (quantity === null ? '' : typedAmount(quantity, item.unit));
  const text = (value: string | number | null) => (value === null ? '' : String(value));
  return {
    name: item.name,
    supplierId: text(item.supplierId),
    leadDays: text(item.leadDays),
    packQuantity: amount(item.packQuantity),
    leastPacks: text(item.leastPacks),
    ripenDays: text(item.ripenDays),
    lifeDays: text(item.lifeDays),
    openedLifeDays: text(item.openedLifeDays),
    heel: amount(item.heel),
    leastPour: amount(item.leastPour),
    mostOnHand: amount(item.mostOnHand),
    substance: text(item.substance),
    hCodes: item.hCodes.join(' '),
    hazardNote: item.hazardNote,
    storage: item.storage,
    noPost: item.noPost ? 'yes' : '',
    archived: item.archived ? 'yes' : '',
    usual: item.usual ? 'yes' : '',
  };
}
