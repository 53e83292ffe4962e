// One bottle, batch or box: what is in it, the quick acts with it, for whom it is set aside, its ledger with the
// level after each line, and what went into it.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { type Fact, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { BottleView } from '../../stock/shelf-views.service.js';
import { lotClass } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { AmountField } from './amounts.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { Family, HeldFor, Ledger } from './ledger.pages.js';
import { CLASS_WORDS, endInWords, markOf, oneOf, peroxideInWords } from './words.calc.js';

/** What was sent from one of the page's forms and is wrong; its fields are named by the act: "take-quantity". */
export interface SentAct {
  act: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

interface BottlePageProps {
  visit: StaffVisit;
  view: BottleView;
  formKey: string;
  notice?: Notice | undefined;
  sent?: SentAct | undefined;
}

export function BottlePage({ visit, view, formKey, notice, sent }: BottlePageProps) {
  const { item, lot, today } = view;
  const mark = markOf(lot, today);
  const props = { visit, view, formKey, sent };
  return (
    <ShelfFrame visit={visit} title={lot.label} at="" notice={notice} errors={sent?.errors}>
      <p class="big-figure">{formatQuantity(lot.onHand, item.unit, 'exact')}</p>
      {mark && (
        <p>
          <Tag tone={mark.tone}>{mark.words}</Tag> {lot.state === 'suspect' && lot.stateNote}
        </p>
      )}
      <p>{endInWords(lot, today)}</p>
      <Act {...props} act="count" label="Count" button={`That is in the ${oneOf(item)}`}>
        <AmountField name="count-quantity" label="How much is in it?" unit={item.unit} />
        <TextField name="count-reason" label="Why is it other than it stood?" width="full" optional />
      </Act>
      {lot.state !== 'gone' && <LiveActs {...props} />}
      <h2>What is known of it</h2>
      <Facts items={factsOf(visit, view)} />
      <HeldFor visit={visit} view={view} />
      <Ledger visit={visit} view={view} />
      <Family visit={visit} view={view} />
      <Correct {...props} />
    </ShelfFrame>
  );
}

type ActProps = Omit<BottlePageProps, 'notice'>;

function LiveActs(props: ActProps) {
  const { item, lot } = props.view;
  const one = oneOf(item);
  return (
    <>
      <Act {...props} act="take" label="Take some" button="Take it" kind="quiet">
        <AmountField name="take-quantity" label="How much is taken?" unit={item.unit} />
        <TextField name="take-reason" label="What for?" width="full" optional />
      </Act>
      {lot.openedOn === null && item.kind !== 'glass' && (
        <Act
          {...props}
          act="open"
          label={`Open this ${one}`}
          button={`It is opened today`}
          kind="quiet"
          folded
        >
          <p>
            {item.openedLifeDays === null
              ? 'It keeps as long as before.'
              : `Once opened it keeps ${counted(item.openedLifeDays, 'day')}, and no longer than before.`}
          </p>
        </Act>
      )}
      {lot.state === 'good' ? (
        <Act
          {...props}
          act="suspect"
          label="Something is wrong with it"
          button="Put it aside"
          kind="danger"
          folded
        >
          <p>
            It gives nothing any more until it is found good; what was set aside of it is looked for
            elsewhere.
          </p>
          <TextField name="suspect-note" label="What was seen?" width="full" />
          {(item.unit === 'uL' || item.unit === 'mg') && (
            <p>
              Plates went wrong with it?{' '}
              <a href={`${shelfPath(props.visit, '/baths/off')}?what=bottle:${lot.id}`}>
                Put it aside and see whom it concerns
              </a>
              .
            </p>
          )}
        </Act>
      ) : (
        <Act {...props} act="good" label="It is good after all" button="It is good" kind="quiet" />
      )}
      {(item.unit === 'uL' || item.unit === 'mg') && <PouringActs {...props} />}
      <Act
        {...props}
        act="discard"
        label="Throw it away"
        button="All of it is thrown away"
        kind="danger"
        folded
      >
        <TextField name="discard-reason" label="Why?" width="full" optional />
      </Act>
    </>
  );
}

/** For what is poured or weighed. */
function PouringActs(props: ActProps) {
  const { item, lot, others, solvents } = props.view;
  return (
    <>
      <Act
        {...props}
        act="decant"
        label="Pour some off into a new bottle"
        button="Pour it off"
        kind="quiet"
        folded
      >
        <AmountField name="decant-quantity" label="How much is poured off?" unit={item.unit} />
        <TextField name="decant-label" label="Name of the new bottle" width="medium" />
      </Act>
      {others.length > 0 && (
        <Act
          {...props}
          act="blend"
          label="Blend with others"
          button="Pour them together"
          kind="quiet"
          folded
          values={{ 'blend-class': lot.class }}
        >
          <AmountField name={`blend-part-${lot.id}`} label={`Of this ${oneOf(item)}`} unit={item.unit} />
          {others.map((other) => (
            <AmountField
              key={other.id}
              name={`blend-part-${other.id}`}
              label={`Of ${other.label}`}
              unit={item.unit}
              optional
            />
          ))}
          <TextField name="blend-label" label="Name of the new bottle" width="medium" />
          <ClassField name="blend-class" />
        </Act>
      )}
      <Act {...props} act="thin" label="Thin it" button="Thin it" kind="quiet" folded>
        <AmountField name="thin-quantity" label="How much is added?" unit={item.unit} />
        <SelectField
          name="thin-solventLotId"
          label="From which bottle?"
          empty="From none on the shelf"
          options={solvents.map(({ item: of, lot: from }) => ({
            value: from.id,
            label: `${of.name}: ${from.label}`,
          }))}
        />
        <TextField name="thin-reason" label="Why?" width="full" optional />
      </Act>
    </>
  );
}

interface OneActProps extends ActProps {
  act: string;
  label: string;
  button: string;
  kind?: 'primary' | 'quiet' | 'danger';
  folded?: boolean;
  values?: Record<string, unknown>;
  children?: ComponentChildren;
}

function Act({
  visit,
  view,
  formKey,
  sent,
  act,
  label,
  button,
  kind,
  folded = false,
  values = {},
  children,
}: OneActProps) {
  const own = sent?.act === act;
  const form = (
    <Form
      action={shelfPath(visit, `/bottles/${view.lot.id}/${act}`)}
      csrf={visit.formToken}
      formKey={formKey}
      label={label}
      values={own ? sent.values : values}
      errors={own ? sent.errors : []}
    >
      {children}
      <Button kind={kind}>{button}</Button>
    </Form>
  );
  if (folded)
    return (
      <details open={own}>
        <summary>{label}</summary>
        {form}
      </details>
    );
  return (
    <>
      <h2>{label}</h2>
      {form}
    </>
  );
}

const ClassField = ({ name }: { name: string }) => (
  <SelectField
    name={name}
    label="What it is like"
    empty={null}
    options={lotClass.options.map((one) => ({ value: one, label: CLASS_WORDS[one] }))}
  />
);

function factsOf(visit: StaffVisit, { item, lot, today }: BottleView): Fact[] {
  const told = (term: string, detail: string | null): Fact[] => (detail ? [{ term, detail }] : []);
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit);
  return [
    { term: 'What it is', detail: <a href={shelfPath(visit, `/items/${item.id}`)}>{item.name}</a> },
    { term: 'Usable', detail: endInWords(lot, today) },
    { term: 'Set aside of it', detail: amount(lot.reserved) },
    ...told('Like', item.kind === 'collodion' ? CLASS_WORDS[lot.class] : null),
    ...told('Speed', lot.speedFactor === null ? null : `${lot.speedFactor} times the reference`),
    ...told('Colour', lot.colour),
    ...told('Came', lot.receivedOn && dayInWords(lot.receivedOn)),
    ...told('Opened', lot.openedOn && dayInWords(lot.openedOn)),
    ...told('Peroxides', peroxideInWords(item, lot, today)),
    ...told('Not poured', item.heel > 0n ? `the last ${amount(item.heel)}` : null),
    ...told('On its label', item.hazardNote),
    ...told('Keep it', item.storage),
    ...told('Note', lot.note),
  ];
}

function Correct(props: ActProps) {
  const { lot, item } = props.view;
  const { label, speedFactor, colour, note, usableUntil, peroxideCheckedOn } = lot;
  const values = {
    'correct-label': label,
    'correct-speedFactor': speedFactor ?? '',
    'correct-colour': colour,
    'correct-note': note,
    'correct-class': lot.class,
  };
  return (
    <Act
      {...props}
      act="correct"
      label="Correct what is told of it"
      button="Correct it"
      kind="quiet"
      folded
      values={values}
    >
      <TextField name="correct-label" label={`Name of the ${oneOf(item)}`} width="medium" />
      <DateField
        name="correct-usableUntil"
        label="Last day of use"
        hint="Empty: it does not run out."
        optional
        value={usableUntil ?? undefined}
      />
      <ClassField name="correct-class" />
      {item.kind === 'collodion' && (
        <NumberField
          name="correct-speedFactor"
          label="Times the reference exposure it asks for"
          hint="2 is half as fast."
          optional
          decimal
        />
      )}
      <TextField name="correct-colour" label="Colour" width="medium" optional />
      {item.kind === 'chemical' && (
        <DateField
          name="correct-peroxideCheckedOn"
          label="Tested for peroxides on"
          optional
          value={peroxideCheckedOn ?? undefined}
        />
      )}
      <TextArea name="correct-note" label="Note" optional rows={2} />
      <TextField name="correct-reason" label="Why is it corrected?" width="full" />
    </Act>
  );
}
