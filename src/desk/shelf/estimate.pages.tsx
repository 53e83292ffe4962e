// What plates would take in this studio: glass, solutions, silver, and what goes into its bottles.
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { Spread } from '../../chemistry/estimate.calc.js';
import { MAKERS } from '../../chemistry/learning.calc.js';
import { SOLUTION_KINDS } from '../../chemistry/use-per-area.calc.js';
import { CAUTION, RECKONING } from '../../chemistry/words.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import type { Unit } from '../../lib/units.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { EstimateNow } from './estimate.service.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { MAKER_WORDS } from './used.pages.js';

const COLUMNS = [
  { head: 'Of' },
  ...['Least', 'Likely', '9 in 10', 'Most'].map((head) => ({ head, figures: true })),
];

interface EstimateProps {
  visit: StaffVisit;
  now: EstimateNow;
  answers: Record<string, unknown>;
}

export function EstimatePage({ visit, now, answers }: EstimateProps) {
  const { sizes, problems, found } = now;
  return (
    <ShelfFrame visit={visit} title="What plates would take" at="/used" errors={problems}>
      <p class="lead">
        By <a href={`${shelfPath(visit, '/used')}#own`}>your own figures</a> and your own formulas. Nothing is
        set aside here.
      </p>
      {found && <Result found={found} sizes={sizes} />}
      {found && <h2>Other plates</h2>}
      <Form
        action={shelfPath(visit, '/estimate')}
        method="get"
        values={{ madeBy: 'sittings', ...answers }}
        errors={problems}
        label="What plates would take"
      >
        {sizes.map(({ id, name }) => (
          <NumberField key={id} name={`keep-${id}`} label={`To be kept, ${name}`} unit="plates" optional />
        ))}
        <RadioGroup
          name="madeBy"
          label="Whose plates?"
          options={MAKERS.map((value) => ({ value, label: MAKER_WORDS[value] }))}
        />
        <Button>Reckon</Button>
      </Form>
    </ShelfFrame>
  );
}

type ResultProps = { found: NonNullable<EstimateNow['found']>; sizes: EstimateNow['sizes'] };

function Result({ found, sizes }: ResultProps) {
  const { needs, chemicals, attempts } = found.estimate;
  const nameOf = (id: string | undefined) => sizes.find((size) => size.id === id)?.name ?? '';
  return (
    <>
      <Table
        caption="What to have ready"
        columns={COLUMNS}
        rows={[
          ...needs.glass.map(({ sizeId, sheets }) => [`Sheets, ${nameOf(sizeId)}`, ...four(sheets, String)]),
          ...SOLUTION_KINDS.map((kind) => row(capital(kind), needs.solutions[kind], 'uL')),
          row('Silver nitrate', needs.silverNitrate.total, 'mg'),
          row('of it in the films', needs.silverNitrate.inFilm, 'mg'),
        ]}
        steady
      />
      {found.mixed.length > 0 && (
        <Table
          caption={`What goes into ${found.mixed.join(', ')}`}
          columns={COLUMNS}
          rows={chemicals.map(({ ingredient, unit, quantity }) => row(ingredient, quantity, unit))}
        />
      )}
      <Notice tone="warn">{CAUTION}</Notice>
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
          <li>Of a hundred plates {Math.round(attempts.keeperShare * 100)} are kept, by your own figures.</li>
        </ul>
      </details>
    </>
  );
}

const four = ({ low, likely, ninety, high }: Spread, words: (amount: bigint) => string) =>
  [low, likely, ninety, high].map(words);
const row = (name: string, spread: Spread, unit: Unit) => [
  name,
  ...four(spread, (amount) => formatQuantity(amount, unit, 'up')),
];
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
