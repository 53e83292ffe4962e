// All that goes to one person: what went, what is to come and when on their clock, and what does not go and why.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Form } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { DropReason } from '../../reminders/reminder-plan.calc.js';
import type { ReminderKind } from '../../reminders/reminder-rules.schemas.js';
import type { Messages } from '../../reminders/reminding.service.js';
import type { SittingView } from '../../sittings/sittings.schemas.js';
import type { OwnView } from '../../teaching/day-views.schemas.js';
import { LANGUAGE_NAMES, LANGUAGES } from '../../words/languages.js';
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
  'stopped by them': 'they want no reminders',
};

interface MessagesProps {
  visit: StaffVisit;
  found: Messages<SittingView>;
  day: Temporal.PlainDate | null;
  values: Record<string, unknown>;
  errors?: FieldProblem[] | undefined;
}

/** To whoever asks for a sitting. */
export function MessagesPage({ visit, found, day, values, errors = [] }: MessagesProps) {
  const { view, would } = found;
  const base = `/s/${visit.studio.slug}/desk/requests/${view.sitting.id}`;
  return (
    <DeskPage visit={visit} title={`Messages to ${view.contact.name}`} at="/mail" errors={errors} wide>
      <Ways visit={visit} about={{ href: base, words: 'The request' }} />
      <Wanted visit={visit} view={view} action={`${base}/messages`} />
      <InLanguage visit={visit} view={view} action={`${base}/messages`} />
      <Written visit={visit} letters={found.letters} />
      <Planned {...{ visit, found, words: sittingWords }} />
      {view.sitting.state !== 'confirmed' && (
        <>
          <h2>If they got a place</h2>
          <Form action={`${base}/messages`} method="get" values={values} errors={errors}>
            <DateField name="day" label="On this day" />
            <Button>Show what they would be sent</Button>
          </Form>
          {would && day && <Would {...{ visit, view, would, day, words: sittingWords }} />}
        </>
      )}
    </DeskPage>
  );
}

/** To whoever signed up for a day of teaching; before they have a place, what they would be sent for it. */
export function TeachingMessagesPage({ visit, found }: { visit: StaffVisit; found: Messages<OwnView> }) {
  const { view, would } = found;
  const teaching = `/s/${visit.studio.slug}/desk/teaching`;
  const href = view.day ? `${teaching}/${view.day.session.id}#sign-up-${view.signUp.id}` : teaching;
  const day = view.day?.place.wallStart ?? view.signUp.wantedOn;
  return (
    <DeskPage visit={visit} title={`Messages to ${view.contact.name}`} at="/teaching" wide>
      <Ways visit={visit} about={{ href, words: view.course.name }} />
      <Wanted visit={visit} view={view} action={`${teaching}/sign-ups/${view.signUp.id}/messages`} />
      <InLanguage visit={visit} view={view} action={`${teaching}/sign-ups/${view.signUp.id}/messages`} />
      <Written visit={visit} letters={found.letters} />
      <Planned {...{ visit, found, words: teachingWords }} />
      {would && day && (
        <>
          <h2>If they got a place</h2>
          <Would {...{ visit, view, would, day, words: teachingWords }} />
        </>
      )}
    </DeskPage>
  );
}

const sittingWords = (kind: ReminderKind) => LETTER_WORDS[`reminder: ${kind}`];
const teachingWords = (kind: ReminderKind) => LETTER_WORDS[`teaching reminder: ${kind}`];
const zoneOf = ({ studio }: StaffVisit, { contact }: Pick<SittingView, 'contact'>) =>
  contact.home?.zone ?? studio.zone;
const heads = (...names: string[]) => names.map((head) => ({ head }));

const Ways = ({ visit, about }: { visit: StaffVisit; about: { href: string; words: string } }) => (
  <p class="actions">
    <a href={about.href}>{about.words}</a>
    <a href={`/s/${visit.studio.slug}/desk/mail/reminders`}>The rules of reminders</a>
  </p>
);

/** Whether they are reminded at all; the studio changes it for whoever tells it so. */
function Wanted({
  visit,
  view: { contact },
  action,
}: Pick<WouldProps, 'visit' | 'view'> & { action: string }) {
  const since = contact.remindersStoppedAt;
  return (
    <>
      {since && (
        <Notice tone="warn">
          {contact.name} wants no reminders, since {momentInWords(visit.studio.zone, since)}. None goes.
        </Notice>
      )}
      <Form action={action} csrf={visit.formToken} label="Reminders">
        <Button kind="quiet" name="wanted" value={since ? 'yes' : 'no'}>
          {since ? 'They want reminders again' : 'They want no reminders'}
        </Button>
      </Form>
    </>
  );
}

/** In which language letters go to them; the studio changes it for whoever tells it so. */
function InLanguage({
  visit,
  view: { contact },
  action,
}: Pick<WouldProps, 'visit' | 'view'> & { action: string }) {
  return (
    <Form action={action} csrf={visit.formToken} label="Language" values={{ language: contact.language }}>
      <SelectField
        name="language"
        label="Letters to them are in"
        empty={null}
        options={LANGUAGES.map((one) => ({ value: one, label: LANGUAGE_NAMES[one] }))}
      />
      <Button kind="quiet">Keep this language</Button>
    </Form>
  );
}

function Written({
  visit: { studio },
  letters,
}: {
  visit: StaffVisit;
  letters: Messages<unknown>['letters'];
}) {
  const to = letters.filter((one) => !one.kind.startsWith('owner:'));
  return (
    <Table
      caption="Written to them so far"
      columns={heads('About', 'Written', 'State')}
      rows={to.map((mail) => [
        <a key="about" href={`/s/${studio.slug}/desk/mail/${mail.mail_id}`}>
          {LETTER_WORDS[mail.kind]}
        </a>,
        momentInWords(studio.zone, mail.created_at),
        mail.told_at ? `told by ${mail.told_by}` : mail.by_hand === '' ? mail.state : `by ${mail.by_hand}`,
      ])}
      empty="Nothing yet."
    />
  );
}

interface PlannedProps {
  visit: StaffVisit;
  found: Messages<Pick<SittingView, 'contact'>>;
  words: (kind: ReminderKind) => string;
}

function Planned({ visit, found: { view, reminders }, words }: PlannedProps) {
  if (reminders.length === 0) return null;
  const zone = zoneOf(visit, view);
  return (
    <Table
      caption={`Reminders, on the clock of ${zone}`}
      columns={heads('About', 'When', 'State')}
      rows={reminders.map((one) => [
        words(one.kind),
        momentInWords(zone, one.due_at),
        one.state === 'dropped'
          ? `not sent: ${WHY[one.reason as DropReason]}`
          : one.state === 'planned'
            ? 'to come'
            : 'written',
      ])}
    />
  );
}

interface WouldProps {
  visit: StaffVisit;
  view: Pick<SittingView, 'contact'>;
  would: NonNullable<Messages<unknown>['would']>;
  day: Temporal.PlainDate | Temporal.PlainDateTime;
  words: (kind: ReminderKind) => string;
}

function Would({ visit, view, would, day, words }: WouldProps) {
  const zone = zoneOf(visit, view);
  return (
    <Table
      caption={`For a place on ${dayInWords(day)}, given today, on the clock of ${zone}`}
      columns={heads('About', 'When')}
      rows={would.map(({ kind, at, skip }) => [
        words(kind),
        skip ? `not sent: ${WHY[skip]}` : momentInWords(zone, at),
      ])}
      empty="No reminder: the day is past."
    />
  );
}
