// What a number of plates needs, for anybody: a form, and its answer as a table of amounts in plain words.
import { formatQuantity } from '../lib/quantity-text.js';
import type { Unit } from '../lib/units.js';
import { counted } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, NumberField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { DESK_SPOKEN } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Estimate } from './asked.calc.js';
import { calculators } from './calculators.calc.js';
import type { Spread } from './estimate.calc.js';
import { type EstimateBody, PRINTED } from './estimate.schemas.js';
import { FORM_LINES, nameOfSize, OWN_SIZE } from './estimate-form.schemas.js';
import type { Maker } from './learning.calc.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import { SOLUTION_KINDS } from './use-per-area.calc.js';
import { CAUTION, CYANIDE_CAUTION, RECKONING, sourcesOf } from './words.calc.js';

interface ChemistryProps {
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  found: { asked: EstimateBody; estimate: Estimate } | null;
}

const MAKER_WORDS: Record<Maker, string> = {
  sittings: 'Somebody who has the practice',
  beginners: 'Beginners, as in a class',
};

const HEADS = ['Least', 'Likely', '9 in 10', 'Most'];

export function ChemistryPage(props: ChemistryProps) {
  const { found, errors, answers } = props;
  return (
    <Page
      title={found ? `What ${platesInWords(found.asked)} need` : 'Glass and solutions for plates'}
      errors={errors}
      nav={calculators('/chemistry', DESK_SPOKEN.words)}
      wide
    >
      {found ? (
        <Result estimate={found.estimate} printed={printedOf(answers)} />
      ) : (
        <p class="lead">
          How much glass, collodion, developer, fixer, varnish and silver nitrate a number of wet plates
          takes.
        </p>
      )}
      {found && <h2>Other plates</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors }: ChemistryProps) {
  const lines = Array.from({ length: FORM_LINES }, (_, at) => at + 1);
  const used = (line: number) =>
    ['size', 'keepers', 'width', 'height'].some(
      (name) => answers[`${name}-${line}`] || errors.some(({ field }) => field === `${name}-${line}`),
    );
  const [first = 1, ...more] = lines;
  return (
    <Form action="/chemistry" method="get" values={answers} errors={errors}>
      <Line line={first} own={ownSize(answers, errors, first)} />
      <RadioGroup
        name="madeBy"
        label="Who makes the plates?"
        options={Object.entries(MAKER_WORDS).map(([value, label]) => ({ value, label }))}
      />
      <details open={more.some(used)}>
        <summary>More sizes</summary>
        {more.map((line) => (
          <Fieldset key={line} legend={`Size ${line}`}>
            <Line line={line} own={ownSize(answers, errors, line)} />
          </Fieldset>
        ))}
      </details>
      <details open={SOLUTION_KINDS.some((kind) => answers[`formula-${kind}`])}>
        <summary>And what goes into the bottles</summary>
        <p class="small">By formulas as they were printed; each has its source in the answer.</p>
        {SOLUTION_KINDS.map((kind) => (
          <SelectField
            key={kind}
            name={`formula-${kind}`}
            label={`${capital(kind)} mixed by`}
            empty="Not asked"
            options={PRINTED.filter((one) => one.kind === kind).map(({ key, name }) => ({
              value: key,
              label: name,
            }))}
            optional
          />
        ))}
      </details>
      <Button>Reckon</Button>
    </Form>
  );
}

const ownSize = (answers: Record<string, unknown>, errors: FieldProblem[], line: number) =>
  answers[`size-${line}`] === OWN_SIZE ||
  ['width', 'height'].some(
    (name) => answers[`${name}-${line}`] || errors.some(({ field }) => field === `${name}-${line}`),
  );

function Line({ line, own }: { line: number; own: boolean }) {
  return (
    <>
      <SelectField
        name={`size-${line}`}
        label="Size of plate"
        options={[
          ...STARTER_PLATE_SIZES.map(({ key, name }) => ({ value: key, label: name })),
          { value: OWN_SIZE, label: 'My own size, in millimetres' },
        ]}
      />
      <details open={own}>
        <summary>My own size</summary>
        <NumberField name={`width-${line}`} label="Width" unit="mm" decimal />
        <NumberField name={`height-${line}`} label="Height" unit="mm" decimal />
      </details>
      <NumberField
        name={`keepers-${line}`}
        label="How many are to be kept?"
        hint="Good plates at the end; those that fail are reckoned on top."
        unit="plates"
      />
    </>
  );
}

function Result({ estimate, printed }: { estimate: Estimate; printed: typeof PRINTED }) {
  const { needs, chemicals, use, attempts } = estimate;
  const rows = [
    ...needs.glass.map(({ widthMm, heightMm, sheets }) =>
      sheetsRow(`Sheets, ${nameOfSize(widthMm, heightMm)}`, sheets),
    ),
    ...SOLUTION_KINDS.map((kind) => row(capital(kind), needs.solutions[kind], 'uL')),
    row('Silver nitrate', needs.silverNitrate.total, 'mg'),
  ];
  return (
    <>
      <Table
        caption="What to have ready"
        columns={[{ head: 'Of' }, ...HEADS.map((head) => ({ head, figures: true }))]}
        rows={rows}
        steady
      />
      <p class="small">
        Least: every plate comes out at once. Likely: as it goes on most days. 9 in 10: enough nine times in
        ten. Most: to be safe.
      </p>
      {printed.length > 0 && (
        <Table
          caption="What goes into the bottles"
          columns={[{ head: 'Of' }, ...HEADS.map((head) => ({ head, figures: true }))]}
          rows={chemicals.map(({ ingredient, unit, quantity }) => row(ingredient, quantity, unit))}
        />
      )}
      <Notice tone="warn">{CAUTION}</Notice>
      {printed.some(withCyanide) && <Notice tone="bad">{CYANIDE_CAUTION}</Notice>}
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
          <li>
            {Math.round(attempts.keeperShare * 100)} of a hundred plates are kept
            {attempts.stopAfter === null
              ? '. '
              : `, and after ${counted(attempts.stopAfter, 'try', 'tries')} for a plate one stops. `}
            {attempts.source}
          </li>
        </ul>
        <Table
          caption="Of the silver nitrate, in the film"
          columns={[{ head: 'Of' }, ...HEADS.map((head) => ({ head, figures: true }))]}
          rows={[row('Taken up by the halides', needs.silverNitrate.inFilm, 'mg')]}
          steady
        />
        <Facts
          items={[
            ...sourcesOf(use).map(({ of, source }) => ({ term: capital(of), detail: source })),
            ...printed.map(({ name, source, note }) => ({ term: name, detail: `${source}. ${note}` })),
          ]}
        />
      </details>
    </>
  );
}

const row = (name: string, { low, likely, ninety, high }: Spread, unit: Unit) => [
  name,
  ...[low, likely, ninety, high].map((amount) => formatQuantity(amount, unit, 'up')),
];

const sheetsRow = (name: string, { low, likely, ninety, high }: Spread) => [
  name,
  ...[low, likely, ninety, high].map(String),
];

const withCyanide = ({ lines }: (typeof PRINTED)[number]) =>
  lines.some(({ substance }) => substance === 'potassium cyanide');

const printedOf = (answers: Record<string, unknown>) =>
  PRINTED.filter(({ key, kind }) => answers[`formula-${kind}`] === key);

const platesInWords = ({ plates }: EstimateBody) =>
  counted(
    plates.reduce((sum, { keepers }) => sum + keepers, 0),
    'plate',
  );

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
