// What is understood of a table before it comes in: each column, each line that wants another look, and what would come.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form } from '../../platform/html/kit/form.js';
import { Notice as NoticeBox } from '../../platform/html/kit/notices.js';
import type { Notice } from '../frame.pages.js';
import { SettingsFrame, settingsPath } from '../settings/frame.pages.js';
import { momentInWords } from '../words.calc.js';
import type { Checked } from './bring-in.service.js';
import { COLUMNS } from './columns.calc.js';
import { ComesIn } from './comes-in.pages.js';
import type { ReadLine, Said } from './reading.calc.js';
import { saidInWords, SEPARATOR_OPTIONS, WHAT_WORDS } from './words.calc.js';

/** So many lines with something wrong are shown; more is a matter of the columns. */
const WRONG_SHOWN = 100;

interface DraftProps {
  visit: StaffVisit;
  checked: Checked;
  notice?: Notice | undefined;
}

export function DraftPage({ visit, checked, notice }: DraftProps) {
  const { draft, reading, before, lines } = checked;
  const path = `${settingsPath(visit, 'bring-in')}/draft/${draft.draft_id}`;
  const words = WHAT_WORDS[draft.what];
  return (
    <SettingsFrame visit={visit} section="bring-in" notice={notice}>
      <h2>{words.name}, as it is understood</h2>
      {reading.refused !== null && <NoticeBox tone="bad">{reading.refused}</NoticeBox>}
      {before && (
        <NoticeBox tone="warn">
          The same text was brought in before, by {before.who}, {momentInWords(visit.studio.zone, before.at)}.
        </NoticeBox>
      )}
      {draft.guessed && (
        <NoticeBox tone="note">
          The file does not say how it is written; it is read as Western European (Windows-1252). Look whether
          letters with accents are right.
        </NoticeBox>
      )}
      <Choices visit={visit} checked={checked} path={path} />
      {reading.refused === null && (
        <>
          <h2>What comes in</h2>
          <ComesIn what={draft.what} lines={lines} />
          <Notes lines={lines} />
          <Confirm visit={visit} checked={checked} path={path} />
        </>
      )}
      <Form action={`${path}/drop`} csrf={visit.formToken} label="Throw this away">
        <Button kind="quiet">Throw this draft away</Button>
      </Form>
      <p class="hint">A draft waits here for 14 days, then it is forgotten.</p>
    </SettingsFrame>
  );
}

function Choices({ visit, checked, path }: DraftProps & { path: string }) {
  const { draft, reading } = checked;
  const { choices } = draft;
  const kinds = Object.entries(COLUMNS[draft.what]).map(([value, { label }]) => ({ value, label }));
  return (
    <Form action={path} csrf={visit.formToken} label="How it is read">
      <SelectField
        name="separator"
        label="Columns are kept apart by"
        options={SEPARATOR_OPTIONS}
        value={choices.separator}
        empty={null}
      />
      <CheckboxGroup
        name="headings"
        label="The first line"
        options={[{ value: 'yes', label: 'It has headings' }]}
        values={choices.headings ? ['yes'] : []}
      />
      {reading.asksOrder ? (
        <RadioGroup
          name="order"
          label="How is 3/4/2026 meant?"
          hint="Some dates can be read both ways."
          options={[
            { value: 'day first', label: 'The 3rd of April' },
            { value: 'month first', label: 'March the 4th' },
          ]}
          value={choices.order}
        />
      ) : (
        <input type="hidden" name="order" value={choices.order} />
      )}
      <Fieldset legend="What is in each column?">
        {reading.columns.map(({ heading, samples }, at) => (
          <SelectField
            key={`column ${at + 1}`}
            name={`column-${at + 1}`}
            label={heading === '' ? `Column ${at + 1}` : `Column ${at + 1}: ${heading.slice(0, 80)}`}
            hint={
              samples.length > 0
                ? `Such as ${samples.map((one) => `“${one.slice(0, 40)}”`).join(', ')}.`
                : 'Nothing is in it.'
            }
            options={kinds}
            value={choices.columns[at] ?? ''}
            empty="Pass it over"
          />
        ))}
      </Fieldset>
      <Wrong visit={visit} checked={checked} />
      <Button kind={isReady(checked) ? 'quiet' : 'primary'}>Look again</Button>
    </Form>
  );
}

function Wrong({ visit, checked: { lines, left } }: DraftProps) {
  const wrong = lines.filter(({ problems }) => problems.length > 0);
  const shown = [...left, ...wrong].sort((one, other) => one.line - other.line);
  if (shown.length === 0) return null;
  return (
    <>
      {wrong.length > WRONG_SHOWN && (
        <NoticeBox tone="bad">
          {counted(wrong.length, 'line')} want another look. Is each column what it is taken for? Here are the
          first {WRONG_SHOWN}.
        </NoticeBox>
      )}
      <CheckboxGroup
        name="leave"
        label="Lines that cannot come in as they stand"
        hint="Put them right in your table and send it again, or tick those that are to be left out."
        options={shown.slice(0, left.length + WRONG_SHOWN).map((one) => ({
          value: String(one.line),
          label: `Leave out line ${one.line}: ${one.name.slice(0, 80)}`,
          hint: one.problems.map(saidInWords).join(' '),
        }))}
        values={left.map(({ line }) => String(line))}
      />
      {wrong.some(({ problems }) => problems.some(({ extraDay }) => extraDay)) && (
        <p>
          Promises keep their day and hour when you{' '}
          <a href={settingsPath(visit, 'closures')}>enter that day as an extra day</a> with its starts; this
          draft waits here meanwhile.
        </p>
      )}
    </>
  );
}

function Notes({ lines }: { lines: ReadLine<unknown>[] }) {
  const all = lines.flatMap(({ line, notes }) => notes.map((said): [number, Said] => [line, said]));
  if (all.length === 0) return null;
  return (
    <details>
      <summary>{counted(all.length, 'cell')} cleaned, filled in or left as text</summary>
      <ul>
        {all.slice(0, 500).map(([line, said]) => (
          <li key={`${line} ${said.column} ${said.why}`}>
            Line {line}: {saidInWords(said)}
          </li>
        ))}
      </ul>
    </details>
  );
}

const isReady = ({ lines, reading: { refused } }: Checked) =>
  refused === null && lines.length > 0 && lines.every(({ problems }) => problems.length === 0);

function Confirm({ visit, checked, path }: DraftProps & { path: string }) {
  const { draft, lines, left, seen } = checked;
  const words = WHAT_WORDS[draft.what];
  if (!isReady(checked))
    return (
      <p>
        {lines.length === 0
          ? 'Nothing is left to come in.'
          : 'As long as a line above wants another look, nothing can come in.'}
      </p>
    );
  const all = counted(lines.length, words.one, words.many);
  return (
    <>
      <p>
        {all} would come in{left.length > 0 && `, ${counted(left.length, 'line')} left out`}: all of them or,
        if something fails, none. It can be undone as a whole while nothing was done with it.
        {draft.what === 'plates' &&
          ' Where nothing was typed in here yet, the book goes on after the highest number. No stock is taken for them.'}
        {draft.what === 'shelf' && ' An undo takes them off the shelf again; the ledger tells of both.'}
        {draft.what === 'diary' &&
          ' Nobody is written to: whoever has a place is reminded before their day by your rules, and whoever waits hears of you when you offer one.'}
      </p>
      <Form action={`${path}/confirm`} csrf={visit.formToken} label="Bring it in">
        <input type="hidden" name="seen" value={seen} />
        <Button>Bring in {all}</Button>
      </Form>
    </>
  );
}
