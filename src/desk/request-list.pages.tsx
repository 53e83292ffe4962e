// Every request that waits for an answer, the oldest first, each with the best place open on its days.
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { DeskPage } from './frame.pages.js';
import type { WaitingRequest } from './glance.calc.js';
import { LightNote, NoHelper, StockInShort, TooLong } from './places.pages.js';
import { holdStillInShort, journeyInShort, platesInWords, shortDay, suitsInShort } from './words.calc.js';

export function RequestListPage({ visit, waiting }: { visit: StaffVisit; waiting: WaitingRequest[] }) {
  return (
    <DeskPage visit={visit} title="Waiting for your answer" at="" distances wide>
      {waiting.length === 0 ? (
        <p class="empty">Nobody is waiting for an answer.</p>
      ) : (
        <p>
          {waiting.length} waiting for your answer, each with the best place open on their days: the one with
          the least time to hold still, and the earlier of two alike.
        </p>
      )}
      {waiting.length > 0 && <h2>The oldest first</h2>}
      {waiting.map((one) => (
        <Request key={one.view.sitting.id} visit={visit} one={one} />
      ))}
      {waiting.length > 0 && <LightNote />}
      <p class="alone">
        <a href={`/s/${visit.studio.slug}/desk/requests/new`}>Somebody asks on the telephone</a>
      </p>
      <p class="alone">
        <a href={`/s/${visit.studio.slug}/desk`}>Back to the desk</a>
      </p>
    </DeskPage>
  );
}

function Request({ visit: { studio }, one }: { visit: StaffVisit; one: WaitingRequest }) {
  const { sitting, contact } = one.view;
  return (
    <article class="day">
      <h3>
        <a href={`/s/${studio.slug}/desk/requests/${sitting.id}`}>{contact.name}</a>
      </h3>
      <p>{platesInWords(one.view)}</p>
      <p class="small">
        {suitsInShort(sitting.suits)}; asked on {shortDay(instantToWall(studio.zone, sitting.askedAt))}
      </p>
      <p>
        <AtAGlance {...one} />
      </p>
    </article>
  );
}

/** In one line what stands behind a yes: room, light, shelf and journey. */
export function AtAGlance({ view, best, open, limit }: WaitingRequest) {
  if (best === null) return <>No place is open on these days · {journeyInShort(view.journey)}</>;
  const { slot, stock, helperMissing } = best;
  return (
    <>
      <strong>
        {dayInWords(slot.wallStart)}, {timeInWords(slot.wallStart)}
      </strong>{' '}
      ({open === 1 ? 'the only one open' : `of ${open} open`}) ·{' '}
      {slot.holdStill && `${holdStillInShort(slot.holdStill)} · `}
      <StockInShort stock={stock} />
      <TooLong slot={slot} limit={limit} />
      {helperMissing && <NoHelper />} · {journeyInShort(view.journey)}
    </>
  );
}
