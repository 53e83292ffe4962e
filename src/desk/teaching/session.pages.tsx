// One teaching day at the desk: who comes, what it takes of the shelf, and the owner's acts on it.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import { hasAgreed } from '../../teaching/safety.calc.js';
import { hasPlaces, leaving, nextOfSession, stands } from '../../teaching/states.calc.js';
import type { SignUpView, TeachingViews } from '../../teaching/views.service.js';
import {
  DEPOSIT_WORDS,
  EXPERIENCE_WORDS,
  partsWithTimes,
  SESSION_WORDS,
  SIGN_UP_WORDS,
  whenInWords,
} from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { AnswerForThem, BY_HAND_DONE, ByHandLink, takesSignUps, UndoForThem } from './by-hand.pages.js';
import { OnTheShelf } from './day-shelf.pages.js';
import { StartFields } from './start-fields.pages.js';

type Found = Awaited<ReturnType<TeachingViews['session']>>;

export const SESSION_DONE = new Map<unknown, Notice>([
  [
    'made',
    { tone: 'good', text: 'The day is a draft, and holds the room. Nobody sees it until you open it.' },
  ],
  ['open', { tone: 'good', text: 'People can sign up now.' }],
  ['close', { tone: 'good', text: 'It is a draft again.' }],
  ['call-off', { tone: 'good', text: 'The day is called off, and everybody is told.' }],
  ['go-ahead', { tone: 'good', text: 'It goes ahead. You are not asked again.' }],
  ['end', { tone: 'good', text: 'The day is held. Whom to ring in an emergency is erased.' }],
  ['changed', { tone: 'good', text: 'It is changed, and whom it touches is told.' }],
  ['offered', { tone: 'good', text: 'The places are offered, and held until the offer runs out.' }],
  ...BY_HAND_DONE,
  ['deposit', { tone: 'good', text: 'The deposit is noted.' }],
]);

interface SessionProps {
  visit: StaffVisit;
  found: Found;
  notice?: Notice | undefined;
  sent?: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function SessionPage({ visit, found, notice, sent }: SessionProps) {
  const { session, place, signUps, shelf, sizes } = found;
  const base = `/s/${visit.studio.slug}/desk/teaching`;
  const own = `${base}/${session.id}`;
  const owner = visit.account.role === 'owner';
  const form = (name: string) => ({
    csrf: visit.formToken,
    ...(sent?.form === name ? { values: sent.values, errors: sent.errors } : {}),
  });
  const may = (event: Parameters<typeof nextOfSession>[1]) => nextOfSession(session.state, event) !== null;
  return (
    <DeskPage
      visit={visit}
      at="/teaching"
      title={`${session.course.name}, ${dayInWords(place.wallStart)}`}
      notice={notice}
      errors={sent?.errors}
      wide
    >
      <p class="lead">
        {whenInWords(place)} <Tag>{SESSION_WORDS[session.state]}</Tag>
      </p>
      <Ways {...{ own, owner, begun: found.begun, session }} />
      <TheDay session={session} place={place} />
      <OnTheShelf {...{ shelf, sizes, session }} left={session.places - session.taken} />
      {owner && may('open') && (
        <Form action={`${own}/open`} csrf={visit.formToken}>
          <Button>Open for sign-up</Button>
        </Form>
      )}
      <p>
        <a href={`${own}/turns`}>The turns of this day</a>: whose plate is where, and when.
      </p>
      <h2>Who comes</h2>
      {owner && takesSignUps(session) && <ByHandLink own={own} />}
      {signUps.length === 0 && <p class="empty">Nobody has signed up yet.</p>}
      {signUps.map((view) => (
        <div key={view.signUp.id} id={`sign-up-${view.signUp.id}`}>
          <OneSignUp {...{ view, base, visit, owner, safety: found.safety }} />
        </div>
      ))}
      {owner && <Acts {...{ found, own, form, sent }} />}
    </DeskPage>
  );
}

/** The other pages of a day. */
function Ways({
  own,
  owner,
  begun,
  session,
}: Pick<Found, 'begun' | 'session'> & { own: string; owner: boolean }) {
  return (
    <p class="actions">
      <a href={`${own}/sheet`}>The sheet to print</a>
      {owner && stands(session.state) && <a href={`${own}/briefing`}>Help and names for the sheet</a>}
      {begun && session.state !== 'draft' && session.state !== 'called_off' && (
        <a href={`${own}/after`}>What the day came to</a>
      )}
    </p>
  );
}

const typed = (sent: SessionProps['sent'], form: string, known: number) =>
  sent?.form === form ? undefined : known;

interface OneProps {
  view: SignUpView;
  base: string;
  visit: StaffVisit;
  owner: boolean;
  safety: Found['safety'];
}

function OneSignUp({ view: { signUp, contact, students }, base, visit, owner, safety }: OneProps) {
  const path = `${base}/sign-ups/${signUp.id}`;
  const here = hasPlaces(signUp.state);
  return (
    <Card title={`${contact.name}: ${SIGN_UP_WORDS[signUp.state]}`}>
      <ul>
        {students.map((one) => (
          <li key={one.id}>
            {one.name}: {EXPERIENCE_WORDS[one.experience]}
            {Object.entries(one.gear)
              .filter(([, size]) => size !== '')
              .map(([name, size]) => `; ${name} ${size}`)}
            {one.brings !== '' && `; brings ${one.brings}`}
            {one.access !== '' && `; what helps: ${one.access}`}{' '}
            {here && (
              <Tag tone={hasAgreed(one, safety) ? 'good' : 'warn'}>
                {hasAgreed(one, safety)
                  ? 'has agreed to safety'
                  : 'not yet at the bench: has not agreed to safety'}
              </Tag>
            )}
            {owner && here && one.emergency.name !== '' && (
              <details>
                <summary>Whom to ring</summary>
                <p>
                  {one.emergency.name}, {one.emergency.telephone}
                </p>
              </details>
            )}
          </li>
        ))}
      </ul>
      {signUp.anything !== '' && <p>{signUp.anything}</p>}
      {owner && (
        <p>
          {counted(students.length, 'person', 'people')}; {contact.email || contact.telephone}. Deposit:{' '}
          {DEPOSIT_WORDS[signUp.deposit]}.{' '}
          <a href={`${path}/messages`}>
            Messages<span class="unseen"> to {contact.name}</span>
          </a>
        </p>
      )}
      {owner && <UndoForThem visit={visit} signUp={signUp} name={contact.name} />}
      {owner && <AnswerForThem visit={visit} signUp={signUp} name={contact.name} />}
      {owner && signUp.state === 'waiting' && (
        <Form action={`${path}/offer`} csrf={visit.formToken} label={`Offer ${contact.name} places`}>
          <Button kind="quiet">Offer {contact.name} places</Button>
        </Form>
      )}
      {owner && here && (
        <Form action={`${path}/deposit`} csrf={visit.formToken} label={`Deposit of ${contact.name}`}>
          <Button kind="quiet" name="deposit" value={signUp.deposit === 'received' ? 'due' : 'received'}>
            {signUp.deposit === 'received' ? 'The deposit is still due' : 'The deposit is received'}
          </Button>
        </Form>
      )}
    </Card>
  );
}

const leastInWords = ({ least, taken, decideOn, goesAheadAt }: Found['session']): string =>
  goesAheadAt
    ? `${least}; you decided that it goes ahead`
    : `${least}, ${taken >= least ? 'reached' : 'not reached'}; decide by ${dayInWords(decideOn)}`;

function TheDay({ session, place }: Pick<Found, 'session' | 'place'>) {
  return (
    <Card title="The day">
      <Facts
        items={[
          { term: 'Places', detail: `${session.taken} of ${session.places} taken` },
          { term: 'Least number', detail: leastInWords(session) },
          { term: 'Second adult', detail: session.secondAdult || 'not named' },
        ]}
      />
      <ol>
        {partsWithTimes(session.course.parts, place.wallStart).map(({ at, title, where }) => (
          <li key={`${at} ${title}`}>
            {at} {title} ({where})
          </li>
        ))}
      </ol>
    </Card>
  );
}

interface ActsProps {
  found: Found;
  /** The path of the day's page. */
  own: string;
  form: (name: string) => { csrf: string; values?: Record<string, unknown>; errors?: FieldProblem[] };
  sent: SessionProps['sent'];
}

/** What the owner may do with the day, beside opening it. */
function Acts({ found, own, form, sent }: ActsProps) {
  const { session, signUps, begun } = found;
  const may = (event: Parameters<typeof nextOfSession>[1]) => nextOfSession(session.state, event) !== null;
  const empty = !signUps.some(({ signUp }) => leaving(signUp.state));
  return (
    <>
      {stands(session.state) && <ChangeCard {...{ found, own, form, sent }} />}
      <Card title="The same once more">
        <Form action={`${own}/copy`} {...form('copy')} label="The same once more">
          <StartFields at="copy/" form={form('copy')} />
          <Button kind="quiet">Copy as a draft</Button>
        </Form>
      </Card>
      {may('end') && !begun && !session.goesAheadAt && (
        <Form action={`${own}/go-ahead`} {...form('go-ahead')}>
          <Button kind="quiet">It goes ahead, whoever comes</Button>
        </Form>
      )}
      {may('close') && empty && (
        <Form action={`${own}/close`} {...form('close')}>
          <Button kind="quiet">Back to a draft</Button>
        </Form>
      )}
      {begun && may('end') && (
        <Form action={`${own}/end`} {...form('end')}>
          <Button kind="quiet">The day was held</Button>
        </Form>
      )}
      {may('call_off') && (
        <Card title="Call the day off">
          <Form action={`${own}/call-off`} {...form('call-off')} label="Call the day off">
            <TextArea name="message" label="A word to everybody" rows={2} optional />
            <Button kind="danger">Call it off, and tell them</Button>
          </Form>
        </Card>
      )}
    </>
  );
}

function ChangeCard({ found: { session, place }, own, form, sent }: ActsProps) {
  return (
    <Card title="Change this day">
      <p>You see whom it touches before anything is changed.</p>
      <Form action={`${own}/change`} {...form('change')} label="Change this day">
        <StartFields
          day={place.wallStart}
          time={sent?.form === 'change' ? undefined : timeInWords(place.wallStart)}
          form={form('change')}
        />
        <NumberField name="places" label="Places" value={typed(sent, 'change', session.places)} />
        <NumberField name="least" label="Least number" value={typed(sent, 'change', session.least)} />
        <DateField name="decideOn" label="Decide by" value={session.decideOn} />
        <TextField
          name="secondAdult"
          label="Second trained adult"
          value={sent?.form === 'change' ? undefined : session.secondAdult}
          optional
        />
        <CheckboxGroup
          name="renew"
          label="What is taught"
          options={[{ value: 'yes', label: 'Teach it as the kind of day says now' }]}
          optional
        />
        <Button kind="quiet">Show what this changes</Button>
      </Form>
    </Card>
  );
}
