// The day sheet on the phone, with ticks and endings, and the same list in red for the darkroom. What they wrote to
// the owner in confidence ("anything we should know") stands on the owner's sheet only.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import { RedPage } from '../platform/html/red-page.js';
import type { FieldProblem } from '../platform/problems.js';
import { FORM_FIELD } from '../platform/security/forms.js';
import {
  MISSED_REASONS,
  MISSED_WORDS,
  NO_PLATE_REASONS,
  NO_PLATE_WORDS,
} from '../sittings/endings.schemas.js';
import { BenchRows } from './day-paper.pages.js';
import type { DaySheet, OnSheet } from './day-sheets.service.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { TeachingOnRed, TeachingOnSheet } from './teaching/on-sheet.pages.js';
import { holdStillInShort, platesInWords } from './words.calc.js';

interface SheetProps {
  visit: StaffVisit;
  sheet: DaySheet;
  notice?: Notice | undefined;
  /** A form that was sent wrong: of which sitting, and what was typed. */
  sent?: { id: string; values: Record<string, string>; errors: FieldProblem[] } | undefined;
}

const ENDED: Partial<Record<string, string>> = {
  made: 'Made',
  came_no_plate: 'Came, no plate',
  did_not_come: 'Did not come',
};
const REASONS: Record<string, string> = { ...NO_PLATE_WORDS, ...MISSED_WORDS };

export function DaySheetPage({ visit, sheet, notice, sent }: SheetProps) {
  const day = `/s/${visit.studio.slug}/desk/days`;
  const { date, sittings } = sheet;
  return (
    <DeskPage visit={visit} title={dayInWords(date)} at="" notice={notice} errors={sent?.errors}>
      <p>
        {sittings.length === 0 ? 'Nobody sits on this day.' : `${counted(sittings.length, 'sitting')}.`}{' '}
        {sheet.window &&
          `Good light from ${timeInWords(instantToWall(sheet.zone, sheet.window.start))} to ${timeInWords(instantToWall(sheet.zone, sheet.window.end))}.`}{' '}
        <a href={`${day}/${date}/red`}>The red screen for the darkroom</a>
      </p>
      {sittings.map((one) => (
        <OneSitting key={one.view.sitting.id} visit={visit} sheet={sheet} one={one} sent={sent} />
      ))}
      <TeachingOnSheet visit={visit} days={sheet.teaching} />
      <p>
        <a href={`${day}/${date.subtract({ days: 1 })}`}>The day before</a> ·{' '}
        <a href={`${day}/${date.add({ days: 1 })}`}>The day after</a>
      </p>
    </DeskPage>
  );
}

function OneSitting({ visit, sheet, one, sent }: Omit<SheetProps, 'notice'> & { one: OnSheet }) {
  const { view, place, day, holdStill } = one;
  const { sitting, contact, plates } = view;
  const act = `/s/${visit.studio.slug}/desk/days/${sheet.date}/${sitting.id}`;
  const csrf = visit.formToken;
  const who = contact.name;
  const { details } = sitting;
  const has = Temporal.PlainDate.compare(sheet.date, sheet.today) <= 0;
  const ended = ENDED[sitting.state];
  const mine = sent?.id === sitting.id ? sent : undefined;
  return (
    <article class="day" id={`sitting-${sitting.id}`}>
      <h2>
        {timeInWords(place.wallStart)} to {timeInWords(place.wallEnd)}: {who}
      </h2>
      <p>
        {platesInWords(view)}
        {holdStill && ` · ${holdStillInShort(holdStill)}`}
      </p>
      <ul>
        {plates.map((plate) => (
          <li key={plate.id}>
            {plate.sizeName}: {plate.names.join(', ')}
          </li>
        ))}
      </ul>
      {details.access !== '' && (
        <p class="lead">
          <strong>What helps them: {details.access}</strong>
        </p>
      )}
      {details.brings !== '' && <p>They bring: {details.brings}</p>}
      {details.guardian && (
        <p>
          {details.guardian.name}
          {details.guardian.relation !== '' && ` (${details.guardian.relation})`} answers for who is under 18:{' '}
          {details.guardian.reach}
        </p>
      )}
      {contact.telephone !== '' && (
        <p>
          <a href={`tel:${contact.telephone.replace(/[^+\d]/g, '')}`}>Telephone {contact.telephone}</a>
        </p>
      )}
      {sitting.hopes !== '' && <p>They hope for: {sitting.hopes}</p>}
      {visit.account.role === 'owner' && sitting.anything !== '' && <p>They told you: {sitting.anything}</p>}
      {ended && (
        <p>
          <strong>{ended}</strong>
          {day.reason !== '' && `: ${REASONS[day.reason] ?? day.reason}`}
          {day.note !== '' && `. ${day.note}`}
          {day.returnId !== null && '. They stand first on the list for another place.'}
        </p>
      )}
      {ended && day.endedAt && instantToWall(sheet.zone, day.endedAt).toPlainDate().equals(sheet.today) && (
        <Form action={`${act}/undo`} csrf={csrf} label={`Take the ending of ${who} back`}>
          <Button kind="quiet">Take this back</Button>
        </Form>
      )}
      {has && sitting.state === 'confirmed' && (
        <>
          {day.arrivedAt && <p>Here since {timeInWords(instantToWall(sheet.zone, day.arrivedAt))}</p>}
          <Form action={`${act}/arrived`} csrf={csrf} label={`${who} is here`}>
            <Button kind="quiet" name="here" value={day.arrivedAt ? 'no' : 'yes'}>
              {day.arrivedAt ? 'Not here after all' : 'They are here'}
            </Button>
          </Form>
          <details open={mine !== undefined}>
            <summary>How it ended</summary>
            <Form
              action={`${act}/end`}
              csrf={csrf}
              label={`How it ended for ${who}`}
              values={mine?.values ?? {}}
              errors={mine?.errors ?? []}
            >
              <RadioGroup name="ending" label={`How did it end for ${who}?`} options={ENDINGS} />
              <TextField name="note" label={`A note about ${who}`} optional />
              <Button>Save</Button>
            </Form>
          </details>
        </>
      )}
      <BenchRows view={view} />
    </article>
  );
}

/** One choice each, sent as "no plate/fog". */
const ENDINGS = [
  { value: 'made', label: 'Made' },
  ...NO_PLATE_REASONS.map((one) => ({
    value: `no plate/${one}`,
    label: `Came, no plate: ${NO_PLATE_WORDS[one].toLowerCase()}`,
  })),
  ...MISSED_REASONS.map((one) => ({
    value: `missed/${one}`,
    label: `Did not come: ${MISSED_WORDS[one].toLowerCase()}`,
  })),
];

export function RedDayPage({ visit, sheet }: Pick<SheetProps, 'visit' | 'sheet'>) {
  const day = `/s/${visit.studio.slug}/desk/days/${sheet.date}`;
  const has = Temporal.PlainDate.compare(sheet.date, sheet.today) <= 0;
  return (
    <RedPage title={dayInWords(sheet.date)} back={{ href: day, label: 'Day sheet (bright)' }}>
      {sheet.sittings.length === 0 && <p>Nobody sits on this day.</p>}
      <ol>
        {sheet.sittings.map(({ view, place, day: went }) => (
          <li key={view.sitting.id}>
            <h2>
              {timeInWords(place.wallStart)} {view.contact.name}
            </h2>
            <p>{platesInWords(view)}</p>
            {view.sitting.details.access !== '' && <p>What helps them: {view.sitting.details.access}</p>}
            {ENDED[view.sitting.state] && <p>{ENDED[view.sitting.state]}</p>}
            {has && view.sitting.state === 'confirmed' && (
              <form
                action={`${day}/${view.sitting.id}/arrived`}
                method="post"
                aria-label={`${view.contact.name} is here`}
              >
                <input type="hidden" name={FORM_FIELD} value={visit.formToken} />
                <input type="hidden" name="from" value="red" />
                <button type="submit" name="here" value={went.arrivedAt ? 'no' : 'yes'}>
                  {went.arrivedAt ? 'Here. Take it back' : 'They are here'}
                </button>
              </form>
            )}
            {has && view.sitting.state === 'confirmed' && (
              <details>
                <summary>How it ended</summary>
                <form
                  action={`${day}/${view.sitting.id}/end`}
                  method="post"
                  aria-label={`How it ended for ${view.contact.name}`}
                >
                  <input type="hidden" name={FORM_FIELD} value={visit.formToken} />
                  <input type="hidden" name="from" value="red" />
                  {ENDINGS.map(({ value, label }) => (
                    <button key={value} type="submit" name="ending" value={value}>
                      {label}
                    </button>
                  ))}
                </form>
              </details>
            )}
          </li>
        ))}
      </ol>
      <TeachingOnRed days={sheet.teaching} />
    </RedPage>
  );
}
