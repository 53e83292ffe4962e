// The bench of a class: what all share, hands, the weather, how long each step takes. The fields stand on the form of a
// kind of day and on the page of one day's bench.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, NumberField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { FURTHER_STATIONS, STEP_IDS, type StepId, WEATHERS } from '../../teaching/bench.schemas.js';
import { STATIONS, type Weather } from '../../teaching/rota-presets.calc.js';
import { startingSeconds } from '../../teaching/turns-bench.calc.js';
import { STEP_WORDS, WEATHER_WORDS } from '../../teaching/turns-words.calc.js';
import type { DayView } from '../../teaching/views.service.js';
import { DeskPage } from '../frame.pages.js';
import { benchFields } from './bench-form.calc.js';

const SHARED_WORDS = {
  tanks: 'Silver tanks',
  holders: 'Holders',
  cameras: 'Cameras',
  sinks: 'Sinks',
  darkroomPlaces: 'Places in the darkroom',
};
const FURTHER_WORDS = {
  cleaningPlaces: 'Places to clean glass at',
  pouringPlaces: 'Places to pour at',
  fixingTrays: 'Fixing trays',
  washingPlaces: 'Places to wash plates',
  rackPlaces: 'Places on the drying rack',
};

interface BenchPageProps {
  visit: StaffVisit;
  day: DayView;
  values: Record<string, unknown>;
  errors?: FieldProblem[] | undefined;
}

export function BenchPage({ visit, day: { session, place }, values, errors }: BenchPageProps) {
  const own = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  return (
    <DeskPage
      visit={visit}
      at="/teaching"
      title={`The bench on ${dayInWords(place.wallStart)}`}
      errors={errors}
    >
      <p>
        <a href={`${own}/turns`}>The turns of this day</a> follow what stands here. Days to come of the same
        kind stay as they are.
      </p>
      <Form
        action={`${own}/bench`}
        csrf={visit.formToken}
        values={values}
        errors={errors}
        shown={benchFields(session.course)}
      >
        <h2>What the class shares</h2>
        {Object.entries(SHARED_WORDS).map(([name, label]) => (
          <NumberField key={name} name={`stations/${name}`} label={label} />
        ))}
        <BenchFields weather={session.course.bench.weather} errors={errors} />
        <Button>Save</Button>
      </Form>
    </DeskPage>
  );
}

/** All but the counts that every course has; `weather` decides which starting figures are told. */
export function BenchFields({
  weather,
  errors = [],
}: {
  weather: Weather;
  errors?: FieldProblem[] | undefined;
}) {
  const wrong = (part: string) => errors.some(({ field }) => field.startsWith(`bench/${part}/`));
  return (
    <>
      <NumberField
        name="bench/helpers"
        label="Trained helpers"
        hint="Beside you; each may watch a pour or a developing."
        optional
      />
      <NumberField
        name="bench/spareTurns"
        label="Spare turns for who never poured a plate"
        unit="plates"
        optional
      />
      <SelectField
        name="bench/weather"
        label="Weather to reckon with"
        hint="Cold lengthens the bath, heat shortens the time a plate may stay wet."
        empty={null}
        options={WEATHERS.map((value) => ({ value, label: WEATHER_WORDS[value] }))}
      />
      <details open={wrong('further')}>
        <summary>Further places</summary>
        {Object.entries(FURTHER_WORDS).map(([name, label]) => (
          <NumberField
            key={name}
            name={`bench/further/${name}`}
            label={label}
            hint={`Empty: ${countOf(FURTHER_STATIONS[name as keyof typeof FURTHER_STATIONS])}, an assumption.`}
            optional
          />
        ))}
      </details>
      <details open={wrong('steps')}>
        <summary>How long each step takes</summary>
        <p>
          Turns are planned so that they hold even when every step takes its longest. Empty rows keep the
          starting figure.
        </p>
        {STEP_IDS.map((id) => (
          <StepFields key={id} id={id} weather={weather} />
        ))}
      </details>
    </>
  );
}

function StepFields({ id, weather }: { id: StepId; weather: Weather }) {
  const { label, source } = STEP_WORDS[id];
  const { low, high } = startingSeconds(id, weather);
  return (
    <Fieldset legend={label} hint={`Starting figure: ${spanInWords(low, high)} (${source}).`}>
      <NumberField name={`bench/steps/${id}/low`} label={`${label}: shortest`} unit="s" optional />
      <NumberField name={`bench/steps/${id}/likely`} label={`${label}: usual`} unit="s" optional />
      <NumberField name={`bench/steps/${id}/high`} label={`${label}: longest`} unit="s" optional />
    </Fieldset>
  );
}

const countOf = (station: string) => STATIONS.find(({ id }) => id === station)?.units.length ?? 0;

/** "60 to 90 seconds", "5 to 7 minutes". */
const spanInWords = (low: number, high: number): string =>
  low % 60 === 0 && high >= 120
    ? `${low / 60} to ${counted(Math.round(high / 60), 'minute')}, which is ${low} to ${high} seconds`
    : `${low} to ${counted(high, 'second')}`;
