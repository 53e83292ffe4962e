// The rule of the waiting list: a form with every figure, and the new order beside the old before it is saved.
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Fieldset, Form, NumberField } from '../platform/html/kit/form.js';
import { Table } from '../platform/html/kit/table.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Listed } from '../sittings/list.schemas.js';
import { MODES } from '../waiting/rules.schemas.js';
import { MODE_WORDS, reasonInWords } from '../waiting/words.calc.js';
import { DeskPage } from './frame.pages.js';
import { waitingPath } from './waiting.pages.js';

interface RulesProps {
  visit: StaffVisit;
  /** The rule as it stands. */
  shown: FormValues;
  values: FormValues;
  errors?: FieldProblem[] | undefined;
}

export function WaitingRulesPage({ visit, shown, values, errors = [] }: RulesProps) {
  return (
    <DeskPage visit={visit} title="The rule of the list" at="/waiting" errors={errors}>
      <p class="actions">
        <a href={waitingPath(visit)}>The list</a>
      </p>
      <p>
        Whoever is owed a return place comes first. Then the points of each reason are added up; equal points
        go by the date of asking. The figures are only a proposal until you have changed them.
      </p>
      <Form
        {...{ shown, values, errors }}
        action={waitingPath(visit, '/rules/preview')}
        csrf={visit.formToken}
      >
        <RadioGroup
          name="mode"
          label="When a place comes free"
          options={MODES.map((mode) => ({ value: mode, label: MODE_WORDS[mode] }))}
        />
        <Fieldset legend="What counts">
          <NumberField name="asked" label="Waiting" hint="For each year since they asked." unit="points" />
          <NumberField
            name="flexible"
            label="Flexible"
            hint="As many for who can come on all your days, fewer for fewer days."
            unit="points"
          />
          <NumberField
            name="far"
            label="Coming from far"
            hint="As many for the longest notice below, fewer for shorter: they cannot take what comes late."
            unit="points"
          />
          <NumberField name="series" label="A series sitting" unit="points" />
          <NumberField
            name="priority"
            label="Named by you"
            hint="People you mark, with your reason."
            unit="points"
          />
          <NumberField
            name="hardship"
            label="Hardship"
            hint="People you mark, with your reason."
            unit="points"
          />
        </Fieldset>
        <Fieldset
          legend="How long an offer stays open"
          hint="It ends on a working day, at the hour you choose here; never at night or on a weekend."
        >
          <NumberField name="farWeeks" label="A place is far ahead from" unit="weeks" />
          <NumberField name="farDays" label="Then it stays open" unit="days" />
          <NumberField name="middleDays" label="Nearer, it stays open" unit="days" />
          <NumberField name="nearWeeks" label="It is told by telephone under" unit="weeks" />
          <NumberField name="telephoneDays" label="Then it is held" unit="days" />
          <NumberField name="endsAtHour" label="It ends at" unit="o’clock" />
          <NumberField
            name="mostUnanswered"
            label="No more are made after"
            hint="In a row and without any answer."
            unit="offers"
          />
        </Fieldset>
        <Fieldset
          legend="Notice that people need"
          hint="Between their answer and the place. Whoever needs longer than there is, is not asked."
        >
          <NumberField name="noticeNear" label="Near by" unit="days" />
          <NumberField name="noticeDay" label="There and back in a day" unit="days" />
          <NumberField name="noticeNight" label="With a night’s stay" unit="days" />
          <NumberField name="noticeFlight" label="With a flight" unit="days" />
        </Fieldset>
        <Button>Show the new order</Button>
      </Form>
    </DeskPage>
  );
}

interface PreviewProps {
  visit: StaffVisit;
  now: Listed[];
  after: Listed[];
  /** The rule as the form's fields, with its mark. */
  fields: Record<string, string>;
}

export function WaitingPreviewPage({ visit, now, after, fields }: PreviewProps) {
  const before = new Map(now.map(({ ranked }) => [ranked.id, ranked.position]));
  const moved = after.filter(({ ranked }) => before.get(ranked.id) !== ranked.position);
  const hidden = Object.entries(fields).map(([name, value]) => (
    <input key={name} type="hidden" name={name} value={value} />
  ));
  return (
    <DeskPage visit={visit} title="The new order" at="/waiting" wide>
      <p>
        {moved.length === 0
          ? 'Nobody moves. Nothing is saved yet.'
          : `${counted(moved.length, 'person moves', 'people move')}. Nothing is saved yet, and nobody is written to.`}
      </p>
      <Form action={waitingPath(visit, '/rules')} csrf={visit.formToken} label="Save">
        {hidden}
        <Button>Save this rule</Button>
      </Form>
      <Form action={waitingPath(visit, '/rules/again')} csrf={visit.formToken} label="Back">
        {hidden}
        <Button kind="quiet">Back to the rule</Button>
      </Form>
      <Table
        caption="The list as the new rule orders it"
        columns={[{ head: 'Who' }, { head: 'Now' }, { head: 'Then' }, { head: 'Why' }]}
        rows={after.map(({ view, ranked }) => [
          view.contact.name,
          String(before.get(ranked.id) ?? ''),
          before.get(ranked.id) === ranked.position ? (
            String(ranked.position)
          ) : (
            <strong key="then">{ranked.position}</strong>
          ),
          `${ranked.reasons.map(reasonInWords).join('; ')}; together ${ranked.points}`,
        ])}
        empty="Nobody waits."
      />
    </DeskPage>
  );
}
