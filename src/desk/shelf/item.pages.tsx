// One kind of thing that is kept: how it stands, its bottles, what is ordered of it, and for the owner how it is
// bought, mixed and kept. Also the form for a new one.
import { STARTER_PLATE_SIZES } from '../../chemistry/plate-sizes.calc.js';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { SUBSTANCES, substanceOf } from '../../chemistry/substances.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { type Fact, Facts } from '../../platform/html/kit/facts.js';
import { Fieldset, Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { WITH_A_USUAL } from '../../stock/usual.calc.js';
import type { Horizon } from '../../stock/horizon.calc.js';
import { onTheWay } from '../../stock/levels.calc.js';
import type { ItemView } from '../../stock/shelf-views.service.js';
import { type Item, itemKind, type PlateSize, surface, type Unit, unit } from '../../stock/stock.schemas.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import type { Notice } from '../frame.pages.js';
import { AmountField, Levels } from './amounts.pages.js';
import { Hazards } from './cautions.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { ItemAheadSection } from './item-ahead.pages.js';
import { Bottles, promisedInWords } from './overview.pages.js';
import { KIND_WORDS, oneOf, typedAmount } from './words.calc.js';

export interface SentItem {
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

interface ItemPageProps {
  visit: StaffVisit;
  view: ItemView;
  /** All that is ahead of the shelf. */
  horizon: Horizon;
  notice?: Notice | undefined;
  sent?: SentItem | undefined;
}

export function ItemPage({ visit, view, horizon, notice, sent }: ItemPageProps) {
  const { standing, today, gone, orders } = view;
  const { item } = standing;
  const one = oneOf(item);
  return (
    <ShelfFrame visit={visit} title={item.name} at="" notice={notice} errors={sent?.errors}>
      <Levels {...standing} />
      {standing.promised && <p>{promisedInWords(standing.promised, item)}</p>}
      {orders.length > 0 && (
        <p>
          On its way: {formatQuantity(onTheWay(orders), item.unit)}, the next expected on{' '}
          {orders[0] && dayInWords(orders[0].expectedOn)}.
        </p>
      )}
      <p class="actions">
        <a class="button primary" href={shelfPath(visit, `/receive?item=${item.id}`)}>
          A {one} has come
        </a>
      </p>
      <h2>On the shelf</h2>
      <Bottles visit={visit} item={item} lots={[...standing.live, ...standing.unusable]} today={today} />
      {standing.live.length + standing.unusable.length === 0 && <p class="empty">None.</p>}
      {gone.length > 0 && (
        <details>
          <summary>{counted(gone.length, `${one} that is gone`, `that are gone`)}</summary>
          <Bottles visit={visit} item={item} lots={gone} today={today} />
        </details>
      )}
      <ItemAheadSection visit={visit} horizon={horizon} itemId={item.id} />
      <h2>How it is bought and kept</h2>
      <Facts items={factsOf(item, view.suppliers)} />
      {item.formulaId !== null && (
        <p class="alone">
          <a href={shelfPath(visit, `/formulas/${item.formulaId}`)}>How it is mixed</a>
        </p>
      )}
      {(item.kind === 'chemical' || item.hCodes.length > 0 || item.hazardNote !== '') && (
        <Hazards ingredients={[{ name: item.name, substance: item.substance, item }]} />
      )}
      {visit.account.role === 'owner' && (
        <details open={sent !== undefined}>
          <summary>Change this</summary>
          <Form
            action={shelfPath(visit, `/items/${item.id}`)}
            csrf={visit.formToken}
            label="How it is bought and kept"
            values={sent?.values ?? answersOf(item)}
            errors={sent?.errors ?? []}
          >
            <Settings unit={item.unit} suppliers={view.suppliers} />
            {WITH_A_USUAL.includes(item.kind) && (
              <CheckboxGroup
                name="usual"
                label="Which one serves?"
                hint="Of several that could, one is the usual. To change it, tick another one’s."
                options={[{ value: 'yes', label: 'The usual one: sittings are reckoned with it' }]}
                values={item.usual ? ['yes'] : []}
              />
            )}
            <CheckboxGroup
              name="archived"
              label="Still kept?"
              options={[{ value: 'yes', label: 'Not kept any more: nothing is asked for of it' }]}
              values={item.archived ? ['yes'] : []}
            />
            <Button>Save</Button>
          </Form>
        </details>
      )}
    </ShelfFrame>
  );
}

interface NewItemPageProps {
  visit: StaffVisit;
  sizes: PlateSize[];
  suppliers: Supplier[];
  formKey: string;
  sent?: SentItem | undefined;
}

const UNIT_WORDS: Record<Unit, string> = {
  mg: 'by weight',
  uL: 'by volume',
  sheet: 'in sheets',
  piece: 'in pieces',
};

/** The studio's own sizes, then those it could begin, told apart by their measures. */
function sizesToChoose(sizes: PlateSize[]) {
  const isOwn = ({ widthMm, heightMm }: { widthMm: number; heightMm: number }) =>
    sizes.some((one) => one.widthMm === widthMm && one.heightMm === heightMm);
  return [
    ...sizes.map(({ id, name }) => ({ value: id, label: name })),
    ...STARTER_PLATE_SIZES.filter((one) => !isOwn(one)).map(({ key, name }) => ({
      value: key,
      label: `${name}, new here`,
    })),
  ];
}

export function NewItemPage({ visit, sizes, suppliers, formKey, sent }: NewItemPageProps) {
  const typed = unit.options.find((one) => one === sent?.values.unit) ?? null;
  return (
    <ShelfFrame visit={visit} title="Keep something new" at="" errors={sent?.errors}>
      <Form
        action={shelfPath(visit, '/items/new')}
        csrf={visit.formToken}
        formKey={formKey}
        label="Something new to keep"
        values={sent?.values ?? {}}
        errors={sent?.errors ?? []}
      >
        <SelectField
          name="kind"
          label="What kind of thing is it?"
          options={itemKind.options.map((one) => ({ value: one, label: KIND_WORDS[one] }))}
        />
        <SelectField
          name="unit"
          label="How is it measured?"
          options={unit.options.map((one) => ({ value: one, label: UNIT_WORDS[one] }))}
        />
        <Fieldset legend="Glass only">
          <SelectField
            name="plateSizeId"
            label="Size"
            empty="It is no glass"
            hint="A size you have not had before is offered to sitters from then on."
            options={sizesToChoose(sizes)}
          />
          <SelectField
            name="surface"
            label="Made of"
            empty="It is no glass"
            options={surface.options.map((one) => ({ value: one, label: one }))}
          />
        </Fieldset>
        <Settings unit={typed} suppliers={suppliers} />
        <Button>Keep it</Button>
      </Form>
    </ShelfFrame>
  );
}

function Settings({ unit: of, suppliers }: { unit: Unit | null; suppliers: Supplier[] }) {
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

function factsOf(item: Item, suppliers: Supplier[]): Fact[] {
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit);
  const told = (term: string, detail: string | null): Fact[] => (detail ? [{ term, detail }] : []);
  const days = (count: number | null) => (count === null ? null : counted(count, 'day'));
  return [
    { term: 'Kind', detail: [KIND_WORDS[item.kind], item.surface].filter(Boolean).join(', ') },
    ...told('Supplier', suppliers.find(({ id }) => id === item.supplierId)?.name ?? null),
    ...told('From order to arrival', days(item.leadDays ?? item.supplierLeadDays)),
    ...told(
      'Pack',
      item.packQuantity === null ? null : `${amount(item.packQuantity)}, at least ${item.leastPacks}`,
    ),
    ...told('Mixed here', item.ripenDays === null ? null : `ready after ${days(item.ripenDays)}`),
    { term: 'Keeps', detail: days(item.lifeDays) ?? 'does not run out' },
    ...told('Once opened', days(item.openedLifeDays)),
    ...told('Heel', item.heel > 0n ? amount(item.heel) : null),
    ...told('Least pour', item.leastPour > 0n ? amount(item.leastPour) : null),
    ...told('Most kept', item.mostOnHand === null ? null : amount(item.mostOnHand)),
    ...told('Substance', substanceOf(item.substance)?.name ?? item.substance),
    ...told('Keep it', item.storage),
    ...told('Transport', item.noPost ? 'cannot go by post or air' : null),
  ];
}

function answersOf(item: Item): Record<string, unknown> {
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
