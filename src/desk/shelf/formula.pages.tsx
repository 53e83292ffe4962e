// One formula with its versions, what is mixed by it, and the owner's form to write or change one.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { STANDING_ADVICE } from '../../chemistry/hazards.calc.js';
import { SUBSTANCES } from '../../chemistry/substances.calc.js';
import { dayInWords } from '../../lib/words.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { FieldFrame, useField } from '../../platform/html/kit/field.js';
import { Fieldset, Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { FormulaView } from '../../stock/formula-views.service.js';
import { MOST_LINES, typedLines } from '../../stock/formulas.calc.js';
import { type FormulaVersion, mixedKind } from '../../stock/formulas.schemas.js';
import type { Item } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { AmountField } from './amounts.pages.js';
import { Hazards } from './cautions.pages.js';
import { factsOf, Lines, Method } from './formulas.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { KIND_WORDS, typedAmount } from './words.calc.js';

interface FormulaPageProps {
  visit: StaffVisit;
  view: FormulaView;
  notice?: Notice | undefined;
  errors?: FieldProblem[] | undefined;
}

export function FormulaPage({ visit, view, notice, errors = [] }: FormulaPageProps) {
  const { formula, versions, current, able, items } = view;
  const path = shelfPath(visit, `/formulas/${formula.id}`);
  const mixed = items.filter((item) => item.formulaId === formula.id);
  const itemOf = (id: string | null) => items.find((item) => item.id === id) ?? null;
  const owner = visit.account.role === 'owner';
  return (
    <ShelfFrame visit={visit} title={formula.name} at="/formulas" notice={notice} errors={errors}>
      {formula.archived && <p>It is put away.</p>}
      <Facts
        items={[
          { term: 'Makes', detail: KIND_WORDS[formula.kind] },
          { term: 'On the shelf', detail: mixed.map(({ name }) => name).join(', ') || 'nothing yet' },
          { term: 'Version', detail: versionInWords(current, visit) },
          ...factsOf(current),
        ]}
      />
      <Form action={`${path}/bench-card`} method="get" label="Bench card" values={{}}>
        <AmountField
          name="batch"
          label="A batch of how much?"
          unit="uL"
          value={typedAmount(current.batch, 'uL')}
        />
        <Button>Show the bench card</Button>
      </Form>
      <Lines lines={current.lines} />
      <Method steps={current.method} />
      <Hazards
        ingredients={current.lines.map(({ ingredient: name, substance, itemId }) => ({
          name,
          substance,
          item: itemOf(itemId),
        }))}
      />
      <p>{STANDING_ADVICE}</p>
      {owner && (
        <>
          <p class="actions">
            <a class="button quiet" href={`${path}/change`}>
              Change this formula
            </a>
          </p>
          <MixedBy visit={visit} path={path} able={able} mixed={mixed} errors={errors} />
          <Form action={`${path}/archive`} csrf={visit.formToken} label="Put away">
            <input type="hidden" name="archived" value={formula.archived ? 'no' : 'yes'} />
            <Button kind="quiet">{formula.archived ? 'Take it out again' : 'Put this formula away'}</Button>
          </Form>
        </>
      )}
      <Older versions={versions.filter((one) => one !== current)} visit={visit} />
    </ShelfFrame>
  );
}

function MixedBy(props: {
  visit: StaffVisit;
  path: string;
  able: Item[];
  mixed: Item[];
  errors: FieldProblem[];
}) {
  const { visit, path, able, mixed, errors } = props;
  if (able.length === 0) return null;
  return (
    <Form action={`${path}/items`} csrf={visit.formToken} label="What is mixed by it" errors={errors}>
      <CheckboxGroup
        name="itemIds"
        label="What is mixed by it?"
        hint="It then ripens and keeps as this formula says."
        options={able.map((item) => ({ value: item.id, label: item.name }))}
        values={mixed.map((item) => item.id)}
      />
      <Button kind="quiet">Save what is mixed by it</Button>
    </Form>
  );
}

function Older({ versions, visit }: { versions: FormulaVersion[]; visit: StaffVisit }) {
  if (versions.length === 0) return null;
  return (
    <section>
      <h2>Earlier versions</h2>
      {versions.map((one) => (
        <details key={one.version}>
          <summary>Version {versionInWords(one, visit)}</summary>
          <Facts items={factsOf(one)} />
          <Lines lines={one.lines} caption={`What went into version ${one.version}`} />
          {one.method.length > 0 && (
            <ol>
              {one.method.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          )}
        </details>
      ))}
    </section>
  );
}

/** "2, by Wren Hallgarth on Wednesday 25 November 2026" */
export function versionInWords({ version, who, createdAt }: FormulaVersion, { studio }: StaffVisit): string {
  return `${version}, by ${who} on ${dayInWords(instantToWall(studio.zone, createdAt).toPlainDate())}`;
}

interface EditPageProps {
  visit: StaffVisit;
  /** Of the formula that is changed; null for a new one. */
  changes: { id: string; name: string; version: number } | null;
  items: Item[];
  values: Record<string, unknown>;
  errors?: FieldProblem[] | undefined;
  notice?: Notice | undefined;
  formKey?: string | undefined;
}

const SPARE_LINES = 3;

export function EditFormulaPage({ visit, changes, items, values, errors, notice, formKey }: EditPageProps) {
  const last = typedLines(values).at(-1)?.number ?? 0;
  const count = Math.min(MOST_LINES, Math.max(last + SPARE_LINES, 6));
  const title = changes ? `Change ${changes.name}` : 'A formula of your own';
  const path = changes ? `/formulas/${changes.id}/change` : '/formulas/new';
  return (
    <ShelfFrame visit={visit} title={title} at="/formulas" errors={errors} notice={notice}>
      {changes && <p>This makes version {changes.version + 1}. The earlier ones stay to be read.</p>}
      <Form
        action={shelfPath(visit, path)}
        csrf={visit.formToken}
        formKey={formKey}
        values={values}
        errors={errors}
        label={title}
      >
        {changes && <input type="hidden" name="basedOn" value={changes.version} />}
        <TextField name="name" label="Name" />
        {!changes && (
          <SelectField
            name="kind"
            label="What does it make?"
            options={mixedKind.options.map((kind) => ({ value: kind, label: KIND_WORDS[kind] }))}
          />
        )}
        <Fieldset
          legend="What goes into it"
          hint="Amounts with their unit: 60 grains, 3.9 g, 250 ml, 5 US fl oz, 2 imp fl oz, 3 drachms. Lines left empty are passed over."
        >
          {Array.from({ length: count }, (_, at) => (
            <LineFields key={`line ${at + 1}`} number={at + 1} />
          ))}
          <IngredientNames items={items} />
        </Fieldset>
        <TextField
          name="batch"
          label="How much does one batch make?"
          hint="Like 500 ml. Left empty it is the sum of the liquids."
          width="short"
          optional
        />
        <NumberField name="ripenDays" label="Ripens for" hint="0 when it can be used at once." unit="days" />
        <NumberField name="lifeDays" label="Keeps for" unit="days" optional />
        <TextArea name="method" label="Order of mixing" hint="One step a line." rows={6} optional />
        <TextField name="source" label="Where it is from" optional />
        <TextArea name="note" label="Notes" rows={3} optional />
        <Button>{changes ? 'Save as a new version' : 'Save this formula'}</Button>
      </Form>
    </ShelfFrame>
  );
}

function LineFields({ number }: { number: number }) {
  const { sentAs } = useField({ name: `was-${number}`, hint: undefined, error: undefined });
  return (
    <div class="formula-line">
      <IngredientField number={number} />
      <TextField name={`amount-${number}`} label={`Amount ${number}`} width="full" />
      <TextField name={`note-${number}`} label={`Note ${number}`} optional />
      {['was', 'written'].map((kept) => {
        const name = `${kept}-${number}`;
        return sentAs(name) !== '' && <input key={name} type="hidden" name={name} value={sentAs(name)} />;
      })}
    </div>
  );
}

const NAMES = 'ingredient-names';

function IngredientField({ number }: { number: number }) {
  const name = `ingredient-${number}`;
  const { id, message, sent, aria } = useField({ name, hint: undefined, error: undefined });
  return (
    <FieldFrame id={id} label={`Ingredient ${number}`} hint={undefined} optional={false} message={message}>
      <input {...aria} id={id} class="full" type="text" name={name} value={sent} list={NAMES} />
    </FieldFrame>
  );
}

/** What is on the shelf, and what the catalogue knows: proposed while one types, never asked for. */
function IngredientNames({ items }: { items: Item[] }) {
  const kept = items.filter((item) => item.unit !== 'sheet' && !item.archived && item.kind === 'chemical');
  const names = [...kept, ...Object.values(SUBSTANCES)].map(({ name }) => name);
  return (
    <datalist id={NAMES}>
      {[...new Set(names)].sort().map((name) => (
        <option key={name} value={name} />
      ))}
    </datalist>
  );
}
