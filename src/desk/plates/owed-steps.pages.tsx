// The owner's steps: what is owed after a day, by when, otherwise for a kind of sitting, and with which of them the
// plates have left the studio.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextField } from '../../platform/html/kit/form.js';
import type { Step } from '../../plates/owed.schemas.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Kind } from '../../room/rules.schemas.js';
import type { Notice } from '../frame.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface StepsProps {
  visit: StaffVisit;
  steps: Step[];
  kinds: Kind[];
  /** Which form is open: 'new', a step's id, or ''. */
  form: string;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const STEPS = '/owed/steps';

export function StepsPage(props: StepsProps) {
  const { visit, steps, kinds, form, notice, sent } = props;
  return (
    <PlatesFrame
      visit={visit}
      title="What is owed, and when"
      at={STEPS}
      notice={notice}
      errors={sent?.errors}
    >
      <p>
        Each of these is owed for the plates of a sitting that was made, until the plates have left. The days
        count from the day of the sitting.
      </p>
      {steps.map((step) => (
        <Card key={step.id} title={step.what}>
          <Facts items={factsOf(step, kinds)} />
          {form === step.id ? (
            <>
              <StepForm {...props} step={step} />
              <Form
                action={deskPath(visit, `${STEPS}/${step.id}/remove`)}
                csrf={visit.formToken}
                label={`Put away: ${step.what}`}
              >
                <Button kind="danger">Put this away</Button>
              </Form>
            </>
          ) : (
            <p class="alone">
              <a href={`${deskPath(visit, STEPS)}?form=${step.id}#form`}>
                Change this<span class="unseen">: {step.what}</span>
              </a>
            </p>
          )}
        </Card>
      ))}
      {form === 'new' ? (
        <Card title="One more thing that is owed">
          <StepForm {...props} step={null} />
        </Card>
      ) : (
        <p class="alone">
          <a href={`${deskPath(visit, STEPS)}?form=new#form`}>One more thing that is owed</a>
        </p>
      )}
    </PlatesFrame>
  );
}

const daysInWords = (days: number | null) =>
  days === null ? 'not owed' : days === 0 ? 'on the day itself' : `${counted(days, 'day')} after the day`;

function factsOf(step: Step, kinds: Kind[]) {
  const own = kinds.flatMap(({ id, name }) => {
    const days = step.byKind.get(id);
    return days === undefined ? [] : [{ term: name, detail: daysInWords(days) }];
  });
  return [
    { term: 'By', detail: daysInWords(step.days) },
    ...own,
    ...(step.leaves ? [{ term: 'With it', detail: 'the plates have left the studio' }] : []),
  ];
}

function StepForm({ visit, kinds, step, sent }: StepsProps & { step: Step | null }) {
  return (
    <div id="form">
      <Form
        action={deskPath(visit, `${STEPS}/${step?.id ?? 'new'}`)}
        csrf={visit.formToken}
        label={step ? `Change: ${step.what}` : 'One more thing that is owed'}
        values={sent?.values ?? (step ? answersOf(step) : {})}
        shown={step ? answersOf(step) : undefined}
        errors={sent?.errors ?? []}
      >
        <TextField name="what" label="What is to be done" />
        <NumberField
          name="days"
          label="So many days after the day"
          hint="0: on the day itself."
          unit="days"
        />
        <CheckboxGroup
          name="leaves"
          label="With it"
          options={[{ value: 'yes', label: 'The plates have left the studio; nothing more is owed' }]}
          optional
        />
        {kinds.length > 0 && (
          <>
            <CheckboxGroup
              name="notFor"
              label="Not owed for"
              options={kinds.map((kind) => ({ value: kind.id, label: kind.name }))}
              optional
            />
            {kinds.map((kind) => (
              <NumberField
                key={kind.id}
                name={`days-${kind.id}`}
                label={`Other days for: ${kind.name}`}
                unit="days"
                optional
              />
            ))}
          </>
        )}
        <Button>{step ? 'Change this' : 'Add this'}</Button>
      </Form>
    </div>
  );
}

export const answersOf = (step: Step) => ({
  what: step.what,
  days: step.days,
  leaves: step.leaves ? 'yes' : '',
  notFor: [...step.byKind].flatMap(([id, days]) => (days === null ? [id] : [])),
  ...Object.fromEntries([...step.byKind].map(([id, days]) => [`days-${id}`, days ?? ''])),
});
