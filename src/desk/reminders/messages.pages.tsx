// All that goes to one person: what went, what is to come and when on their clock, and what does not go and why.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Form } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { DropReason } from '../../reminders/reminder-plan.calc.js';
import type { Messages } from '../../reminders/reminding.service.js';
import { DeskPage } from '../frame.pages.js';
import { LETTER_WORDS, momentInWords } from '../words.calc.js';

/** Why a reminder does not go. */
const WHY: Record<DropReason, string> = {
  'past already': 'its day was past when they got the place',
  'told with the yes': 'the yes has just told them',
  'with another': 'another tells it at nearly the same time',
  'four at most': 'four messages are enough',
  'on their way': 'they have left home by then',
  'too late': 'it would have come too late',
  moved: 'the place was moved',
  'given up': 'the place is given up',
  'not by the rules now': 'the rules have changed',
};

interface MessagesProps {
  visit: StaffVisit;
  found: Messages;
  day: Temporal.PlainDate | null;
  values: Record<string, unknown>;
  errors?: FieldProblem[] | undefined;
}

export function MessagesPage({ visit, found, day, values, errors = [] }: MessagesProps) {
  const { view, reminders, letters, would } = found;
  const base = `/s/${visit.studio.slug}/desk/requests/${view.sitting.id}`;
  const zone = view.contact.home?.zone ?? visit.studio.zone;
  const to = letters.filter((one) => !one.kind.startsWith('owner:'));
  return (
    <DeskPage visit={visit} title={`Messages to ${view.contact.name}`} at="/mail" errors={errors} wide>
      <p class="actions">
        <a href={base}>The request</a>
        <a href={`/s/${visit.studio.slug}/desk/mail/reminders`}>The rules of reminders</a>
      </p>
      <Table
        caption="Written to them so far"
        columns={['About', 'Written', 'State'].map((head) => ({ head }))}
        rows={to.map((mail) => [
          <a key="about" href={`/s/${visit.studio.slug}/desk/mail/${mail.mail_id}`}>
            {LETTER_WORDS[mail.kind]}
          </a>,
          momentInWords(visit.studio.zone, mail.created_at),
          mail.told_at ? `told by ${mail.told_by}` : mail.by_hand === '' ? mail.state : `by ${mail.by_hand}`,
        ])}
        empty="Nothing yet."
      />
      {reminders.length > 0 && (
        <Table
          caption={`Reminders, on the clock of ${zone}`}
          columns={['About', 'When', 'State'].map((head) => ({ head }))}
          rows={reminders.map((one) => [
            LETTER_WORDS[`reminder: ${one.kind}`],
            momentInWords(zone, one.due_at),
            one.state === 'dropped'
              ? `not sent: ${WHY[one.reason as DropReason]}`
              : one.state === 'planned'
                ? 'to come'
                : 'written',
          ])}
        />
      )}
      {view.sitting.state !== 'confirmed' && (
        <>
          <h2>If they got a place</h2>
          <Form action={`${base}/messages`} method="get" values={values} errors={errors}>
            <DateField name="day" label="On this day" />
            <Button>Show what they would be sent</Button>
          </Form>
          {would && day && (
            <Table
              caption={`For a place on ${dayInWords(day)}, given today, on the clock of ${zone}`}
              columns={['About', 'When'].map((head) => ({ head }))}
              rows={would.map(({ kind, at, skip }) => [
                LETTER_WORDS[`reminder: ${kind}`],
                skip ? `not sent: ${WHY[skip]}` : momentInWords(zone, at),
              ])}
              empty="No reminder: the day is past."
            />
          )}
        </>
      )}
    </DeskPage>
  );
}
