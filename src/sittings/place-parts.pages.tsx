// Parts of the contact's own page: the offer that can be answered, and how long the wait may be.
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { waitInWords } from '../waiting/words.calc.js';
import type { Wish } from './corrections.schemas.js';
import type { Standing } from './list.schemas.js';

interface TheOfferProps {
  place: Occupancy;
  offer: Offer;
  path: string;
  formToken: string;
}

/** One tap each; a GET of this page changes nothing. */
export function TheOffer({ place, offer, path, formToken }: TheOfferProps) {
  const until = instantToWall(place.zone, offer.expiresAt);
  return (
    <Card title="A place for you">
      <p>
        <strong>
          {dayInWords(place.wallStart)}, {timeInWords(place.wallStart)} to {timeInWords(place.wallEnd)}
        </strong>
        , time at the studio.
      </p>
      <p>
        Held for you until {dayInWords(until)}, {timeInWords(until)} (studio time, {place.zone}). After that
        it is free for somebody else.
      </p>
      <Form action={`${path}/accept`} csrf={formToken} label="Take this place">
        <Button>Yes, I take this place</Button>
      </Form>
      <Form action={`${path}/refuse`} csrf={formToken} label="Not this one">
        <Button kind="quiet">Not this one; I keep waiting</Button>
      </Form>
    </Card>
  );
}

export function TheWait({ standing }: { standing: Standing }) {
  const { position, of, wait, months, open, given } = standing;
  const ofTen = (share: number) => Math.round(share * 10);
  return (
    <Card title="How long it may take">
      <p>
        <strong>{waitInWords(wait)}</strong>
        {wait.ok && ', in eight cases of ten'}. It is reckoned, not promised.
      </p>
      <details>
        <summary>How this was reckoned</summary>
        <p>
          You are number {position} of {of} on the list. In the next {months} months {counted(open, 'place')}{' '}
          {open === 1 ? 'is' : 'are'} still open and {given} {given === 1 ? 'is' : 'are'} given. Of ten places
          offered about {ofTen(standing.acceptedShare)} are taken, and of ten given about{' '}
          {ofTen(standing.givenBackShare)} come back.
        </p>
        <p>
          Places come at no fixed times, and fewer in the dark months: so it is a range. It does not know on
          which days you can come, or which places go to others first.
        </p>
      </details>
    </Card>
  );
}

/** The way to what can be put right, and what the studio was asked to change. */
export function Corrections({ wish, path }: { wish: Wish | null; path: string }) {
  return (
    <>
      {wish && (
        <p>You have asked the studio: “{wish.words}” It has not answered yet, and nothing is changed.</p>
      )}
      <p class="alone">
        <a href={`${path}/details`}>Put my details right, or ask for other plates</a>
      </p>
    </>
  );
}
