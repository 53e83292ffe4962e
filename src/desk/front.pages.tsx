// The owner's front page: decide, who comes next, what the shelf wants. The assistant's has "Next" only.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Table } from '../platform/html/kit/table.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { ENOUGH, type Outlook } from '../stock/outlook.calc.js';
import { TOUCHED_WORDS } from '../room/words.calc.js';
import type { Front, ToMove, WaitingRequest } from './desk.service.js';
import { DeskPage } from './frame.pages.js';
import { Bathless, byReason, ShelfToDo } from './front-shelf.pages.js';
import type { PlaceChoice } from './glance.calc.js';
import { LightNote, NoHelper, StockLine, TooLong, WithoutBath } from './places.pages.js';
import { holdStillInShort, journeyInShort, platesInWords, shortDay, suitsInShort } from './words.calc.js';

/** So many sittings stand open on the page; later ones are folded away. */
const NEXT_SHOWN = 12;

interface FrontProps {
  visit: StaffVisit;
  front: Front;
}

export function FrontPage({ visit, front }: FrontProps) {
  const { waiting, toMove, next, untold, outlooks, todo, noBath } = front;
  const bathless = byReason(noBath);
  const wants = todo.length + bathless.length;
  return (
    <DeskPage visit={visit} title="Desk" at="" distances wide>
      <p>
        <a href="#decide">{waiting.length} to decide</a> ·{' '}
        <a href="#next">
          {next[0]?.place ? `next: ${shortDay(next[0].place.wallStart)}` : 'nobody comes next'}
        </a>{' '}
        · <a href="#shelf">the shelf wants {wants === 0 ? 'nothing' : counted(wants, 'thing')}</a>
      </p>
      <ToBeMoved visit={visit} toMove={toMove} />
      <Untold visit={visit} untold={untold} />
      <Decide visit={visit} waiting={waiting} />
      <h2 id="next">Next</h2>
      <Next visit={visit} views={next} outlooks={outlooks} noBath={noBath} />
      {next.length > 0 && (
        <p>
          A day cannot be held? <a href={`/s/${visit.studio.slug}/desk/move`}>Move days</a>: you see who is
          there, with a new place proposed for each.
        </p>
      )}
      <h2 id="shelf">The shelf wants</h2>
      {bathless.length > 0 && <Bathless visit={visit} days={bathless} />}
      <ShelfToDo visit={visit} todo={todo} />
    </DeskPage>
  );
}

export function AssistantPage({ visit, next }: { visit: StaffVisit; next: SittingView[] }) {
  return (
    <DeskPage visit={visit} title="Next" at="" wide>
      <Next visit={visit} views={next} />
    </DeskPage>
  );
}

const MOVE_WORDS: Record<ToMove['reason'], string> = {
  ...TOUCHED_WORDS,
  closed: 'the room is closed',
  'owner away': 'you are away',
  clash: 'another place has the room at that hour',
};

/** Confirmed sittings that cannot be as they stand. They keep their place until somebody agrees on another. */
function ToBeMoved({ visit, toMove }: { visit: StaffVisit; toMove: ToMove[] }) {
  if (toMove.length === 0) return null;
  return (
    <>
      <h2 id="to-be-moved">To be moved</h2>
      <p>
        These sittings are confirmed and nobody has been told anything.{' '}
        <a href={`/s/${visit.studio.slug}/desk/move`}>Move days</a>: a new place is proposed for each.
      </p>
      <Table
        caption="Confirmed sittings that want another day"
        columns={['Day', 'Who', 'Why'].map((head) => ({ head }))}
        rows={toMove.flatMap(({ view, reason }) =>
          view.place
            ? [
                [
                  <a key="day" href={requestPath(visit.studio.slug, view.sitting.id)}>
                    {dayInWords(view.place.wallStart)}, {timeInWords(view.place.wallStart)}
                  </a>,
                  view.contact.name,
                  MOVE_WORDS[reason],
                ],
              ]
            : [],
        )}
      />
    </>
  );
}

/** Until an ending is told, what was set aside for them stays set aside. */
function Untold({ visit, untold }: { visit: StaffVisit; untold: SittingView[] }) {
  if (untold.length === 0) return null;
  return (
    <>
      <h2 id="untold">How did they end?</h2>
      <p>Nobody has told how these sittings ended; what was set aside for them is neither used nor free.</p>
      <ul>
        {untold.map(({ sitting, contact, place }) =>
          place ? (
            <li key={sitting.id}>
              <a href={`${dayPath(visit.studio.slug, place.wallStart)}#sitting-${sitting.id}`}>
                {dayInWords(place.wallStart)}: {contact.name}
              </a>
            </li>
          ) : null,
        )}
      </ul>
    </>
  );
}

const dayPath = (slug: string, at: Temporal.PlainDateTime) => `/s/${slug}/desk/days/${at.toPlainDate()}`;

function Decide({ visit, waiting }: { visit: StaffVisit; waiting: WaitingRequest[] }) {
  return (
    <>
      <h2 id="decide">Decide</h2>
      {waiting.length === 0 ? (
        <p class="empty">Nobody is waiting for an answer.</p>
      ) : (
        <p>
          {waiting.length} waiting for your answer, the oldest first, each with the best place open on their
          days: the one with the least time to hold still, and the earlier of two alike.
        </p>
      )}
      {waiting.map((one) => (
        <Request key={one.view.sitting.id} visit={visit} {...one} />
      ))}
      {waiting.length > 0 && <LightNote />}
    </>
  );
}

function Request({ visit, view, open, best, limit }: WaitingRequest & { visit: StaffVisit }) {
  const { sitting, contact, journey } = view;
  const { studio } = visit;
  return (
    <article class="day">
      <h3>
        <a href={requestPath(studio.slug, sitting.id)}>{contact.name}</a>
      </h3>
      <p>{platesInWords(view)}</p>
      <p class="small">
        {suitsInShort(sitting.suits)}; asked on {shortDay(instantToWall(studio.zone, sitting.askedAt))}
      </p>
      <p>
        {best === null ? (
          'No place is open on these days'
        ) : (
          <BestPlace best={best} open={open} limit={limit} />
        )}{' '}
        · {journeyInShort(journey)}
      </p>
    </article>
  );
}

function BestPlace({ best, open, limit }: { best: PlaceChoice; open: number; limit: number }) {
  const { slot, stock, helperMissing } = best;
  return (
    <>
      <strong>
        {dayInWords(slot.wallStart)}, {timeInWords(slot.wallStart)}
      </strong>{' '}
      ({open === 1 ? 'the only one open' : `of ${open} open`}) ·{' '}
      {slot.holdStill && `${holdStillInShort(slot.holdStill)} · `}
      <StockLine stock={stock} />
      <TooLong slot={slot} limit={limit} />
      {helperMissing && <NoHelper />}
    </>
  );
}

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
                    <StockLine stock={outlooks.get(view.sitting.id) ?? ENOUGH} />
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

const requestPath = (slug: string, sittingId: string) => `/s/${slug}/desk/requests/${sittingId}`;
