// Planning the waiting list: what matters, the proposal day by day with light, shelf and journeys, who is left out and
// why, and what became of each when it was confirmed.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import { FieldError, fieldId } from '../platform/html/kit/errors.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import { Table } from '../platform/html/kit/table.js';
import type { FieldProblem } from '../platform/problems.js';
import { GIVEN, GIVES, type Plan } from '../sittings/plans.schemas.js';
import type { WholePlan } from '../sittings/plans.service.js';
import {
  DEFAULT_WEIGHTS,
  MATTERS,
  openingPoints,
  sumOf,
  TOGETHER,
  TOGETHER_POINTS,
  WEIGHED,
} from '../waiting/planner-points.calc.js';
import { DeskPage, type Notice } from './frame.pages.js';
import {
  GIVES_WORDS,
  leftOutInWords,
  MATTERS_WORDS,
  partInWords,
  qualityInWords,
  TOGETHER_WORDS,
  WEIGHED_WORDS,
} from './plan-words.calc.js';
import { holdStillInShort, journeyInShort, momentInWords, platesInWords, shortDay } from './words.calc.js';

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

interface PlanProps {
  visit: StaffVisit;
  whole: WholePlan;
  values?: FormValues | undefined;
  errors?: FieldProblem[] | undefined;
  notice?: Notice | undefined;
}
type Entry = WholePlan['entries'][number];

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

/** Light, shelf and journey of one place. */
function About({ entry: { view, place, position } }: { entry: Entry }) {
  if (!place) return null;
  return (
    <>
      number {position} · {platesInWords(view)} · {holdStillInShort(place)}, they can{' '}
      {Math.round(place.limit)}
      {'\u00a0'}s
      {Math.round(place.clear.to) > place.limit && (
        <>
          {' '}
          <Tag tone="warn">longer than they can</Tag>
        </>
      )}{' '}
      · {place.onShelf === 'enough' ? 'all on the shelf' : 'what is missing can still be mixed or ordered'} ·{' '}
      {journeyInShort(view.journey)}
    </>
  );
}

function Outcomes(props: PlanProps & { placed: Entry[] }) {
  const { visit, whole, placed } = props;
  const { plan } = whole;
  const ticked = byDay(placed)
    .flatMap(([, there]) => there)
    .filter((one) => one.ticked);
  const given = ticked.filter((one) => one.outcome === GIVEN);
  const failed = ticked.filter((one) => one.outcome !== GIVEN && one.outcome !== '');
  const waiting = ticked.filter((one) => one.outcome === '');
  const done = plan.gives === null ? '' : GIVES_WORDS[plan.gives].done;
  const line = (one: Entry, more: string) => (
    <li key={one.sittingId}>
      {one.wallStart && `${dayInWords(one.wallStart)}, ${timeInWords(one.wallStart)}: `}
      <Person visit={visit} entry={one} />
      {more}
    </li>
  );
  return (
    <>
      {failed.length > 0 && (
        <>
          <h2 id="not-given">Could not be {done}</h2>
          <ul>{failed.map((one) => line(one, `. ${one.outcome}`))}</ul>
        </>
      )}
      {waiting.length > 0 && (
        <>
          <h2 id="not-reached">Not reached yet</h2>
          <ul>{waiting.map((one) => line(one, ''))}</ul>
          <Form
            action={planPath(visit, `/${plan.id}/confirm`)}
            csrf={visit.formToken}
            label="Go on with the plan"
          >
            <input type="hidden" name="gives" value={plan.gives ?? 'offer'} />
            {waiting.map((one) => (
              <input key={one.sittingId} type="hidden" name="people" value={one.sittingId} />
            ))}
            <Button>Go on with these</Button>
          </Form>
        </>
      )}
      <h2 id="given">Places {done}</h2>
      {given.length === 0 ? <p class="empty">None.</p> : <ul>{given.map((one) => line(one, ''))}</ul>}
    </>
  );
}

function Reckoning({ visit, plan, placed }: { visit: StaffVisit; plan: Plan; placed: Entry[] }) {
  const opening = openingPoints(plan.weights);
  const costs = [
    opening > 0 ? `Opening a day on which nobody sits yet costs ${opening} points.` : '',
    plan.weights.together === 'rather' ? `A day for all who travel together brings ${TOGETHER_POINTS}.` : '',
  ]
    .join(' ')
    .trim();
  const matters = WEIGHED.map((part) => `${WEIGHED_WORDS[part].label}: ${MATTERS_WORDS[plan.weights[part]]}`);
  return (
    <details>
      <summary>How was this reckoned?</summary>
      <p>
        Each place has points for each person, by what you said matters. Of all plans in which nobody
        overlaps, no day has more sittings or plates than it takes, and nothing is used twice,{' '}
        {plan.points === plan.bound ? 'the one with the most points' : 'the best that was found in the time'}{' '}
        is proposed. This one has {plan.points}; none can have more than {plan.bound}. {costs} The figures are
        our own assumptions.
      </p>
      <p>
        {matters.join('; ')}; people who travel together: {TOGETHER_WORDS[plan.weights.together]}.
      </p>
      <Table
        caption="Points by person"
        columns={[{ head: 'Person' }, { head: 'Points', figures: true }, { head: 'For' }]}
        rows={placed.map((one) => [
          <Person key={one.sittingId} visit={visit} entry={one} />,
          sumOf(one.place?.parts ?? []),
          (one.place?.parts ?? []).map((part) => `${partInWords(part)} ${part.points}`).join(', '),
        ])}
        empty="Nobody has a place."
      />
    </details>
  );
}

function Person({ visit, entry }: { visit: StaffVisit; entry: Entry }) {
  return <a href={requestPath(visit, entry.sittingId)}>{entry.view.contact.name}</a>;
}

function why({ entries, items }: WholePlan, { leftOut }: Entry): string {
  if (!leftOut) return '';
  const names = new Map(entries.map((one) => [one.sittingId, one.view.contact.name]));
  return leftOutInWords(leftOut, {
    nameOf: (id) => names.get(id) ?? '',
    dayOf: (day) => shortDay(Temporal.PlainDate.from(day)),
    itemOf: (id) => items.get(id) ?? 'stock',
  });
}

function byDay(placed: Entry[]): [string, Entry[]][] {
  const days = new Map<string, Entry[]>();
  for (const one of placed) {
    const day = one.wallStart?.toPlainDate().toString() ?? '';
    days.set(day, [...(days.get(day) ?? []), one]);
  }
  const start = ({ wallStart }: Entry) => wallStart?.toString() ?? '';
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([day, there]) => [day, there.sort((a, b) => (start(a) < start(b) ? -1 : 1))]);
}

function hours({ wallStart, place }: Entry): string {
  if (!wallStart || !place) return '';
  return `${timeInWords(wallStart)} to ${timeInWords(Temporal.PlainDateTime.from(place.wallEnd))}`;
}

const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
export const planPath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/plan${rest}`;
const requestPath = ({ studio }: StaffVisit, id: string) => `/s/${studio.slug}/desk/requests/${id}`;
