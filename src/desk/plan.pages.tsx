// Planning the waiting list: what matters, the proposal day by day with light, shelf and journeys, who is left out and
// why, and what became of each when it was confirmed.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import { FieldError, fieldId } from '../platform/html/kit/errors.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Form } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import { GIVES, type Plan } from '../sittings/plans.schemas.js';
import { DEFAULT_WEIGHTS, MATTERS, TOGETHER, WEIGHED } from '../waiting/planner-points.calc.js';
import { DeskPage, type Notice } from './frame.pages.js';
import {
  GIVES_WORDS,
  MATTERS_WORDS,
  qualityInWords,
  TOGETHER_WORDS,
  WEIGHED_WORDS,
} from './plan-words.calc.js';
import { momentInWords } from './words.calc.js';
import {
  type PlanProps,
  type Entry,
  About,
  Outcomes,
  Reckoning,
  Person,
  why,
  byDay,
  hours,
  sentence,
  planPath,
} from './plan-parts.pages.js';

const STATE_WORDS: Record<Plan['state'], string> = {
  proposed: 'to be decided',
  confirmed: 'confirmed',
  dropped: 'put away',
};

interface StartProps {
  visit: StaffVisit;
  plans: Plan[];
  waiting: number;
  values?: FormValues | undefined;
  errors?: FieldProblem[] | undefined;
  notice?: Notice | undefined;
}

export function PlanStartPage({ visit, plans, waiting, values, errors = [], notice }: StartProps) {
  const before: FormValues = values ?? { ...(plans[0]?.weights ?? DEFAULT_WEIGHTS) };
  const title = 'Plan the waiting list';
  return (
    <DeskPage visit={visit} title={title} at="/waiting" errors={errors} notice={notice}>
      <p>
        {counted(waiting, 'person waits', 'people wait')}. Say what matters, and a plan is proposed for all
        your open places. Nothing is given and nobody is told before you confirm it.
      </p>
      <Form action={planPath(visit)} csrf={visit.formToken} values={before} errors={errors}>
        {WEIGHED.map((part) => (
          <RadioGroup
            key={part}
            name={part}
            label={WEIGHED_WORDS[part].label}
            hint={WEIGHED_WORDS[part].hint}
            options={MATTERS.map((value) => ({ value, label: sentence(MATTERS_WORDS[value]) }))}
          />
        ))}
        <RadioGroup
          name="together"
          label="People who travel together"
          hint="Requests of one contact."
          options={TOGETHER.map((value) => ({ value, label: sentence(TOGETHER_WORDS[value]) }))}
        />
        <Button>Propose a plan</Button>
      </Form>
      {plans.length > 0 && (
        <>
          <h2 id="plans">Plans so far</h2>
          <ul>
            {plans.map((one) => (
              <li key={one.id}>
                <a href={planPath(visit, `/${one.id}`)}>{momentInWords(visit.studio.zone, one.madeAt)}</a> by{' '}
                {one.who}, {STATE_WORDS[one.state]}
              </li>
            ))}
          </ul>
        </>
      )}
    </DeskPage>
  );
}

export function PlanPage(props: PlanProps) {
  const { visit, whole, errors = [], notice } = props;
  const { plan, entries } = whole;
  const placed = entries.filter((one) => one.wallStart !== null);
  const left = entries.filter((one) => one.leftOut !== null);
  const open = plan.state === 'proposed';
  return (
    <DeskPage visit={visit} title="A plan" at="/waiting" errors={errors} notice={notice} distances>
      <p class="actions">
        <a href={planPath(visit)}>{open ? 'Change what matters' : 'Make a new plan'}</a>
      </p>
      <p>
        {momentInWords(visit.studio.zone, plan.madeAt)}, {STATE_WORDS[plan.state]}. A place for{' '}
        {placed.length} of {counted(entries.length, 'person', 'people')}. {qualityInWords(plan)}
      </p>
      {open && placed.length > 0 && <Proposal {...props} placed={placed} />}
      {plan.state === 'confirmed' && <Outcomes {...props} placed={placed} />}
      {plan.state === 'dropped' && <Days {...props} placed={placed} />}
      {left.length > 0 && (
        <>
          <h2 id="left-out">Left out</h2>
          <ul>
            {left.map((one) => (
              <li key={one.sittingId}>
                {one.position}. <Person visit={visit} entry={one} />: {why(props.whole, one)}
              </li>
            ))}
          </ul>
        </>
      )}
      <Reckoning visit={visit} plan={plan} placed={placed} />
      {open && (
        <Form action={planPath(visit, `/${plan.id}/drop`)} csrf={visit.formToken} label="Put this plan away">
          <Button kind="quiet">Put this plan away</Button>
        </Form>
      )}
    </DeskPage>
  );
}

function Proposal(props: PlanProps & { placed: Entry[] }) {
  const { visit, whole, values, errors = [] } = props;
  return (
    <Form
      action={planPath(visit, `/${whole.plan.id}/confirm`)}
      csrf={visit.formToken}
      values={values ?? {}}
      errors={errors}
      label="The proposal"
    >
      <p class="small">Take the tick from whoever is not to be planned now.</p>
      <Days {...props} ticks />
      <RadioGroup
        name="gives"
        label="When you confirm"
        value={typeof values?.gives === 'string' ? values.gives : 'offer'}
        options={GIVES.map((value) => ({ value, ...GIVES_WORDS[value] }))}
      />
      <Button>Confirm this plan</Button>
    </Form>
  );
}

/** The places day by day; with ticks, each can be taken out. */
function Days(props: PlanProps & { placed: Entry[]; ticks?: boolean }) {
  const { visit, placed, ticks = false, values, errors = [] } = props;
  const kept = values === undefined ? null : [values.people].flat().map(String);
  const problem = errors.find((one) => one.field === 'people')?.message;
  const field = fieldId('people');
  const days = byDay(placed);
  const first = days[0]?.[1][0]?.sittingId;
  return (
    <>
      <FieldError id={`${field}-error`} message={problem} />
      {days.map(([day, there]) => (
        <section key={day}>
          <h2>{dayInWords(Temporal.PlainDate.from(day))}</h2>
          {there.map((one) => {
            if (!ticks)
              return (
                <div key={one.sittingId}>
                  <h3>
                    {hours(one)} <Person visit={visit} entry={one} />
                  </h3>
                  <p class="small">
                    <About entry={one} />
                  </p>
                </div>
              );
            const id = one.sittingId === first ? field : `${field}-${one.sittingId}`;
            return (
              <div class="choice" key={one.sittingId}>
                <input
                  id={id}
                  type="checkbox"
                  name="people"
                  value={one.sittingId}
                  checked={kept === null ? one.ticked : kept.includes(one.sittingId)}
                  aria-invalid={problem === undefined ? undefined : 'true'}
                  aria-describedby={`${id}-about${problem === undefined ? '' : ` ${field}-error`}`}
                />
                <label for={id}>
                  {hours(one)} {one.view.contact.name}
                </label>
                <p class="hint" id={`${id}-about`}>
                  <About entry={one} />
                </p>
              </div>
            );
          })}
        </section>
      ))}
    </>
  );
}
