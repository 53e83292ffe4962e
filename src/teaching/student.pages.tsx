// The page of who signed up: where it stands, the plan of the day, what to bring, and for each student what the day
// needs to know. Whom to ring in an emergency is never shown back.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import { JourneyCard } from '../platform/html/kit/journey.js';
import { AskedTwice } from '../platform/html/kit/asked-twice.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup } from '../platform/html/kit/choices.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { LanguageCard } from '../platform/html/kit/language.js';
import { RemindersCard } from '../platform/html/kit/reminders.js';
import { Notice, type Tone } from '../platform/html/kit/notices.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { LetterToCome } from '../people/letters-to-come.schemas.js';
import { lettersInWords } from '../people/words.calc.js';
import type { FieldProblem } from '../platform/problems.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { OwnAfter } from './after-views.service.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { contactJourneyTold } from '../travel/told.calc.js';
import type { Words } from '../words/words-for.js';
import { hasAgreed, type SafetyWording } from './safety.calc.js';
import { sizesShown } from './sign-up-form.calc.js';
import { YourCalendar } from './own-calendar.pages.js';
import { AfterTheDay } from './student-after.pages.js';
import { TheDay } from './student-day.pages.js';
import { OwnTurns, type OwnTurnsProps } from './student-turns.pages.js';
import { leaving, type SignUpState } from './states.calc.js';
import type { Student } from './teaching.schemas.js';
import type { OwnView } from './views.service.js';

/** What was just done, or came too late, by the word that the address has for it; anything may stand there. */
function doneInWords(done: unknown, { student }: Words): { tone: Tone; text: string } | undefined {
  const said = (all: Record<string, string>, tone: Tone) =>
    typeof done === 'string' && Object.hasOwn(all, done) ? { tone, text: all[done] ?? '' } : undefined;
  return said(student.done, 'good') ?? said(student.notDone, 'warn');
}

interface StudentProps {
  studio: Studio;
  view: OwnView;
  safety: SafetyWording;
  sizes: PlateSize[];
  /** What the day came to; null until it is written down. */
  after: OwnAfter | null;
  begun: boolean;
  /** What they are still to be reminded of; null where that is not known, or not told. */
  letters: LetterToCome[] | null;
  /** The address of their calendar; null before they have had a place. */
  feedUrl: string | null;
  formToken: string;
  path: string;
  /** The own turns, where they are kept. */
  turns: Omit<OwnTurnsProps, 'students'> | null;
  /** What was just done, from the address. */
  done?: unknown;
  spoken: Spoken;
  /** What was sent of the students, with what is wrong. */
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function StudentPage(props: StudentProps) {
  const { studio, view, sizes, begun, feedUrl, formToken, path, sent, spoken } = props;
  const { words } = spoken;
  const { signUp, course, day, offer, students } = view;
  const over = signUp.state === 'offered' && !offer;
  const state: SignUpState = over ? 'waiting' : signUp.state;
  const event = begun ? null : leaving(state);
  const until = offer && day && instantToWall(day.place.zone, offer.expiresAt);
  return (
    <Page
      title={course.name}
      {...studioFrame(studio)}
      spoken={spoken}
      notice={doneInWords(props.done, words)}
      errors={sent?.errors}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">{words.student.lead[state]}</p>
      {signUp.message !== '' && <Notice tone="note">{signUp.message}</Notice>}
      {until && <TheOffer until={until} path={path} formToken={formToken} />}
      {props.after && <AfterTheDay after={props.after} sizes={sizes} />}
      <TheDay {...{ view, studio, sizes }} known={event === null} />
      {feedUrl !== null && state === 'signed' && !begun && <YourCalendar {...{ feedUrl, path }} />}
      {state === 'signed' && !begun && (
        <RemindersCard
          stopped={view.contact.remindersStoppedAt !== null}
          toCome={lettersInWords(props.letters, 'teaching', words)}
          action={`${path}/reminders`}
          csrf={formToken}
        />
      )}
      {event !== null && (
        <JourneyCard
          address={studio.address}
          told={contactJourneyTold(view.contact, studio, day?.place ?? null, words)}
          href={`${path}/journey`}
        />
      )}
      {props.turns && <OwnTurns {...props.turns} students={students} />}
      {event !== null && <AboutStudents {...props} />}
      <LanguageCard language={view.contact.language} action={`${path}/language`} csrf={formToken} />
      {event !== null && <Leaving release={event === 'release'} path={path} formToken={formToken} />}
      <p class="alone">
        <a href={path.replace('/student/', '/your-data/')}>{words.place.yourData}</a>
      </p>
    </Page>
  );
}

interface OfferProps {
  until: Temporal.PlainDateTime;
  path: string;
  formToken: string;
}

function TheOffer({ until, path, formToken }: OfferProps) {
  const { dates, student } = useWords();
  const { offer } = student;
  return (
    <Card title={offer.title}>
      <p>{offer.held(dates.day(until), dates.time(until))}</p>
      <Form action={`${path}/accept`} csrf={formToken}>
        <Button>{offer.take}</Button>
      </Form>
      <Form action={`${path}/refuse`} csrf={formToken}>
        <Button kind="quiet">{offer.refuse}</Button>
      </Form>
    </Card>
  );
}

interface LeavingProps {
  /** There is a place to give back. */
  release: boolean;
  path: string;
  formToken: string;
}

function Leaving({ release, path, formToken }: LeavingProps) {
  const { student } = useWords();
  const words = release ? student.release : student.withdraw;
  return (
    <Card title={words.title}>
      <p>{words.says}</p>
      <AskedTwice {...words} action={`${path}/leave`} csrf={formToken} />
    </Card>
  );
}

/** What the day needs to know of all students: one form, so that nothing typed of one goes lost with another's. */
function AboutStudents({ view, safety, formToken, path, sent }: StudentProps) {
  const { students, course } = view;
  const shown = sizesShown(students);
  const { about } = useWords().student;
  return (
    <Form
      action={`${path}/students`}
      csrf={formToken}
      shown={shown}
      values={sent?.values ?? shown}
      errors={sent?.errors}
      label={about.title(students.map(({ name }) => name).join(', '))}
    >
      {students.map((student) => (
        <AboutStudent
          key={student.id}
          {...{ student, safety }}
          gear={course.gear.filter(({ sized }) => sized).map(({ name }) => name)}
        />
      ))}
      <p class="alone">
        <Button kind="quiet">{about.save}</Button>
      </p>
    </Form>
  );
}

interface AboutProps {
  student: Student;
  safety: SafetyWording;
  gear: string[];
}

/** What the day needs to know of one student; the names of its fields begin with their id. */
function AboutStudent({ student, safety, gear }: AboutProps) {
  const { id } = student;
  const agreed = hasAgreed(student, safety);
  const known = student.emergency.name !== '' || student.emergency.telephone !== '';
  const { about } = useWords().student;
  return (
    <Card title={about.title(student.name)}>
      {gear.map((name) => (
        <TextField key={name} name={`${id}/gear/${name}`} label={about.size(name)} width="short" optional />
      ))}
      <TextArea
        name={`${id}/access`}
        label={about.access}
        hint={student.access === '' ? about.accessHint : about.accessTold}
        rows={2}
        optional
      />
      <TextField
        name={`${id}/emergencyName`}
        label={about.emergency}
        hint={known ? about.emergencyTold : about.emergencyHint}
        optional
      />
      <TextField name={`${id}/emergencyTelephone`} label={about.telephone} type="tel" optional />
      <h3>{about.safety}</h3>
      <ul>
        {safety.wording
          .split('\n')
          .filter((line) => line.trim() !== '')
          .map((line) => (
            <li key={line}>{line}</li>
          ))}
      </ul>
      {agreed ? (
        <p>
          <strong>{about.agreed}</strong>
        </p>
      ) : (
        <>
          <p>{about.without}</p>
          <CheckboxGroup
            name={`${id}/agreesTo`}
            label={about.label}
            options={[{ value: String(safety.version), label: about.agrees(student.name) }]}
          />
        </>
      )}
    </Card>
  );
}
