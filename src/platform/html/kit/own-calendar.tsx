// What somebody with a place can do with their own calendar: follow it on any device, have the journeys in it, and get
// a new address when the old one fell into wrong hands.
import { Button } from './button.js';
import { CalendarLink, isLoopback } from './calendar-link.js';
import { Card } from './facts.js';
import { Form } from './form.js';
import { PhoneSteps } from './phone-steps.js';
import { useWords } from './spoken.js';

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
  const words = useWords().ownCalendar;
  return (
    <>
      <CalendarLink
        url={feedUrl}
        name="feed"
        label={words.address}
        follow={words.card.follow}
        picture={words.picture}
        primary
      />
      <Journeys {...props} />
      <PhoneSteps local={isLoopback(feedUrl)} letters />
      <details>
        <summary>{words.replace.title}</summary>
        <p>{words.replace.says}</p>
        <Form action={action} csrf={formToken} label={words.replace.label}>
          <Button kind="danger" name="do" value="replace">
            {words.replace.button}
          </Button>
        </Form>
      </details>
      <p class="alone">
        <a href={back}>{words.back}</a>
      </p>
    </>
  );
}

function Journeys({ formToken, action, back, travel, homeKnown }: OwnCalendarProps) {
  const { journeys: words } = useWords().ownCalendar;
  return (
    <Card title={words.title}>
      <p>
        {travel ? words.some : words.none}
        {!homeKnown && (
          <>
            {' '}
            {words.needed}
            <a href={`${back}/journey`}>{words.home}</a>.
          </>
        )}
      </p>
      <Form action={action} csrf={formToken} label={words.label}>
        <Button kind="quiet" name="do" value={travel ? 'no journeys' : 'journeys'}>
          {travel ? words.take : words.add}
        </Button>
      </Form>
    </Card>
  );
}
