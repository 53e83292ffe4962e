// The waiting list's part of the page about one request: putting it on the list, what is offered, marks with reasons.
import type { StaffVisit } from '../accounts/visits.service.js';
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Form, NumberField, TextArea } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Sitting } from '../sittings/sittings.schemas.js';
import { next } from '../sittings/states.calc.js';
import type { WholeRequest } from './desk.service.js';
import { DayIsShut } from './inbox.pages.js';
import { waitingPath } from './waiting.pages.js';
import { momentInWords } from './words.calc.js';

interface OnTheListProps {
  visit: StaffVisit;
  found: WholeRequest;
  values: FormValues;
  errors: FieldProblem[];
}

export function OnTheList(props: OnTheListProps) {
  const { visit, found } = props;
  const { view, offer, shut, now } = found;
  const { sitting } = view;
  const act = (name: string) => waitingPath(visit, `/${sitting.id}/${name}?from=request`);
  const { formToken } = visit;
  const open = offer !== null && offer.expiresAt.epochMilliseconds > now.epochMilliseconds;
  return (
    <>
      {offer && (
        <Card title="The offer">
          <p>
            {open ? 'Open until' : 'Ran out on'} {momentInWords(visit.studio.zone, offer.expiresAt)}. Made by{' '}
            {offer.who}.
            {offer.byTelephone &&
              open &&
              ` Please telephone: ${view.contact.telephone || 'no number is known'}.`}
          </p>
          {open && shut && <DayIsShut visit={visit} view={view} reason={shut} />}
          {open && (
            <div class="actions">
              <Form action={act('accepted')} csrf={formToken} label="They said yes">
                <Button kind="quiet">They said yes</Button>
              </Form>
              <Form action={act('refused')} csrf={formToken} label="They said no">
                <Button kind="quiet">They said no</Button>
              </Form>
            </div>
          )}
        </Card>
      )}
      {sitting.state === 'confirmed' &&
        view.place &&
        view.place.startsAt.epochMilliseconds > now.epochMilliseconds && (
          <details>
            <summary>This day does not suit them after all?</summary>
            <Form action={act('another-day')} csrf={formToken} label="Another day">
              <p>The place is free then, and they wait for another with the date on which they asked.</p>
              <Button kind="quiet">They ask for another day</Button>
            </Form>
            <Form
              action={`/s/${visit.studio.slug}/desk/requests/${sitting.id}/give-back`}
              csrf={formToken}
              label="Give back"
            >
              <p>Or they do not come at all: the place is free then, and they wait for no other.</p>
              <Button kind="danger">They give it back</Button>
            </Form>
          </details>
        )}
      {next(sitting.state, 'wait') && (
        <Form action={act('list')} csrf={formToken} label="Waiting list">
          <p>No day for them now? On the waiting list they keep the date on which they asked.</p>
          <Button kind="quiet">Put on the waiting list</Button>
        </Form>
      )}
      {next(sitting.state, 'reopen') && (
        <Form action={act('reopen')} csrf={formToken} label="Put back">
          <Button kind="quiet">Put back on the list</Button>
        </Form>
      )}
      {['requested', 'waiting', 'offered', 'lapsed'].includes(sitting.state) && <Marks {...props} />}
    </>
  );
}

/** The marks as the form holds them. */
export const markAnswers = ({ priority, hardship, noticeDays }: Sitting['marks']) => ({
  priority,
  hardship,
  noticeDays: noticeDays === null ? '' : String(noticeDays),
});

function Marks({ visit, found: { view }, values, errors }: OnTheListProps) {
  const kept = markAnswers(view.sitting.marks);
  const wrong = errors.some(({ field }) => field in kept);
  return (
    <details open={wrong || undefined}>
      <summary>Marks for the waiting list</summary>
      <Form
        action={waitingPath(visit, `/${view.sitting.id}/mark`)}
        csrf={visit.formToken}
        shown={kept}
        values={wrong ? values : kept}
        errors={errors}
        label="Marks for the waiting list"
      >
        <TextArea
          name="priority"
          label="Comes before others, because"
          hint="Your reason stands in the list and in the record. Empty: no mark."
          rows={2}
          optional
        />
        <TextArea name="hardship" label="Hardship, because" hint="No details of health." rows={2} optional />
        <NumberField
          name="noticeDays"
          label="They said they need so much notice"
          hint="Empty: by how far they come."
          unit="days"
          optional
        />
        <Button kind="quiet">Save the marks</Button>
      </Form>
    </details>
  );
}
