// The page of who signed up: where it stands, the plan of the day, what to bring, and for each student what the day
// needs to know. Whom to ring in an emergency is never shown back.
import type { ComponentChildren } from 'preact';
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { dayInWords } from '../lib/words.js';
import { JourneyCard } from '../platform/html/kit/journey.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup } from '../platform/html/kit/choices.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, TextArea, TextField } from '../platform/html/kit/form.js';
import { RemindersCard } from '../platform/html/kit/reminders.js';
import { Notice, type Tone } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { OwnAfter } from './after-views.service.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { contactJourneyTold } from '../travel/told.calc.js';
import { hasAgreed, type SafetyWording } from './safety.calc.js';
import { YourCalendar } from './own-calendar.pages.js';
import { AfterTheDay } from './student-after.pages.js';
import { TheDay } from './student-day.pages.js';
import { leaving, type SignUpState } from './states.calc.js';
import type { Student } from './teaching.schemas.js';
import type { OwnView } from './views.service.js';

export const STUDENT_DONE = new Map<unknown, { tone: Tone; text: string }>([
  [
    'signed',
    { tone: 'good', text: 'It has reached the studio. Please keep the address of this page: it is yours.' },
  ],
  ['reminders', { tone: 'good', text: 'Thank you, that is noted.' }],
  ['told', { tone: 'good', text: 'Thank you, that is noted.' }],
  ['journey', { tone: 'good', text: 'Thank you, that is noted. See below when to leave.' }],
  ['accepted', { tone: 'good', text: 'The place is yours.' }],
  ['refused', { tone: 'good', text: 'Thank you. You keep your turn on the waiting list.' }],
  ['left', { tone: 'good', text: 'It is given up, and a message about it is on its way.' }],
  ['ran-out', { tone: 'warn', text: 'This offer had run out, and the place is open to others again.' }],
  ['already', { tone: 'warn', text: 'This was answered or given up in the meantime.' }],
]);

const LEAD: Record<SignUpState, string> = {
  requested: 'The studio has your wish and will answer. Nothing is fixed yet.',
  waiting: 'You are on the waiting list of this day. When places come free you are asked.',
  offered: 'Places have come free. They are held for you until the offer runs out.',
  signed: 'You have a place. We look forward to it.',
  attended: 'Thank you for coming.',
  did_not_come: 'This day is past.',
  declined: 'The studio could not give you a day.',
  withdrawn: 'You have withdrawn this. You are welcome to sign up again.',
  lapsed: 'Offers ran out without an answer, so no more are made. You are welcome to sign up again.',
  released: 'You have given your place back. You are welcome to sign up again.',
  called_off: 'The studio had to call this day off.',
};

interface StudentProps {
  studio: Studio;
  view: OwnView;
  safety: SafetyWording;
  sizes: PlateSize[];
  /** What the day came to; null until it is written down. */
  after: OwnAfter | null;
  begun: boolean;
  /** The address of their calendar; null before they have had a place. */
  feedUrl: string | null;
  formToken: string;
  path: string;
  /** The own turns, where they are kept. */
  turns?: ComponentChildren;
  notice?: { tone: Tone; text: string } | undefined;
  /** What was sent of one student, with what is wrong. */
  sent?: { studentId: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function StudentPage(props: StudentProps) {
  const { studio, view, safety, sizes, begun, feedUrl, formToken, path, sent } = props;
  const { signUp, course, day, offer, students } = view;
  const over = signUp.state === 'offered' && !offer;
  const state: SignUpState = over ? 'waiting' : signUp.state;
  const event = begun ? null : leaving(state);
  const until = offer && day && instantToWall(day.place.zone, offer.expiresAt);
  return (
    <Page
      title={course.name}
      {...studioFrame(studio)}
      notice={props.notice}
      errors={sent?.errors}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">{LEAD[state]}</p>
      {signUp.message !== '' && <Notice tone="note">{signUp.message}</Notice>}
      {until && <TheOffer until={until} path={path} formToken={formToken} />}
      {props.after && <AfterTheDay after={props.after} sizes={sizes} />}
      <TheDay {...{ view, studio, sizes }} known={event === null} />
      {feedUrl !== null && state === 'signed' && !begun && <YourCalendar {...{ feedUrl, path }} />}
      {state === 'signed' && !begun && (
        <RemindersCard
          stopped={view.contact.remindersStoppedAt !== null}
          action={`${path}/reminders`}
          csrf={formToken}
        />
      )}
      {event !== null && (
        <JourneyCard
          address={studio.address}
          told={contactJourneyTold(view.contact, studio, day?.place ?? null)}
          href={`${path}/journey`}
        />
      )}
      {props.turns}
      {event !== null &&
        students.map((student, at) => (
          <AboutStudent
            key={student.id}
            {...{ student, safety, formToken, path, at }}
            gear={course.gear.filter(({ sized }) => sized).map(({ name }) => name)}
            sent={sent?.studentId === student.id ? sent : undefined}
          />
        ))}
      {event !== null && <Leaving release={event === 'release'} path={path} formToken={formToken} />}
      <p class="alone">
        <a href={path.replace('/student/', '/your-data/')}>Your data: take it with you, or have it erased</a>
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
  return (
    <Card title="Your answer, please">
      <p>
        Held for you until {dayInWords(until)}, {timeInWords(until)}.
      </p>
      <Form action={`${path}/accept`} csrf={formToken}>
        <Button>Take the place</Button>
      </Form>
      <Form action={`${path}/refuse`} csrf={formToken}>
        <Button kind="quiet">No, but stay on the list</Button>
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
  return (
    <Card title={release ? 'You cannot come?' : 'You no longer want to?'}>
      <p>
        {release
          ? 'Give the place back as soon as you know: someone else may be waiting for it.'
          : 'Withdraw; the studio is told at once.'}
      </p>
      <Form action={`${path}/leave`} csrf={formToken}>
        <Button kind="danger">{release ? 'Give my place back' : 'Withdraw'}</Button>
      </Form>
    </Card>
  );
}

interface AboutProps {
  student: Student;
  /** Which of the students: the names of its fields begin with it. */
  at: number;
  safety: SafetyWording;
  gear: string[];
  formToken: string;
  path: string;
  sent: StudentProps['sent'];
}

/** What the day needs to know of one student. */
function AboutStudent({ student, at, safety, gear, formToken, path, sent }: AboutProps) {
  const agreed = hasAgreed(student, safety);
  const known = student.emergency.name !== '' || student.emergency.telephone !== '';
  const hint = known
    ? 'We have somebody to ring. Fill this in only to change it.'
    : 'Private, for the day only; it is erased after it.';
  return (
    <Card title={`About ${student.name}`}>
      <Form
        action={`${path}/students/${student.id}`}
        csrf={formToken}
        values={
          sent?.values ??
          Object.fromEntries(Object.entries(student.gear).map(([k, v]) => [`${at}/gear/${k}`, v]))
        }
        errors={sent?.errors}
        label={`About ${student.name}`}
      >
        {gear.map((name) => (
          <TextField key={name} name={`${at}/gear/${name}`} label={`Size: ${name}`} width="short" optional />
        ))}
        <TextArea
          name={`${at}/access`}
          label="What would help you here?"
          hint={
            student.access === ''
              ? 'A stool, a step, hearing. No matters of health: speak to the teacher about those.'
              : 'You have told us. Fill this in only to change it.'
          }
          rows={2}
          optional
        />
        <TextField
          name={`${at}/emergencyName`}
          label="Whom do we ring in an emergency?"
          hint={hint}
          optional
        />
        <TextField name={`${at}/emergencyTelephone`} label="Their telephone number" type="tel" optional />
        <h3>How we work safely</h3>
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
            <strong>Read and agreed to.</strong>
          </p>
        ) : (
          <>
            <p>Without this nobody stands at the bench.</p>
            <CheckboxGroup
              name={`${at}/agreesTo`}
              label="Safety"
              options={[
                { value: String(safety.version), label: `${student.name} has read this and agrees to it` },
              ]}
              optional
            />
          </>
        )}
        <Button kind="quiet">Save</Button>
      </Form>
    </Card>
  );
}
