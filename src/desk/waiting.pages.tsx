// The owner's waiting list: offers that are open, places that came free with who could be asked, and everybody who
// waits, in order, with the reasons in plain words.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import type { FreedPlace, Listed, LiveOffer } from '../sittings/list.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { WaitingRules } from '../waiting/rules.schemas.js';
import { BEFORE_WORDS, MODE_WORDS, NOT_ASKED_WORDS, reasonInWords } from '../waiting/words.calc.js';
import { freedId } from './freed.pages.js';
import { DeskPage, type Notice } from './frame.pages.js';
import type { ToMove } from './inbox.calc.js';
import { DayIsShut } from './inbox.pages.js';
import { planPath } from './plan-parts.pages.js';
import { journeyInShort, momentInWords, platesInWords, suitsInShort } from './words.calc.js';

/** Of one or several, who have e-mail or not. */
export const TELLING = 'They are told by e-mail, or stand under “To telephone”.';

/** What was just done, told after a redirect by a code in the address. */
export const WAITING_DONE = new Map<unknown, Notice>([
  ['listed', { tone: 'good', text: `It is on the waiting list. ${TELLING}` }],
  ['offered', { tone: 'good', text: `The place is offered and held. ${TELLING}` }],
  ['accepted', { tone: 'good', text: `The place is theirs. ${TELLING}` }],
  ['refused', { tone: 'good', text: 'Noted. The place is free, and they keep their turn.' }],
  ['another-day', { tone: 'good', text: 'Their place is free, and they wait for another day.' }],
  ['reopened', { tone: 'good', text: 'Back on the list, with the first date of asking.' }],
  ['marked', { tone: 'good', text: 'The marks are saved.' }],
  ['rules', { tone: 'good', text: 'The rule is saved.' }],
  ['late', { tone: 'warn', text: 'That was answered, ran out or was given up in the meantime.' }],
]);

/** So many of the list stand open; the others are folded away. */
const SHOWN = 40;

export interface WaitingList {
  rules: WaitingRules;
  listed: Listed[];
  offers: LiveOffer[];
  freed: FreedPlace[];
  ranOut: SittingView[];
  now: Temporal.Instant;
}

interface WaitingPageProps {
  visit: StaffVisit;
  list: WaitingList;
  /** What cannot be as it stands. */
  toMove: ToMove[];
  notice?: Notice | undefined;
}

export function WaitingPage({ visit, list, toMove, notice }: WaitingPageProps) {
  const { rules, listed, offers, freed, ranOut, now } = list;
  const rest = listed.slice(SHOWN);
  return (
    <DeskPage visit={visit} title="Waiting list" at="/waiting" notice={notice} distances wide>
      <p>
        {counted(listed.length, 'person', 'people')} on the list, {counted(offers.length, 'open offer')}.{' '}
        {MODE_WORDS[rules.mode]}, when a place comes free.
      </p>
      <p class="actions">
        <a href={`/s/${visit.studio.slug}/desk/requests/new`}>Somebody asks on the telephone</a>
        <a href={waitingPath(visit, '/rules')}>The rule of the list</a>
        <a href={`/s/${visit.studio.slug}/desk/settings/bring-in`}>Bring in your diary</a>
        <a href={planPath(visit)}>Plan for all of them</a>
      </p>
      {offers.length > 0 && <h2 id="offers">Open offers</h2>}
      {offers.map((one) => (
        <OpenOffer
          key={one.offer.id}
          visit={visit}
          now={now}
          shut={toMove.find(({ view }) => view.sitting.id === one.view.sitting.id)?.reason}
          {...one}
        />
      ))}
      {freed.length > 0 && <h2 id="freed">Places that came free</h2>}
      {freed.map((one) => (
        <Freed key={one.wallStart.toString()} visit={visit} listed={listed} freed={one} />
      ))}
      <h2 id="list">The list</h2>
      {listed.length === 0 ? (
        <p class="empty">Nobody waits. A request is put on the list from its own page.</p>
      ) : (
        <p class="small">
          In the order of your rule; figures in brackets are its points. Open somebody to mark them, or to
          offer or give a place.
        </p>
      )}
      {listed.slice(0, SHOWN).map((one) => (
        <OnList key={one.ranked.id} visit={visit} {...one} />
      ))}
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} more</summary>
          {rest.map((one) => (
            <OnList key={one.ranked.id} visit={visit} {...one} />
          ))}
        </details>
      )}
      {ranOut.length > 0 && <RanOut visit={visit} views={ranOut} />}
    </DeskPage>
  );
}

interface OpenOfferProps extends LiveOffer {
  visit: StaffVisit;
  now: Temporal.Instant;
  shut: ToMove['reason'] | undefined;
}

function OpenOffer({ visit, view, offer, now, shut }: OpenOfferProps) {
  const { studio, formToken } = visit;
  const { sitting, contact, place } = view;
  const over = offer.expiresAt.epochMilliseconds <= now.epochMilliseconds;
  return (
    <article class="day">
      <h3>
        <a href={requestPath(visit, sitting.id)}>{contact.name}</a>
      </h3>
      <p>
        {place && `${dayInWords(place.wallStart)}, ${timeInWords(place.wallStart)}. `}
        {over ? 'Has run out.' : `Runs out on ${momentInWords(studio.zone, offer.expiresAt)}.`}
        {offer.byTelephone && !over && (
          <>
            {' '}
            <Tag tone="warn">to be told by telephone</Tag> {contact.telephone}
          </>
        )}
      </p>
      {!over && shut && <DayIsShut visit={visit} view={view} reason={shut} />}
      {!over && (
        <div class="actions">
          <Form
            action={waitingPath(visit, `/${sitting.id}/accepted`)}
            csrf={formToken}
            label={`Yes from ${contact.name}`}
          >
            <Button kind="quiet">They said yes</Button>
          </Form>
          <Form
            action={waitingPath(visit, `/${sitting.id}/refused`)}
            csrf={formToken}
            label={`No from ${contact.name}`}
          >
            <Button kind="quiet">They said no</Button>
          </Form>
        </div>
      )}
    </article>
  );
}

function Freed({ visit, listed, freed }: { visit: StaffVisit; listed: Listed[]; freed: FreedPlace }) {
  const { wallStart, candidates, byRule } = freed;
  const named = (id: string) => listed.find(({ ranked }) => ranked.id === id);
  const [first, ...others] = candidates.order.flatMap((id) => named(id) ?? []);
  if (!first) return null;
  const passed = candidates.notAsked.flatMap(({ id, why }) => {
    const one = named(id);
    return one && one.ranked.position < first.ranked.position
      ? [`${one.view.contact.name}: ${NOT_ASKED_WORDS[why]}`]
      : [];
  });
  return (
    <article class="day" id={freedId(freed)}>
      <h3>
        {dayInWords(wallStart)}, {timeInWords(wallStart)}
      </h3>
      <p>
        Next: <a href={requestPath(visit, first.ranked.id)}>{first.view.contact.name}</a> (number{' '}
        {first.ranked.position})
        {others.length > 0 && `; after them ${counted(others.length, 'more', 'more')}`}.
      </p>
      {byRule && <p>Your rule offers it by itself in a few minutes; there is nothing to do.</p>}
      {passed.length > 0 && <p class="small">Passed over: {passed.join('; ')}.</p>}
      <Form
        action={waitingPath(visit, `/${first.ranked.id}/offer`)}
        csrf={visit.formToken}
        label={`Offer ${dayInWords(wallStart)} to ${first.view.contact.name}`}
      >
        <input type="hidden" name="start" value={wallStart.toString({ smallestUnit: 'minute' })} />
        <Button kind="quiet">Offer it to {first.view.contact.name}</Button>
      </Form>
    </article>
  );
}

function OnList({ visit, view, ranked }: Listed & { visit: StaffVisit }) {
  const { sitting, contact, journey } = view;
  return (
    <article class="day">
      <h3>
        {ranked.position}. <a href={requestPath(visit, sitting.id)}>{contact.name}</a>
      </h3>
      <p>
        {ranked.reasons.map(reasonInWords).join('; ')}. Together {ranked.points}
        {ranked.before && <span class="small"> · {BEFORE_WORDS[ranked.before]}</span>}
      </p>
      <p class="small">
        {platesInWords(view)} · {suitsInShort(sitting.suits)} · {journeyInShort(journey)}
        {sitting.returnOwed &&
          ` · first asked on ${dayInWords(instantToWall(visit.studio.zone, sitting.askedAt))}`}
        {sitting.offersUnanswered > 0 && ` · ${counted(sitting.offersUnanswered, 'offer')} ran out`}
      </p>
    </article>
  );
}

function RanOut({ visit, views }: { visit: StaffVisit; views: SittingView[] }) {
  return (
    <>
      <h2 id="ran-out">Offers ran out</h2>
      <p>They did not answer, and are asked no more until they or you put them back.</p>
      {views.map(({ sitting, contact }) => (
        <article class="day" key={sitting.id}>
          <h3>
            <a href={requestPath(visit, sitting.id)}>{contact.name}</a>
          </h3>
          <p>asked on {dayInWords(instantToWall(visit.studio.zone, sitting.askedAt))}</p>
          <Form
            action={waitingPath(visit, `/${sitting.id}/reopen`)}
            csrf={visit.formToken}
            label={`Put ${contact.name} back`}
          >
            <Button kind="quiet">Put back on the list</Button>
          </Form>
        </article>
      ))}
    </>
  );
}

export const waitingPath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/waiting${rest}`;
const requestPath = ({ studio }: StaffVisit, id: string) => `/s/${studio.slug}/desk/requests/${id}`;
