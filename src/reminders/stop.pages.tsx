// The page behind the address in the head of a reminder: looking at it changes nothing.
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';

interface StopProps {
  studio: Studio;
  stopped: boolean;
  formToken: string;
  path: string;
  spoken: Spoken;
}

export function StopPage({ studio, stopped, formToken, path, spoken }: StopProps) {
  const { reminders: words } = spoken.words.place;
  return (
    <Page title={words.title} {...studioFrame(studio)} spoken={spoken} unlisted>
      <p class="lead">{stopped ? words.stopped : words.stopsHere}</p>
      <Form action={stopped ? `${path}/again` : path} csrf={formToken}>
        <Button>{stopped ? words.again : words.stop}</Button>
      </Form>
    </Page>
  );
}
