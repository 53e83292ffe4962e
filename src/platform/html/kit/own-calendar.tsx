// What somebody with a place can do with their own calendar: follow it on any device, have the journeys in it, and get
// a new address when the old one fell into wrong hands.
import { Button } from './button.js';
import { CalendarLink, isLoopback } from './calendar-link.js';
import { Card } from './facts.js';
import { Form } from './form.js';
import { PhoneSteps } from './phone-steps.js';

interface OwnCalendarProps {
  feedUrl: string;
  formToken: string;
  /** Where the forms are sent, and the page they belong to. */
  action: string;
  back: string;
  /** The journeys stand in it. */
  travel: boolean;
  /** It is known where they come from. */
  homeKnown: boolean;
}

export function OwnCalendar(props: OwnCalendarProps) {
  const { feedUrl, formToken, action, back } = props;
  return (
    <>
      <CalendarLink
        url={feedUrl}
        name="feed"
        label="Address of your calendar"
        follow="Put this on my phone"
        picture="The address of your calendar as a picture to scan"
        primary
      />
      <Journeys {...props} />
      <PhoneSteps local={isLoopback(feedUrl)} letters />
      <details>
        <summary>Somebody else has this address</summary>
        <p>
          Make a new one: the old one stops at once, for every calendar that follows it. Put the new one on
          your phone then.
        </p>
        <Form action={action} csrf={formToken} label="A new address">
          <Button kind="danger" name="do" value="replace">
            Make a new address
          </Button>
        </Form>
      </details>
      <p class="alone">
        <a href={back}>Back to your page</a>
      </p>
    </>
  );
}

function Journeys({ formToken, action, back, travel, homeKnown }: OwnCalendarProps) {
  return (
    <Card title="Your journey as well?">
      <p>
        {travel
          ? 'The way there and the way home stand in your calendar, with the moment by which to leave.'
          : 'The way there and the way home can stand in your calendar too, by the clock where you live, with the moment by which to leave.'}
        {!homeKnown && (
          <>
            {' '}
            For that we need to know <a href={`${back}/journey`}>where you travel from</a>.
          </>
        )}
      </p>
      <Form action={action} csrf={formToken} label="The journey in your calendar">
        <Button kind="quiet" name="do" value={travel ? 'no journeys' : 'journeys'}>
          {travel ? 'Take my journeys out' : 'Add my journeys'}
        </Button>
      </Form>
    </Card>
  );
}
