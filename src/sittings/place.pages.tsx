// The contact's own page: where the request stands, the place, the calendar link, giving it up.
import { studioFrame } from '../studios/frame.calc.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { Card, type Fact, Facts } from '../platform/html/kit/facts.js';
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { SittingView } from './sittings.schemas.js';
import { givingUp, type SittingState } from './states.calc.js';
import { daysInWords, STATE_WORDS } from './words.calc.js';

export interface PlaceProps {
  studio: Studio;
  view: SittingView;
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
  ['already', { tone: 'warn', text: 'This was given up already, or answered in the meantime.' }],
]);

const LEAD: Record<SittingState, string> = {
  requested: 'The studio has your request and will answer. Nothing is fixed yet.',
  waiting: 'You are on the waiting list. Nothing is fixed yet; when a place comes you are asked.',
  offered: 'The studio offers you a place. It is held for you until the offer runs out.',
  confirmed: 'You have a place. We look forward to meeting you.',
  made: 'Your sitting has been held. Thank you for coming.',
  came_no_plate: 'You came, and no plate could be made. The studio owes you another place.',
  did_not_come: 'This sitting was not held.',
  declined: 'The studio could not give you a place.',
  withdrawn: 'You have withdrawn this request. You are welcome to ask again.',
  lapsed: 'Offers ran out without an answer, so no more are made. You can go back on the list.',
  released: 'You have given this place back. You are welcome to ask again.',
  called_off: 'The studio had to call this sitting off.',
};

export function PlacePage({ studio, view, begun, formToken, path, feedUrl, done }: PlaceProps) {
  const { state, message } = view.sitting;
  const event = begun ? null : givingUp(state);
  const lead = begun && state === 'confirmed' ? 'The hour of your sitting has come.' : LEAD[state];
  return (
    <Page
      title={state === 'requested' ? 'Your request' : 'Your sitting'}
      {...studioFrame(studio)}
      notice={DONE.get(done)}
      unlisted
    >
      <p class="lead">{lead}</p>
      {message !== '' && <Notice tone="note">{message}</Notice>}
      <Card title="Where it stands">
        <Facts
          items={[{ term: 'State', detail: STATE_WORDS[state] }, ...placeFacts(view), ...requestFacts(view)]}
        />
      </Card>
      {state === 'confirmed' && !begun && <ComingHere studio={studio} view={view} />}
      {feedUrl !== null && state === 'confirmed' && !begun && <YourCalendar feedUrl={feedUrl} />}
      {event === null && (
        <p class="alone">
          <a href={`/s/${studio.slug}/ask`}>Ask again</a>
        </p>
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
    </Page>
  );
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
    ...(view.contact.home ? [{ term: 'You travel from', detail: view.contact.home.name }] : []),
    ...(view.sitting.hopes === '' ? [] : [{ term: 'You hope for', detail: view.sitting.hopes }]),
  ];
}

function ComingHere({ studio, view: { contact, journey } }: { studio: Studio; view: SittingView }) {
  return (
    <Card title="Coming here">
      <p>{studio.address}</p>
      {contact.home && journey && (
        <p>
          From {contact.home.name} it is about {Math.round(journey.km)} km as the crow flies.
          {journey.overnight && ' You will probably want a night’s stay.'}
        </p>
      )}
    </Card>
  );
}

function YourCalendar({ feedUrl }: { feedUrl: string }) {
  return (
    <Card title="Your calendar link">
      <p>
        <a href={feedUrl.replace(/^https?:/, 'webcal:')}>Put this on my phone</a>, or give the address below
        to any calendar that can follow another. It keeps in step by itself. Please keep it to yourself.
      </p>
      <CopyField name="feed" label="Address of your calendar" value={feedUrl} />
    </Card>
  );
}
