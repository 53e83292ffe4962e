// What a plan proposes and what became of it, told by person; how its points were reckoned.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import { Table } from '../platform/html/kit/table.js';
import type { FieldProblem } from '../platform/problems.js';
import { GIVEN, type Plan } from '../sittings/plans.schemas.js';
import type { WholePlan } from '../sittings/plans.service.js';
import { openingPoints, sumOf, TOGETHER_POINTS, WEIGHED } from '../waiting/planner-points.calc.js';
import { type Notice } from './frame.pages.js';
import {
  GIVES_WORDS,
  leftOutInWords,
  MATTERS_WORDS,
  partInWords,
  TOGETHER_WORDS,
  WEIGHED_WORDS,
} from './plan-words.calc.js';
import { holdStillInShort, journeyInShort, platesInWords, shortDay } from './words.calc.js';

export interface PlanProps {
  visit: StaffVisit;
  whole: WholePlan;
  values?: FormValues | undefined;
  errors?: FieldProblem[] | undefined;
  notice?: Notice | undefined;
}

export type Entry = WholePlan['entries'][number];

/** Light, shelf and journey of one place. */
export function About({ entry: { view, place, position } }: { entry: Entry }) {
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

export function Outcomes(props: PlanProps & { placed: Entry[] }) {
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

export function Reckoning({ visit, plan, placed }: { visit: StaffVisit; plan: Plan; placed: Entry[] }) {
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

export function Person({ visit, entry }: { visit: StaffVisit; entry: Entry }) {
  return <a href={requestPath(visit, entry.sittingId)}>{entry.view.contact.name}</a>;
}

export function why({ entries, items }: WholePlan, { leftOut }: Entry): string {
  if (!leftOut) return '';
  const names = new Map(entries.map((one) => [one.sittingId, one.view.contact.name]));
  return leftOutInWords(leftOut, {
    nameOf: (id) => names.get(id) ?? '',
    dayOf: (day) => shortDay(Temporal.PlainDate.from(day)),
    itemOf: (id) => items.get(id) ?? 'stock',
  });
}

export function byDay(placed: Entry[]): [string, Entry[]][] {
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

export function hours({ wallStart, place }: Entry): string {
  if (!wallStart || !place) return '';
  return `${timeInWords(wallStart)} to ${timeInWords(Temporal.PlainDateTime.from(place.wallEnd))}`;
}

export const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export const planPath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/plan${rest}`;

const requestPath = ({ studio }: StaffVisit, id: string) => `/s/${studio.slug}/desk/requests/${id}`;
