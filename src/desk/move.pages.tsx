// Moving days: which days and why, what that means for each person there with a new place proposed, how it went.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { type Option, RadioGroup } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { Notice, Tag } from '../platform/html/kit/notices.js';
import type { FieldProblem } from '../platform/problems.js';
import type { MoveProposal } from '../sittings/move-proposals.service.js';
import { REASONS, type Reason } from '../sittings/moving.schemas.js';
import type { Moved, NotMoved } from '../sittings/moving.service.js';
import type { CalledOff, TeachingToCallOff } from '../teaching/moving-days.service.js';
import { DeskPage } from './frame.pages.js';
import { CalledOffDays, TeachingToMove } from './teaching/move.pages.js';
import { TELLING } from './waiting.pages.js';
import type { ToMove } from './inbox.calc.js';
import { MOVE_WORDS, nameToMove } from './inbox.pages.js';
import { holdStillInShort } from './words.calc.js';

const REASON_LABELS: Record<Reason, string> = {
  illness: 'Illness',
  storm: 'A storm',
  chemistry: 'The chemistry is off',
  other: 'Something else',
};

interface MovePageProps {
  visit: StaffVisit;
  values: Record<string, unknown>;
  errors?: FieldProblem[];
  /** Sittings and open offers that cannot be as they stand; told with the empty form. */
  toMove?: ToMove[];
}

/** The form: nothing happens by it, it leads to what would. */
export function MovePage({ visit, values, errors = [], toMove = [] }: MovePageProps) {
  return (
    <DeskPage visit={visit} title="Move days" at="" errors={errors}>
      <p class="lead">
        When a day cannot be held. You first see who is there, with a new place proposed for each. Nobody is
        told before you confirm.
      </p>
      <ToBeMoved visit={visit} toMove={toMove} />
      <Form action={movePath(visit, '/preview')} csrf={visit.formToken} values={values} errors={errors}>
        <DateField name="from" label="First day" />
        <DateField name="until" label="Last day" hint="Leave empty for one day." optional />
        <RadioGroup
          name="reason"
          label="Why?"
          options={REASONS.map((value) => ({ value, label: REASON_LABELS[value] }))}
        />
        <TextArea
          name="words"
          label="What shall we tell them?"
          hint="Goes into each letter as you write it. Empty: a plain sentence for the reason."
          optional
        />
        <Button>Show who is there</Button>
      </Form>
      <p class="small">
        To keep these days from being asked for, close the room as well:{' '}
        <a href={`/s/${visit.studio.slug}/desk/settings/closures`}>closures</a>.
      </p>
    </DeskPage>
  );
}

/** They keep their place until somebody agrees on another. */
function ToBeMoved({ visit, toMove }: { visit: StaffVisit; toMove: ToMove[] }) {
  if (toMove.length === 0) return null;
  return (
    <>
      <h2>To be moved</h2>
      <p>These cannot be as they stand, and nobody has been told anything.</p>
      <ul class="lines">
        {toMove.map(({ view, reason }) =>
          view.place ? (
            <li key={view.sitting.id}>
              <a href={`${movePath(visit)}?from=${view.place.wallStart.toPlainDate()}`}>
                {startInWords(view.place.wallStart)}: {nameToMove(view)}
              </a>
              <p class="small">{MOVE_WORDS[reason]}</p>
            </li>
          ) : null,
        )}
      </ul>
      <h2>Which days?</h2>
    </>
  );
}

interface PreviewProps {
  visit: StaffVisit;
  days: { from: Temporal.PlainDate; until: Temporal.PlainDate };
  proposals: MoveProposal[];
  teaching: TeachingToCallOff[];
  /** What was sent, to be sent again with the choices. */
  fields: Record<string, string>;
  errors: FieldProblem[];
  values: Record<string, unknown>;
}

export function MovePreviewPage({ visit, days, proposals, teaching, fields, errors, values }: PreviewProps) {
  const now = proposals.filter((one) => one.telephoneNow).length;
  const hidden = Object.entries(fields).map(([name, value]) => (
    <input key={name} type="hidden" name={name} value={value} />
  ));
  return (
    <DeskPage visit={visit} title="Move days" at="" errors={errors} distances>
      <p>
        {daysInWords(days)}: {counted(proposals.length, 'sitting')}
        {teaching.length > 0 && ` and ${counted(teaching.length, 'teaching day')}`}
        {now > 0 && `, ${now} of them to be telephoned now`}. Nobody is told before you confirm.
      </p>
      {proposals.length + teaching.length === 0 ? (
        <p class="empty">Nobody has a place on these days.</p>
      ) : (
        <Form action={movePath(visit, '/confirm')} csrf={visit.formToken} values={values} errors={errors}>
          {hidden}
          {proposals.map((one) => (
            <Person key={one.view.sitting.id} proposal={one} chosen={values} errors={errors} />
          ))}
          <TeachingToMove visit={visit} days={teaching} chosen={values} />
          <Button>Do this, and tell them</Button>
        </Form>
      )}
      <Form action={movePath(visit, '/again')} csrf={visit.formToken} label="Back">
        {hidden}
        <Button kind="quiet">Back to the days</Button>
      </Form>
      {proposals.length > 0 && (
        <p class="small">
          New places are chosen for all at once, the most pressing first: near the old day, among the days
          they asked for where that can be, within the light they can hold still for, and with all that is
          needed from the shelf.
        </p>
      )}
    </DeskPage>
  );
}

interface PersonProps {
  proposal: MoveProposal;
  chosen: Record<string, unknown>;
  errors: FieldProblem[];
}

function Person({ proposal, chosen, errors }: PersonProps) {
  const { view, from, to } = proposal;
  const id = view.sitting.id;
  const name = `do-${id}`;
  const offered = view.sitting.state === 'offered';
  const usual = to && !offered ? `to ${minute(to.slot.wallStart)}` : 'again';
  const sent = chosen[name];
  return (
    <Card title={view.contact.name}>
      <p>
        {from && startInWords(from)}
        {proposal.telephoneNow && (
          <>
            {' '}
            <Tag tone="warn">{`telephone now: ${view.contact.telephone || view.contact.email || 'by letter only'}`}</Tag>
          </>
        )}
      </p>
      <p class="small">
        {URGENCY_WORDS[proposal.urgency]}
        {view.journey && `, about ${view.journey.km} km`}
        {proposal.why && `; ${WHY_WORDS[proposal.why] ?? proposal.why}`}
      </p>
      <input type="hidden" name={`from-${id}`} value={from ? minute(from) : ''} />
      <RadioGroup
        name={name}
        label={`What is done for ${view.contact.name}?`}
        value={typeof sent === 'string' ? sent : usual}
        options={offered ? OFFERED : options(to)}
      />
      {!offered && (
        <details open={sent === 'other' || errors.some(({ field }) => field.endsWith(id)) || undefined}>
          <summary>Type another start</summary>
          <DateField name={`other-${id}`} label={`Day for ${view.contact.name}`} optional />
          <TextField
            name={`time-${id}`}
            label={`Time for ${view.contact.name}`}
            hint="As 11:15, time at the studio. It is looked at like any other start."
            width="short"
            optional
          />
        </details>
      )}
    </Card>
  );
}

const OFFERED: Option[] = [
  { value: 'again', label: 'Call the offer back: they keep their turn on the list' },
  { value: 'leave', label: 'Leave it as it is' },
];

function options(to: MoveProposal['to']): Option[] {
  const move = to
    ? [
        {
          value: `to ${minute(to.slot.wallStart)}`,
          label: `Move to ${startInWords(to.slot.wallStart)}`,
          hint: [
            to.askedFor
              ? 'among the days they asked for'
              : 'not among the days they asked for: ask them first',
            to.slot.holdStill && holdStillInShort(to.slot.holdStill),
            to.onShelf === 'enough' ? 'all on the shelf' : 'the shelf can be made ready',
          ]
            .filter(Boolean)
            .join('; '),
        },
      ]
    : [];
  return [
    ...move,
    { value: 'other', label: 'Move to another start, typed below' },
    { value: 'again', label: 'Call it off: they wait first on the list' },
    { value: 'end', label: 'Call it off for good' },
    { value: 'leave', label: 'Leave it as it is' },
  ];
}

interface MovedPageProps {
  visit: StaffVisit;
  calledOff: CalledOff[];
  outcomes: ((Moved | NotMoved) & { name: string })[];
}

/** How it went for each; what could not be done is told with the reason. */
export function MovedPage({ visit, outcomes, calledOff }: MovedPageProps) {
  const all = outcomes.length + calledOff.length;
  const failed = [...outcomes, ...calledOff].filter((one) => 'problem' in one && one.problem !== null).length;
  return (
    <DeskPage visit={visit} title="Move days" at="">
      <Notice tone={failed === 0 ? 'good' : 'warn'}>
        {all === 0 ? 'Everything stays as it was.' : `Done for ${all - failed} of ${all}. ${TELLING}`}
      </Notice>
      <ul>
        {outcomes.map((one) => (
          <li key={one.sittingId}>
            <a href={`/s/${visit.studio.slug}/desk/requests/${one.sittingId}`}>{one.name}</a>:{' '}
            {'problem' in one ? one.problem : doneInWords(one.done)}
          </li>
        ))}
      </ul>
      <CalledOffDays visit={visit} outcomes={calledOff} />
      <p class="alone">
        <a href={`/s/${visit.studio.slug}/desk`}>Back to the desk</a>
      </p>
    </DeskPage>
  );
}

function doneInWords(done: Moved['done']): string {
  if (typeof done !== 'string') return `moved to ${startInWords(done.to)}`;
  if (done === 'called back') return 'the offer is called back, and they keep their turn on the list';
  return done === 'called off' ? 'called off, first on the list' : done;
}

const URGENCY_WORDS: Record<MoveProposal['urgency'], string> = {
  'on the way': 'may be on the way already',
  'within their notice': 'a letter may come too late',
  'in time': 'can be told in time',
};

const WHY_WORDS: Partial<Record<string, string>> = {
  'no open place': 'no other place is open',
  'notice too long': 'every open place comes too soon for them',
  'cannot be had': 'the shelf cannot be made ready for another day',
  'said no': 'they have said no to what is open',
  'hold still too long': 'elsewhere they would have to hold still too long',
  others: 'what is open goes to those who are more pressing',
};

const minute = (start: Temporal.PlainDateTime) => start.toString({ smallestUnit: 'minute' });
const startInWords = (start: Temporal.PlainDateTime) =>
  `${dayInWords(start.toPlainDate())}, ${timeInWords(start)}`;

function daysInWords({ from, until }: PreviewProps['days']): string {
  return from.equals(until) ? dayInWords(from) : `${dayInWords(from)} to ${dayInWords(until)}`;
}

const movePath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/move${rest}`;
