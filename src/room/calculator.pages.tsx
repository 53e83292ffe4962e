// The light of one day at any place, for anybody: a form, and its answer as facts, a picture and a table.
import type { Temporal } from 'temporal-polyfill';
import { calculators } from '../chemistry/calculators.calc.js';
import { type DayOfLight, USUAL_REFERENCE } from '../daylight/day.calc.js';
import { type DaylightQuery, WINDOW_KINDS } from '../daylight/daylight.schemas.js';
import {
  exposureHeads,
  exposureRows,
  highestSun,
  lightOnTheWall,
  sunPath,
} from '../daylight/drawing.calc.js';
import { degreesInWords, predictionNote } from '../daylight/words.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { type Option, RadioGroup } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import { Form, NumberField, PlaceField, TextField } from '../platform/html/kit/form.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { SunCurve } from '../platform/html/kit/sun-curve.js';
import { Table } from '../platform/html/kit/table.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import type { Words } from '../words/words-for.js';

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
  spoken: Spoken;
}

export function CalculatorPage(props: CalculatorProps) {
  const { found, errors, spoken } = props;
  const { words } = spoken;
  const { daylight } = words;
  return (
    <Page
      title={found ? daylight.titleOf(words.dates.day(found.asked.date)) : daylight.title}
      errors={errors}
      nav={calculators('/daylight', words)}
      spoken={spoken}
      credits={[PLACES_CREDIT]}
    >
      {found ? <Result {...found} /> : <p class="lead">{daylight.lead}</p>}
      {found && <h2>{daylight.another}</h2>}
      <Question {...props} />
    </Page>
  );
}

function Question({ answers, errors, places }: CalculatorProps) {
  const { daylight: words } = useWords();
  const wrong = (...names: string[]) => errors.some(({ field }) => names.includes(field));
  return (
    <Form action="/daylight" method="get" values={answers} errors={errors}>
      {places.length === 0 ? (
        <PlaceField
          name="place"
          idName="placeId"
          label={words.place}
          hint={words.placeHint}
          placesUrl="/api/v1/places"
        />
      ) : (
        <>
          <TextField name="place" label={words.place} hint={words.placesHint} />
          <RadioGroup name="placeId" label={words.which} options={places} />
        </>
      )}
      <details open={wrong('lat', 'lon', 'zone') || filled(answers.lat)}>
        <summary>{words.coordinates}</summary>
        <TextField name="lat" label={words.latitude} hint={words.latitudeHint} width="short" />
        <TextField name="lon" label={words.longitude} hint={words.longitudeHint} width="short" />
        <TextField name="zone" label={words.zone} hint={words.zoneHint} width="medium" />
      </details>
      <DateField name="date" label={words.day} />
      <RadioGroup
        name="window"
        label={words.falls}
        options={WINDOW_KINDS.map((value) => ({ value, label: words.windows[value] }))}
      />
      <NumberField name="floor" label={words.floor} hint={words.floorHint} unit={words.degrees} decimal />
      <details open={wrong('referenceSeconds', 'referenceAltitude')}>
        <summary>{words.own}</summary>
        <NumberField name="referenceSeconds" label={words.takes} unit={words.seconds} decimal />
        <NumberField name="referenceAltitude" label={words.sunSoHigh} unit={words.degrees} decimal />
      </details>
      <Button>{words.show}</Button>
    </Form>
  );
}

function Result({ asked, where, day }: Found) {
  const words = useWords();
  const { daylight, dates } = words;
  const light = lightOnTheWall(asked.zone, day.window);
  return (
    <>
      <p class="lead">
        {light
          ? daylight.goodAt(where, dates.time(light.from), dates.time(light.until))
          : daylight.noneAt(where)}
      </p>
      <SunCurve
        points={sunPath(asked.zone, day)}
        floor={asked.floor}
        light={light}
        noon={highestSun(asked.zone, day)}
      />
      <Facts items={facts(asked, day, words)} />
      <Table
        caption={daylight.table.caption}
        columns={exposureHeads(words)}
        rows={exposureRows(asked.zone, day)}
        empty={daylight.table.none}
        steady
      />
      <p class="small">
        {predictionNote(words)} {daylight.reference(asked.referenceSeconds, asked.referenceAltitude)}
        {usualReference(asked) ? daylight.assumed : daylight.asYouSay}
      </p>
      <details>
        <summary>{words.calculators.how}</summary>
        <ul>
          {daylight.reckoning.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function facts({ zone }: DaylightQuery, { times }: DayOfLight, { dates, daylight }: Words): Fact[] {
  const { sun } = daylight;
  const clock = (at: Temporal.Instant) => dates.time(instantToWall(zone, at.round('minute')));
  const highest = sun.at(clock(times.solarNoon), degreesInWords(times.noonAltitude));
  if (times.state !== 'rises or sets')
    return [
      { term: sun.the, detail: times.state === 'up all day' ? sun.up : sun.down },
      { term: sun.highest, detail: highest },
    ];
  return [
    { term: sun.rise, detail: times.sunrise ? clock(times.sunrise) : sun.upBefore },
    { term: sun.highest, detail: highest },
    { term: sun.set, detail: times.sunset ? clock(times.sunset) : sun.staysUp },
  ];
}

const usualReference = ({ referenceSeconds, referenceAltitude }: DaylightQuery) =>
  referenceSeconds === USUAL_REFERENCE.seconds && referenceAltitude === USUAL_REFERENCE.altitude;

const filled = (answer: unknown) => typeof answer === 'string' && answer.trim() !== '';
