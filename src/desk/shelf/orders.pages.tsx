// What is to be ordered, by supplier, with one tap once it is; what is on its way; and anything else that was ordered.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { StockMark } from '../../platform/html/kit/stock-mark.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import { lackingOf } from '../../stock/mixing.calc.js';
import { bySupplier, type ToOrder, toOrder } from '../../stock/ordering.calc.js';
import type { OrdersAhead } from '../../stock/planning.service.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import type { Notice } from '../frame.pages.js';
import { shortDay } from '../words.calc.js';
import { CannotBeHad, purposeInWords } from './ahead.pages.js';
import { AmountField } from './amounts.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { oneOf, typedAmount } from './words.calc.js';

export interface SentOrder {
  /** Which of the page's forms: the number of a suggested order, or that of anything else. */
  of: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

interface OrdersPageProps {
  visit: StaffVisit;
  ahead: OrdersAhead;
  formKey: string;
  notice?: Notice | undefined;
  sent?: SentOrder | undefined;
}

export const ANYTHING_ELSE = 'else';

export function OrdersPage(props: OrdersPageProps) {
  const { visit, ahead, notice, sent } = props;
  const all = toOrder(ahead.horizon);
  const near = all.filter((one) => one.near);
  const later = all.filter((one) => !one.near);
  return (
    <ShelfFrame visit={visit} title="To order" at="/orders" notice={notice} errors={sent?.errors}>
      <p>
        What must be here for given places and for mixing, in whole packs, and never more than you keep at
        most. What falls short within two weeks is ordered together.
      </p>
      {near.length === 0 && <p class="empty">Nothing has to be ordered in the next two weeks.</p>}
      {bySupplier(near).map(({ supplierId, orders }) => (
        <section key={supplierId ?? ''}>
          <SupplierHead supplier={ahead.suppliers.find(({ id }) => id === supplierId)} />
          {orders.map((one) => (
            <Suggested key={`${one.item.id} ${one.by}`} {...props} order={one} />
          ))}
        </section>
      ))}
      <CannotBeHad lacking={lackingOf(ahead.horizon, false)} act="ordered" onTheWay={ahead.onTheWay} />
      {later.length > 0 && (
        <details open={near.length === 0}>
          <summary>{counted(later.length, 'order')} later</summary>
          <Table
            caption="To be ordered later"
            columns={['What', 'How much', 'Order by', 'For'].map((head) => ({ head }))}
            rows={later.map((one) => [
              one.item.name,
              amountInWords(one),
              shortDay(one.by),
              purposeInWords(one.purpose),
            ])}
          />
        </details>
      )}
      <OnTheWay {...props} />
      <AnythingElse {...props} />
    </ShelfFrame>
  );
}

function SupplierHead({ supplier }: { supplier: Supplier | undefined }) {
  if (!supplier) return <h2>No supplier named</h2>;
  return (
    <>
      <h2>{supplier.name}</h2>
      {supplier.contact !== '' && <p class="small">{supplier.contact}</p>}
    </>
  );
}

/** "30 sheets: 3 packs of 10 sheets". */
function amountInWords({ item, quantity, packs }: ToOrder): string {
  const amount = formatQuantity(quantity, item.unit, 'up');
  if (packs === null || item.packQuantity === null) return amount;
  return `${amount}: ${counted(Number(packs), 'pack')} of ${formatQuantity(item.packQuantity, item.unit)}`;
}

function Suggested({ visit, formKey, sent, order }: OrdersPageProps & { order: ToOrder }) {
  const { item, quantity, needed, by, neededOn, limited, purpose } = order;
  const of = `${item.id}-${by}`;
  const again = sent?.of === of ? sent : undefined;
  return (
    <article class="day">
      <h3>
        <a href={shelfPath(visit, `/items/${item.id}`)}>{item.name}</a>: {amountInWords(order)}
      </h3>
      <p>
        <StockMark state="order by" by={by} near />; it is needed on {shortDay(neededOn)}.
      </p>
      <p>
        {formatQuantity(needed, item.unit, 'up')} needed{' '}
        {purpose.days.length + purpose.into.length > 0 && purposeInWords(purpose)}.
      </p>
      {item.noPost && (
        <p>
          <Tag tone="warn">cannot go by post or air</Tag>
        </p>
      )}
      {limited && item.mostOnHand !== null && (
        <p>
          <Tag tone="warn">no more than that</Tag> You keep at most{' '}
          {formatQuantity(item.mostOnHand, item.unit)}; what stays short is told below.
        </p>
      )}
      <Form
        action={shelfPath(visit, '/orders')}
        csrf={visit.formToken}
        formKey={formKey}
        label={`${item.name} is ordered`}
        values={again?.values ?? { [`quantity-${of}`]: typedAmount(quantity, item.unit) }}
        errors={again?.errors ?? []}
      >
        <input type="hidden" name="of" value={of} />
        <input type="hidden" name={`itemId-${of}`} value={item.id} />
        <AmountField name={`quantity-${of}`} label="How much was ordered?" unit={item.unit} />
        <Button>
          I ordered this<span class="unseen">: {item.name}</span>
        </Button>
      </Form>
    </article>
  );
}

function OnTheWay({ visit, ahead, formKey }: OrdersPageProps) {
  const { horizon, onTheWay, suppliers } = ahead;
  return (
    <>
      <h2>On its way</h2>
      {onTheWay.length === 0 && <p class="empty">Nothing is ordered and still to come.</p>}
      {onTheWay.map((order) => {
        const item = horizon.items.get(order.itemId)?.item;
        const supplier = suppliers.find(({ id }) => id === order.supplierId);
        const late = order.expectedOn.until(horizon.today).days > 0;
        return (
          item && (
            <article key={order.id} class="day">
              <h3>
                {item.name}: {formatQuantity(order.quantity, item.unit)}
              </h3>
              <p>
                expected on {dayInWords(order.expectedOn)}
                {supplier && ` from ${supplier.name}`}
                {late && '; it should have come'}
              </p>
              <div class="actions">
                <Form
                  action={shelfPath(visit, `/receive/${order.id}`)}
                  csrf={visit.formToken}
                  formKey={formKey}
                >
                  <Button kind="quiet">
                    This {oneOf(item)} has come<span class="unseen">: {item.name}</span>
                  </Button>
                </Form>
                <Form action={shelfPath(visit, `/orders/${order.id}/off`)} csrf={visit.formToken}>
                  <Button kind="quiet">
                    It will not come<span class="unseen">: {item.name}</span>
                  </Button>
                </Form>
              </div>
            </article>
          )
        );
      })}
    </>
  );
}

function AnythingElse({ visit, ahead, formKey, sent }: OrdersPageProps) {
  const again = sent?.of === ANYTHING_ELSE ? sent : undefined;
  const name = (field: string) => `${field}-${ANYTHING_ELSE}`;
  const items = [...ahead.horizon.items.values()].map(({ item }) => item).filter((item) => !item.archived);
  return (
    <>
      <h2>Something else was ordered</h2>
      <Form
        action={shelfPath(visit, '/orders')}
        csrf={visit.formToken}
        formKey={formKey}
        label="Something else was ordered"
        values={again?.values ?? {}}
        errors={again?.errors ?? []}
      >
        <input type="hidden" name="of" value={ANYTHING_ELSE} />
        <SelectField
          name={name('itemId')}
          label="What is it?"
          options={items.map((item) => ({ value: item.id, label: item.name }))}
        />
        <TextField
          name={name('quantity')}
          label="How much?"
          hint="With its unit: 500 ml, 25 g, 12."
          width="short"
        />
        <SelectField
          name={name('supplierId')}
          label="From whom?"
          empty="The usual one"
          optional
          options={ahead.suppliers.map((one) => ({ value: one.id, label: one.name }))}
        />
        <DateField
          name={name('expectedOn')}
          label="When should it come?"
          hint="Empty: after its usual time."
          optional
        />
        <Button>It is ordered</Button>
      </Form>
    </>
  );
}
