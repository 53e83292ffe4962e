// The steps of the first evening, and the pages of those that no other page does.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { STARTER_PLATE_SIZES } from '../../chemistry/plate-sizes.calc.js';
import { dayInWords, timeInWords, weekdayName } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, NumberField, TextField } from '../../platform/html/kit/form.js';
import { Notice as NoticeBox } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { DeskPage } from '../frame.pages.js';
import type { ThereAlready } from './first-shelf.service.js';
import { type Done, FIRST_SOLUTIONS, nextStep, type Step, STEPS } from './set-up.calc.js';
import { STARTING_LIGHT, WINDOWS } from './set-up.schemas.js';
import type { MailTest, SampleDay } from './set-up.service.js';

const WORDS: Record<Step, { title: string; about: string; at: string }> = {
  rhythm: {
    title: 'Your weekday and your light',
    about: 'On which day people sit, from when on, and what the sun allows there.',
    at: 'set-up/rhythm',
  },
  shelf: {
    title: 'Plate sizes and the shelf',
    about: 'Which plates you make, and what glass and solutions there are today.',
    at: 'set-up/shelf',
  },
  bath: {
    title: 'The silver bath',
    about: 'A day without a working bath is not ready.',
    at: 'shelf/baths',
  },
  kinds: {
    title: 'Kinds of sitting',
    about: 'Portraits, a series, what they cost. Without any, every sitting is alike.',
    at: 'settings/kinds?form=new',
  },
  words: {
    title: 'Your opening words',
    about: 'What visitors read first, and how they reach you.',
    at: 'settings/studio',
  },
  mail: { title: 'A letter to yourself', about: 'Whether letters arrive.', at: 'set-up/mail' },
  calendar: { title: 'Your own calendar link', about: 'Everything on your phone.', at: 'calendar' },
  first: {
    title: 'The first sitting',
    about: 'Type in who asked, and give them their place.',
    at: 'requests/new',
  },
};

export function SetUpPage({ visit, done }: { visit: StaffVisit; done: Done }) {
  const next = nextStep(done);
  const desk = `/s/${visit.studio.slug}/desk`;
  return (
    <DeskPage visit={visit} title="Setting up" at="">
      <p class="lead">
        {next === null
          ? 'All is done. What you set up here can be changed under Settings and Shelf at any time.'
          : 'Take the steps in any order, and leave when you like: this page knows what is done.'}
      </p>
      <Table
        caption="Steps"
        columns={[{ head: 'Step' }, { head: 'State' }, { head: 'What it is about' }]}
        rows={STEPS.map((step) => [
          <a key={step} href={`${desk}/${WORDS[step].at}`}>
            {WORDS[step].title}
          </a>,
          done[step] ? 'done' : step === next ? <strong key="next">next</strong> : 'to do',
          WORDS[step].about,
        ])}
      />
      <p>
        Whoever stands in your diary already: <a href={`${desk}/settings/bring-in`}>bring in your diary</a>{' '}
        once there is a weekday and a plate size.
      </p>
    </DeskPage>
  );
}

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7].map((day) => ({ value: String(day), label: weekdayName(day) }));

interface RhythmStepProps {
  visit: StaffVisit;
  studio: Studio;
  /** Null as long as there is no rhythm. */
  weekday: number | null;
  days: SampleDay[];
  values?: Record<string, unknown>;
  problems?: FieldProblem[];
}

export function RhythmStepPage({ visit, studio, weekday, days, values, problems = [] }: RhythmStepProps) {
  const desk = `/s/${studio.slug}/desk`;
  const start = { weekday: '5', first: '10:00', sittings: '4', apart: '105', windowKind: studio.windowKind };
  return (
    <DeskPage visit={visit} title={WORDS.rhythm.title} at="" errors={problems}>
      <Light studio={studio} days={days} />
      {weekday === null ? (
        <Form
          action={`${desk}/set-up/rhythm`}
          csrf={visit.formToken}
          values={values ?? start}
          errors={problems}
          label={WORDS.rhythm.title}
        >
          <SelectField name="weekday" label="The day on which people sit" options={WEEKDAYS} empty={null} />
          <RadioGroup
            name="windowKind"
            label="By which light?"
            options={WINDOWS.map((one) => ({ value: one, label: one }))}
          />
          <TextField name="first" label="The first begins at" hint="Such as 10:00." width="short" />
          <NumberField name="sittings" label="So many a day at most" unit="sittings" />
          <NumberField
            name="apart"
            label="From one beginning to the next"
            hint="A sitting with one plate takes 75 minutes, the change-over 30. Common practice, no source."
            unit="minutes"
          />
          <Button>Begin with this</Button>
        </Form>
      ) : (
        <p>
          People sit on {weekdayName(weekday)}. <a href={`${desk}/settings/rhythm`}>Change the rhythm</a> or{' '}
          <a href={`${desk}/settings/light`}>the light</a>, or go on:{' '}
          <a href={`${desk}/set-up`}>the next step</a>.
        </p>
      )}
    </DeskPage>
  );
}

function Light({ studio, days }: { studio: Studio; days: SampleDay[] }) {
  const times = (starts: Temporal.PlainDateTime[]) => starts.map((one) => timeInWords(one)).join(', ');
  const rhythm = days.some(({ open }) => open !== null);
  return (
    <Table
      caption={`Good light at ${studio.lat.toFixed(2)}°, ${studio.lon.toFixed(2)}° by the clocks of ${studio.zone}`}
      columns={[{ head: 'Day' }, { head: 'Good light' }, ...(rhythm ? [{ head: 'Open places' }] : [])]}
      rows={days.map(({ date, light, open }) => [
        dayInWords(date),
        light
          ? `${timeInWords(light.from)} to ${timeInWords(light.until)}`
          : `none: the sun stays under ${STARTING_LIGHT.lightFloorDegrees}°`,
        ...(open ? [open.starts.length > 0 ? times(open.starts) : 'none'] : rhythm ? ['none'] : []),
      ])}
    />
  );
}

/** Those of most studios; the others are folded away. */
const USUAL = ['quarter', 'half-british', 'whole', '5x7', '8x10'];

interface ShelfStepProps {
  visit: StaffVisit;
  there: ThereAlready;
  values?: Record<string, unknown>;
  problems?: FieldProblem[];
}

export function ShelfStepPage({ visit, there, values = {}, problems = [] }: ShelfStepProps) {
  const desk = `/s/${visit.studio.slug}/desk`;
  const isAsked = (field: string) => Boolean(values[field]) || problems.some((one) => one.field === field);
  // what is there is asked for no more, but for what was typed meanwhile
  const sizes = STARTER_PLATE_SIZES.filter(({ key }) => !there.sizes.has(key) || isAsked(`sheets-${key}`));
  const usual = sizes.filter(({ key }) => USUAL.includes(key));
  const other = sizes.filter(({ key }) => !USUAL.includes(key));
  const solutions = FIRST_SOLUTIONS.filter(({ key }) => !there.solutions.has(key) || isAsked(`ml-${key}`));
  const known = [
    ...STARTER_PLATE_SIZES.filter(({ key }) => there.sizes.has(key)),
    ...FIRST_SOLUTIONS.filter(({ key }) => there.solutions.has(key)),
  ].map(({ name }) => name);
  const sheets = ({ key, name }: { key: string; name: string }) => (
    <NumberField key={key} name={`sheets-${key}`} label={name} unit="sheets" optional />
  );
  return (
    <DeskPage visit={visit} title={WORDS.shelf.title} at="" errors={problems}>
      <p>
        Sizes with a number are offered to sitters; 0 means that you make it and have no glass of it today.
        What you leave empty can be added later, with your own measures.
      </p>
      {known.length > 0 && (
        <p>
          There already: {known.join('; ')}. More of these is entered on{' '}
          <a href={`${desk}/shelf`}>the shelf</a>.
        </p>
      )}
      <Form
        action={`${desk}/set-up/shelf`}
        csrf={visit.formToken}
        values={values}
        errors={problems}
        label={WORDS.shelf.title}
      >
        <Fieldset legend="Glass">
          {usual.map(sheets)}
          <details open={other.some(({ key }) => isAsked(`sheets-${key}`))}>
            <summary>Other sizes</summary>
            {other.map(sheets)}
          </details>
        </Fieldset>
        {solutions.length > 0 && (
          <Fieldset legend="Solutions that are ready today">
            {solutions.map(({ key, name }) => (
              <NumberField key={key} name={`ml-${key}`} label={name} unit="mL" optional />
            ))}
          </Fieldset>
        )}
        <p class="hint">
          Days of ripening and keeping are usual ones, to be changed on each item’s page. Handle each by its
          supplier’s current safety data sheet and your local codes.
        </p>
        <Button>Put this on the shelf</Button>
      </Form>
    </DeskPage>
  );
}

export function MailStepPage({ visit, test }: { visit: StaffVisit; test: MailTest | null }) {
  const desk = `/s/${visit.studio.slug}/desk`;
  return (
    <DeskPage visit={visit} title={WORDS.mail.title} at="">
      {test && (
        <NoticeBox tone={test.failure === null ? 'good' : 'bad'}>
          {test.failure !== null
            ? `The mail server did not take it. It said: ${test.failure}`
            : test.folder === null
              ? `A letter to ${test.to} is with the mail server. Look whether it arrives, and not among the unwanted ones.`
              : `No mail server is set, so the letter lies as a file in ${test.folder}. Nothing is sent to anybody yet.`}
        </NoticeBox>
      )}
      <p>
        Letters go out through a mail server of yours: set SMTP_URL to its address and MAIL_FROM to yours
        before starting Plateday. Without one, letters are kept as files and shown under Mail.
      </p>
      <Form action={`${desk}/set-up/mail`} csrf={visit.formToken} label={WORDS.mail.title}>
        <Button>Send {visit.account.email} a letter</Button>
      </Form>
      <p class="alone">
        <a href={`${desk}/set-up`}>Back to the steps</a>
      </p>
    </DeskPage>
  );
}
