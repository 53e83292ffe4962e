// The page on which they tell where they come from, and what they know better of their journey.
import type { FormValues } from '../platform/html/kit/field.js';
import { JourneyForm } from '../platform/html/kit/journey.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { USUAL_MARGIN_MINUTES } from '../travel/journey.calc.js';
import { PLACES_CREDIT, type Place } from '../travel/place.calc.js';
import { placeOptions } from '../travel/place-label.calc.js';
import { modeOptions } from '../travel/told.calc.js';

interface OwnJourneyProps {
  studio: Studio;
  formToken: string;
  /** The page it belongs to; the form is sent to "/journey" under it. */
  back: string;
  /** What stands there, and what the form is filled with. */
  shown: FormValues;
  answers: FormValues;
  errors?: FieldProblem[];
  places?: Place[];
  spoken: Spoken;
}

export function OwnJourneyPage(props: OwnJourneyProps) {
  const { studio, formToken, back, shown, answers, errors = [], places = [], spoken } = props;
  return (
    <Page
      title={spoken.words.journey.title}
      {...studioFrame(studio)}
      spoken={spoken}
      errors={errors}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <JourneyForm
        csrf={formToken}
        action={`${back}/journey`}
        back={back}
        shown={shown}
        values={answers}
        errors={errors}
        places={placeOptions(places)}
        modes={modeOptions(spoken.words)}
        usualMargin={USUAL_MARGIN_MINUTES}
      />
    </Page>
  );
}
