// The journey calculator of a studio, for anybody: where from, and if wanted for which day and hour.
import { dayInWords, timeInWords } from '../lib/words.js';
import type { Temporal } from 'temporal-polyfill';
import { Button } from '../platform/html/kit/button.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Journey, Travel } from './journey.calc.js';
import { HomeFields, JourneyTold, PlanFields } from './journey-parts.pages.js';
import { PLACES_CREDIT, type Place } from './place.calc.js';
import type { NamedSpot } from './spots.service.js';
import { leaveByInWords } from './words.calc.js';

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
  const wrong = (...names: string[]) => errors.some(({ field }) => names.includes(field));
  const filled = (...names: string[]) =>
    names.some((name) => typeof answers[name] === 'string' && answers[name] !== '');
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
          <JourneyTold travel={found.travel} home={found.home} zone={studio.zone} />
          <h2>Another town or day</h2>
        </>
      ) : (
        <p class="lead">
          How far it is, how long it may take, whether to stay the night, and by when to leave home.
        </p>
      )}
      <Form action={`${home}/journey`} method="get" values={answers} errors={errors}>
        <HomeFields places={places} zoneOpen={wrong('zone') || filled('zone')} />
        <DateField name="date" label="For which day?" optional />
        <TextField
          name="time"
          label="At what time does it start there?"
          hint="Such as 10:00."
          width="short"
          optional
        />
        <PlanFields
          open={wrong('mode', 'hours', 'night', 'margin') || filled('mode', 'hours', 'night', 'margin')}
        />
        <Button>Show the journey</Button>
      </Form>
    </Page>
  );
}

function leadOf({ home, travel, start }: NonNullable<JourneyPageProps['found']>): string {
  if (!('leaveBy' in travel) || start === null) return `From ${home.name}.`;
  return `To be there for ${dayInWords(start)}, ${timeInWords(start)}, leave ${home.name} by ${leaveByInWords(travel)}, by the clocks there.`;
}
