// What cannot be undone is asked twice: the first press says what it would do, the second does it. Without script as well.
import { Button } from './button.js';
import { Form } from './form.js';

interface AskedTwiceProps {
  /** Of the first press. */
  button: string;
  /** What would be, in a sentence. */
  sure: string;
  /** Of the second press. */
  yes: string;
  action: string;
  csrf: string;
}

export function AskedTwice({ button, sure, yes, action, csrf }: AskedTwiceProps) {
  return (
    <details>
      <summary>{button}</summary>
      <p>{sure}</p>
      <Form action={action} csrf={csrf}>
        <Button kind="danger">{yes}</Button>
      </Form>
    </details>
  );
}
