// The contact's own page: where the request stands, the place, the calendar link, giving it up.
import { studioFrame } from '../studios/frame.calc.js';
import { JourneyCard } from '../platform/html/kit/journey.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Card, type Fact, Facts } from '../platform/html/kit/facts.js';
import { Answers } from '../platform/html/kit/answers.js';
import { AskedTwice } from '../platform/html/kit/asked-twice.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { LanguageCard } from '../platform/html/kit/language.js';
import { RemindersCard } from '../platform/html/kit/reminders.js';
import { Notice } from '../platform/html/kit/notices.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { LetterToCome } from '../people/letters-to-come.schemas.js';
import { lettersInWords } from '../people/words.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { contactJourneyTold } from '../travel/told.calc.js';
import type { Words } from '../words/words-for.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { asksConsent, type ConsentLine } from './consents.calc.js';
import { consentsInWords } from './consent-words.calc.js';
import type { Wish } from './corrections.schemas.js';
import type { Standing } from './list.schemas.js';
import { Corrections, TheOffer, TheWait } from './place-parts.pages.js';
import { YourCalendar } from './own-calendar.pages.js';
import type { SittingView } from './sittings.schemas.js';
import { givingUp, type SittingState } from './states.calc.js';
import { daysInWords } from './words.calc.js';

export interface PlaceProps {
  studio: Studio;
  view: SittingView;
  /** The offer that can be answered now. */
  offer: Offer | null;
  /** While they wait. */
  standing: Standing | null;
  consents: ConsentLine[];
  /** What they asked to change, while nobody has answered. */
  wish: Wish | null;
  /** What they are still to be reminded of; null where that is not known, or not told. */
  letters: LetterToCome[] | null;
  /** Its hour has come: nothing can be given back any more. */
  begun: boolean;
  formToken: string;
  /** Address of this page, for the form. */
  path: string;
  /** Whole address of the person's calendar, once there is a place. */
  feedUrl: string | null;
  /** What was just done, from the address: anything may stand there. */
  done?: unknown;
  spoken: Spoken;
}

/** What is told of an act that the address names; anything else may stand there. */
function told(done: unknown, { place }: Words): { tone: 'good' | 'warn'; text: string } | undefined {
  const of = (texts: Record<string, string>) =>
    typeof done === 'string' && Object.hasOwn(texts, done) ? texts[done] : undefined;
  const [good, warn] = [of(place.done), of(place.notDone)];
  if (good !== undefined) return { tone: 'good', text: good };
  return warn === undefined ? undefined : { tone: 'warn', text: warn };
}

export function PlacePage(props: PlaceProps) {
  const { studio, view, offer, standing, consents, wish, begun, formToken, path, done, spoken } = props;
  const { words } = spoken;
  const { message } = view.sitting;
  // An offer that has run out is over, though nobody has let it lapse yet.
  const over = view.sitting.state === 'offered' && !offer;
  const state = over ? 'waiting' : view.sitting.state;
  const event = begun ? null : givingUp(state);
  const { dates } = words;
  const { place } = view;
  const when = place ? `${dates.day(place.wallStart)}, ${dates.time(place.wallStart)}` : '';
  const lead = leadOf(view, studio.zone, { begun, offer }, words);
  return (
    <Page
      title={words.place.title[['requested', 'waiting', 'lapsed'].includes(state) ? 'request' : 'sitting']}
      {...studioFrame(studio)}
      spoken={spoken}
      notice={told(done, words)}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">{lead}</p>
      {message !== '' && <Notice tone="note">{message}</Notice>}
      {offer && view.place && <TheOffer place={view.place} offer={offer} path={path} formToken={formToken} />}
      {state === 'lapsed' && (
        <Form action={`${path}/reopen`} csrf={formToken}>
          <Button>{words.place.putBack}</Button>
        </Form>
      )}
      <Card title={words.place.facts.title}>
        <Facts
          items={[
            { term: words.place.facts.state, detail: words.place.states[state] },
            ...placeFacts(over ? { ...view, place: null } : view, words),
            ...requestFacts(view, words),
          ]}
        />
      </Card>
      {event !== null && <Corrections wish={wish} path={path} />}
      {standing && <TheWait standing={standing} />}
      {event !== null && (
        <JourneyCard
          address={studio.address}
          told={contactJourneyTold(view.contact, studio, over ? null : view.place, words)}
          href={`${path}/journey`}
        />
      )}
      {asksConsent(state, consents) && (
        <Answers
          {...consentsInWords(consents, studio.zone, words)}
          action={`${path}/consents`}
          formToken={formToken}
        />
      )}
      {state === 'confirmed' && !begun && <UntilTheDay {...props} />}
      {event === null && (
        <p class="alone">
          <a href={`/s/${studio.slug}/ask`}>{words.place.askAgain}</a>
        </p>
      )}
      <LanguageCard language={view.contact.language} action={`${path}/language`} csrf={formToken} />
      <Leaving state={state} begun={begun} when={when} path={path} formToken={formToken} />
      <p class="alone">
        <a href={path.replace('/place/', '/your-data/')}>{words.place.yourData}</a>
      </p>
    </Page>
  );
}

/** What goes along with a place: the calendar, and being reminded. */
function UntilTheDay(props: Pick<PlaceProps, 'view' | 'letters' | 'feedUrl' | 'path' | 'formToken'>) {
  const { view, letters, feedUrl, path, formToken } = props;
  const words = useWords();
  return (
    <>
      {feedUrl !== null && <YourCalendar {...{ feedUrl, path }} />}
      <RemindersCard
        stopped={view.contact.remindersStoppedAt !== null}
        toCome={lettersInWords(letters, 'sitting', words)}
        action={`${path}/reminders`}
        csrf={formToken}
      />
    </>
  );
}

interface LeavingProps {
  state: SittingState;
  begun: boolean;
  /** Their day and hour; '' without a place. */
  when: string;
  path: string;
  formToken: string;
}

/** Giving the day or the request back, as long as there is something to give. */
function Leaving({ state, begun, when, path, formToken }: LeavingProps) {
  const { place } = useWords();
  const event = begun ? null : givingUp(state);
  return (
    <>
      {state === 'confirmed' && !begun && (
        <Card title={place.another.title}>
          <p>{place.another.says}</p>
          <AskedTwice
            {...place.another}
            sure={place.another.sure(when)}
            action={`${path}/another-day`}
            csrf={formToken}
          />
        </Card>
      )}
      {event !== null && (
        <Card title={place[event].title}>
          <p>{place[event].says}</p>
          <AskedTwice
            {...place[event]}
            sure={place[event].sure(when)}
            action={`${path}/give-up`}
            csrf={formToken}
          />
        </Card>
      )}
    </>
  );
}

function leadOf(
  { sitting }: SittingView,
  zone: string,
  { begun, offer }: Pick<PlaceProps, 'begun' | 'offer'>,
  { place, dates }: Words,
): string {
  if (begun && sitting.state === 'confirmed') return place.hourHasCome;
  if (sitting.state === 'offered' && !offer) return place.offerRanOut;
  if (sitting.state === 'waiting' && sitting.returnOwed)
    return place.returnOwed(dates.day(instantToWall(zone, sitting.askedAt)));
  return place.lead[sitting.state];
}

function placeFacts({ place, sitting }: SittingView, words: Words): Fact[] {
  const { facts } = words.place;
  if (!place) return [{ term: facts.days, detail: daysInWords(sitting.suits, words) }];
  const { day, time } = words.dates;
  return [
    { term: facts.day, detail: day(place.wallStart) },
    { term: facts.time, detail: facts.hours(time(place.wallStart), time(place.wallEnd), place.zone) },
  ];
}

const fact = (term: string, detail: string): Fact[] => (detail === '' ? [] : [{ term, detail }]);

function requestFacts({ kind, sitters, plates, sitting }: SittingView, { place: { facts } }: Words): Fact[] {
  return [
    ...fact(facts.kind, kind?.name ?? ''),
    { term: facts.sitters(sitters.length), detail: sitters.map((one) => one.name).join(', ') },
    {
      term: facts.plates,
      detail: plates.map((plate) => facts.plate(plate.sizeName, plate.names.join(', '))).join('; '),
    },
    ...fact(facts.hopes, sitting.hopes),
    ...fact(facts.brings, sitting.details.brings),
    ...fact(facts.guardian, sitting.details.guardian?.name ?? ''),
  ];
}
