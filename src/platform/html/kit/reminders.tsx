// On the page of whoever has a place: whether they are reminded of it and by what, and changing that.
import { Button } from './button.js';
import { Card } from './facts.js';
import { Form } from './form.js';
import { useWords } from './spoken.js';

interface RemindersCardProps {
  /** They said that they want none. */
  stopped: boolean;
  /** What is still to be sent and how; null where that is not known, or not told. */
  toCome: { by: string; lines: string[] } | null;
  /** Where it is changed. */
  action: string;
  csrf: string;
}

export function RemindersCard({ stopped, toCome, action, csrf }: RemindersCardProps) {
  const { reminders: words } = useWords().place;
  return (
    <Card title={words.title}>
      <p>{stopped ? words.none : toCome?.lines.length === 0 ? words.noMore : words.some}</p>
      {toCome && toCome.lines.length > 0 && (
        <details class="to-come">
          <summary>{words.toCome}</summary>
          <p>{toCome.by}</p>
          <ul>
            {toCome.lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
      <Form action={action} csrf={csrf} label={words.title}>
        <Button kind="quiet" name="wanted" value={stopped ? 'yes' : 'no'}>
          {stopped ? words.again : words.stop}
        </Button>
      </Form>
    </Card>
  );
}
