// On the page of whoever has a place: whether they are reminded of it, and changing that.
import { Button } from './button.js';
import { Card } from './facts.js';
import { Form } from './form.js';

interface RemindersCardProps {
  /** They said that they want none. */
  stopped: boolean;
  /** Where it is changed. */
  action: string;
  csrf: string;
}

export const RemindersCard = ({ stopped, action, csrf }: RemindersCardProps) => (
  <Card title="Reminders">
    <p>
      {stopped
        ? 'You get no reminders before the day. Whatever changes about your place you are still told.'
        : 'You are reminded of your place before the day.'}
    </p>
    <Form action={action} csrf={csrf} label="Reminders">
      <Button kind="quiet" name="wanted" value={stopped ? 'yes' : 'no'}>
        {stopped ? 'Remind me again' : 'Do not remind me'}
      </Button>
    </Form>
  </Card>
);
