// The weekly rhythm: which weekdays, when a sitting may start, how long it takes, how many a day.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords, weekdayName } from '../../lib/words.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Fieldset, NumberField, TextField } from '../../platform/html/kit/form.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { isExtraDay } from '../../room/openings.calc.js';
import { RHYTHM_DEFAULTS, type Rhythm, type RoomRules } from '../../room/rules.schemas.js';
import { breaksInWords, startsInWords } from '../../room/words.calc.js';
import { rhythmAnswers } from './forms.calc.js';
import { ChangeForm, type SectionProps, type Sent, SettingsFrame, settingsPath } from './frame.pages.js';

interface RhythmPageProps extends SectionProps {
  rules: RoomRules;
  today: Temporal.PlainDate;
  /** Which form is open: 'new', 'end', or a rhythm's id. One at a time, since their fields have the same names. */
  form: string;
}

export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7].map((day) => ({ value: String(day), label: weekdayName(day) }));

export function RhythmPage({ visit, rules, today, notice, sent, form }: RhythmPageProps) {
  const path = settingsPath(visit, 'rhythm');
  const { compare } = Temporal.PlainDate;
  const rhythms = rules.rhythms.filter(
    (one) => !isExtraDay(one) && (one.effectiveUntil === null || compare(one.effectiveUntil, today) >= 0),
  );
  const weekdays = WEEKDAYS.filter(({ value }) => rhythms.some((one) => one.weekday === Number(value)));
  return (
    <SettingsFrame visit={visit} section="rhythm" notice={notice} sent={sent}>
      <p>
        On a day of the rhythm a sitting may start at each of these times, if the light, the room and the
        people allow it. Of several rhythms for one weekday the one that began last is in force.
      </p>
      {rhythms.length === 0 && <p class="empty">No weekday has a rhythm yet.</p>}
      {rhythms.map((one) => (
        <RhythmCard
          key={one.id}
          visit={visit}
          rhythm={one}
          today={today}
          sent={sent}
          open={form === one.id}
        />
      ))}
      <p>
        <a href={`${path}?form=new#form`}>A new rhythm</a>
        {weekdays.length > 0 && (
          <>
            {' · '}
            <a href={`${path}?form=end#end`}>No more sittings on a weekday</a>
          </>
        )}
      </p>
      {(form === 'new' || rhythms.length === 0) && (
        <Card title="A new rhythm">
          <RhythmForm
            visit={visit}
            sent={sent}
            of=""
            like={rhythms[0] ?? { ...RHYTHM_DEFAULTS, weekday: 5, starts: [570, 675, 780, 885] }}
            from={today.add({ days: 1 })}
            button="See what this opens"
          />
        </Card>
      )}
      {form === 'end' && weekdays.length > 0 && (
        <Card title="No more sittings on a weekday">
          <div id="end">
            <ChangeForm visit={visit} section="rhythm" doing="end weekday" sent={sent} label="End a weekday">
              <SelectField name="weekday" label="Weekday" options={weekdays} empty={null} />
              <DateField name="last" label="Last day with sittings" value={today.add({ months: 1 })} />
            </ChangeForm>
          </div>
        </Card>
      )}
    </SettingsFrame>
  );
}

interface CardProps {
  visit: StaffVisit;
  rhythm: Rhythm;
  today: Temporal.PlainDate;
  sent: Sent | undefined;
  /** Whether its form is shown. */
  open: boolean;
}

function RhythmCard({ visit, rhythm, today, sent, open }: CardProps) {
  const { effectiveFrom, effectiveUntil } = rhythm;
  const ahead = Temporal.PlainDate.compare(effectiveFrom, today) > 0;
  const until = effectiveUntil === null ? '' : ` until ${dayInWords(effectiveUntil)}`;
  const title = `${weekdayName(rhythm.weekday)}s, from ${dayInWords(effectiveFrom)}${until}`;
  return (
    <Card title={title}>
      <Facts items={factsOf(rhythm)} />
      {open ? (
        <RhythmForm
          visit={visit}
          sent={sent}
          of={rhythm.id}
          like={rhythm}
          from={ahead ? effectiveFrom : today.add({ days: 1 })}
          button="See what this changes"
        />
      ) : (
        <p class="alone">
          <a href={`${settingsPath(visit, 'rhythm')}?form=${rhythm.id}#form`}>
            Change this rhythm<span class="unseen">: {title}</span>
          </a>
        </p>
      )}
      {ahead && (
        <ChangeForm
          visit={visit}
          section="rhythm"
          doing="drop rhythm"
          about={{ rhythmId: rhythm.id }}
          label={`Remove: ${title}`}
          button="Remove this rhythm"
          danger
        />
      )}
    </Card>
  );
}

function factsOf(one: Rhythm) {
  const plates = counted(one.mostPlates, 'plate');
  return [
    { term: 'Starts', detail: startsInWords(one.starts) },
    {
      term: 'Length',
      detail: `${one.firstPlateMinutes} min with one plate, ${one.furtherPlateMinutes} more for each further plate, ${one.furtherSitterMinutes} for each further sitter; ${one.changeoverMinutes} to change over`,
    },
    { term: 'Breaks', detail: one.breaks.length === 0 ? 'none' : breaksInWords(one.breaks) },
    {
      term: 'Most a day',
      detail: `${counted(one.mostSittings, 'sitting')}, ${one.mostSittingsWithHelper} with a helper, ${plates}`,
    },
    {
      term: 'Held back',
      detail:
        one.heldBack === 0
          ? 'nothing'
          : `${counted(one.heldBack, 'place')} until ${one.heldBackDays} days before`,
    },
  ];
}

const DEFAULTS = RHYTHM_DEFAULTS;
const USUAL = 'Common practice, no source:';

interface RhythmFormProps {
  visit: StaffVisit;
  sent: Sent | undefined;
  /** The rhythm it starts from; '' for none. It only tells the page's forms apart. */
  of: string;
  like: Omit<Rhythm, 'id' | 'effectiveFrom' | 'effectiveUntil'>;
  from: Temporal.PlainDate;
  button: string;
}

function RhythmForm({ visit, sent, of, like, from, button }: RhythmFormProps) {
  return (
    <div id="form">
      <ChangeForm
        visit={visit}
        section="rhythm"
        doing="rhythm"
        about={{ of }}
        values={rhythmAnswers(like, from)}
        sent={sent}
        label={of === '' ? 'A new rhythm' : 'Change this rhythm'}
        button={button}
      >
        <SelectField name="weekday" label="Weekday" options={WEEKDAYS} empty={null} />
        <TextField
          name="starts"
          label="A sitting may start at"
          hint="Times with commas between: 09:30, 11:15."
        />
        <DateField name="from" label="First day" />
        <DateField name="until" label="Last day" hint="Leave empty for no end." optional />
        <Fieldset
          legend="How long it takes"
          hint={`${USUAL} ${[DEFAULTS.firstPlateMinutes, DEFAULTS.furtherPlateMinutes, DEFAULTS.furtherSitterMinutes, DEFAULTS.changeoverMinutes].join(', ')} minutes.`}
        >
          <NumberField name="firstPlateMinutes" label="A sitting with one plate" unit="minutes" />
          <NumberField name="furtherPlateMinutes" label="Each further plate" unit="minutes" />
          <NumberField name="furtherSitterMinutes" label="Each further sitter" unit="minutes" />
          <NumberField name="changeoverMinutes" label="Change-over after it" unit="minutes" />
          <TextField
            name="breaks"
            label="Breaks, in which nobody sits"
            hint="Like 12:30-13:00, with commas between several."
            optional
          />
        </Fieldset>
        <Fieldset
          legend="How many a day"
          hint={`${USUAL} ${[DEFAULTS.mostSittings, DEFAULTS.mostSittingsWithHelper, DEFAULTS.mostPlates].join(', ')}; ${DEFAULTS.heldBack} kept back until ${DEFAULTS.heldBackDays} days before.`}
        >
          <NumberField name="mostSittings" label="Sittings when you are alone" />
          <NumberField name="mostSittingsWithHelper" label="Sittings with a helper" />
          <NumberField name="mostPlates" label="Plates" />
          <NumberField
            name="heldBack"
            label="Places kept off the public page"
            hint="For re-sits and late flights: the last of the day. You can give them at any time."
          />
          <NumberField name="heldBackDays" label="They show themselves" unit="days before" />
        </Fieldset>
      </ChangeForm>
    </div>
  );
}
