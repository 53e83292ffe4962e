// The owner's rules of preparation, and what every studio day takes beside its sittings.
import type { StaffVisit } from '../accounts/visits.service.js';
import { formatQuantity } from '../lib/quantity-text.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { Card, Facts } from '../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import { COLD_BELOW, HOT_FROM } from '../stock/preparation.calc.js';
import type { DayTakes, Rule } from '../stock/preparation.schemas.js';
import { daysBeforeInWords, minutesInWords } from '../stock/preparation-words.calc.js';
import type { Item, PlateSize } from '../stock/stock.schemas.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { preparePath } from './prepare-task.pages.js';

interface RulesPageProps {
  visit: StaffVisit;
  rules: Rule[];
  takes: DayTakes;
  items: Item[];
  sizes: PlateSize[];
  /** Which form is open: 'new', a rule's id, or ''. */
  form: string;
  notice?: Notice | undefined;
  sent?: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const FOR_WORDS = { studio: 'sittings', teaching: 'teaching', both: 'sittings and teaching' };
const CONDITION_WORDS = {
  always: 'always',
  hot: `when the room is hot (from ${HOT_FROM} °C; summer, until it is measured)`,
  cold: `when the room is cold (below ${COLD_BELOW} °C; winter, until it is measured)`,
};
const AMOUNT_WORDS = { none: 'nothing', sheets: 'the sheets of the day' };
/** How the choices of a rule read. */
export const ruleWords = () => ({ ...FOR_WORDS, ...CONDITION_WORDS, ...AMOUNT_WORDS });

const optionsOf = (words: Record<string, string>) =>
  Object.entries(words).map(([value, label]) => ({
    value,
    label: label.charAt(0).toUpperCase() + label.slice(1),
  }));

export function RulesPage(props: RulesPageProps) {
  const { visit, rules, form, notice, sent } = props;
  return (
    <DeskPage visit={visit} title="What is prepared" at="/prepare" notice={notice} errors={sent?.errors}>
      <p class="actions">
        <a href={preparePath(visit)}>The list</a>
      </p>
      <p>
        Each task goes back from its day to a free working day: you are there, nobody sits, and there are
        hours left.
      </p>
      {rules.length === 0 && <p class="empty">Nothing is prepared by rule.</p>}
      {rules.map((rule) => (
        <Card key={rule.id} title={rule.what}>
          <Facts items={factsOf(rule, rules)} />
          {form === rule.id ? (
            <>
              <RuleForm {...props} rule={rule} />
              <Form
                action={preparePath(visit, `/rules/${rule.id}/remove`)}
                csrf={visit.formToken}
                label={`Put away: ${rule.what}`}
              >
                <Button kind="danger">Put this rule away</Button>
              </Form>
            </>
          ) : (
            <p class="alone">
              <a href={`${preparePath(visit, '/rules')}?form=${rule.id}#form`}>
                Change this rule<span class="unseen">: {rule.what}</span>
              </a>
            </p>
          )}
        </Card>
      ))}
      {form === 'new' ? (
        <Card title="A new rule">
          <RuleForm {...props} rule={null} />
        </Card>
      ) : (
        <p class="alone">
          <a href={`${preparePath(visit, '/rules')}?form=new#form`}>A new rule</a>
        </p>
      )}
      <TakesForm {...props} />
    </DeskPage>
  );
}

function factsOf(rule: Rule, rules: Rule[]) {
  const other = rules.find((one) => one.id === rule.notWith);
  const each = rule.minutesEach > 0 ? ` and ${minutesInWords(rule.minutesEach)} a sheet` : '';
  return [
    { term: 'For', detail: FOR_WORDS[rule.forDay] },
    { term: 'At the latest', detail: daysBeforeInWords(rule.daysBefore) },
    { term: 'Takes', detail: `${minutesInWords(rule.minutes)}${each}` },
    { term: 'Darkroom', detail: rule.darkroom ? 'yes' : 'no' },
    ...(rule.condition === 'always' ? [] : [{ term: 'Only', detail: CONDITION_WORDS[rule.condition] }]),
    ...(other ? [{ term: 'Never on one day with', detail: other.what }] : []),
    ...(rule.note === '' ? [] : [{ term: 'Note', detail: rule.note }]),
  ];
}

function RuleForm({ visit, rules, rule, sent }: RulesPageProps & { rule: Rule | null }) {
  const id = rule?.id ?? 'new';
  const mine = sent?.form === id ? sent : undefined;
  const others = rules.filter((one) => one.id !== rule?.id);
  return (
    <div id="form">
      <Form
        action={preparePath(visit, `/rules/${id}`)}
        csrf={visit.formToken}
        label={rule ? `Change: ${rule.what}` : 'A new rule'}
        values={mine?.values ?? (rule ? answersOf(rule) : FIRST)}
        shown={rule ? answersOf(rule) : undefined}
        errors={mine?.errors ?? []}
      >
        <TextField name="what" label="What is to be done" />
        <RadioGroup name="forDay" label="For days of" options={optionsOf(FOR_WORDS)} />
        <NumberField
          name="daysBefore"
          label="So many days before, at the latest"
          hint="0: on the day itself, before the first sitter."
          unit="days"
        />
        <NumberField name="minutes" label="It takes" unit="minutes" />
        <RadioGroup name="amount" label="It counts" options={optionsOf(AMOUNT_WORDS)} />
        <NumberField name="minutesEach" label="And for each sheet" unit="minutes" optional />
        <CheckboxGroup
          name="darkroom"
          label="Where"
          options={[{ value: 'yes', label: 'It needs the darkroom' }]}
          optional
        />
        <SelectField
          name="notWith"
          label="Never on one day with"
          empty="Any other task is fine"
          options={others.map((one) => ({ value: one.id, label: one.what }))}
          optional
        />
        <RadioGroup name="condition" label="When" options={optionsOf(CONDITION_WORDS)} />
        <TextArea name="note" label="A note beside it" rows={2} optional />
        <Button>{rule ? 'Change this rule' : 'Add this rule'}</Button>
      </Form>
    </div>
  );
}

const FIRST = { forDay: 'both', daysBefore: '1', minutes: '30', amount: 'none', condition: 'always' };

export const answersOf = (rule: Rule) => ({
  what: rule.what,
  forDay: rule.forDay,
  daysBefore: rule.daysBefore,
  minutes: rule.minutes,
  amount: rule.amount,
  condition: rule.condition,
  note: rule.note,
  minutesEach: rule.minutesEach === 0 ? '' : rule.minutesEach,
  darkroom: rule.darkroom ? 'yes' : '',
  notWith: rule.notWith ?? '',
});

export function takesAnswers({ takes, items }: { takes: DayTakes; items: readonly Item[] }) {
  const amountOf = (item: Item) => {
    const found = takes.materials.find((one) => one.itemId === item.id);
    return found ? formatQuantity(found.quantity, item.unit, 'exact') : '';
  };
  return {
    testPlates: String(takes.testPlates),
    testSizeId: takes.testSizeId ?? '',
    ...Object.fromEntries(items.map((item) => [`item-${item.id}`, amountOf(item)])),
  };
}

function TakesForm({ visit, takes, items, sizes, sent }: RulesPageProps) {
  const mine = sent?.form === 'takes' ? sent : undefined;
  const known = takesAnswers({ takes, items });
  return (
    <Card title="What a studio day takes besides">
      <p>
        Set aside with the first sitting of a day and given back with the last, beside what the sittings need
        themselves. One to three small test plates are common.
      </p>
      <Form
        action={preparePath(visit, '/takes')}
        csrf={visit.formToken}
        label="What a studio day takes besides"
        values={mine?.values ?? known}
        shown={known}
        errors={mine?.errors ?? []}
      >
        <NumberField name="testPlates" label="Test plates" unit="plates" />
        <SelectField
          name="testSizeId"
          label="Of which size"
          options={sizes.map((one) => ({ value: one.id, label: one.name }))}
          optional
        />
        <details open={mine !== undefined || takes.materials.length > 0}>
          <summary>Materials of a day</summary>
          {items.map((item) => (
            <TextField
              key={item.id}
              name={`item-${item.id}`}
              label={item.name}
              hint={EXAMPLES[item.unit]}
              width="short"
              optional
            />
          ))}
        </details>
        <Button>Save what a day takes</Button>
      </Form>
    </Card>
  );
}

const EXAMPLES = { mg: 'Like 5 g.', uL: 'Like 250 mL.', sheet: 'Sheets.', piece: 'Pieces.' };
