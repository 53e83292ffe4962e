// When the owner's letter about the day ahead goes, and how it would read now.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { dayLetterIn, isNews } from '../../reminders/day-letter.calc.js';
import { type DayLetter, type DayLetterRule, EVENING, HOURS } from '../../reminders/day-letter.schemas.js';
import { DeskPage, type Notice } from '../frame.pages.js';

interface DayLetterProps {
  visit: StaffVisit;
  rule: DayLetterRule;
  told: DayLetter;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export const answersOf = ({ hour, on }: DayLetterRule) => ({ hour: String(hour), off: on ? '' : 'yes' });

export function DayLetterPage({ visit, rule, told, notice, sent }: DayLetterProps) {
  const desk = `/s/${visit.studio.slug}/desk`;
  const letter = dayLetterIn(told, desk);
  return (
    <DeskPage visit={visit} title="Your letter of the day" at="/mail" notice={notice} errors={sent?.errors}>
      <p>
        One letter a day at most, to {visit.studio.email}, and only when there is something: who comes, what
        is to be mixed, ordered or cared for, offers that run out, and whom to telephone. It never comes late:
        one that could not go in time is left out.
      </p>
      <Form
        action={`${desk}/mail/day-letter`}
        csrf={visit.formToken}
        label="Your letter of the day"
        values={sent?.values ?? answersOf(rule)}
        shown={answersOf(rule)}
        errors={sent?.errors ?? []}
      >
        <NumberField
          name="hour"
          label="At this hour of the studio’s clock"
          hint={`${HOURS.from} to ${HOURS.until}. From ${EVENING} on it tells of tomorrow.`}
          unit="o’clock"
        />
        <CheckboxGroup
          name="off"
          label="For now"
          options={[{ value: 'yes', label: 'Switched off' }]}
          optional
        />
        <Button>Save</Button>
      </Form>
      <h2>How it would read now</h2>
      {isNews(told) ? (
        <div class="card">
          <p>
            <strong>{letter.subject}</strong>
          </p>
          {letter.paragraphs.map((words) => (
            <p key={words}>{words}</p>
          ))}
          <Facts items={letter.facts} />
        </div>
      ) : (
        <p class="empty">There is nothing that cannot wait, so none would go.</p>
      )}
    </DeskPage>
  );
}
