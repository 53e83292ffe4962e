// The journey calculator of a studio, for anybody: where from, and if wanted for which day and hour.
import type { Temporal } from 'temporal-polyfill';
import { Button } from '../platform/html/kit/button.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import {
  HomeFields,
  JourneyTold,
  needsLooking,
  PLAN_FIELDS,
  PlanFields,
} from '../platform/html/kit/journey.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Words } from '../words/words-for.js';
import { type Journey, type Travel, USUAL_MARGIN_MINUTES } from './journey.calc.js';
import { PLACES_CREDIT, type Place } from './place.calc.js';
import { placeOptions } from './place-label.calc.js';
import { journeyTold, modeOptions } from './told.calc.js';
import type { NamedSpot } from './spots.service.js';

export interface JourneyPageProps {
  studio: Studio;
  answers: Record<string, unknown>;
  errors: FieldProblem[];
  /** Several places of the name given, to choose one of. */
  places: Place[];
  found: { home: NamedSpot; travel: Travel | Journey; start: Temporal.PlainDateTime | null } | null;
  spoken: Spoken;
}

export function JourneyPage({ studio, answers, errors, places, found, spoken }: JourneyPageProps) {
  const { words } = spoken;
  const { calculator } = words.journey;
  const { ways } = words.frame;
  const home = `/s/${studio.slug}`;
  return (
    <Page
      title={calculator.title(studio.name)}
      {...studioFrame(studio)}
      nav={[
        { href: home, label: ways.open },
        { href: `${home}/ask`, label: ways.ask },
        { href: `${home}/journey`, label: words.journey.title, current: true },
      ]}
      spoken={spoken}
      errors={errors}
      credits={[PLACES_CREDIT]}
    >
      {found ? (
        <>
          <p class="lead">{leadOf(found, words)}</p>
          <JourneyTold {...journeyTold(found.travel, found.home, studio.zone, words)} />
          <h2>{calculator.another}</h2>
        </>
      ) : (
        <p class="lead">{calculator.lead}</p>
      )}
      <Form action={`${home}/journey`} method="get" values={answers} errors={errors}>
        <HomeFields places={placeOptions(places)} zoneOpen={needsLooking(['zone'], answers, errors)} />
        <DateField name="date" label={calculator.day} optional />
        <TextField name="time" label={calculator.time} hint={calculator.timeHint} width="short" optional />
        <PlanFields
          modes={modeOptions(words)}
          usualMargin={USUAL_MARGIN_MINUTES}
          open={needsLooking(PLAN_FIELDS, answers, errors)}
        />
        <Button>{calculator.show}</Button>
      </Form>
    </Page>
  );
}

function leadOf({ home, start }: NonNullable<JourneyPageProps['found']>, { dates, journey }: Words): string {
  const { calculator } = journey;
  return start === null
    ? calculator.from(home.name)
    : calculator.fromFor(home.name, dates.day(start), dates.time(start));
}
