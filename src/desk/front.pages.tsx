// The desk's front page: decide today, do this week, who comes next. The assistant's has what is theirs of it.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { Table } from '../platform/html/kit/table.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { ENOUGH, type Outlook } from '../stock/outlook.calc.js';
import { DeskPage } from './frame.pages.js';
import type { Group } from './inbox.calc.js';
import { InboxGroups } from './inbox.pages.js';
import type { Front } from './inbox.service.js';
import { owedInWords } from './plates/owed.pages.js';
import { StockInShort, WithoutBath } from './places.pages.js';
import { platesInWords, shortDay } from './words.calc.js';

/** So many sittings stand open on the page; later ones are folded away. */
const NEXT_SHOWN = 4;

interface FrontProps {
  visit: StaffVisit;
  front: Front;
  /** Of setting up, as long as nobody has ever been given a place. */
  stepsLeft: number;
}

export function FrontPage({ visit, front, stepsLeft }: FrontProps) {
  const { inbox, glances, next, outlooks, noBath, plates } = front;
  const home = `/s/${visit.studio.slug}/desk`;
  return (
    <DeskPage visit={visit} title="Desk" at="" distances wide>
      <p class="lead">
        <a href="#today">{count(inbox.today)} to decide today</a> ·{' '}
        <a href="#week">{count(inbox.week)} to do this week</a> ·{' '}
        <a href="#next">
          {next[0]?.place ? `next: ${shortDay(next[0].place.wallStart)}` : 'nobody comes next'}
        </a>
      </p>
      {stepsLeft > 0 && (
        <p class="alone">
          <a href={`${home}/set-up`}>Go on setting up: {counted(stepsLeft, 'step')} to the first sitting</a>
        </p>
      )}
      <h2 id="today">Decide today</h2>
      <InboxGroups
        visit={visit}
        groups={inbox.today}
        part="today"
        glances={glances}
        empty="Nothing waits for a decision."
      />
      <h2 id="week">Do this week</h2>
      <InboxGroups
        visit={visit}
        groups={inbox.week}
        part="week"
        empty="Nothing: what is needed is on the shelf or on its way, or its time has not come."
      />
      <p class="actions">
        <a href={`${home}/requests/new`}>Somebody asks on the telephone</a>
        <a href={`${home}/telephone`}>To telephone and to post</a>
        {plates.steps > 0 && <a href={`${home}/owed`}>{owedInWords(plates)}</a>}
        <a href={`${home}/move`}>A day cannot be held? Move days</a>
      </p>
      <h2 id="next">Who comes next</h2>
      <Next visit={visit} views={next} outlooks={outlooks} noBath={noBath} />
    </DeskPage>
  );
}

export function AssistantPage({ visit, front }: { visit: StaffVisit; front: Pick<Front, 'inbox' | 'next'> }) {
  const { inbox, next } = front;
  return (
    <DeskPage visit={visit} title="Next" at="" wide>
      <Next visit={visit} views={next} />
      {inbox.today.length > 0 && <h2 id="today">Do today</h2>}
      {inbox.today.length > 0 && <InboxGroups visit={visit} groups={inbox.today} part="today" empty="" />}
      <h2 id="week">Do this week</h2>
      <InboxGroups visit={visit} groups={inbox.week} part="week" empty="Nothing is left to do this week." />
    </DeskPage>
  );
}

const count = (groups: Group[]) => groups.reduce((sum, one) => sum + one.first.length + one.rest.length, 0);

interface NextProps {
  visit: StaffVisit;
  views: SittingView[];
  /** How the shelf stands with each; without them it is not told. */
  outlooks?: Map<string, Outlook>;
  /** The days that no silver bath takes, and why. */
  noBath?: Map<string, NoBath>;
}

function Next({ visit, views, ...rest }: NextProps) {
  const later = views.slice(NEXT_SHOWN);
  return (
    <>
      <NextTable
        visit={visit}
        views={views.slice(0, NEXT_SHOWN)}
        caption="Confirmed sittings, the next first"
        {...rest}
      />
      {later.length > 0 && (
        <details>
          <summary>{later.length} later</summary>
          <NextTable visit={visit} views={later} caption="Confirmed sittings after these" {...rest} />
        </details>
      )}
    </>
  );
}

function NextTable({ visit, views, caption, outlooks, noBath }: NextProps & { caption: string }) {
  const { studio, account } = visit;
  return (
    <Table
      caption={caption}
      columns={['Day', 'Time', 'Who', 'Plates', ...(outlooks ? ['Shelf'] : [])].map((head) => ({ head }))}
      rows={views.flatMap((view) => {
        if (!view.place) return [];
        const day = dayInWords(view.place.wallStart);
        const without = noBath?.get(view.place.wallStart.toPlainDate().toString());
        const link = account.role === 'owner' && (
          <a href={requestPath(studio.slug, view.sitting.id)}>{day}</a>
        );
        return [
          [
            link || day,
            <a key="sheet" href={`${dayPath(studio.slug, view.place.wallStart)}#sitting-${view.sitting.id}`}>
              {timeInWords(view.place.wallStart)} to {timeInWords(view.place.wallEnd)}
            </a>,
            view.sitters.map((one) => one.name).join(', '),
            platesInWords(view),
            ...(outlooks
              ? [
                  <>
                    <StockInShort stock={outlooks.get(view.sitting.id) ?? ENOUGH} />
                    {without && <WithoutBath reason={without} />}
                  </>,
                ]
              : []),
          ],
        ];
      })}
      empty="No sitting is confirmed yet."
    />
  );
}

const dayPath = (slug: string, at: Temporal.PlainDateTime) => `/s/${slug}/desk/days/${at.toPlainDate()}`;
const requestPath = (slug: string, sittingId: string) => `/s/${slug}/desk/requests/${sittingId}`;
