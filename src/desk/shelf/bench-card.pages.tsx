// The bench card of a formula: what to weigh and measure for one batch, in which order, what must be kept apart and
// thrown away apart. To be printed, and with the act "I mixed this" where it is read on a phone.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { STANDING_ADVICE } from '../../chemistry/hazards.calc.js';
import { NEVER_TOGETHER, WASTES } from '../../chemistry/incompatible.calc.js';
import { type Property, substanceOf } from '../../chemistry/substances.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Fieldset, Form, TextField } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import { bottlesOf } from '../../stock/bench.calc.js';
import type { BenchLine, BenchView } from '../../stock/formula-views.service.js';
import { AmountField } from './amounts.pages.js';
import { Apart, Hazards } from './cautions.pages.js';
import { versionInWords } from './formula.pages.js';
import { Method } from './formulas.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { peroxideInWords, typedAmount } from './words.calc.js';

interface BenchCardProps {
  visit: StaffVisit;
  view: BenchView;
  formKey: string;
  /** What was sent of the form with these fields. */
  sent?: { form: 'batch' | 'mixed'; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
  notice?: { tone: 'bad'; text: string } | undefined;
}

export function BenchCardPage({ visit, view, formKey, sent, notice }: BenchCardProps) {
  const { formula, current, lines, batch, cautions, unknown } = view;
  const path = shelfPath(visit, `/formulas/${formula.id}`);
  const brings = new Set<Property>(lines.flatMap(({ substance }) => substanceOf(substance)?.has ?? []));
  const amount = formatQuantity(batch, 'uL');
  const asked = sent?.form === 'batch' ? sent : undefined;
  const title = `Bench card: ${formula.name}`;
  return (
    <ShelfFrame visit={visit} title={title} at="/formulas" errors={sent?.errors} notice={notice}>
      <div class="no-print">
        <Form
          action={`${path}/bench-card`}
          method="get"
          label="Another batch"
          values={asked?.values ?? { batch: typedAmount(batch, 'uL') }}
          errors={asked?.errors}
        >
          <AmountField name="batch" label="A batch of how much?" unit="uL" />
          <Button kind="quiet">Reckon it for this much</Button>
        </Form>
      </div>
      <Facts items={factsOf(view, visit)} />
      {brings.has('cyanide') && <BeforeCyanide />}
      <Table
        caption={`Weigh and measure for ${amount}`}
        columns={[
          { head: 'Ingredient' },
          { head: 'Amount', figures: true },
          { head: 'One batch as written' },
          { head: 'From' },
          { head: 'Done', blank: true },
        ]}
        rows={lines.map((line) => [
          line.note === '' ? line.ingredient : `${line.ingredient} (${line.note})`,
          formatQuantity(line.quantity, line.unit),
          line.asWritten,
          fromInWords(line),
          '',
        ])}
      />
      <p class="small">
        Amounts are reckoned to the nearest milligram or microlitre and shown in about three figures. Volumes
        are sums: ether and alcohol shrink a little together.
      </p>
      <Method steps={current.method} />
      <Apart pairs={cautions} title="Keep apart" />
      {unknown.length > 0 && (
        <p>
          <strong>Not checked: {unknown.join(', ')}.</strong> Read the label before you mix it with anything.
        </p>
      )}
      <Peroxides view={view} />
      <BeforeYouBegin brings={brings} />
      <Hazards
        ingredients={lines.map(({ ingredient: name, substance, item }) => ({ name, substance, item }))}
      />
      <p>
        <strong>{STANDING_ADVICE}</strong>
      </p>
      <div class="no-print">
        <Mixed visit={visit} view={view} formKey={formKey} sent={sent?.form === 'mixed' ? sent : undefined} />
      </div>
    </ShelfFrame>
  );
}

function factsOf({ batch, current, today }: BenchView, visit: StaffVisit) {
  const ripe = dayInWords(today.add({ days: current.ripenDays }));
  const until =
    current.lifeDays === null ? '' : ` until ${dayInWords(today.add({ days: current.lifeDays }))}`;
  return [
    { term: 'Batch', detail: formatQuantity(batch, 'uL') },
    { term: 'Version', detail: versionInWords(current, visit) },
    { term: 'Mixed today', detail: dayInWords(today) },
    { term: 'Can be used', detail: `from ${ripe}${until}` },
    ...(current.source === '' ? [] : [{ term: 'Source', detail: current.source }]),
  ];
}

function BeforeYouBegin({ brings }: { brings: Set<Property> }) {
  const [vapour] = NEVER_TOGETHER;
  return (
    <section>
      <h2>Before you begin</h2>
      <ul>
        <li>Goggles and gloves on, cuts covered, no contact lenses, no food, no children in the room.</li>
        {brings.has('flammable vapour') && vapour && (
          <li>
            Never in the same room and hour: {vapour.work}, and {vapour.with}.
          </li>
        )}
        <li>
          Waste, each in its own labelled bottle and nothing down the drain: {WASTES.join('; ')}. From memory;
          your local rules decide.
        </li>
      </ul>
    </section>
  );
}

/** To be filled in by hand before the bottle is opened. */
function BeforeCyanide() {
  return (
    <section>
      <h2>Before the cyanide is opened</h2>
      <p>
        Never alone, nobody under 18 in the room, no acid, no developer and no silver bath open. Write down
        first:
      </p>
      <ul>
        {['Emergency number', 'Nearest hospital', 'Eyewash stands', 'Who mixes', 'Second trained adult'].map(
          (what) => (
            <li key={what}>{what}: ______________________________</li>
          ),
        )}
      </ul>
    </section>
  );
}

/** "Ether, big bottle 120 mL; 30 mL missing" */
function fromInWords({ item, from, missing, unit }: BenchLine): string {
  if (!item) return 'not kept on the shelf';
  const shares = from
    .filter(({ quantity }) => quantity > 0n)
    .map(({ lot, quantity }) => `${lot.label} ${formatQuantity(quantity, unit)}`);
  const short = missing > 0n ? [`${formatQuantity(missing, unit, 'up')} missing`] : [];
  return [...shares, ...short].join('; ');
}

/** The dates of every bottle on the card that makes peroxides; it is read before the bottle is opened. */
function Peroxides({ view }: { view: BenchView }) {
  const lines = view.lines.filter(({ substance }) => substanceOf(substance)?.has.includes('makes peroxides'));
  const bottles = bottlesOf(lines).flatMap(({ lot }) => {
    const item = lines.find((line) => line.item?.id === lot.itemId)?.item;
    return item ? [{ item, lot }] : [];
  });
  if (bottles.length === 0) return null;
  return (
    <section>
      <h2>Ether</h2>
      <p>Do not open a bottle with crystals or clouds in it, nor one whose date has run out.</p>
      <ul>
        {bottles.map(({ item, lot }) => (
          <li key={lot.id}>
            {lot.label}: {lot.openedOn ? `opened on ${dayInWords(lot.openedOn)}` : 'not opened yet'};{' '}
            {peroxideInWords(item, lot, view.today) ?? 'no test written down'}.
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What the form of what was mixed holds at first: the shares that the card tells. */
function answersOf({ batch, lines, items }: BenchView): Record<string, string> {
  const values: Record<string, string> = { quantity: typedAmount(batch, 'uL'), itemId: items[0]?.id ?? '' };
  for (const { lot, unit, quantity } of bottlesOf(lines))
    if (quantity > 0n) values[`from-${lot.id}`] = typedAmount(quantity, unit);
  return values;
}

function Mixed({ visit, view, formKey, sent }: Pick<BenchCardProps, 'visit' | 'view' | 'formKey' | 'sent'>) {
  const { formula, items, lines } = view;
  if (items.length === 0)
    return (
      <p>
        Nothing on the shelf is mixed by this formula yet, so a batch cannot be put there.{' '}
        <a href={shelfPath(visit, `/formulas/${formula.id}`)}>Choose what is mixed by it</a>
      </p>
    );
  const bottles = bottlesOf(lines);
  return (
    <Form
      action={shelfPath(visit, `/formulas/${formula.id}/mixed`)}
      csrf={visit.formToken}
      formKey={formKey}
      values={sent?.values ?? answersOf(view)}
      errors={sent?.errors}
      label="I mixed this"
    >
      <h2>I mixed this</h2>
      {items.length > 1 && (
        <SelectField
          name="itemId"
          label="What was mixed?"
          empty={null}
          options={items.map((item) => ({ value: item.id, label: item.name }))}
        />
      )}
      <AmountField name="quantity" label="How much came of it?" unit="uL" />
      <TextField name="label" label="Name of the bottle" hint="Left empty it gets today’s date." optional />
      {bottles.length > 0 && (
        <Fieldset legend="Taken from" hint="What went out of each bottle. Leave a box empty for nothing.">
          {bottles.map(({ lot, unit }) => (
            <AmountField key={lot.id} name={`from-${lot.id}`} label={lot.label} unit={unit} optional />
          ))}
        </Fieldset>
      )}
      <TextField name="note" label="Note" optional />
      <Button>Put the batch on the shelf</Button>
    </Form>
  );
}
