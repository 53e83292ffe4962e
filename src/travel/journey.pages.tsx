// The journey calculator of a studio, for anybody: where from, and if wanted for which day and hour.
import { dayInWords, timeInWords } from '../lib/words.js';
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
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
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
}

export function JourneyPage({ studio, answers, errors, places, found }: JourneyPageProps) {
  const home = `/s/${studio.slug}`;
  return (
    <Page
      title={`Your journey to ${studio.name}`}
      {...studioFrame(studio)}
      nav={[
        { href: home, label: 'Open places' },
        { href: `${home}/ask`, label: 'Ask for a sitting' },
        { href: `${home}/journey`, label: 'Your journey', current: true },
      ]}
      errors={errors}
      credits={[PLACES_CREDIT]}
    >
      {found ? (
        <>
          <p class="lead">{leadOf(found)}</p>
          <JourneyTold {...journeyTold(found.travel, found.home, studio.zone)} />
          <h2>Another town or day</h2>
        </>
      ) : (
        <p class="lead">
          How far it is, how long it may take, whether to stay the night, and by when to leave home.
        </p>
      )}
      <Form action={`${home}/journey`} method="get" values={answers} errors={errors}>
        <HomeFields places={placeOptions(places)} zoneOpen={needsLooking(['zone'], answers, errors)} />
        <DateField name="date" label="For which day?" optional />
        <TextField
          name="time"
          label="At what time does it start there?"
          hint="Such as 10:00."
          width="short"
          optional
        />
        <PlanFields
          modes={modeOptions()}
          usualMargin={USUAL_MARGIN_MINUTES}
          open={needsLooking(PLAN_FIELDS, answers, errors)}
        />
        <Button>Show the journey</Button>
      </Form>
    </Page>
  );
}

function leadOf({ home, start }: NonNullable<JourneyPageProps['found']>): string {
  return start === null
    ? `From ${home.name}.`
    : `From ${home.name}, to be there for ${dayInWords(start)}, ${timeInWords(start)}.`;
}
