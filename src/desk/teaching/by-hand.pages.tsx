// Signing somebody up who is on the telephone: one short form. And noting what somebody said of their own sign-up.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { EXPERIENCES } from '../../teaching/estimate.calc.js';
import type { SignUp } from '../../teaching/teaching.schemas.js';
import { leaving, type SignUpState } from '../../teaching/states.calc.js';
import type { DayView } from '../../teaching/day-views.schemas.js';
import { EXPERIENCE_WORDS, whenInWords } from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';

interface ByHandProps {
  visit: StaffVisit;
  day: DayView;
  formKey: string;
  answers: Record<string, unknown>;
  problems?: FieldProblem[];
  notice?: Notice | undefined;
}

export function ByHandPage({ visit, day, formKey, answers, problems = [], notice }: ByHandProps) {
  const { session, place } = day;
  const path = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  const { leastAge } = session.course;
  return (
    <DeskPage visit={visit} at="/teaching" title="Somebody telephones" errors={problems} notice={notice}>
      <p class="lead">
        {session.course.name}, {whenInWords(place)}. {session.taken} of {session.places} places taken.
      </p>
      <Form
        action={`${path}/sign-up`}
        csrf={visit.formToken}
        formKey={formKey}
        values={answers}
        errors={problems}
      >
        <TextField name="name" label="Name" />
        <TextField name="telephone" label="Telephone number" type="tel" optional />
        <TextArea
          name="postalAddress"
          label="Address for letters"
          hint="Where there is no number."
          rows={2}
          optional
        />
        <TextArea
          name="students"
          label="Who learns?"
          hint="One name a line. Empty: it is them."
          rows={3}
          optional
        />
        <SelectField
          name="experience"
          label="What have they done before?"
          empty={null}
          options={EXPERIENCES.map((value) => ({ value, label: EXPERIENCE_WORDS[value] }))}
        />
        <TextArea name="anything" label="Anything to know" rows={2} optional />
        {leastAge > 0 && (
          <CheckboxGroup
            name="oldEnough"
            label="Age"
            options={[{ value: 'yes', label: `I asked: everybody is ${leastAge} or older` }]}
          />
        )}
        {leastAge === 0 && <input type="hidden" name="oldEnough" value="yes" />}
        <CheckboxGroup
          name="orWait"
          label="If there are not so many places"
          options={[{ value: 'yes', label: 'Put them on the waiting list' }]}
          optional
        />
        <Button>Sign them up</Button>
      </Form>
      <p class="small">
        Sizes, whom to ring in an emergency, and that they agree to work safely: afterwards the day leads to
        their own page, to fill it in with them.
      </p>
      <p class="alone">
        <a href={path}>Back to the day</a>
      </p>
    </DeskPage>
  );
}

export const BY_HAND_DONE: [string, Notice][] = [
  ['signed-up', { tone: 'good', text: 'They are signed up, or on the list, as it stands below.' }],
  ['accept', { tone: 'good', text: 'Noted: the place is theirs.' }],
  ['refuse', { tone: 'good', text: 'Noted. They keep their turn on the waiting list.' }],
  ['leave', { tone: 'good', text: 'Noted: it is given up.' }],
  ['undone', { tone: 'good', text: 'It is undone, and nobody was told.' }],
  [
    'not-undone',
    { tone: 'warn', text: 'It cannot be undone any more: they were told, or something happened since.' },
  ],
  ['no-place', { tone: 'warn', text: 'It cannot be undone: the place or what it needs is gone meanwhile.' }],
  ['ran-out', { tone: 'warn', text: 'The offer had run out, and the place is open to others again.' }],
  ['already', { tone: 'warn', text: 'This was answered or given up in the meantime.' }],
];

export const takesSignUps = ({ state, private: alone }: DayView['session']): boolean =>
  !alone && (state === 'open' || state === 'full');

export const ByHandLink = ({ own }: { own: string }) => (
  <p class="alone">
    <a href={`${own}/sign-up`}>Sign up somebody who telephones</a>
  </p>
);

const UNDO_WORDS = {
  requested: 'Undo puts the wish back where it was.',
  waiting: 'Undo puts them back on the list, with their turn.',
  signed: 'Undo gives them their place back.',
  withdrawn: 'Undo takes the sign-up away again.',
};

/** What the desk did last with a sign-up, undone with one tap while nobody was told. */
export function UndoForThem({
  visit,
  signUp,
  name,
}: {
  visit: StaffVisit;
  signUp: Pick<SignUp, 'id' | 'undoTo'>;
  name: string;
}) {
  if (!signUp.undoTo) return null;
  return (
    <Form
      action={`/s/${visit.studio.slug}/desk/teaching/sign-ups/${signUp.id}/undo`}
      csrf={visit.formToken}
      label={`Undo for ${name}`}
    >
      <p class="small">{UNDO_WORDS[signUp.undoTo]} It can be undone until they are told.</p>
      <Button kind="quiet">Undo</Button>
    </Form>
  );
}

interface AnswerProps {
  visit: StaffVisit;
  signUp: { id: string; state: SignUpState };
  name: string;
}

/** What somebody said on the telephone: their answer to an offer, or that they do not come. */
export function AnswerForThem({ visit, signUp, name }: AnswerProps) {
  const event = leaving(signUp.state);
  if (!event) return null;
  const path = `/s/${visit.studio.slug}/desk/teaching/sign-ups/${signUp.id}`;
  const form = { action: `${path}/answer`, csrf: visit.formToken };
  return (
    <>
      <Form action={`${path}/page`} csrf={visit.formToken} label={`The page of ${name}`}>
        <Button kind="quiet">Fill in their page with them</Button>
      </Form>
      {signUp.state === 'offered' && (
        <Form {...form} label={`The answer of ${name}`}>
          <Button kind="quiet" name="answer" value="accept">
            {name} takes the place
          </Button>
          <Button kind="quiet" name="answer" value="refuse">
            No, but stays on the list
          </Button>
        </Form>
      )}
      <details>
        <summary>{event === 'release' ? `${name} cannot come` : `${name} no longer wants to`}</summary>
        <Form {...form} label={`${name} gives it up`}>
          <p>
            {event === 'release'
              ? 'The place is free for others, and so is what is set aside. They cannot take it back if somebody else takes it.'
              : 'It is withdrawn.'}
          </p>
          <Button kind="danger" name="answer" value="leave">
            {event === 'release' ? 'Give the place back' : 'Withdraw'}
          </Button>
        </Form>
      </details>
    </>
  );
}
