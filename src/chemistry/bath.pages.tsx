// The strength of a silver bath, for anybody: a form, and its answer in every measure, with topping up and plates.
import { formatQuantity } from '../lib/quantity-text.js';
import { Button } from '../platform/html/kit/button.js';
import { SelectField } from '../platform/html/kit/choices.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, NumberField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { type AskedBath, bathAt, MEASURES, reckonBath } from './bath-asked.calc.js';
import type { Strength } from './bath-density.calc.js';
import type { TopUp } from './bath-strength.calc.js';
import { type ReadBath, WAYS } from './bath-form.schemas.js';
import { calculators } from './calculators.calc.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import type { Words } from '../words/words-for.js';

const STEPS = 5;

interface BathProps {
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  found: Extract<ReadBath, { ok: true }> | null;
  spoken: Spoken;
}

export function BathPage(props: BathProps) {
  const { found, errors, spoken } = props;
  const { bath } = spoken.words;
  return (
    <Page
      title={bath.title}
      errors={errors}
      nav={calculators('/chemistry/bath', spoken.words)}
      spoken={spoken}
    >
      {found ? <Result {...found} /> : <p class="lead">{bath.lead}</p>}
      {found && <h2>{bath.another}</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors }: BathProps) {
  const { bath, chemistry } = useWords();
  const open = (way: keyof typeof WAYS) =>
    WAYS[way].some((name) => answers[name] || errors.some(({ field }) => field === name));
  return (
    <Form action="/chemistry/bath" method="get" values={answers} errors={errors}>
      <NumberField name="density" label={bath.density} hint={bath.densityHint} decimal />
      <NumberField name="celsius" label={bath.readAt} unit={bath.celsius} decimal />
      <details open={open('strength')}>
        <summary>{bath.byStrength}</summary>
        <NumberField name="amount" label={bath.strength} decimal />
        <SelectField
          name="measure"
          label={bath.measure}
          empty={null}
          options={MEASURES.map((value) => ({ value, label: bath.measures[value] }))}
        />
      </details>
      <details open={open('titration')}>
        <summary>{bath.byTitration}</summary>
        <NumberField name="thiocyanateMl" label={bath.thiocyanate} unit="mL" decimal />
        <NumberField name="normality" label={bath.normality} unit={bath.moles} decimal />
        <NumberField name="titratedMl" label={bath.bathTaken} unit="mL" decimal />
      </details>
      <details open={open('chloride')}>
        <summary>{bath.byChloride}</summary>
        <NumberField name="chlorideG" label={bath.chloride} unit="g" decimal />
        <NumberField name="precipitatedMl" label={bath.bathTaken} unit="mL" decimal />
      </details>
      <Fieldset legend={bath.toppingUp} hint={bath.toppingUpHint}>
        <NumberField name="volume" label={bath.volume} unit="mL" optional />
        <NumberField name="full" label={bath.full} unit="mL" optional />
        <NumberField name="leastVolume" label={bath.leastVolume} unit="mL" optional />
        <NumberField name="target" label={bath.target} unit={bath.inLitre} decimal />
        <NumberField name="least" label={bath.least} unit={bath.inLitre} decimal />
        <SelectField
          name="size"
          label={bath.size}
          empty={null}
          options={STARTER_PLATE_SIZES.map(({ key, name }) => ({ value: key, label: name }))}
        />
      </Fieldset>
      <Button>{chemistry.reckon}</Button>
    </Form>
  );
}

function Result({ way, strength, bath: asked }: Extract<ReadBath, { ok: true }>) {
  const { bath, chemistry, calculators: all } = useWords();
  return (
    <>
      <p class="lead">{bath.holds(figures(strength.mgPerLitre / 1000))}</p>
      {way === 'hydrometer' && <Notice tone="note">{bath.clean}</Notice>}
      <Facts items={measures(strength, bath)} />
      {asked && <ToppingUp asked={asked} mgInLitre={strength.mgPerLitre} />}
      <Notice tone="warn">{chemistry.caution}</Notice>
      <details>
        <summary>{all.how}</summary>
        <ul>
          {bath.reckoning.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

const measures = (strength: Strength, { told }: Words['bath']): Fact[] => [
  { term: told.byVolume, detail: told.byVolumeOf(figures(strength.byVolume)) },
  { term: told.byWeight, detail: told.byWeightOf(figures(strength.byWeight)) },
  { term: told.usOunce, detail: told.grains(figures(strength.grainsPerUsOunce)) },
  { term: told.imperialOunce, detail: told.grains(figures(strength.grainsPerImperialOunce)) },
  { term: told.density, detail: strength.density.toFixed(4) },
];

function ToppingUp({ asked, mgInLitre }: { asked: AskedBath; mgInLitre: number }) {
  const { bath } = useWords();
  const { add, plates, planned } = reckonBath(asked, mgInLitre);
  const last = plates?.likely ?? 0;
  const at = Array.from({ length: STEPS + 1 }, (_, step) => Math.round((last * step) / STEPS));
  return (
    <>
      <h2>{bath.toppingUp}</h2>
      <p>{bath.now(addInWords(add, bath))}</p>
      {plates === null || planned === null ? (
        <p>{bath.below}</p>
      ) : (
        <>
          <p>
            {bath.takes(
              plates.likely,
              plates.most,
              plates.least,
              bath.shortOf[planned.shortOf],
              addInWords(planned.add, bath),
            )}
          </p>
          <Table
            caption={bath.goesOn}
            columns={[
              { head: bath.plates, figures: true },
              { head: bath.inLitre, figures: true },
              { head: bath.inIt, figures: true },
            ]}
            rows={[...new Set(at)].map((count) => {
              const level = bathAt(asked, mgInLitre, count);
              return [count, figures(level.strength / 1000), formatQuantity(level.volume, 'uL')];
            })}
            steady
          />
        </>
      )}
    </>
  );
}

function addInWords({ crystals, volume }: TopUp, { add }: Words['bath']): string {
  const parts = [
    crystals > 0n ? add.crystals(formatQuantity(crystals, 'mg', 'up')) : '',
    volume > 0n ? add.water(formatQuantity(volume, 'uL')) : '',
  ].filter(Boolean);
  return parts.join(add.and) || add.nothing;
}

const figures = (value: number): string => String(Number(value.toPrecision(3)));
