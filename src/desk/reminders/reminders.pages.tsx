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
  FOR_DAYS,
  FOR_WHOM,
  type ForDay,
  type ForWhom,
  REMINDER_KINDS,
  type ReminderRule,
  TELLS,
  type Tells,
} from '../../reminders/reminder-rules.schemas.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { LETTER_WORDS } from '../words.calc.js';

const WHOM_WORDS: Record<ForWhom, string> = {
  everyone: 'everybody',
  'stays a night': 'those who stay a night',
  flies: 'those who come by air',
  'flies from abroad': 'those who come by air from abroad',
};

const DAY_WORDS: Record<ForDay, { title: string; more: string }> = {
  sitting: { title: 'Before a sitting', more: 'One more reminder of a sitting' },
  teaching: { title: 'Before a teaching day', more: 'One more reminder of a teaching day' },
};
const TELLS_WORDS: Record<Tells, string> = {
  reading: 'what to read or prepare',
  safety: 'who has not agreed to working safely',
  emergency: 'whom to ring in an emergency',
  gear: 'sizes of what they wear',
  deposit: 'a deposit that is due',
};

interface RemindersProps {
  visit: StaffVisit;
  rules: readonly ReminderRule[];
  /** Which form is open: 'new-sitting', 'new-teaching', a rule's id, or ''. */
  form: string;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

/** How the choices of a rule read. */
export const RULE_WORDS = {
  ...WHOM_WORDS,
  ...TELLS_WORDS,
  ...Object.fromEntries(REMINDER_KINDS.map((kind) => [kind, LETTER_WORDS[`reminder: ${kind}`]])),
};

export const remindersPath = ({ studio }: StaffVisit, more = '') =>
  `/s/${studio.slug}/desk/mail/reminders${more}`;

export function RemindersPage(props: RemindersProps) {
  const { visit, rules, form, notice, sent } = props;
  return (
    <DeskPage visit={visit} title="Reminders" at="/mail" notice={notice} errors={sent?.errors}>
      <p>
        Whoever has a place, for a sitting or to learn, is reminded of it before the day. Each hour is on the
        clock of where they are then, never from {QUIET.from}:00 to {QUIET.until}:00. What is past when they
        get the place is left out, two that fall close together go as one, and more than four before the day
        never go. Who has no e-mail stands on your list to telephone, or gets a letter.
      </p>
      {FOR_DAYS.map((forDay) => (
        <section key={forDay}>
          <h2>{DAY_WORDS[forDay].title}</h2>
          {rules
            .filter((rule) => rule.forDay === forDay)
            .map((rule) => (
              <RuleCard key={rule.id} {...props} rule={rule} />
            ))}
          {form === `new-${forDay}` ? (
            <Card title={DAY_WORDS[forDay].more}>
              <RuleForm {...props} forDay={forDay} rule={null} />
            </Card>
          ) : (
            <p class="alone">
              <a href={remindersPath(visit, `?form=new-${forDay}#form`)}>{DAY_WORDS[forDay].more}</a>
            </p>
          )}
        </section>
      ))}
    </DeskPage>
  );
}

function RuleCard(props: RemindersProps & { rule: ReminderRule }) {
  const { visit, form, rule } = props;
  const words = `${DAY_WORDS[rule.forDay].title}: ${ruleInWords(rule)}`;
  return (
    <Card title={LETTER_WORDS[`reminder: ${rule.kind}`]}>
      <p>{ruleInWords(rule)}</p>
      {form === rule.id ? (
        <>
          <RuleForm {...props} forDay={rule.forDay} rule={rule} />
          <Form
            action={remindersPath(visit, `/${rule.id}/remove`)}
            csrf={visit.formToken}
            label={`Take away: ${words}`}
          >
            <Button kind="danger">Take this away</Button>
          </Form>
        </>
      ) : (
        <p class="alone">
          <a href={remindersPath(visit, `?form=${rule.id}#form`)}>
            Change this<span class="unseen">: {words}</span>
          </a>
        </p>
      )}
    </Card>
  );
}

/** "7 days before, at 10:00, to everybody." */
function ruleInWords({ days, hour, forWhom, leastKm, leastLeadDays, tells, on }: ReminderRule): string {
  const when = days === 0 ? 'On the day' : days === 1 ? 'One day before' : `${days} days before`;
  const far = leastKm > 0 ? `, from ${leastKm} km on` : '';
  const lead = leastLeadDays > 0 ? `, if the day is ${counted(leastLeadDays, 'day')} off or more` : '';
  const open = TELLS.filter((one) => tells.includes(one)).map((one) => TELLS_WORDS[one]);
  const besides = open.length > 0 ? ` With what is still open: ${open.join(', ')}.` : '';
  return `${when}, at ${String(hour).padStart(2, '0')}:00, to ${WHOM_WORDS[forWhom]}${far}${lead}.${besides}${on ? '' : ' Switched off.'}`;
}

function RuleForm({
  visit,
  forDay,
  rule,
  sent,
}: RemindersProps & { forDay: ForDay; rule: ReminderRule | null }) {
  return (
    <div id="form">
      <Form
        action={remindersPath(visit, `/${rule?.id ?? `new/${forDay}`}`)}
        csrf={visit.formToken}
        label={rule ? `Change: ${ruleInWords(rule)}` : DAY_WORDS[forDay].more}
        values={sent?.values ?? (rule ? answersOf(rule) : {})}
        shown={rule ? answersOf(rule) : undefined}
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
        {forDay === 'teaching' && (
          <CheckboxGroup
            name="tells"
            label="What it tells besides, while it is still open"
            options={TELLS.map((one) => ({ value: one, label: TELLS_WORDS[one] }))}
            optional
          />
        )}
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

export const answersOf = (rule: ReminderRule) => ({
  kind: rule.kind,
  days: rule.days,
  hour: rule.hour,
  forWhom: rule.forWhom,
  tells: [...rule.tells],
  leastKm: rule.leastKm || '',
  leastLeadDays: rule.leastLeadDays || '',
  off: rule.on ? '' : 'yes',
});
