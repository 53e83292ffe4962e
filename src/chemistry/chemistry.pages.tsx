// What a number of plates needs, for anybody: a form, and its answer as a table of amounts in plain words.
import { formatQuantity } from '../lib/quantity-text.js';
import type { Unit } from '../lib/units.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, NumberField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Estimate } from './asked.calc.js';
import { calculators } from './calculators.calc.js';
import type { Spread } from './estimate.calc.js';
import { type EstimateBody, PRINTED } from './estimate.schemas.js';
import { FORM_LINES, nameOfSize, OWN_SIZE } from './estimate-form.schemas.js';
import { MAKERS } from './learning.calc.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import { SOLUTION_KINDS } from './use-per-area.calc.js';
import type { Words } from '../words/words-for.js';
import { sourcesOf } from './words.calc.js';

interface ChemistryProps {
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  found: { asked: EstimateBody; estimate: Estimate } | null;
  spoken: Spoken;
}

export function ChemistryPage(props: ChemistryProps) {
  const { found, errors, answers, spoken } = props;
  const { chemistry } = spoken.words;
  return (
    <Page
      title={found ? chemistry.titleOf(platesOf(found.asked)) : chemistry.title}
      errors={errors}
      nav={calculators('/chemistry', spoken.words)}
      spoken={spoken}
      wide
    >
      {found ? (
        <Result estimate={found.estimate} printed={printedOf(answers)} />
      ) : (
        <p class="lead">{chemistry.lead}</p>
      )}
      {found && <h2>{chemistry.another}</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors }: ChemistryProps) {
  const { chemistry } = useWords();
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
        label={chemistry.madeBy}
        options={MAKERS.map((value) => ({ value, label: chemistry.makers[value] }))}
      />
      <details open={more.some(used)}>
        <summary>{chemistry.moreSizes}</summary>
        {more.map((line) => (
          <Fieldset key={line} legend={chemistry.sizeOf(line)}>
            <Line line={line} own={ownSize(answers, errors, line)} />
          </Fieldset>
        ))}
      </details>
      <details open={SOLUTION_KINDS.some((kind) => answers[`formula-${kind}`])}>
        <summary>{chemistry.bottles}</summary>
        <p class="small">{chemistry.bottlesHint}</p>
        {SOLUTION_KINDS.map((kind) => (
          <SelectField
            key={kind}
            name={`formula-${kind}`}
            label={chemistry.mixedBy(chemistry.of[kind])}
            empty={chemistry.notAsked}
            options={PRINTED.filter((one) => one.kind === kind).map(({ key, name }) => ({
              value: key,
              label: chemistry.printed(name),
            }))}
            optional
          />
        ))}
      </details>
      <Button>{chemistry.reckon}</Button>
    </Form>
  );
}

const ownSize = (answers: Record<string, unknown>, errors: FieldProblem[], line: number) =>
  answers[`size-${line}`] === OWN_SIZE ||
  ['width', 'height'].some(
    (name) => answers[`${name}-${line}`] || errors.some(({ field }) => field === `${name}-${line}`),
  );

function Line({ line, own }: { line: number; own: boolean }) {
  const { chemistry } = useWords();
  return (
    <>
      <SelectField
        name={`size-${line}`}
        label={chemistry.size}
        options={[
          ...STARTER_PLATE_SIZES.map(({ key, name }) => ({ value: key, label: name })),
          { value: OWN_SIZE, label: chemistry.ownSize },
        ]}
      />
      <details open={own}>
        <summary>{chemistry.own}</summary>
        <NumberField name={`width-${line}`} label={chemistry.width} unit="mm" decimal />
        <NumberField name={`height-${line}`} label={chemistry.height} unit="mm" decimal />
      </details>
      <NumberField
        name={`keepers-${line}`}
        label={chemistry.keepers}
        hint={chemistry.keepersHint}
        unit={chemistry.plates}
      />
    </>
  );
}

function Result({ estimate, printed }: { estimate: Estimate; printed: typeof PRINTED }) {
  const words = useWords();
  const { chemistry } = words;
  const { needs, chemicals } = estimate;
  const rows = [
    ...needs.glass.map(({ widthMm, heightMm, sheets }) =>
      sheetsRow(chemistry.sheets(nameOfSize(widthMm, heightMm)), sheets),
    ),
    ...SOLUTION_KINDS.map((kind) => row(chemistry.of[kind], needs.solutions[kind], 'uL', words)),
    row(chemistry.of['silver nitrate'], needs.silverNitrate.total, 'mg', words),
  ];
  return (
    <>
      <Table caption={chemistry.table.ready} columns={columns(words)} rows={rows} steady />
      <p class="small">{chemistry.table.key}</p>
      {printed.length > 0 && (
        <Table
          caption={chemistry.table.bottles}
          columns={columns(words)}
          rows={chemicals.map(({ ingredient, unit, quantity }) =>
            row(chemistry.printed(ingredient), quantity, unit, words),
          )}
        />
      )}
      <Notice tone="warn">{chemistry.caution}</Notice>
      {printed.some(withCyanide) && <Notice tone="bad">{chemistry.cyanide}</Notice>}
      <Reckoned estimate={estimate} printed={printed} />
    </>
  );
}

function Reckoned({ estimate, printed }: { estimate: Estimate; printed: typeof PRINTED }) {
  const words = useWords();
  const { chemistry, calculators: all } = words;
  const { needs, use, attempts } = estimate;
  const kept = Math.round(attempts.keeperShare * 100);
  return (
    <details>
      <summary>{all.how}</summary>
      <ul>
        {chemistry.reckoning.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
        <li>{chemistry.kept(kept, attempts.stopAfter, chemistry.printed(attempts.source))}</li>
      </ul>
      <Table
        caption={chemistry.table.film}
        columns={columns(words)}
        rows={[row(chemistry.table.taken, needs.silverNitrate.inFilm, 'mg', words)]}
        steady
      />
      <Facts
        items={[
          ...sourcesOf(use).map(({ of, source }) => ({
            term: chemistry.of[of],
            detail: chemistry.printed(source),
          })),
          ...printed.map(({ name, source, note }) => ({
            term: chemistry.printed(name),
            detail: `${chemistry.printed(source)}. ${chemistry.printed(note)}`,
          })),
        ]}
      />
    </details>
  );
}

const columns = ({ chemistry: { table } }: Words) => [
  { head: table.what },
  ...table.heads.map((head) => ({ head, figures: true })),
];

const row = (name: string, { low, likely, ninety, high }: Spread, unit: Unit, { chemistry }: Words) => [
  name,
  ...[low, likely, ninety, high].map((amount) =>
    unit === 'piece' ? chemistry.pieces(String(amount)) : formatQuantity(amount, unit, 'up'),
  ),
];

const sheetsRow = (name: string, { low, likely, ninety, high }: Spread) => [
  name,
  ...[low, likely, ninety, high].map(String),
];

const withCyanide = ({ lines }: (typeof PRINTED)[number]) =>
  lines.some(({ substance }) => substance === 'potassium cyanide');

const printedOf = (answers: Record<string, unknown>) =>
  PRINTED.filter(({ key, kind }) => answers[`formula-${kind}`] === key);

const platesOf = ({ plates }: EstimateBody) => plates.reduce((sum, { keepers }) => sum + keepers, 0);
