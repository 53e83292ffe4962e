// The owner's rules of reminders: which go, how long before the day, at what hour and to whom.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { QUIET } from '../../reminders/reminder-plan.calc.js';
import {
  DAYTIME,
  FOR_WHOM,
  type ForWhom,
  REMINDER_KINDS,
  type ReminderRule,
} from '../../reminders/reminder-rules.schemas.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { LETTER_WORDS } from '../words.calc.js';

const WHOM_WORDS: Record<ForWhom, string> = {
  everyone: 'everybody',
  'stays a night': 'those who stay a night',
  flies: 'those who come by air',
  'flies from abroad': 'those who come by air from abroad',
};

interface RemindersProps {
  visit: StaffVisit;
  rules: readonly ReminderRule[];
  /** Which form is open: 'new', a rule's id, or ''. */
  form: string;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export const remindersPath = ({ studio }: StaffVisit, more = '') =>
  `/s/${studio.slug}/desk/mail/reminders${more}`;

export function RemindersPage(props: RemindersProps) {
  const { visit, rules, form, notice, sent } = props;
  return (
    <DeskPage visit={visit} title="Reminders" at="/mail" notice={notice} errors={sent?.errors}>
      <p>
        Whoever has a place is reminded of it before the day. Each hour is on the clock of where they are
        then, never from {QUIET.from}:00 to {QUIET.until}:00. What is past when they get the place is left
        out, two that fall close together go as one, and more than four before the day never go. Who has no
        e-mail stands on your list to telephone, or gets a letter.
      </p>
      {rules.map((rule) => (
        <Card key={rule.id} title={LETTER_WORDS[`reminder: ${rule.kind}`]}>
          <p>{ruleInWords(rule)}</p>
          {form === rule.id ? (
            <>
              <RuleForm {...props} rule={rule} />
              <Form
                action={remindersPath(visit, `/${rule.id}/remove`)}
                csrf={visit.formToken}
                label={`Take away: ${ruleInWords(rule)}`}
              >
                <Button kind="danger">Take this away</Button>
              </Form>
            </>
          ) : (
            <p class="alone">
              <a href={remindersPath(visit, `?form=${rule.id}#form`)}>
                Change this<span class="unseen">: {ruleInWords(rule)}</span>
              </a>
            </p>
          )}
        </Card>
      ))}
      {form === 'new' ? (
        <Card title="One more reminder">
          <RuleForm {...props} rule={null} />
        </Card>
      ) : (
        <p class="alone">
          <a href={remindersPath(visit, '?form=new#form')}>One more reminder</a>
        </p>
      )}
    </DeskPage>
  );
}

/** "7 days before, at 10:00, to everybody." */
function ruleInWords({ days, hour, forWhom, leastKm, leastLeadDays, on }: ReminderRule): string {
  const when = days === 0 ? 'On the day' : days === 1 ? 'One day before' : `${days} days before`;
  const far = leastKm > 0 ? `, from ${leastKm} km on` : '';
  const lead = leastLeadDays > 0 ? `, if the day is ${counted(leastLeadDays, 'day')} off or more` : '';
  return `${when}, at ${String(hour).padStart(2, '0')}:00, to ${WHOM_WORDS[forWhom]}${far}${lead}.${on ? '' : ' Switched off.'}`;
}

function RuleForm({ visit, rule, sent }: RemindersProps & { rule: ReminderRule | null }) {
  return (
    <div id="form">
      <Form
        action={remindersPath(visit, `/${rule?.id ?? 'new'}`)}
        csrf={visit.formToken}
        label={rule ? `Change: ${ruleInWords(rule)}` : 'One more reminder'}
        values={sent?.values ?? (rule ? answersOf(rule) : {})}
        errors={sent?.errors ?? []}
      >
        <SelectField
          name="kind"
          label="What it tells"
          options={REMINDER_KINDS.map((kind) => ({ value: kind, label: LETTER_WORDS[`reminder: ${kind}`] }))}
        />
        <NumberField
          name="days"
          label="So many days before the day"
          hint="0: on the day itself."
          unit="days"
        />
        <NumberField
          name="hour"
          label="At this hour of their clock"
          hint={`${DAYTIME.from} to ${DAYTIME.until}.`}
          unit="o’clock"
        />
        <SelectField
          name="forWhom"
          label="For whom"
          options={FOR_WHOM.map((whom) => ({ value: whom, label: WHOM_WORDS[whom] }))}
        />
        <NumberField name="leastKm" label="Only from so far on" unit="km" optional />
        <NumberField
          name="leastLeadDays"
          label="Only if the day is so far off when they get the place"
          unit="days"
          optional
        />
        <CheckboxGroup
          name="off"
          label="For now"
          options={[{ value: 'yes', label: 'Switched off' }]}
          optional
        />
        <Button>{rule ? 'Change this' : 'Add this'}</Button>
      </Form>
    </div>
  );
}

const answersOf = (rule: ReminderRule) => ({
  ...rule,
  leastKm: rule.leastKm || '',
  leastLeadDays: rule.leastLeadDays || '',
  off: rule.on ? '' : 'yes',
});
