// Bringing in what stands in a diary or a table: what to send, and what was brought in before.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { FileField, Form, TextArea } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import { type SectionProps, SettingsFrame, settingsPath } from '../settings/frame.pages.js';
import { momentInWords } from '../words.calc.js';
import type { BringIn, WaitingDraft } from './bring-in.schemas.js';
import type { Touched } from './bring-in.service.js';
import { type What, WHATS } from './columns.calc.js';
import { ENCODING_OPTIONS, WHAT_WORDS } from './words.calc.js';

interface BringInProps extends SectionProps {
  before: BringIn[];
  drafts: WaitingDraft[];
  /** What was to be undone, and with what something was done since. */
  touched?: { id: string; lines: Touched[] } | undefined;
}

export function BringInPage(props: BringInProps) {
  const { visit, sent, before, drafts, touched } = props;
  return (
    <SettingsFrame section="bring-in" {...props}>
      <p>
        From a spreadsheet or a program: copy the lines and paste them here, or choose a file saved as CSV.
        You see what is understood before anything comes in, and nobody is written to.
      </p>
      <Form
        action={settingsPath(visit, 'bring-in')}
        csrf={visit.formToken}
        values={sent?.answers ?? { what: 'diary' }}
        errors={sent?.problems}
        label="What you have"
        files
      >
        <RadioGroup
          name="what"
          label="What is it?"
          options={WHATS.map((one) => ({
            value: one,
            label: WHAT_WORDS[one].name,
            hint: `A column each, as far as you have it: ${WHAT_WORDS[one].tells}.`,
          }))}
        />
        <TextArea
          name="text"
          label="The lines, pasted"
          hint="One a line, with headings if you have them."
          rows={8}
          optional
        />
        <FileField
          name="file"
          label="Or a file"
          hint="CSV or text, at most 2 MB."
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          optional
        />
        <SelectField
          name="encoding"
          label="How the file is written"
          hint="Only if letters with accents come out wrong."
          options={ENCODING_OPTIONS}
          empty={null}
        />
        <Button>See what is understood</Button>
      </Form>
      {drafts.length > 0 && <Waiting visit={visit} drafts={drafts} />}
      <h2>Brought in before</h2>
      <Before visit={visit} before={before} touched={touched} />
    </SettingsFrame>
  );
}

function Waiting({ visit, drafts }: { visit: StaffVisit; drafts: WaitingDraft[] }) {
  return (
    <>
      <h2>Begun, and not in yet</h2>
      <ul class="lines">
        {drafts.map(({ draft_id, what, saved_at }) => (
          <li key={draft_id}>
            <a href={`${settingsPath(visit, 'bring-in')}/draft/${draft_id}`}>
              {WHAT_WORDS[what].name}, {momentInWords(visit.studio.zone, saved_at)}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

function Before({
  visit,
  before,
  touched,
}: Pick<BringInProps, 'before' | 'touched'> & { visit: StaffVisit }) {
  return (
    <>
      {touched && (
        <StandsInTheWay
          visit={visit}
          what={before.find((one) => one.bring_in_id === touched.id)?.what ?? 'diary'}
          lines={touched.lines}
        />
      )}
      <Table
        caption="The newest first"
        columns={[{ head: 'When' }, { head: 'Who' }, { head: 'What' }, { head: 'Undo' }]}
        empty="Nothing yet."
        rows={before.map((one) => [
          momentInWords(visit.studio.zone, one.at),
          one.who,
          `${WHAT_WORDS[one.what].name}: ${counted(one.lines, WHAT_WORDS[one.what].one, WHAT_WORDS[one.what].many)}`,
          one.undone_at ? (
            `undone by ${one.undone_by}, ${momentInWords(visit.studio.zone, one.undone_at)}`
          ) : (
            <Form
              key={one.bring_in_id}
              action={`${settingsPath(visit, 'bring-in')}/${one.bring_in_id}/undo`}
              csrf={visit.formToken}
            >
              <Button kind="quiet">Undo all of it</Button>
            </Form>
          ),
        ])}
      />
    </>
  );
}

/** Under the desk, of what a line became; a plate is called by its number. */
const PAGES: Record<What, (one: Touched) => string> = {
  diary: ({ id }) => `requests/${id}`,
  shelf: ({ id }) => `shelf/bottles/${id}`,
  plates: ({ name }) => `plates/${name}`,
};

function StandsInTheWay({ visit, what, lines }: { visit: StaffVisit; what: What; lines: Touched[] }) {
  return (
    <>
      <p>Something was done since with these; each can be given up or put right on its own page.</p>
      <ul class="lines">
        {lines.map((one) => (
          <li key={one.id}>
            Line {one.line}: <a href={`/s/${visit.studio.slug}/desk/${PAGES[what](one)}`}>{one.name}</a>
          </li>
        ))}
      </ul>
    </>
  );
}
