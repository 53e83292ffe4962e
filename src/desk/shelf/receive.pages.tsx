// Something has come: what was ordered with one tap, or anything else with its amount.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { WholeShelf } from '../../stock/shelf-views.service.js';
import { type Item, lotClass } from '../../stock/stock.schemas.js';
import { AmountField } from './amounts.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { CLASS_WORDS, oneOf, typedAmount } from './words.calc.js';

interface ReceivePageProps {
  visit: StaffVisit;
  shelf: WholeShelf;
  /** What it is, when that is known already. */
  itemId?: string | undefined;
  formKey: string;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function ReceivePage({ visit, shelf, itemId, formKey, sent }: ReceivePageProps) {
  const items = shelf.standings.map(({ item }) => item).filter((item) => !item.archived);
  const known = items.find((item) => item.id === itemId);
  return (
    <ShelfFrame visit={visit} title="Something has come" at="" errors={sent?.errors}>
      {!known && <Ordered visit={visit} shelf={shelf} formKey={formKey} />}
      {!known && shelf.orders.length > 0 && <h2>Anything else</h2>}
      <Form
        action={shelfPath(visit, '/receive')}
        csrf={visit.formToken}
        formKey={formKey}
        label="Something has come"
        values={sent?.values ?? (known ? { itemId: known.id } : {})}
        errors={sent?.errors ?? []}
      >
        <WhatItIs known={known} items={items} />
        <TextField
          name="label"
          label="What is written on it"
          hint="So that it is found again: “June, second bottle”. Empty: its name and today."
          width="full"
          optional
        />
        <DateField
          name="usableUntil"
          label="Last day of use"
          hint="Empty: as long as it usually keeps."
          optional
        />
        {(!known || known.kind === 'collodion') && (
          <SelectField
            name="class"
            label="What it is like"
            empty={null}
            options={['ordinary' as const, ...lotClass.options.filter((one) => one !== 'ordinary')].map(
              (one) => ({
                value: one,
                label: CLASS_WORDS[one],
              }),
            )}
          />
        )}
        <TextArea name="note" label="Note" rows={2} optional />
        <Button>Put it on the shelf</Button>
      </Form>
    </ShelfFrame>
  );
}

function WhatItIs({ known, items }: { known: Item | undefined; items: Item[] }) {
  if (known)
    return (
      <>
        <input type="hidden" name="itemId" value={known.id} />
        <p class="lead">{known.name}</p>
        <AmountField
          name="quantity"
          label="How much?"
          unit={known.unit}
          {...(known.packQuantity !== null && { value: typedAmount(known.packQuantity, known.unit) })}
        />
      </>
    );
  return (
    <>
      <SelectField
        name="itemId"
        label="What is it?"
        options={items.map(({ id, name }) => ({ value: id, label: name }))}
      />
      <TextField name="quantity" label="How much?" hint="With its unit: 500 ml, 25 g, 12." width="short" />
    </>
  );
}

function Ordered({ visit, shelf, formKey }: { visit: StaffVisit; shelf: WholeShelf; formKey: string }) {
  return (
    <ul class="bottles">
      {shelf.orders.map((order) => {
        const item = shelf.standings.find((one) => one.item.id === order.itemId)?.item;
        const supplier = shelf.suppliers.find(({ id }) => id === order.supplierId);
        return (
          item && (
            <li key={order.id}>
              <span>{item.name}</span>
              <strong>{formatQuantity(order.quantity, item.unit)}</strong>
              <span class="small">
                expected on {dayInWords(order.expectedOn)}
                {supplier && ` from ${supplier.name}`}
              </span>
              <Form
                action={shelfPath(visit, `/receive/${order.id}`)}
                csrf={visit.formToken}
                formKey={formKey}
              >
                <Button kind="quiet">
                  This {oneOf(item)} has come<span class="unseen">: {item.name}</span>
                </Button>
              </Form>
            </li>
          )
        );
      })}
    </ul>
  );
}
