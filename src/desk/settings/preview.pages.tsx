// What a change would do, before it is done: places that open and close, and whose sitting it touches.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { TouchedReason } from '../../room/preview.calc.js';
import type { Preview } from '../../room/settings.service.js';
import { TOUCHED_WORDS } from '../../room/words.calc.js';
import type { SittingView } from '../../sittings/sittings.schemas.js';
import type { Answers } from './forms.calc.js';
import { type Section, SettingsFrame, settingsPath } from './frame.pages.js';

/** So many days stand by name. */
const DAYS_SHOWN = 12;

interface PreviewPageProps {
  visit: StaffVisit;
  section: Section;
  preview: Preview;
  touched: { view: SittingView; reason: TouchedReason }[];
  /** The form as it was sent, to be sent again. */
  answers: Answers;
  /** The preview that was confirmed no longer held. */
  outdated?: boolean;
}

export function PreviewPage({ visit, section, preview, touched, answers, outdated }: PreviewPageProps) {
  const { diff, sentence, details, warnings, seen } = preview;
  const path = settingsPath(visit, section);
  const notice = outdated
    ? ({
        tone: 'warn',
        text: 'Something changed since you looked. Nothing is done yet: this is how it stands now.',
      } as const)
    : undefined;
  return (
    <SettingsFrame visit={visit} section={section} notice={notice}>
      <h2>What this changes</h2>
      <p class="lead">{sentence}</p>
      {warnings.map((words) => (
        <Notice key={words} tone="warn">
          {words}
        </Notice>
      ))}
      {details.length > 0 && <Details details={details} />}
      <Starts title="Opens" none="No place opens." starts={diff.opens} />
      <Starts title="Closes" none="No place closes." starts={diff.closes} />
      {diff.heldBack.length > 0 && <Starts title="Kept off the public page" none="" starts={diff.heldBack} />}
      {diff.shown.length > 0 && <Starts title="Shown on the public page" none="" starts={diff.shown} />}
      <p class="small">
        Counted for one sitter, over all days that can be booked. Places already given are not among them.
      </p>
      <Touched touched={touched} slug={visit.studio.slug} />
      <Form action={`${path}/confirm`} csrf={visit.formToken} label="Confirm">
        <Hidden answers={answers} />
        <input type="hidden" name="seen" value={seen} />
        <Button>Do this</Button>
      </Form>
      <Form action={`${path}/again`} csrf={visit.formToken} label="Change it">
        <Hidden answers={answers} />
        <Button kind="quiet">Change it first</Button>
      </Form>
      <p class="alone">
        <a href={path}>Leave it as it is</a>
      </p>
    </SettingsFrame>
  );
}

/** A column of old values only where there are any. */
function Details({ details }: { details: Preview['details'] }) {
  const isNew = details.every(({ before }) => before === '');
  return (
    <Table
      caption={isNew ? 'What is entered' : 'What is altered'}
      columns={(isNew ? ['What', 'Value'] : ['What', 'So far', 'From now on']).map((head) => ({ head }))}
      rows={details.map(({ term, before, after }) => [term, ...(isNew ? [] : [before || '–']), after])}
    />
  );
}

/** What was typed, without what belongs to the form itself. */
function Hidden({ answers }: { answers: Answers }) {
  const fields = Object.entries(answers).filter(([name]) => !name.startsWith('_') && name !== 'seen');
  return (
    <>
      {fields.flatMap(([name, value]) =>
        [value]
          .flat()
          .filter((one): one is string => typeof one === 'string')
          .map((one) => <input key={`${name} ${one}`} type="hidden" name={name} value={one} />),
      )}
    </>
  );
}

export function Starts({
  title,
  none,
  starts,
}: {
  title: string;
  none: string;
  starts: Temporal.PlainDateTime[];
}) {
  const days = new Map<string, Temporal.PlainDateTime[]>();
  for (const start of starts) {
    const day = start.toPlainDate().toString();
    days.set(day, [...(days.get(day) ?? []), start]);
  }
  const more = days.size - DAYS_SHOWN;
  return (
    <>
      <h3>{title}</h3>
      {starts.length === 0 ? (
        <p>{none}</p>
      ) : (
        <p>
          {counted(starts.length, 'place')} on {counted(days.size, 'day')}:
        </p>
      )}
      {starts.length > 0 && (
        <ul>
          {[...days].slice(0, DAYS_SHOWN).map(([day, ofDay]) => (
            <li key={day}>
              {dayInWords(Temporal.PlainDate.from(day))}, {ofDay.map(timeInWords).join(', ')}
            </li>
          ))}
          {more > 0 && <li>and {counted(more, 'day')} more</li>}
        </ul>
      )}
    </>
  );
}

type TouchedOnes = PreviewPageProps['touched'];

/** Those with a place, and apart from them those to whom an offer is open. */
function Touched({ touched, slug }: { touched: TouchedOnes; slug: string }) {
  if (touched.length === 0) return <p>No confirmed sitting is touched, and no open offer.</p>;
  const offered = touched.filter(({ view }) => view.sitting.state === 'offered');
  const confirmed = touched.filter((one) => !offered.includes(one));
  return (
    <>
      {confirmed.length > 0 && (
        <>
          <Notice tone="warn">
            {counted(confirmed.length, 'confirmed sitting')} would be touched. They stay confirmed, and nobody
            is told by this.
          </Notice>
          <TouchedTable caption="Confirmed sittings that would be touched" touched={confirmed} slug={slug} />
        </>
      )}
      {offered.length > 0 && (
        <>
          <Notice tone="warn">
            An offer is open to {offered.map(({ view }) => view.contact.name).join(', ')}. It stays open, and
            nobody is told by this: to call it back, <a href={`/s/${slug}/desk/move`}>move days</a>.
          </Notice>
          <TouchedTable caption="Open offers that would be touched" touched={offered} slug={slug} />
        </>
      )}
    </>
  );
}

function TouchedTable({ caption, touched, slug }: { caption: string; touched: TouchedOnes; slug: string }) {
  return (
    <Table
      caption={caption}
      columns={['Day', 'Who', 'Why'].map((head) => ({ head }))}
      rows={touched.flatMap(({ view, reason }) =>
        view.place
          ? [
              [
                <a key="day" href={`/s/${slug}/desk/requests/${view.sitting.id}`}>
                  {dayInWords(view.place.wallStart)}, {timeInWords(view.place.wallStart)}
                </a>,
                view.contact.name,
                TOUCHED_WORDS[reason],
              ],
            ]
          : [],
      )}
    />
  );
}
