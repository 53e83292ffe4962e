// On the page of whoever has a place: whether they are reminded of it, and changing that.
import { Button } from './button.js';
import { Card } from './facts.js';
import { Form } from './form.js';
import { useWords } from './spoken.js';

interface RemindersCardProps {
  /** They said that they want none. */
  stopped: boolean;
  /** Where it is changed. */
  action: string;
  csrf: string;
}

export function RemindersCard({ stopped, action, csrf }: RemindersCardProps) {
  const { reminders: words } = useWords().place;
  return (
    <Card title={words.title}>
      <p>{stopped ? words.none : words.some}</p>
      <Form action={action} csrf={csrf} label={words.title}>
        <Button kind="quiet" name="wanted" value={stopped ? 'yes' : 'no'}>
          {stopped ? words.again : words.stop}
        </Button>
      </Form>
    </Card>
  );
}
