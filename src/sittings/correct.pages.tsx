// The page where people put their details right, and ask the studio for what would change the plan.
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option, RadioGroup } from '../platform/html/kit/choices.js';
import { Card } from '../platform/html/kit/facts.js';
import { Fieldset, Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { LANGUAGE_NAMES, LANGUAGES } from '../words/languages.js';
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
  /** What stands there, and what the form shows. */
  stands: Answers;
  answers: Answers;
  problems?: FieldProblem[];
  /** Places of the name that was typed, when it was not clear which is meant. */
  places?: Option[];
  /** What was typed for the studio to answer, and what is wrong with it. */
  asking?: { answers: Answers; problems: FieldProblem[] };
  notice?: string;
  spoken: Spoken;
}

export function CorrectPage(props: CorrectProps) {
  const {
    studio,
    view,
    wish,
    formToken,
    path,
    stands,
    answers,
    problems = [],
    asking,
    notice,
    spoken,
  } = props;
  const words = spoken.words.correct;
  return (
    <Page
      title={words.title}
      {...studioFrame(studio)}
      spoken={spoken}
      errors={[...problems, ...(asking?.problems ?? [])]}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">{words.lead}</p>
      <Form
        action={`${path}/details`}
        csrf={formToken}
        shown={stands}
        values={answers}
        errors={problems}
        label={words.title}
      >
        <Fieldset legend={words.you}>
          <TextField name="name" label={words.name} autocomplete="name" />
          <WaysFields />
          <RadioGroup
            name="language"
            label={words.language}
            options={LANGUAGES.map((one) => ({ value: one, label: LANGUAGE_NAMES[one] }))}
          />
        </Fieldset>
        <Home {...props} />
        <WhoSits view={view} />
        <ForTheDay view={view} />
        <Button>{words.keep}</Button>
      </Form>
      <AskTheStudio wish={wish} path={path} formToken={formToken} asking={asking} />
      <p class="alone">
        <a href={path}>{words.back}</a>
      </p>
    </Page>
  );
}

function WhoSits({ view: { sitters, sitting } }: { view: SittingView }) {
  const { minor, guardian } = sitting.details;
  const { correct, asking } = useWords();
  return (
    <>
      <Fieldset legend={correct.who} hint={correct.whoHint}>
        {sitters.map((one, at) => (
          <TextField
            key={one.id}
            name={`sitters/${at}`}
            label={sitters.length === 1 ? asking.people.name : asking.people.nameOf(at + 1)}
          />
        ))}
      </Fieldset>
      {(guardian || isForMinor({ minor, bands: sitters.map((one) => one.ageBand) })) && (
        <Fieldset legend={correct.guardian}>
          <GuardianFields />
        </Fieldset>
      )}
    </>
  );
}

function ForTheDay({ view: { sitting } }: { view: SittingView }) {
  const told = sitting.details.access !== '';
  const {
    correct,
    asking: { more },
  } = useWords();
  return (
    <>
      <TextArea
        name="access"
        label={more.access}
        hint={told ? correct.accessToldHint : more.accessHint}
        rows={3}
        optional
      />
      {told && (
        <CheckboxGroup
          name="accessGone"
          label={correct.told}
          options={[{ value: 'yes', label: correct.takeAway }]}
          optional
        />
      )}
      <TextArea name="brings" label={more.brings} hint={more.bringsHint} rows={3} optional />
    </>
  );
}

type AskTheStudioProps = Pick<CorrectProps, 'wish' | 'path' | 'formToken'> & {
  asking: CorrectProps['asking'] | undefined;
};

/** What needs room, light and glass is not changed by a form. */
function AskTheStudio({ wish, path, formToken, asking }: AskTheStudioProps) {
  const words = useWords().correct.ask;
  const shown = { words: wish?.words ?? '' };
  return (
    <Card title={words.title}>
      <p>{words.says}</p>
      <Form
        action={`${path}/wish`}
        csrf={formToken}
        shown={shown}
        values={asking?.answers ?? shown}
        errors={asking?.problems ?? []}
        label={words.label}
      >
        <TextArea name="words" label={words.what} hint={wish ? words.asked : undefined} rows={3} />
        <Button kind="quiet">{words.button}</Button>
      </Form>
    </Card>
  );
}
