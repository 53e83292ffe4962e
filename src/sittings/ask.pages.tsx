// Asking for a sitting: one page for each step, and one where all is looked over before it is sent.
import type { ComponentChildren } from 'preact';
import { Button } from '../platform/html/kit/button.js';
import { Facts } from '../platform/html/kit/facts.js';
import { FieldError } from '../platform/html/kit/errors.js';
import { Form } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import type { Told } from './ask-check.calc.js';
import { Days, Home, More } from './ask-days.pages.js';
import { type AskProps, Guardian, KindOfSitting, Plates, Sitters, You } from './ask-parts.pages.js';
import { beforeStep, STEP_WORDS, STEPS } from './ask-steps.calc.js';

const frameOf = (studio: Studio) => ({
  ...studioFrame(studio),
  nav: [
    { href: `/s/${studio.slug}`, label: 'Open places' },
    { href: `/s/${studio.slug}/ask`, label: 'Ask for a sitting', current: true },
  ],
  credits: [PLACES_CREDIT],
});

export function AskPage(props: AskProps) {
  const { studio, formToken, step, action, kept, answers, problems = [], notice } = props;
  return (
    <Page
      title="Ask for a sitting"
      {...frameOf(studio)}
      errors={problems}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      unlisted={kept}
    >
      {step === 'you' ? (
        <p class="lead">
          Tell us who sits and which days suit. Nothing is fixed by asking: the studio reads every request and
          answers.
        </p>
      ) : null}
      <p>
        Step {STEPS.indexOf(step) + 1} of {STEPS.length}: {STEP_WORDS[step]}. At the end you look everything
        over before it is sent.
      </p>
      <Form action={action} csrf={formToken} values={answers} errors={problems}>
        {/* Enter in a field presses the first button of a form: that must not be "Add a sitter". */}
        <button type="submit" hidden>
          Go on
        </button>
        {partsOf(props)}
        <Button>Go on</Button>
        {beforeStep(step) !== null && (
          <Button kind="quiet" name="more" value="back">
            Back
          </Button>
        )}
      </Form>
      {kept && <KeptHere />}
    </Page>
  );
}

function partsOf(props: AskProps): ComponentChildren {
  switch (props.step) {
    case 'you':
      return <You />;
    case 'people':
      return (
        <>
          {props.kinds.length > 1 && <KindOfSitting kinds={props.kinds} />}
          <Sitters {...props} />
          <Guardian />
          <Plates {...props} />
        </>
      );
    case 'days':
      return (
        <>
          <Home {...props} />
          <Days {...props} />
        </>
      );
    case 'more':
      return <More {...props} />;
  }
}

function KeptHere() {
  return (
    <p class="small">
      What you have sent on so far is kept at the address of this page for two weeks: you can come back to it.
      Whoever has the address can read it.
    </p>
  );
}

interface CheckProps {
  studio: Studio;
  formToken: string;
  /** The address of the draft; its steps stand under it. */
  path: string;
  told: Told[];
  notice?: string | undefined;
}

export function CheckPage({ studio, formToken, path, told, notice }: CheckProps) {
  const whole = told.every(({ problems }) => problems.length === 0);
  return (
    <Page
      title="Check your answers"
      {...frameOf(studio)}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      unlisted
    >
      <p class="lead">
        {whole
          ? 'Please look this over. It is sent when you press the button below.'
          : 'Something is still missing, or has changed. It is marked below.'}
      </p>
      {told.map(({ step, facts, problems }) => (
        <section key={step} class="card">
          <h2>{STEP_WORDS[step]}</h2>
          {problems.map(({ field, message }) => (
            <FieldError key={field} id={`wrong-${step}-${field.replace(/\W/g, '-')}`} message={message} />
          ))}
          <Facts items={facts} />
          <p class="alone">
            <a href={`${path}/${step}?to=check`}>
              Change this<span class="unseen">: {STEP_WORDS[step]}</span>
            </a>
          </p>
        </section>
      ))}
      {whole && (
        <Form action={`${path}/send`} csrf={formToken}>
          <Button>Send the request</Button>
        </Form>
      )}
      <KeptHere />
    </Page>
  );
}
