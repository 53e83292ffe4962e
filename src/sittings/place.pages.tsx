// The contact's own page: where the request stands, the place, the calendar link, giving it up.
import { studioFrame } from '../studios/frame.calc.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { JourneyCard } from '../platform/html/kit/journey.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Card, type Fact, Facts } from '../platform/html/kit/facts.js';
import { Answers } from '../platform/html/kit/answers.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { RemindersCard } from '../platform/html/kit/reminders.js';
import { Notice } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { contactJourneyTold } from '../travel/told.calc.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { asksConsent, type ConsentLine } from './consents.calc.js';
import { consentsInWords } from './consent-words.calc.js';
import type { Wish } from './corrections.schemas.js';
import type { Standing } from './list.schemas.js';
import { Corrections, TheOffer, TheWait } from './place-parts.pages.js';
import { YourCalendar } from './own-calendar.pages.js';
import type { SittingView } from './sittings.schemas.js';
import { givingUp, type SittingState } from './states.calc.js';
import { daysInWords, STATE_WORDS } from './words.calc.js';
import { wordsFor } from '../words/words-for.js';

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
  /** Its hour has come: nothing can be given back any more. */
  begun: boolean;
  formToken: string;
  /** Address of this page, for the form. */
  path: string;
  /** Whole address of the person's calendar, once there is a place. */
  feedUrl: string | null;
  /** What was just done, from the address: anything may stand there. */
  done?: unknown;
}

const DONE = new Map<unknown, { tone: 'good' | 'warn'; text: string }>([
  [
    'asked',
    {
      tone: 'good',
      text: 'Your request has reached the studio. Please keep the address of this page: it is yours.',
    },
  ],
  ['given-up', { tone: 'good', text: 'It is given up, and a message about it is on its way.' }],
  [
    'accepted',
    { tone: 'good', text: 'The place is yours. A message with the calendar entry is on its way.' },
  ],
  [
    'refused',
    { tone: 'good', text: 'Thank you. It is free for somebody else, and you keep your turn on the list.' },
  ],
  ['another-day', { tone: 'good', text: 'The place is given back, and you wait for another day.' }],
  ['reopened', { tone: 'good', text: 'You are back on the list, with the date on which you first asked.' }],
  ['reminders', { tone: 'good', text: 'Thank you, that is noted.' }],
  ['journey', { tone: 'good', text: 'Thank you, that is noted. See below when to leave.' }],
  ['corrected', { tone: 'good', text: 'Your details are kept as they stand below.' }],
  ['as-before', { tone: 'good', text: 'Nothing was different, so nothing is changed.' }],
  ['wished', { tone: 'good', text: 'The studio has your wish and will answer. Nothing is changed yet.' }],
  ['over', { tone: 'warn', text: 'Nothing lies ahead any more that could be changed here.' }],
  ['consent', { tone: 'good', text: 'Noted. You can change this here at any time.' }],
  [
    'words-changed',
    { tone: 'warn', text: 'The studio has changed these words in the meantime. Please read them again.' },
  ],
  ['ran-out', { tone: 'warn', text: 'This offer had run out, and the place is open to others again.' }],
  [
    'taken',
    { tone: 'warn', text: 'This place cannot be held any more. The studio is sorry, and writes to you.' },
  ],
  ['already', { tone: 'warn', text: 'This was given up already, or answered in the meantime.' }],
]);

const LEAD: Record<SittingState, string> = {
  requested: 'The studio has your request and will answer. Nothing is fixed yet.',
  waiting: 'You are on the waiting list. Nothing is fixed yet; when a place comes you are asked.',
  offered: 'The studio offers you a place. It is held for you until the offer runs out.',
  confirmed: 'You have a place. We look forward to meeting you.',
  made: 'Your sitting has been held. Thank you for coming.',
  came_no_plate:
    'You came, and no plate could be made. It was no fault of yours: the studio owes you another place, and a letter about it brings you the page for it.',
  did_not_come: 'This sitting was not held.',
  declined: 'The studio could not give you a place.',
  withdrawn: 'You have withdrawn this request. You are welcome to ask again.',
  lapsed: 'Offers ran out without an answer, so no more are made. You can go back on the list.',
  released: 'You have given this place back. You are welcome to ask again.',
  called_off: 'The studio had to call this sitting off.',
};

export function PlacePage({
  studio,
  view,
  offer,
  standing,
  consents,
  wish,
  begun,
  formToken,
  path,
  feedUrl,
  done,
}: PlaceProps) {
  const { message } = view.sitting;
  // An offer that has run out is over, though nobody has let it lapse yet.
  const over = view.sitting.state === 'offered' && !offer;
  const state = over ? 'waiting' : view.sitting.state;
  const event = begun ? null : givingUp(state);
  const lead = leadOf(view, studio.zone, begun, offer);
  return (
    <Page
      title={['requested', 'waiting', 'lapsed'].includes(state) ? 'Your request' : 'Your sitting'}
      {...studioFrame(studio)}
      notice={DONE.get(done)}
      credits={[PLACES_CREDIT]}
      unlisted
    >
      <p class="lead">{lead}</p>
      {message !== '' && <Notice tone="note">{message}</Notice>}
      {offer && view.place && <TheOffer place={view.place} offer={offer} path={path} formToken={formToken} />}
      {state === 'lapsed' && (
        <Form action={`${path}/reopen`} csrf={formToken}>
          <Button>Put me back on the list</Button>
        </Form>
      )}
      <Card title="Where it stands">
        <Facts
          items={[
            { term: 'State', detail: STATE_WORDS[state] },
            ...placeFacts(over ? { ...view, place: null } : view),
            ...requestFacts(view),
          ]}
        />
      </Card>
      {event !== null && (
        <p class="alone">
          <a href={`${path}/prepare`}>{wordsFor('en').prepareSheet.link}</a>
        </p>
      )}
      {event !== null && <Corrections wish={wish} path={path} />}
      {standing && <TheWait standing={standing} />}
      {event !== null && (
        <JourneyCard
          address={studio.address}
          told={contactJourneyTold(view.contact, studio, over ? null : view.place)}
          href={`${path}/journey`}
        />
      )}
      {asksConsent(state, consents) && (
        <Answers
          {...consentsInWords(consents, studio.zone, 'own page')}
          action={`${path}/consents`}
          formToken={formToken}
        />
      )}
      {feedUrl !== null && state === 'confirmed' && !begun && <YourCalendar {...{ feedUrl, path }} />}
      {state === 'confirmed' && !begun && (
        <RemindersCard
          stopped={view.contact.remindersStoppedAt !== null}
          action={`${path}/reminders`}
          csrf={formToken}
        />
      )}
      {event === null && (
        <p class="alone">
          <a href={`/s/${studio.slug}/ask`}>Ask again</a>
        </p>
      )}
      <Leaving state={state} begun={begun} path={path} formToken={formToken} />
      <p class="alone">
        <a href={path.replace('/place/', '/your-data/')}>Your data: take it with you, or have it erased</a>
      </p>
    </Page>
  );
}

interface LeavingProps {
  state: SittingState;
  begun: boolean;
  path: string;
  formToken: string;
}

/** Giving the day or the request back, as long as there is something to give. */
function Leaving({ state, begun, path, formToken }: LeavingProps) {
  const event = begun ? null : givingUp(state);
  return (
    <>
      {state === 'confirmed' && !begun && (
        <Card title="Another day would be better?">
          <p>You give this day back and wait for another, with the date on which you first asked.</p>
          <Form action={`${path}/another-day`} csrf={formToken}>
            <Button kind="quiet">Ask for another day</Button>
          </Form>
        </Card>
      )}
      {event !== null && (
        <Card title={event === 'release' ? 'You cannot come?' : 'You no longer want to?'}>
          <p>
            {event === 'release'
              ? 'Give the place back as soon as you know: someone else is waiting for it.'
              : 'Withdraw your request; the studio is told at once.'}
          </p>
          <Form action={`${path}/give-up`} csrf={formToken}>
            <Button kind="danger">
              {event === 'release' ? 'Give my place back' : 'Withdraw my request'}
            </Button>
          </Form>
        </Card>
      )}
    </>
  );
}

function leadOf({ sitting }: SittingView, zone: string, begun: boolean, offer: Offer | null): string {
  if (begun && sitting.state === 'confirmed') return 'The hour of your sitting has come.';
  if (sitting.state === 'offered' && !offer)
    return 'The offer we made you has run out. You keep your turn on the list.';
  if (sitting.state === 'waiting' && sitting.returnOwed)
    return `The studio owes you a place: you come first on the list, with the date on which you first asked, ${dayInWords(instantToWall(zone, sitting.askedAt))}, and are asked when one is free.`;
  return LEAD[sitting.state];
}

function placeFacts({ place, sitting }: SittingView): Fact[] {
  if (!place) return [{ term: 'Days that suit', detail: daysInWords(sitting.suits) }];
  return [
    { term: 'Day', detail: dayInWords(place.wallStart) },
    {
      term: 'Time',
      detail: `${timeInWords(place.wallStart)} to ${timeInWords(place.wallEnd)}, time at the studio (${place.zone})`,
    },
  ];
}

const told = (term: string, detail: string): Fact[] => (detail === '' ? [] : [{ term, detail }]);

function requestFacts(view: SittingView): Fact[] {
  return [
    ...(view.kind ? [{ term: 'Kind of sitting', detail: view.kind.name }] : []),
    {
      term: view.sitters.length === 1 ? 'Sitter' : 'Sitters',
      detail: view.sitters.map((one) => one.name).join(', '),
    },
    {
      term: 'Plates',
      detail: view.plates.map((plate) => `${plate.sizeName}: ${plate.names.join(', ')}`).join('; '),
    },
    ...told('You hope for', view.sitting.hopes),
    ...told('You bring', view.sitting.details.brings),
    ...told('Parent or guardian', view.sitting.details.guardian?.name ?? ''),
  ];
}
