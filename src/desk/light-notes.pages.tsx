// What the studio's own plates say about its light: a proposal for each set of plates made alike, the form to
// type a plate in, and the plates noted.
import type { StaffVisit } from '../accounts/visits.service.js';
import type { Notes } from '../daylight/daylight.service.js';
import { WEATHERS } from '../daylight/exposure.calc.js';
import type { Group } from '../daylight/notes.calc.js';
import { VERDICTS, type WrittenNote } from '../daylight/notes.schemas.js';
import { degreesInWords, WEATHER_WORDS } from '../daylight/words.calc.js';
import { counted, monthName, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, NumberField, TextField } from '../platform/html/kit/form.js';
import { Table } from '../platform/html/kit/table.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { DeskPage, type Notice } from './frame.pages.js';

const NOTES_SHOWN = 20;
const VERDICT_WORDS = { good: 'good', under: 'too thin: under-exposed', over: 'too dense: over-exposed' };

interface LightNotesPageProps {
  visit: StaffVisit;
  found: Notes;
  formKey: string;
  notice?: Notice | undefined;
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
}

export function LightNotesPage({ visit, found, formKey, notice, values, errors = [] }: LightNotesPageProps) {
  const { studio, notes, groups } = found;
  const action = `/s/${studio.slug}/desk/light/notes`;
  const enough = groups.filter(({ proposal }) => proposal.ok);
  return (
    <DeskPage visit={visit} title="Exposure notes" at="/light" notice={notice} errors={errors} wide>
      <p class="lead">
        Your reference is {studio.referenceSeconds} seconds under a clear sky with the sun{' '}
        {degreesInWords(studio.referenceAltitudeDegrees)} high. Your own plates tell whether that still holds.
      </p>
      {enough.map((group) => (
        <Proposed key={title(group)} group={group} visit={visit} studio={studio} />
      ))}
      <TooFew groups={groups.filter(({ proposal }) => !proposal.ok)} />
      <h2>Note a plate</h2>
      <Form
        action={action}
        csrf={visit.formToken}
        formKey={formKey}
        values={values ?? firstAnswers(notes[0])}
        errors={errors}
        label="Note a plate"
      >
        <NoteFields />
        <Button>Note this plate</Button>
      </Form>
      <Table
        caption={
          notes.length > NOTES_SHOWN ? `The latest ${NOTES_SHOWN} of ${notes.length} plates` : 'Plates noted'
        }
        columns={[
          { head: 'When' },
          { head: 'Seconds', figures: true },
          { head: 'Sky' },
          { head: 'With' },
          { head: 'Came out' },
          { head: 'A slip?' },
        ]}
        rows={notes.slice(0, NOTES_SHOWN).map((note) => noteRow(note, action, visit.formToken))}
        empty="No plate is noted yet."
      />
    </DeskPage>
  );
}

interface ProposedProps {
  group: Group;
  visit: StaffVisit;
  studio: Studio;
}

function Proposed({ group, visit, studio }: ProposedProps) {
  const { proposal, conditions } = group;
  if (!proposal.ok) return null;
  const proposed = toTenth(proposal.referenceSeconds);
  const same = proposed === toTenth(studio.referenceSeconds);
  const set = {
    do: 'light',
    windowKind: studio.windowKind,
    lightFloorDegrees: studio.lightFloorDegrees,
    referenceSeconds: proposed,
    referenceAltitudeDegrees: studio.referenceAltitudeDegrees,
    exposureCapSeconds: studio.exposureCapSeconds,
  };
  return (
    <Card title={title(group)}>
      <p>
        {counted(proposal.count, 'good plate')} say <strong>{proposed} seconds</strong>; half of them lie
        between {toTenth(proposal.spread.from)} and {toTenth(proposal.spread.to)}.
        {conditions.weather !== 'clear' &&
          ' They were not made under a clear sky, so this leans on a weather factor.'}
      </p>
      {same ? (
        <p>That is the reference you have.</p>
      ) : (
        <Form
          action={`/s/${studio.slug}/desk/settings/light/preview`}
          csrf={visit.formToken}
          label={`Take ${proposed} seconds`}
        >
          {Object.entries(set).map(([name, value]) => (
            <input key={name} type="hidden" name={name} value={String(value)} />
          ))}
          <Button kind="quiet">See what {proposed} seconds would change</Button>
        </Form>
      )}
      <Reckoned group={group} studio={studio} />
    </Card>
  );
}

function Reckoned({ group, studio }: { group: Group; studio: Studio }) {
  const { conditions, notes, under, over } = group;
  const left = [under > 0 ? `${under} too thin` : '', over > 0 ? `${over} too dense` : ''].filter(Boolean);
  return (
    <details>
      <summary>How was this reckoned?</summary>
      <p>
        Each good plate made with the same lens, framing, bottle and sky is reckoned over to the sun at{' '}
        {degreesInWords(studio.referenceAltitudeDegrees)}, to a clear sky, to f/{conditions.fNumber} and to
        its magnification of {conditions.magnification}: seconds go with the square of the f-number times (1 +
        magnification). The middle one of them is proposed, so that a single odd plate does not count.
        {left.length > 0 && ` Not counted: ${left.join(', ')}.`}
      </p>
      <ul>
        {notes.map(({ note, altitude, implied }) => (
          <li key={note.id}>
            {when(note)}: {note.seconds} s with the sun {degreesInWords(altitude)} high say {toTenth(implied)}{' '}
            s
          </li>
        ))}
      </ul>
    </details>
  );
}

function TooFew({ groups }: { groups: Group[] }) {
  if (groups.length === 0) return null;
  return (
    <>
      <p>Too few good plates made alike to propose from:</p>
      <ul>
        {groups.map((group) => (
          <li key={title(group)}>
            {title(group)}: {group.notes.length}
            {!group.proposal.ok && ` of ${group.proposal.needed}`}
          </li>
        ))}
      </ul>
    </>
  );
}

function NoteFields() {
  return (
    <>
      <DateField name="date" label="Day" />
      <TextField name="time" label="Time by the studio’s clock" hint="Like 14:20." width="short" />
      <NumberField name="seconds" label="Exposure" unit="seconds" decimal />
      <SelectField
        name="weather"
        label="Sky"
        options={WEATHERS.map((value) => ({ value, label: WEATHER_WORDS[value] }))}
      />
      <TextField name="lens" label="Lens" width="medium" />
      <NumberField name="fNumber" label="f-number" hint="As marked: for f/4 write 4." decimal />
      <TextField
        name="framing"
        label="Framing"
        hint="As you call it: head, half length, group."
        width="medium"
      />
      <NumberField
        name="magnification"
        label="Size on the plate over size in life"
        hint="A head 23 cm high that is 5 cm on the plate: 0.22. Leave it out if you never measure it."
        optional
        decimal
      />
      <TextField name="bottle" label="Bottle of collodion" hint="As it is labelled." width="medium" />
      <RadioGroup
        name="verdict"
        label="How did the plate come out?"
        options={VERDICTS.map((value) => ({ value, label: capital(VERDICT_WORDS[value]) }))}
      />
    </>
  );
}

/** What seldom changes from one plate to the next is filled in. */
function firstAnswers(latest: WrittenNote | undefined): Record<string, unknown> {
  if (!latest) return {};
  const { wallAt, lens, fNumber, framing, magnification, bottle } = latest;
  return {
    'date-day': String(wallAt.day),
    'date-month': monthName(wallAt.month),
    'date-year': String(wallAt.year),
    lens,
    fNumber: String(fNumber),
    framing,
    magnification: magnification === 0 ? '' : String(magnification),
    bottle,
  };
}

function noteRow(note: WrittenNote, action: string, formToken: string) {
  return [
    when(note),
    note.seconds,
    WEATHER_WORDS[note.weather],
    `${note.lens} at f/${note.fNumber}, ${note.framing}, ${note.bottle}`,
    VERDICT_WORDS[note.verdict],
    <Form key="remove" action={`${action}/${note.id}/remove`} csrf={formToken}>
      <button type="submit" class="plain nowrap">
        Take out<span class="unseen"> the plate of {when(note)}</span>
      </button>
    </Form>,
  ];
}

/** "14 May 2027, 11:20". */
const when = ({ wallAt }: WrittenNote) =>
  `${wallAt.day} ${monthName(wallAt.month)} ${wallAt.year}, ${timeInWords(wallAt)}`;

/** "Petzval 300 mm, head, Old salts June, clear". */
const title = ({ conditions: { lens, framing, bottle, weather } }: Group) =>
  `${lens}, ${framing}, ${bottle}, ${WEATHER_WORDS[weather].toLowerCase()}`;

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const toTenth = (seconds: number) => Math.max(0.1, Math.round(seconds * 10) / 10);
