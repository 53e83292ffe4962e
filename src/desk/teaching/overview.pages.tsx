// Teaching at the owner's desk: the days, who asks to learn one to one, the kinds of day, the wording of safety.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, TextArea } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Template } from '../../teaching/teaching.schemas.js';
import type { TeachingViews } from '../../teaching/views.service.js';
import { EXPERIENCE_WORDS, SESSION_WORDS, SIGN_UP_WORDS, whenInWords } from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { BY_HAND_DONE, UndoForThem } from './by-hand.pages.js';
import { StartFields } from './start-fields.pages.js';

type All = Awaited<ReturnType<TeachingViews['all']>>;

export const TEACHING_DONE = new Map<unknown, Notice>([
  ['template', { tone: 'good', text: 'The kind of day is saved.' }],
  ['safety', { tone: 'good', text: 'The wording is saved. Who agreed to another one is asked again.' }],
  ['approved', { tone: 'good', text: 'The day is given, and they are told.' }],
  ...BY_HAND_DONE,
  ['declined', { tone: 'good', text: 'They are told.' }],
]);

interface OverviewProps {
  visit: StaffVisit;
  all: All;
  notice?: Notice | undefined;
  /** The form that was sent, by its name, with what was typed and what is wrong. */
  sent?: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function TeachingOverviewPage({ visit, all, notice, sent }: OverviewProps) {
  const base = `/s/${visit.studio.slug}/desk/teaching`;
  const owner = visit.account.role === 'owner';
  const form = (name: string) => ({
    csrf: visit.formToken,
    ...(sent?.form === name ? { values: sent.values, errors: sent.errors } : {}),
  });
  const kinds = all.templates.filter((one) => !one.archived);
  return (
    <DeskPage visit={visit} at="/teaching" title="Teaching" notice={notice} errors={sent?.errors} wide>
      <Table
        caption="Teaching days"
        columns={[
          { head: 'Day' },
          { head: 'What' },
          { head: 'State' },
          { head: 'Places taken', figures: true },
          { head: 'Waiting', figures: true },
          { head: 'Decide by' },
        ]}
        rows={all.days.map(({ session, place }) => [
          <a key={session.id} href={`${base}/${session.id}`}>
            {whenInWords(place)}
          </a>,
          session.course.name,
          SESSION_WORDS[session.state],
          `${session.taken} of ${session.places}`,
          String(all.waiting.filter(({ sessionId }) => sessionId === session.id).length),
          session.taken >= session.least ? 'enough people' : dayInWords(session.decideOn),
        ])}
        empty="No day yet."
      />
      {owner && <Requested {...{ all, base, form }} />}
      {owner &&
        all.undoable.map(({ signUp, contact }) => (
          <Card key={signUp.id} title={`${contact.name}: ${SIGN_UP_WORDS[signUp.state]}`}>
            <UndoForThem visit={visit} signUp={signUp} name={contact.name} />
          </Card>
        ))}
      {owner && kinds.length > 0 && <NewDay {...{ kinds, base, form }} />}
      {owner && <Kinds kinds={kinds} base={base} />}
      {owner && <Safety safety={all.safety} {...{ base, form }} />}
    </DeskPage>
  );
}

/** What a form of the page is given: its token, and what was typed and is wrong where it was this one. */
type FormOf = (name: string) => {
  csrf: string;
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
};

/** Who asks to learn one to one, each with a yes and a no. */
function Requested({ all, base, form }: { all: All; base: string; form: FormOf }) {
  if (all.requested.length === 0) return null;
  return (
    <>
      <h2 id="asked">They ask to learn one to one</h2>
      {all.requested.map(({ signUp, contact, students }, at) => (
        <Card key={signUp.id} title={contact.name}>
          <p>
            {all.templates.find(({ id }) => id === signUp.templateId)?.course.name}
            {signUp.wantedOn && `, on ${dayInWords(signUp.wantedOn)}`}:{' '}
            {counted(students.length, 'person', 'people')}.
          </p>
          <ul>
            {students.map(({ id, name, experience, brings }) => (
              <li key={id}>
                {name}: {EXPERIENCE_WORDS[experience]}
                {brings !== '' && `; brings ${brings}`}
              </li>
            ))}
          </ul>
          {signUp.anything !== '' && <p>{signUp.anything}</p>}
          <Form
            action={`${base}/sign-ups/${signUp.id}/approve`}
            {...form(`approve ${signUp.id}`)}
            label={`Give ${contact.name} a day`}
          >
            <StartFields
              at={`${at}/`}
              day={signUp.wantedOn ?? undefined}
              form={form(`approve ${signUp.id}`)}
            />
            <Button kind="quiet">Give this day</Button>
          </Form>
          <Form
            action={`${base}/sign-ups/${signUp.id}/decline`}
            {...form(`decline ${signUp.id}`)}
            label={`Say no to ${contact.name}`}
          >
            <TextArea name={`${at}/message`} label="A word to them" rows={2} />
            <Button kind="danger">Say no</Button>
          </Form>
        </Card>
      ))}
    </>
  );
}

function NewDay({ kinds, base, form }: { kinds: Template[]; base: string; form: FormOf }) {
  return (
    <Card title="A new day">
      <Form action={`${base}/days`} {...form('make')} label="A new day">
        <SelectField
          name="templateId"
          label="What"
          empty={null}
          options={kinds.map(({ id, course }) => ({ value: id, label: course.name }))}
        />
        <StartFields form={form('make')} />
        <Button>Make a draft</Button>
      </Form>
    </Card>
  );
}

function Kinds({ kinds, base }: { kinds: Template[]; base: string }) {
  return (
    <Card title="Kinds of teaching day">
      {kinds.map(({ id, course }) => (
        <p class="alone" key={id}>
          <a href={`${base}/templates/${id}`}>{course.name}</a>
        </p>
      ))}
      <p class="alone">
        <a href={`${base}/templates/new`}>A new kind of day</a>
      </p>
    </Card>
  );
}

interface SafetyProps {
  safety: All['safety'];
  base: string;
  form: FormOf;
}

function Safety({ safety, base, form }: SafetyProps) {
  const own = form('safety');
  const shown = { wording: safety.wording };
  return (
    <Card title="How we work safely">
      <p>
        Every student reads this and agrees to it. It is version {safety.version}; a change makes a new one,
        to which everybody agrees anew.
      </p>
      <Form
        {...own}
        action={`${base}/safety`}
        shown={shown}
        values={own.values ?? shown}
        label="How we work safely"
      >
        <TextArea name="wording" label="One rule a line" rows={10} />
        <Button kind="quiet">Save as a new wording</Button>
      </Form>
    </Card>
  );
}
