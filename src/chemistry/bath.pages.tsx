// The strength of a silver bath, for anybody: a form, and its answer in every measure, with topping up and plates.
import { formatQuantity } from '../lib/quantity-text.js';
import { counted } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { SelectField } from '../platform/html/kit/choices.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, NumberField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { DESK_SPOKEN } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { type AskedBath, bathAt, MEASURES, reckonBath } from './bath-asked.calc.js';
import type { Strength } from './bath-density.calc.js';
import { type ReadBath, WAYS } from './bath-form.schemas.js';
import { calculators } from './calculators.calc.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import { BATH_RECKONING, CAUTION } from './words.calc.js';

const STEPS = 5;

interface BathProps {
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  found: Extract<ReadBath, { ok: true }> | null;
}

export function BathPage(props: BathProps) {
  const { found, errors } = props;
  return (
    <Page
      title="Strength of a silver bath"
      errors={errors}
      nav={calculators('/chemistry/bath', DESK_SPOKEN.words)}
    >
      {found ? (
        <Result {...found} />
      ) : (
        <p class="lead">
          What a hydrometer or a titration says of a silver bath, when to top it up and by how much.
        </p>
      )}
      {found && <h2>Another reading</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors }: BathProps) {
  const open = (way: keyof typeof WAYS) =>
    WAYS[way].some((name) => answers[name] || errors.some(({ field }) => field === name));
  return (
    <Form action="/chemistry/bath" method="get" values={answers} errors={errors}>
      <NumberField
        name="density"
        label="Density by hydrometer"
        hint="As it is marked: 1.073, not 1073."
        decimal
      />
      <NumberField name="celsius" label="Read at" unit="degrees Celsius" decimal />
      <details open={open('strength')}>
        <summary>Or by a strength</summary>
        <NumberField name="amount" label="Strength" decimal />
        <SelectField
          name="measure"
          label="In"
          empty={null}
          options={MEASURES.map((value) => ({ value, label: value }))}
        />
      </details>
      <details open={open('titration')}>
        <summary>Or by titration with thiocyanate</summary>
        <NumberField name="thiocyanateMl" label="Thiocyanate used" unit="mL" decimal />
        <NumberField name="normality" label="Its strength" unit="mol in a litre" decimal />
        <NumberField name="titratedMl" label="Bath taken" unit="mL" decimal />
      </details>
      <details open={open('chloride')}>
        <summary>Or by dried silver chloride</summary>
        <NumberField name="chlorideG" label="Dried silver chloride" unit="g" decimal />
        <NumberField name="precipitatedMl" label="Bath taken" unit="mL" decimal />
      </details>
      <Fieldset legend="Topping up" hint="Leave the first empty if you do not ask about it.">
        <NumberField name="volume" label="In the bath now" unit="mL" optional />
        <NumberField name="full" label="When full" unit="mL" optional />
        <NumberField name="leastVolume" label="It works down to" unit="mL" optional />
        <NumberField name="target" label="Strength wanted" unit="g in a litre" decimal />
        <NumberField name="least" label="Topped up below" unit="g in a litre" decimal />
        <SelectField
          name="size"
          label="Plates in it"
          empty={null}
          options={STARTER_PLATE_SIZES.map(({ key, name }) => ({ value: key, label: name }))}
        />
      </Fieldset>
      <Button>Reckon</Button>
    </Form>
  );
}

function Result({ way, strength, bath }: Extract<ReadBath, { ok: true }>) {
  return (
    <>
      <p class="lead">{figures(strength.mgPerLitre / 1000)} g of silver nitrate in a litre.</p>
      {way === 'hydrometer' && (
        <Notice tone="note">
          This holds for a clean bath. Alcohol in a used one makes it read low, nitrates high: there it is a
          guide only.
        </Notice>
      )}
      <Facts items={measures(strength)} />
      {bath && <ToppingUp bath={bath} mgInLitre={strength.mgPerLitre} />}
      <Notice tone="warn">{CAUTION}</Notice>
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {BATH_RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

const measures = (strength: Strength): Fact[] => [
  { term: 'In 100 mL', detail: `${figures(strength.byVolume)} g (per cent weight by volume)` },
  { term: 'In 100 g', detail: `${figures(strength.byWeight)} g (per cent by weight)` },
  { term: 'In a US fluid ounce', detail: `${figures(strength.grainsPerUsOunce)} grains` },
  { term: 'In an imperial fluid ounce', detail: `${figures(strength.grainsPerImperialOunce)} grains` },
  { term: 'Density of a clean bath at 20 °C', detail: strength.density.toFixed(4) },
];

function ToppingUp({ bath, mgInLitre }: { bath: AskedBath; mgInLitre: number }) {
  const { add, plates, planned } = reckonBath(bath, mgInLitre);
  const last = plates?.likely ?? 0;
  const at = Array.from({ length: STEPS + 1 }, (_, step) => Math.round((last * step) / STEPS));
  return (
    <>
      <h2>Topping up</h2>
      <p>To fill and strengthen it now: {addInWords(add)}.</p>
      {plates === null || planned === null ? (
        <p>It is below its least already.</p>
      ) : (
        <>
          <p>
            It takes about {counted(plates.likely, 'plate')}, between {plates.most} and {plates.least}, until
            it is short of {planned.shortOf}. Then it wants {addInWords(planned.add)}.
          </p>
          <Table
            caption="As it goes on"
            columns={[
              { head: 'Plates', figures: true },
              { head: 'g in a litre', figures: true },
              { head: 'In it', figures: true },
            ]}
            rows={[...new Set(at)].map((count) => {
              const level = bathAt(bath, mgInLitre, count);
              return [count, figures(level.strength / 1000), formatQuantity(level.volume, 'uL')];
            })}
            steady
          />
        </>
      )}
    </>
  );
}

function addInWords({ crystals, volume }: { crystals: bigint; volume: bigint }): string {
  const parts = [
    crystals > 0n ? `${formatQuantity(crystals, 'mg', 'up')} of silver nitrate` : '',
    volume > 0n ? `distilled water up to the full mark, about ${formatQuantity(volume, 'uL')}` : '',
  ].filter(Boolean);
  return parts.join(' and ') || 'nothing';
}

const figures = (value: number): string => String(Number(value.toPrecision(3)));
