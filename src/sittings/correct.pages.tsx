// The page where people put their details right, and ask the studio for what would change the plan.
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option } from '../platform/html/kit/choices.js';
import { Card } from '../platform/html/kit/facts.js';
import { Fieldset, Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { Home } from './ask-days.pages.js';
import type { Answers } from './ask-form.calc.js';
import { GuardianFields, WaysFields } from './ask-parts.pages.js';
import type { Wish } from './corrections.schemas.js';
import { isForMinor } from './request.schemas.js';
import type { SittingView } from './sittings.schemas.js';

export interface CorrectProps {
  studio: Studio;
  view: SittingView;
  wish: Wish | null;
  formToken: string;
  /** Address of the person's own page. */
  path: string;
  /** What the form shows. */
  answers: Answers;
  problems?: FieldProblem[];
  /** Places of the name that was typed, when it was not clear which is meant. */
  places?: Option[];
  /** What was typed for the studio to answer, and what is wrong with it. */
  asking?: { words: string; problems: FieldProblem[] };
  notice?: string;
}

export function CorrectPage(props: CorrectProps) {
  const { studio, view, wish, formToken, path, answers, problems = [], asking, notice } = props;
  return (
    <Page
      title="Your details"
      {...studioFrame(studio)}
      errors={[...problems, ...(asking?.problems ?? [])]}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">
        What you change here holds at once, and the studio sees it. Your day and your turn on the list stay as
        they are.
      </p>
      <Form
        action={`${path}/details`}
        csrf={formToken}
        values={answers}
        errors={problems}
        label="Your details"
      >
        <Fieldset legend="You">
          <TextField name="name" label="Your name" autocomplete="name" />
          <WaysFields />
        </Fieldset>
        <Home {...props} />
        <WhoSits view={view} />
        <ForTheDay view={view} />
        <Button>Keep these details</Button>
      </Form>
      <AskTheStudio wish={wish} path={path} formToken={formToken} asking={asking} />
      <p class="alone">
        <a href={path}>Back, without a change</a>
      </p>
    </Page>
  );
}

function WhoSits({ view: { sitters, sitting } }: { view: SittingView }) {
  const { minor, guardian } = sitting.details;
  return (
    <>
      <Fieldset legend="Who sits" hint="Somebody else in their stead? Write the new name.">
        {sitters.map((one, at) => (
          <TextField
            key={one.id}
            name={`sitters/${at}`}
            label={sitters.length === 1 ? 'Name of the sitter' : `Name of sitter ${at + 1}`}
          />
        ))}
      </Fieldset>
      {(guardian || isForMinor({ minor, bands: sitters.map((one) => one.ageBand) })) && (
        <Fieldset legend="Parent or guardian">
          <GuardianFields />
        </Fieldset>
      )}
    </>
  );
}

function ForTheDay({ view: { sitting } }: { view: SittingView }) {
  const told = sitting.details.access !== '';
  return (
    <>
      <TextArea
        name="access"
        label="What would help you here?"
        hint={
          told
            ? 'You have told us something. We do not show it here; what you write takes its place, and left empty it stays. Please leave out matters of health.'
            : 'Steps, sitting down, holding still with a head rest: in your own words. Please leave out matters of health.'
        }
        rows={3}
        optional
      />
      {told && (
        <CheckboxGroup
          name="accessGone"
          label="What you told us before"
          options={[{ value: 'yes', label: 'Take away what I told you about this' }]}
          optional
        />
      )}
      <TextArea
        name="brings"
        label="What will you bring?"
        hint="Dress, things to hold, an instrument, a dog."
        rows={3}
        optional
      />
    </>
  );
}

type AskTheStudioProps = Pick<CorrectProps, 'wish' | 'path' | 'formToken'> & {
  asking: CorrectProps['asking'] | undefined;
};

/** What needs room, light and glass is not changed by a form. */
function AskTheStudio({ wish, path, formToken, asking }: AskTheStudioProps) {
  return (
    <Card title="More plates, another size, more people?">
      <p>
        The studio has to look whether day, light and glass are enough, so this is asked first. Nothing
        changes until the studio has answered.
      </p>
      <Form
        action={`${path}/wish`}
        csrf={formToken}
        values={{ words: asking?.words ?? wish?.words ?? '' }}
        errors={asking?.problems ?? []}
        label="Ask the studio"
      >
        <TextArea
          name="words"
          label="What would you like?"
          hint={wish ? 'You have asked for this. Write anew to ask for something else.' : undefined}
          rows={3}
        />
        <Button kind="quiet">Ask the studio</Button>
      </Form>
    </Card>
  );
}
