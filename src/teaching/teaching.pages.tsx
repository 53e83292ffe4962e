// What anybody sees of teaching: the days to come, one day with what it is, and signing up for it or asking for a day
// of one's own.
import type { ComponentChildren } from 'preact';
import { counted, dayInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Card, Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { Notice, Tag, type Tone } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Course, minutesOf } from './course.schemas.js';
import { EXPERIENCES } from './estimate.calc.js';
import { MOST_STUDENTS } from './sign-up.schemas.js';
import { type Answers, rowsOf } from './sign-up-form.calc.js';
import type { Template } from './teaching.schemas.js';
import type { DayView } from './views.service.js';
import { EXPERIENCE_WORDS, partsWithTimes, platesInWords, WHERE_WORDS, whenInWords } from './words.calc.js';

const wordsOfHours = (minutes: number) =>
  minutes % 60 === 0 ? counted(minutes / 60, 'hour') : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;

interface TeachingProps {
  studio: Studio;
  /** The address of the calendar that anybody may follow. */
  feedUrl: string;
  days: DayView[];
  oneToOne: Template[];
}

export function TeachingPage({ studio, feedUrl, days, oneToOne }: TeachingProps) {
  const home = `/s/${studio.slug}`;
  return (
    <Page title="Learn to make plates" {...studioFrame(studio)} nav={ways(home)}>
      <p class="lead">Days on which the studio teaches, hands in the chemistry. No experience is needed.</p>
      {days.length === 0 && <p class="empty">No day is open for sign-up just now.</p>}
      {days.map(({ session, place }) => (
        <Card key={session.id} title={session.course.name}>
          <p>
            {whenInWords(place)} <LeftTag session={session} />
          </p>
          {session.course.about !== '' && <p>{session.course.about}</p>}
          <p class="alone">
            <a href={`${home}/teaching/${session.id}`}>
              {session.state === 'full' ? 'Look, and wait for a place: ' : 'Look and sign up: '}
              {session.course.name}, {dayInWords(place.wallStart)}
            </a>
          </p>
        </Card>
      ))}
      {oneToOne.length > 0 && <h2>One to one, on a day of your own</h2>}
      {oneToOne.map(({ id, course }) => (
        <Card key={id} title={course.name}>
          {course.about !== '' && <p>{course.about}</p>}
          {course.secondDay && <p>For who came here before.</p>}
          <p class="alone">
            <a href={`${home}/teaching/one-to-one/${id}`}>Ask for a day: {course.name}</a>
          </p>
        </Card>
      ))}
      <h2>In your calendar</h2>
      <p>
        <a href={feedUrl.replace(/^https?:/, 'webcal:')}>Follow our teaching days on a phone</a>, or give the
        address below to any calendar that can follow another. It keeps in step by itself.
      </p>
      <CopyField name="feed" label="Address of the teaching days" value={feedUrl} />
    </Page>
  );
}

function LeftTag({ session }: Pick<DayView, 'session'>) {
  const left = session.places - session.taken;
  if (session.state === 'full' || left <= 0) return <Tag tone="warn">Full; there is a waiting list</Tag>;
  return <Tag tone="good">{counted(left, 'place')} left</Tag>;
}

const ways = (home: string) => [
  { href: home, label: 'Open places' },
  { href: `${home}/teaching`, label: 'Learn', current: true },
];

interface FormPageProps {
  studio: Studio;
  sizes: PlateSize[];
  formToken: string;
  formKey: string;
  answers: Answers;
  problems?: FieldProblem[] | undefined;
  notice?: { tone: Tone; text: string } | undefined;
}

/** One day and the form to sign up for it. */
export function SignUpPage({ day, ...props }: FormPageProps & { day: DayView }) {
  const { session, place } = day;
  const { studio } = props;
  const full = session.state === 'full';
  const action = `/s/${studio.slug}/teaching/${session.id}`;
  return (
    <Page
      title={session.course.name}
      {...studioFrame(studio)}
      nav={ways(`/s/${studio.slug}`)}
      errors={props.problems}
      notice={props.notice}
    >
      <p class="lead">
        {whenInWords(place)} <LeftTag session={session} />
      </p>
      <TheCourse course={session.course} sizes={props.sizes}>
        <ol>
          {partsWithTimes(session.course.parts, place.wallStart).map(({ at, title, where }) => (
            <li key={`${at} ${title}`}>
              {at} {title} ({where})
            </li>
          ))}
        </ol>
      </TheCourse>
      <Notice tone="note">
        {session.goesAheadAt
          ? 'The day goes ahead.'
          : `The day is held with ${session.least} or more; that is decided on ${dayInWords(session.decideOn)}. Please do not buy tickets before.`}
      </Notice>
      <h2>{full ? 'Go on the waiting list' : 'Sign up'}</h2>
      <TheForm {...props} action={action} course={session.course}>
        <CheckboxGroup
          name="orWait"
          label={full ? 'The day is full' : 'If the day is full by then'}
          options={[{ value: 'yes', label: 'Put me on the waiting list, and ask me when places come free' }]}
          optional={!full}
        />
      </TheForm>
    </Page>
  );
}

/** A course taught on a day of one's own, and the form to ask for it. */
export function OneToOnePage({ template, ...props }: FormPageProps & { template: Template }) {
  const { studio } = props;
  const { course } = template;
  return (
    <Page
      title={`${course.name}, one to one`}
      {...studioFrame(studio)}
      nav={ways(`/s/${studio.slug}`)}
      errors={props.problems}
      notice={props.notice}
    >
      <p class="lead">Ask for a day; the studio answers. Nothing is fixed until then.</p>
      <TheCourse course={course} sizes={props.sizes}>
        <ol>
          {course.parts.map(({ title, where, minutes }) => (
            <li key={title}>
              {title}, {minutes} min ({WHERE_WORDS[where]})
            </li>
          ))}
        </ol>
      </TheCourse>
      <h2>Ask for a day</h2>
      <TheForm {...props} action={`/s/${studio.slug}/teaching/one-to-one/${template.id}`} course={course}>
        <DateField name="day" label="Which day would you like?" />
        {course.secondDay && (
          <CheckboxGroup
            name="cameBefore"
            label="A second day"
            options={[{ value: 'yes', label: 'I came to a teaching day here before' }]}
          />
        )}
      </TheForm>
    </Page>
  );
}

function TheCourse({
  course,
  sizes,
  children,
}: {
  course: Course;
  sizes: PlateSize[];
  children: ComponentChildren;
}) {
  const told = (term: string, detail: string) => (detail === '' ? [] : [{ term, detail }]);
  return (
    <Card title="The day">
      {course.about !== '' && <p>{course.about}</p>}
      {children}
      <Facts
        items={[
          { term: 'Length', detail: wordsOfHours(minutesOf(course)) },
          ...told('Each of you makes', platesInWords(course.plates, sizes)),
          { term: 'Least age', detail: `${course.leastAge}` },
          ...told('Bring', course.bring),
          ...told('Wear', course.wear),
          ...told('You are given', course.gear.map(({ name }) => name).join(', ')),
          ...told('Fee', course.fee),
          ...told('Deposit', course.deposit),
          ...told('If you cannot come', course.release),
        ]}
      />
      <Notice tone="warn">
        Asthma, pregnancy, sensitive skin: please speak to the teacher privately before you sign up.
      </Notice>
    </Card>
  );
}

interface TheFormProps extends FormPageProps {
  action: string;
  course: Course;
  children: ComponentChildren;
}

function TheForm({ action, course, children, ...props }: TheFormProps) {
  const { answers, problems, sizes, formToken, formKey } = props;
  const rows = rowsOf(answers);
  return (
    <Form action={action} csrf={formToken} formKey={formKey} values={answers} errors={problems}>
      <TextField name="name" label="Your name" autocomplete="name" />
      <RadioGroup
        name="reachBy"
        label="How can we reach you?"
        options={[
          { value: 'email', label: 'By e-mail' },
          { value: 'telephone', label: 'By telephone' },
          { value: 'letter', label: 'By letter' },
        ]}
      />
      <TextField name="email" label="E-mail address" type="email" autocomplete="email" optional />
      <TextField name="telephone" label="Telephone number" type="tel" autocomplete="tel" optional />
      <TextArea name="postalAddress" label="Address for letters" rows={3} optional />
      {[...Array(rows).keys()].map((at) => (
        <Fieldset
          key={at}
          legend={rows === 1 ? 'Who learns?' : `Student ${at + 1}`}
          hint={
            at === 0 ? 'Leave the name empty if it is you.' : 'Leave the name empty to leave this person out.'
          }
        >
          <TextField name={`students/${at}/name`} label="Name" optional />
          <SelectField
            name={`students/${at}/experience`}
            label="What have they done before?"
            empty={null}
            options={EXPERIENCES.map((value) => ({ value, label: EXPERIENCE_WORDS[value] }))}
          />
          <SelectField
            name={`students/${at}/plateSizeId`}
            label="Another plate size"
            hint="Only if you bring a camera or holder of your own."
            empty="The size of the day"
            options={sizes.map(({ id, name }) => ({ value: id, label: name }))}
            optional
          />
          <TextField name={`students/${at}/brings`} label="A camera of your own, or other things" optional />
        </Fieldset>
      ))}
      {rows < MOST_STUDENTS && (
        <p>
          <Button kind="quiet" name="more" value="student">
            Add a person
          </Button>
        </p>
      )}
      {children}
      <CheckboxGroup
        name="oldEnough"
        label="Age"
        options={[{ value: 'yes', label: `Everybody who comes is ${course.leastAge} or older` }]}
      />
      <TextArea name="anything" label="Is there anything we should know?" optional />
      <Button>Send</Button>
    </Form>
  );
}
