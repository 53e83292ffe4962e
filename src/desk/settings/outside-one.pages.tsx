// One outside calendar: how it stands, what it blocks, what that would close before it does, and when its owner is busy.
import { Temporal } from 'temporal-polyfill';
import { counted, dayInWords, timeInWords } from '../../lib/words.js';
import { instantToWall } from '../../lib/zoned-time.js';
import type { BusyTime } from '../../outside/expand.calc.js';
import { FAILURE_WORDS } from '../../outside/failure.calc.js';
import type { OutsideCalendar } from '../../outside/outside.schemas.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { ElsewherePreview } from '../../room/elsewhere.service.js';
import type { SittingView } from '../../sittings/sittings.schemas.js';
import { momentInWords } from '../words.calc.js';
import { type SectionProps, SettingsFrame, settingsPath } from './frame.pages.js';
import { choiceInWords, sourceInWords, StateTag } from './outside.pages.js';
import { Starts } from './preview.pages.js';

interface OneProps extends SectionProps {
  preview: ElsewherePreview;
  /** Of the sittings among those touched. */
  views: SittingView[];
  /** A choice was made, and what it would do is to be shown. */
  asked: boolean;
}

const CHOICES = [
  { value: 'hours', label: 'Its hours', hint: 'No sitting while something stands there.' },
  { value: 'days', label: 'Whole days', hint: 'No sitting on a day with anything on it.' },
  { value: 'nothing', label: 'Nothing', hint: 'It is only shown here.' },
];
const SHOWN = 30;

export function OneOutsidePage(props: OneProps) {
  const { visit, preview, asked, sent } = props;
  const { calendar, choice } = preview;
  const path = `${settingsPath(visit, 'outside')}/${calendar.id}`;
  const values = { blocks: choice.blocks, marginMinutes: String(choice.marginMinutes) };
  return (
    <SettingsFrame section="outside" {...props}>
      <h2>
        {calendar.name} <StateTag calendar={calendar} />
      </h2>
      <Standing {...props} />
      <h3>What it blocks</h3>
      <Form
        method="get"
        action={path}
        values={sent?.answers ?? values}
        errors={sent?.problems ?? []}
        label="What it blocks"
      >
        <RadioGroup
          name="blocks"
          label="While something stands in it, there are no sittings in"
          options={CHOICES}
        />
        <NumberField
          name="marginMinutes"
          label="With a margin before and after, for the way"
          hint="For its hours only."
          unit="minutes"
          optional
        />
        <Button kind={asked ? 'quiet' : 'primary'}>See what this closes</Button>
      </Form>
      {asked && <WhatItDoes {...props} path={path} />}
      <BusyTimes calendar={calendar} zone={visit.studio.zone} />
      <h3>Pause or remove it</h3>
      {calendar.state === 'on' && (
        <Form action={`${path}/pause`} csrf={visit.formToken} label="Pause">
          <Button kind="quiet">Pause it: block nothing for now</Button>
        </Form>
      )}
      <Form action={`${path}/remove`} csrf={visit.formToken} label="Remove">
        <Button kind="danger">Remove this calendar</Button>
      </Form>
      <p class="alone">
        <a href={settingsPath(visit, 'outside')}>All other calendars</a>
      </p>
    </SettingsFrame>
  );
}

function Standing({ visit, preview: { calendar } }: OneProps) {
  const { zone } = visit.studio;
  const { failure, entries, free, host } = calendar;
  return (
    <>
      {failure !== '' && (
        <Notice tone="warn">
          It could not be read the last time. {FAILURE_WORDS[failure]} Until it can, it stands as it was read
          on {momentInWords(zone, calendar.readAt)}; it is tried again on{' '}
          {momentInWords(zone, calendar.nextAt)}.
        </Notice>
      )}
      <Facts
        items={[
          { term: 'Where it comes from', detail: sourceInWords(calendar) },
          { term: 'Now', detail: choiceInWords(calendar) },
          { term: 'Last read', detail: momentInWords(zone, calendar.readAt) },
          {
            term: 'In it',
            detail: `${counted(entries, 'entry', 'entries')}${free === 0 ? '' : `, of which ${free} ${free === 1 ? 'is' : 'are'} marked as free or called off`}`,
          },
        ]}
      />
      {host !== '' && (
        <Form
          action={`${settingsPath(visit, 'outside')}/${calendar.id}/read`}
          csrf={visit.formToken}
          label="Read again"
        >
          <Button kind="quiet">Read it again now</Button>
        </Form>
      )}
    </>
  );
}

function WhatItDoes({ visit, preview, views, path }: OneProps & { path: string }) {
  const { diff, touched, choice, seen } = preview;
  return (
    <>
      <h3>What this does</h3>
      <Starts title="Closes" none="No place closes." starts={diff.closes} />
      {diff.opens.length > 0 && <Starts title="Opens" none="" starts={diff.opens} />}
      <p class="small">Counted for one sitter, over all days that can be booked.</p>
      {touched.length === 0 ? (
        <p>Nobody who has a place or an offer is touched.</p>
      ) : (
        <>
          <Notice tone="warn">
            {counted(touched.length, 'place')} already given or offered would be while you are elsewhere. They
            stay, nobody is told, and they stand on your desk to be looked at.
          </Notice>
          <Table
            caption="Already there"
            columns={['Day', 'Who'].map((head) => ({ head }))}
            rows={touched.map(({ occupancy }) => {
              const view = views.find(({ sitting }) => sitting.id === occupancy.heldFor);
              const at = `${dayInWords(occupancy.wallStart)}, ${timeInWords(occupancy.wallStart)}`;
              const desk = `/s/${visit.studio.slug}/desk`;
              const to = view
                ? `${desk}/requests/${view.sitting.id}`
                : `${desk}/teaching/${occupancy.heldFor}`;
              return [
                <a key="day" href={to}>
                  {at}
                </a>,
                view ? view.contact.name : occupancy.title,
              ];
            })}
          />
        </>
      )}
      <Form action={`${path}/confirm`} csrf={visit.formToken} label="Put it in use">
        <input type="hidden" name="blocks" value={choice.blocks} />
        <input type="hidden" name="marginMinutes" value={choice.marginMinutes} />
        <input type="hidden" name="seen" value={seen} />
        <Button>Put it in use so</Button>
      </Form>
    </>
  );
}

function BusyTimes({ calendar: { busy }, zone }: { calendar: OutsideCalendar; zone: string }) {
  const more = busy.length - SHOWN;
  return (
    <>
      <h3>When something stands in it</h3>
      {busy.length === 0 && <p>Nothing, in all the time that can be booked.</p>}
      <ul>
        {busy.slice(0, SHOWN).map((one) => (
          <li key={`${one.from} ${one.until} ${one.title}`}>
            {timeOf(one, zone)}
            {one.title !== '' && `: ${one.title}`}
          </li>
        ))}
        {more > 0 && <li>and {more} more</li>}
      </ul>
    </>
  );
}

/** "Friday 14 May 2027, 12:00 to 13:00"; whole days without hours. */
function timeOf({ from, until, wholeDays }: BusyTime, zone: string): string {
  const at = (milliseconds: number) =>
    instantToWall(zone, Temporal.Instant.fromEpochMilliseconds(milliseconds));
  const [start, end] = [at(from), at(wholeDays ? until - 1 : until)];
  const sameDay = start.toPlainDate().equals(end.toPlainDate());
  if (wholeDays) return sameDay ? dayInWords(start) : `${dayInWords(start)} to ${dayInWords(end)}`;
  const last = sameDay ? timeInWords(end) : `${dayInWords(end)}, ${timeInWords(end)}`;
  return `${dayInWords(start)}, ${timeInWords(start)} to ${last}`;
}
