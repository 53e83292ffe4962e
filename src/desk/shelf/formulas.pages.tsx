// Formulas: those of the studio, and the library of printed ones to take from.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { STARTER_FORMULAS } from '../../chemistry/starter-formulas.calc.js';
import type { StarterFormula } from '../../chemistry/starter-lines.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { FormulaList } from '../../stock/formula-views.service.js';
import type { FormulaLine } from '../../stock/formulas.schemas.js';
import type { Item, ItemKind } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { KIND_WORDS } from './words.calc.js';

interface FormulasPageProps {
  visit: StaffVisit;
  found: FormulaList;
  notice?: Notice | undefined;
}

export function FormulasPage({ visit, found, notice }: FormulasPageProps) {
  const live = found.formulas.filter((one) => !one.archived);
  const away = found.formulas.filter((one) => one.archived);
  return (
    <ShelfFrame visit={visit} title="Formulas" at="/formulas" notice={notice}>
      <p>How things are mixed here. Each has a bench card for any batch, to print or to read at the bench.</p>
      <p class="actions">
        <a class="button primary" href={shelfPath(visit, '/formulas/library')}>
          Look into the library
        </a>
        {visit.account.role === 'owner' && (
          <a class="button quiet" href={shelfPath(visit, '/formulas/new')}>
            Write one of your own
          </a>
        )}
      </p>
      {live.length === 0 && <p class="empty">There is no formula yet.</p>}
      <Entries visit={visit} formulas={live} />
      {away.length > 0 && (
        <details>
          <summary>{counted(away.length, 'that is put away', 'that are put away')}</summary>
          <Entries visit={visit} formulas={away} />
        </details>
      )}
    </ShelfFrame>
  );
}

function Entries({ visit, formulas }: { visit: StaffVisit; formulas: FormulaList['formulas'] }) {
  return (
    <ul class="bottles">
      {formulas.map(({ id, name, kind, items, own, currentVersion }) => (
        <li key={id}>
          <a href={shelfPath(visit, `/formulas/${id}`)}>{name}</a>
          <span class="small">
            {KIND_WORDS[kind]}; {own ? 'your own' : 'from the library'}
            {currentVersion > 1 && `, version ${currentVersion}`};{' '}
            {items.length === 0
              ? 'nothing is mixed by it'
              : `for ${items.map((item) => item.name).join(', ')}`}
          </span>
        </li>
      ))}
    </ul>
  );
}

interface LibraryPageProps {
  visit: StaffVisit;
  found: FormulaList;
}

const KINDS: ItemKind[] = ['collodion', 'bath', 'developer', 'fixer', 'varnish'];

export function LibraryPage({ visit, found }: LibraryPageProps) {
  const taken = new Map(found.formulas.flatMap((one) => (one.archived ? [] : [[one.starterKey, one.id]])));
  return (
    <ShelfFrame visit={visit} title="Library of formulas" at="/formulas">
      <p>
        Formulas that were printed, mostly in the old books, with where, and with what is assumed. They are
        for studying and for taking into the studio, not a recommendation: several hold cadmium, ether or
        cyanide.
      </p>
      {KINDS.map((kind) => (
        <section key={kind}>
          <h2>{KIND_WORDS[kind]}</h2>
          <ul class="bottles">
            {STARTER_FORMULAS.filter((one) => one.kind === kind).map((one) => (
              <li key={one.key}>
                <a href={shelfPath(visit, `/formulas/library/${one.key}`)}>{one.name}</a>
                <span class="small">
                  {one.source}
                  {taken.has(one.key) && '; among your formulas'}
                </span>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </ShelfFrame>
  );
}

interface StarterPageProps {
  visit: StaffVisit;
  starter: StarterFormula;
  /** What could be mixed by it, with the name of the formula that it is mixed by now. */
  able: { item: Pick<Item, 'id' | 'name'>; by: string | null }[];
  /** The formula that was made of it. */
  taken: string | null;
  /** Which cadmium bromide stands on the shelf. */
  bromide: 'anhydrous' | 'tetrahydrate';
  formKey: string;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function StarterPage(props: StarterPageProps) {
  const { visit, starter, able, taken, bromide, formKey, notice, sent } = props;
  const cadmium = starter.lines.some((line) => line.substance === 'cadmium bromide, anhydrous');
  return (
    <ShelfFrame visit={visit} title={starter.name} at="/formulas" notice={notice} errors={sent?.errors}>
      <Facts items={factsOf(starter)} />
      <Lines lines={starter.lines} />
      <Method steps={starter.method} />
      {taken !== null && (
        <p>
          It is <a href={shelfPath(visit, `/formulas/${taken}`)}>among your formulas</a>.
        </p>
      )}
      {taken === null && visit.account.role === 'owner' && (
        <Form
          action={shelfPath(visit, `/formulas/library/${starter.key}`)}
          csrf={visit.formToken}
          formKey={formKey}
          values={sent?.values ?? { bromide, itemId: chosenAtFirst(able) }}
          errors={sent?.errors}
          label="Take this formula"
        >
          <h2>Take it into the studio</h2>
          <SelectField
            name="itemId"
            label="What is mixed by it here?"
            hint="It then ripens and keeps as the formula says. You may change the formula afterwards."
            empty="Something new on the shelf"
            options={[
              { value: 'study', label: 'Keep it among the formulas, for study; nothing is mixed by it yet' },
              ...able.map(({ item, by }) => ({
                value: item.id,
                label: by === null ? item.name : `${item.name}, by this instead of ${by}`,
              })),
            ]}
          />
          {able.map(
            ({ item, by }) =>
              by !== null && (
                <p key={item.id} class="hint">
                  If you choose {item.name}: {item.name} would be mixed by this instead of {by}.
                </p>
              ),
          )}
          {cadmium && (
            <RadioGroup
              name="bromide"
              label="Which cadmium bromide is in your bottle?"
              hint="The label says so. With its water it holds 21 % less bromide, so more is weighed."
              options={[
                { value: 'anhydrous', label: 'Anhydrous, CdBr₂, as the library assumes' },
                { value: 'tetrahydrate', label: 'Tetrahydrate, CdBr₂·4H₂O' },
              ]}
            />
          )}
          <p class="hint">
            Chemicals that are not kept on the shelf yet are put on its list, with nothing in them.
          </p>
          <Button>Take this formula</Button>
        </Form>
      )}
    </ShelfFrame>
  );
}

/** What has a formula already keeps it unless one says otherwise. */
function chosenAtFirst([first]: StarterPageProps['able']): string {
  if (!first) return '';
  return first.by === null ? first.item.id : 'study';
}

const daysInWords = (days: number | null, none: string) =>
  days === null || days === 0 ? none : counted(days, 'day');

/** What is told of a formula, or of one version of it, as a whole. */
export function factsOf(
  one: Pick<StarterFormula, 'batch' | 'batchAsWritten' | 'ripenDays' | 'lifeDays' | 'source' | 'note'>,
) {
  const written = one.batchAsWritten;
  const batch = formatQuantity(one.batch, 'uL');
  return [
    {
      term: 'One batch',
      detail: written === '' || written === batch ? batch : `${batch}; as written: ${written}`,
    },
    { term: 'Ripens for', detail: daysInWords(one.ripenDays, 'no time') },
    { term: 'Keeps for', detail: daysInWords(one.lifeDays, 'as long as it looks right') },
    ...(one.source === '' ? [] : [{ term: 'Source', detail: one.source }]),
    ...(one.note === '' ? [] : [{ term: 'Notes', detail: one.note }]),
  ];
}

export function Lines({
  lines,
  caption = 'What goes into it',
}: {
  lines: FormulaLineShown[];
  caption?: string;
}) {
  return (
    <Table
      caption={caption}
      columns={[
        { head: 'Ingredient' },
        { head: 'Amount', figures: true },
        { head: 'As written' },
        { head: 'Note' },
      ]}
      rows={lines.map((line) => [
        line.ingredient,
        formatQuantity(line.quantity, line.unit),
        line.asWritten,
        line.note,
      ])}
    />
  );
}
type FormulaLineShown = Pick<FormulaLine, 'ingredient' | 'quantity' | 'unit' | 'asWritten' | 'note'>;

export function Method({ steps }: { steps: string[] }) {
  if (steps.length === 0) return null;
  return (
    <section>
      <h2>Order of mixing</h2>
      <ol>
        {steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}
