// Asking for a sitting: one page for each step, and one where all is looked over before it is sent.
import type { ComponentChildren } from 'preact';
import { Button } from '../platform/html/kit/button.js';
import { Facts } from '../platform/html/kit/facts.js';
import { FieldError } from '../platform/html/kit/errors.js';
import { Form } from '../platform/html/kit/form.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import type { Told } from './ask-check.calc.js';
import { Days, Home, More } from './ask-days.pages.js';
import { type AskProps, Guardian, KindOfSitting, Plates, Sitters, You } from './ask-parts.pages.js';
import { beforeStep, STEPS } from './ask-steps.calc.js';

const frameOf = (studio: Studio, spoken: Spoken) => ({
  ...studioFrame(studio),
  spoken,
  nav: [
    { href: `/s/${studio.slug}`, label: spoken.words.frame.ways.open },
    { href: `/s/${studio.slug}/ask`, label: spoken.words.frame.ways.ask, current: true },
  ],
  credits: [PLACES_CREDIT],
});

export function AskPage(props: AskProps) {
  const { studio, spoken, formToken, step, action, kept, answers, problems = [], notice } = props;
  const { asking } = spoken.words;
  return (
    <Page
      title={asking.title}
      {...frameOf(studio, spoken)}
      errors={problems}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      unlisted={kept}
    >
      {step === 'you' ? <p class="lead">{asking.lead}</p> : null}
      <p>{asking.step(STEPS.indexOf(step) + 1, STEPS.length, asking.steps[step])}</p>
      <Form action={action} csrf={formToken} values={answers} errors={problems}>
        {/* Enter in a field presses the first button of a form: that must not be "Add a sitter". */}
        <button type="submit" hidden>
          {asking.goOn}
        </button>
        {partsOf(props)}
        <Button>{asking.goOn}</Button>
        {beforeStep(step) !== null && (
          <Button kind="quiet" name="more" value="back">
            {asking.back}
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
  return <p class="small">{useWords().asking.kept}</p>;
}

interface CheckProps {
  studio: Studio;
  spoken: Spoken;
  formToken: string;
  /** The address of the draft; its steps stand under it. */
  path: string;
  told: Told[];
  notice?: string | undefined;
}

export function CheckPage({ studio, spoken, formToken, path, told, notice }: CheckProps) {
  const { check, steps } = spoken.words.asking;
  const whole = told.every(({ problems }) => problems.length === 0);
  return (
    <Page
      title={check.title}
      {...frameOf(studio, spoken)}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      unlisted
    >
      <p class="lead">{whole ? check.whole : check.missing}</p>
      {told.map(({ step, facts, problems }) => (
        <section key={step} class="card">
          <h2>{steps[step]}</h2>
          {problems.map(({ field, message }) => (
            <FieldError key={field} id={`wrong-${step}-${field.replace(/\W/g, '-')}`} message={message} />
          ))}
          <Facts items={facts} />
          <p class="alone">
            <a href={`${path}/${step}?to=check`}>
              {check.change}
              <span class="unseen">{`${check.changeOf}${steps[step]}`}</span>
            </a>
          </p>
        </section>
      ))}
      {whole && (
        <Form action={`${path}/send`} csrf={formToken}>
          <Button>{check.send}</Button>
        </Form>
      )}
      <KeptHere />
    </Page>
  );
}
