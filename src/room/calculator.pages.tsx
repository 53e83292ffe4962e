// The light of one day at any place, for anybody: a form, and its answer as facts, a picture and a table.
import type { Temporal } from 'temporal-polyfill';
import { calculators } from '../chemistry/calculators.calc.js';
import { type DayOfLight, USUAL_REFERENCE } from '../daylight/day.calc.js';
import { type DaylightQuery, WINDOW_KINDS } from '../daylight/daylight.schemas.js';
import {
  EXPOSURE_HEADS,
  exposureRows,
  highestSun,
  lightOnTheWall,
  sunPath,
} from '../daylight/drawing.calc.js';
import { degreesInWords, PREDICTION_NOTE, RECKONING, WINDOW_WORDS } from '../daylight/words.calc.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { type Option, RadioGroup } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import { Form, NumberField, PlaceField, TextField } from '../platform/html/kit/form.js';
import { SunCurve } from '../platform/html/kit/sun-curve.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';

export interface Found {
  asked: DaylightQuery;
  /** "Whitby, England, United Kingdom", or the coordinates. */
  where: string;
  day: DayOfLight;
}

export interface CalculatorProps {
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  /** Several places of the name given, to choose one of. */
  places: Option[];
  found: Found | null;
}

export function CalculatorPage(props: CalculatorProps) {
  const { found, errors } = props;
  return (
    <Page
      title={found ? `Light on ${dayInWords(found.asked.date)}` : 'Daylight for a plate'}
      errors={errors}
      nav={calculators('/daylight')}
      credits={[PLACES_CREDIT]}
    >
      {found ? (
        <Result {...found} />
      ) : (
        <p class="lead">
          When light is good for a plate at any place and day, and how long one would hold still.
        </p>
      )}
      {found && <h2>Another place or day</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors, places }: CalculatorProps) {
  const wrong = (...names: string[]) => errors.some(({ field }) => names.includes(field));
  return (
    <Form action="/daylight" method="get" values={answers} errors={errors}>
      {places.length === 0 ? (
        <PlaceField
          name="place"
          idName="placeId"
          label="Place"
          hint="A town or village."
          placesUrl="/api/v1/places"
        />
      ) : (
        <>
          <TextField
            name="place"
            label="Place"
            hint="Not among those below? Add the region or the country: Springfield, Illinois."
          />
          <RadioGroup name="placeId" label="Which of these is it?" options={places} />
        </>
      )}
      <details open={wrong('lat', 'lon', 'zone') || filled(answers.lat)}>
        <summary>Or by its coordinates</summary>
        <TextField
          name="lat"
          label="Latitude"
          hint="Degrees north, such as 54.49; south is negative."
          width="short"
        />
        <TextField
          name="lon"
          label="Longitude"
          hint="Degrees east, such as 18.07; west is negative."
          width="short"
        />
        <TextField name="zone" label="Time zone" hint="A name such as Europe/London." width="medium" />
      </details>
      <DateField name="date" label="Which day?" />
      <RadioGroup
        name="window"
        label="What light falls on the sitter?"
        options={WINDOW_KINDS.map((value) => ({ value, label: WINDOW_WORDS[value] }))}
      />
      <NumberField
        name="floor"
        label="Light is good while the sun stands at least so high"
        hint="Ten is usual here; fifteen is comfortable."
        unit="degrees"
        decimal
      />
      <details open={wrong('referenceSeconds', 'referenceAltitude')}>
        <summary>Your own exposure</summary>
        <NumberField
          name="referenceSeconds"
          label="A good plate takes, under a clear sky"
          unit="seconds"
          decimal
        />
        <NumberField name="referenceAltitude" label="with the sun so high" unit="degrees" decimal />
      </details>
      <Button>Show the light</Button>
    </Form>
  );
}

function Result({ asked, where, day }: Found) {
  const light = lightOnTheWall(asked.zone, day.window);
  return (
    <>
      <p class="lead">
        {where}:{' '}
        {light
          ? `good light from ${timeInWords(light.from)} to ${timeInWords(light.until)}.`
          : 'no good light that day.'}
      </p>
      <SunCurve
        points={sunPath(asked.zone, day)}
        floor={asked.floor}
        light={light}
        noon={highestSun(asked.zone, day)}
      />
      <Facts items={facts(asked, day)} />
      <Table
        caption="Seconds of exposure"
        columns={EXPOSURE_HEADS}
        rows={exposureRows(asked.zone, day)}
        empty="The sun does not rise that day."
        steady
      />
      <p class="small">
        {PREDICTION_NOTE} Here a good plate takes {asked.referenceSeconds} seconds under a clear sky with the
        sun {asked.referenceAltitude} degrees high
        {usualReference(asked) ? ', which is an assumption: lenses and plates differ.' : ', as you say.'}
      </p>
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function facts({ zone }: DaylightQuery, { times }: DayOfLight): Fact[] {
  const clock = (at: Temporal.Instant) => timeInWords(instantToWall(zone, at.round('minute')));
  const highest = `${clock(times.solarNoon)}, at ${degreesInWords(times.noonAltitude)}`;
  if (times.state !== 'rises or sets')
    return [
      { term: 'The sun', detail: times.state === 'up all day' ? 'does not set' : 'does not rise' },
      { term: 'Highest', detail: highest },
    ];
  return [
    { term: 'Sunrise', detail: times.sunrise ? clock(times.sunrise) : 'none: it is up since the day before' },
    { term: 'Highest', detail: highest },
    { term: 'Sunset', detail: times.sunset ? clock(times.sunset) : 'none: it stays up' },
  ];
}

const usualReference = ({ referenceSeconds, referenceAltitude }: DaylightQuery) =>
  referenceSeconds === USUAL_REFERENCE.seconds && referenceAltitude === USUAL_REFERENCE.altitude;

const filled = (answer: unknown) => typeof answer === 'string' && answer.trim() !== '';
