// Parts of the contact's own page: the offer that can be answered, and how long the wait may be.
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import { useWords } from '../platform/html/kit/spoken.js';
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
  const {
    dates,
    place: { offer: words },
  } = useWords();
  const until = instantToWall(place.zone, offer.expiresAt);
  const [from, to] = [dates.time(place.wallStart), dates.time(place.wallEnd)];
  return (
    <Card title={words.title}>
      <p>
        <strong>{words.when(dates.day(place.wallStart), from, to)}</strong>
        {words.atStudio}
      </p>
      <p>{words.held(dates.day(until), dates.time(until), place.zone)}</p>
      <Form action={`${path}/accept`} csrf={formToken} label={words.take.label}>
        <Button>{words.take.button}</Button>
      </Form>
      <Form action={`${path}/refuse`} csrf={formToken} label={words.refuse.label}>
        <Button kind="quiet">{words.refuse.button}</Button>
      </Form>
    </Card>
  );
}

export function TheWait({ standing }: { standing: Standing }) {
  const all = useWords();
  const words = all.place.wait;
  const { position, of, wait, months, open, given } = standing;
  const ofTen = (share: number) => Math.round(share * 10);
  return (
    <Card title={words.title}>
      <p>
        <strong>{waitInWords(wait, all)}</strong>
        {wait.ok && words.mostly}
        {words.reckoned}
      </p>
      <details>
        <summary>{words.how}</summary>
        <p>
          {words.standing(position, of)} {words.ahead(months, open, given)}{' '}
          {words.ofTen(ofTen(standing.acceptedShare), ofTen(standing.givenBackShare))}
        </p>
        <p>{words.unsure}</p>
      </details>
    </Card>
  );
}

/** The ways to what can be read before the day and put right, and what the studio was asked to change. */
export function Corrections({ wish, path }: { wish: Wish | null; path: string }) {
  const { place, prepareSheet } = useWords();
  return (
    <>
      {wish && <p>{place.wish(wish.words)}</p>}
      <p class="alone">
        <a href={`${path}/prepare`}>{prepareSheet.link}</a>
      </p>
      <p class="alone">
        <a href={`${path}/details`}>{place.correct}</a>
      </p>
    </>
  );
}
