// What anybody sees of teaching: the days to come, one day with what it is, and signing up for it or asking for a day
// of one's own.
import type { ComponentChildren } from 'preact';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Card, Facts } from '../platform/html/kit/facts.js';
import { Fieldset, Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { Notice, Tag, type Tone } from '../platform/html/kit/notices.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Words } from '../words/words-for.js';
import { type Course, minutesOf } from './course.schemas.js';
import { EXPERIENCES } from './estimate.calc.js';
import { MOST_STUDENTS } from './sign-up.schemas.js';
import { type Answers, rowsOf } from './sign-up-form.calc.js';
import type { Template } from './teaching.schemas.js';
import type { DayView } from './views.service.js';
import { partsWithTimes, platesInWords, whenInWords } from './words.calc.js';

interface TeachingProps {
  studio: Studio;
  /** The address of the calendar that anybody may follow. */
  feedUrl: string;
  days: DayView[];
  oneToOne: Template[];
  spoken: Spoken;
}

export function TeachingPage({ studio, feedUrl, days, oneToOne, spoken }: TeachingProps) {
  const home = `/s/${studio.slug}`;
  const { words } = spoken;
  const { teaching } = words;
  return (
    <Page title={teaching.title} {...studioFrame(studio)} nav={ways(home, words)} spoken={spoken}>
      <p class="lead">{teaching.lead}</p>
      {days.length === 0 && <p class="empty">{teaching.none}</p>}
      {days.map(({ session, place }) => (
        <Card key={session.id} title={session.course.name}>
          <p>
            {whenInWords(place, words)} <LeftTag session={session} />
          </p>
          {session.course.about !== '' && <p>{session.course.about}</p>}
          <p class="alone">
            <a href={`${home}/teaching/${session.id}`}>
              {teaching.look[session.state === 'full' ? 'full' : 'open'](
                session.course.name,
                words.dates.day(place.wallStart),
              )}
            </a>
          </p>
        </Card>
      ))}
      {oneToOne.length > 0 && <h2>{teaching.oneToOne.heading}</h2>}
      {oneToOne.map(({ id, course }) => (
        <Card key={id} title={course.name}>
          {course.about !== '' && <p>{course.about}</p>}
          {course.secondDay && <p>{teaching.oneToOne.secondDay}</p>}
          <p class="alone">
            <a href={`${home}/teaching/one-to-one/${id}`}>{teaching.oneToOne.ask(course.name)}</a>
          </p>
        </Card>
      ))}
      <h2>{teaching.calendar.title}</h2>
      <p>
        <a href={feedUrl.replace(/^https?:/, 'webcal:')}>{teaching.calendar.follow}</a>
        {teaching.calendar.more}
      </p>
      <CopyField name="feed" label={teaching.calendar.address} value={feedUrl} />
    </Page>
  );
}

function LeftTag({ session }: Pick<DayView, 'session'>) {
  const { teaching } = useWords();
  const left = session.places - session.taken;
  if (session.state === 'full' || left <= 0) return <Tag tone="warn">{teaching.full}</Tag>;
  return <Tag tone="good">{teaching.left(left)}</Tag>;
}

const ways = (home: string, { frame }: Words) => [
  { href: home, label: frame.ways.open },
  { href: `${home}/teaching`, label: frame.ways.learn, current: true },
];

interface FormPageProps {
  studio: Studio;
  spoken: Spoken;
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
  const { studio, spoken } = props;
  const { words } = spoken;
  const { teaching } = words;
  const full = session.state === 'full';
  const action = `/s/${studio.slug}/teaching/${session.id}`;
  return (
    <Page
      title={session.course.name}
      {...studioFrame(studio)}
      nav={ways(`/s/${studio.slug}`, words)}
      spoken={spoken}
      errors={props.problems}
      notice={props.notice}
    >
      <p class="lead">
        {whenInWords(place, words)} <LeftTag session={session} />
      </p>
      <TheCourse course={session.course} sizes={props.sizes}>
        <ol>
          {partsWithTimes(session.course.parts, place.wallStart, words).map(({ at, title, where }) => (
            <li key={`${at} ${title}`}>
              {at} {title} ({where})
            </li>
          ))}
        </ol>
      </TheCourse>
      <Notice tone="note">
        {session.goesAheadAt
          ? teaching.day.goesAhead
          : teaching.day.heldWith(session.least, words.dates.day(session.decideOn))}
      </Notice>
      <h2>{full ? teaching.form.wait : teaching.form.signUp}</h2>
      <TheForm {...props} action={action} course={session.course}>
        <CheckboxGroup
          name="orWait"
          label={full ? teaching.form.isFull : teaching.form.ifFull}
          options={[{ value: 'yes', label: teaching.form.orWait }]}
          optional={!full}
        />
      </TheForm>
    </Page>
  );
}

/** A course taught on a day of one's own, and the form to ask for it. */
export function OneToOnePage({ template, ...props }: FormPageProps & { template: Template }) {
  const { studio, spoken } = props;
  const { words } = spoken;
  const { oneToOne, part, where: wheres } = words.teaching;
  const { course } = template;
  return (
    <Page
      title={oneToOne.title(course.name)}
      {...studioFrame(studio)}
      nav={ways(`/s/${studio.slug}`, words)}
      spoken={spoken}
      errors={props.problems}
      notice={props.notice}
    >
      <p class="lead">{oneToOne.lead}</p>
      <TheCourse course={course} sizes={props.sizes}>
        <ol>
          {course.parts.map(({ title, where, minutes }) => (
            <li key={title}>{part(title, minutes, wheres[where])}</li>
          ))}
        </ol>
      </TheCourse>
      <h2>{oneToOne.form}</h2>
      <TheForm {...props} action={`/s/${studio.slug}/teaching/one-to-one/${template.id}`} course={course}>
        <DateField name="day" label={oneToOne.day} />
        {course.secondDay && (
          <CheckboxGroup
            name="cameBefore"
            label={oneToOne.second}
            options={[{ value: 'yes', label: oneToOne.cameBefore }]}
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
  const words = useWords();
  const { day } = words.teaching;
  const told = (term: string, detail: string) => (detail === '' ? [] : [{ term, detail }]);
  return (
    <Card title={day.title}>
      {course.about !== '' && <p>{course.about}</p>}
      {children}
      <Facts
        items={[
          { term: day.length, detail: day.hours(minutesOf(course)) },
          ...told(day.makes, platesInWords(course.plates, sizes, words)),
          { term: day.leastAge, detail: `${course.leastAge}` },
          ...told(day.bring, course.bring),
          ...told(day.wear, course.wear),
          ...told(day.given, course.gear.map(({ name }) => name).join(', ')),
          ...told(day.fee, course.fee),
          ...told(day.deposit, course.deposit),
          ...told(day.release, course.release),
        ]}
      />
      <Notice tone="warn">{day.privately}</Notice>
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
  const { asking, teaching } = useWords();
  const { form } = teaching;
  return (
    <Form action={action} csrf={formToken} formKey={formKey} values={answers} errors={problems}>
      <TextField name="name" label={form.name} autocomplete="name" />
      <RadioGroup
        name="reachBy"
        label={form.reachBy}
        options={[
          { value: 'email', label: asking.you.ways.email },
          { value: 'telephone', label: asking.you.ways.telephone },
          { value: 'letter', label: asking.you.ways.letter },
        ]}
      />
      <TextField name="email" label={form.email} type="email" autocomplete="email" optional />
      <TextField name="telephone" label={form.telephone} type="tel" autocomplete="tel" optional />
      <TextArea name="postalAddress" label={form.post} rows={3} optional />
      {[...Array(rows).keys()].map((at) => (
        <Fieldset
          key={at}
          legend={rows === 1 ? form.who : form.student(at + 1)}
          hint={at === 0 ? form.first : undefined}
        >
          <TextField name={`students/${at}/name`} label={form.nameOf} optional={at === 0} />
          <SelectField
            name={`students/${at}/experience`}
            label={form.before}
            empty={null}
            options={EXPERIENCES.map((value) => ({ value, label: teaching.experience[value] }))}
          />
          <SelectField
            name={`students/${at}/plateSizeId`}
            label={form.size}
            hint={form.sizeHint}
            empty={form.sizeOfDay}
            options={sizes.map(({ id, name }) => ({ value: id, label: name }))}
            optional
          />
          <TextField name={`students/${at}/brings`} label={form.brings} optional />
          {at > 0 && (
            <CheckboxGroup
              name={`students/${at}/out`}
              label={form.notComing}
              options={[{ value: 'yes', label: form.takeOut }]}
              optional
            />
          )}
        </Fieldset>
      ))}
      {rows < MOST_STUDENTS && (
        <p>
          <Button kind="quiet" name="more" value="student">
            {form.add}
          </Button>
        </p>
      )}
      {children}
      <CheckboxGroup
        name="oldEnough"
        label={form.age}
        options={[{ value: 'yes', label: form.oldEnough(course.leastAge) }]}
      />
      <TextArea name="anything" label={form.anything} optional />
      <Button>{form.send}</Button>
    </Form>
  );
}
