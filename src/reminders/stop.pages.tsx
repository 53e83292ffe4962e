// The page behind the address in the head of a reminder: looking at it changes nothing.
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';

interface StopProps {
  studio: Studio;
  stopped: boolean;
  formToken: string;
  path: string;
}

export function StopPage({ studio, stopped, formToken, path }: StopProps) {
  return (
    <Page title="Reminders" {...studioFrame(studio)} unlisted>
      <p class="lead">
        {stopped
          ? 'You get no reminders any more. Whatever changes about your place you are still told.'
          : 'You are reminded of your place before the day. Here you stop that; whatever changes about your place you are still told.'}
      </p>
      <Form action={stopped ? `${path}/again` : path} csrf={formToken}>
        <Button>{stopped ? 'Remind me again' : 'Do not remind me'}</Button>
      </Form>
    </Page>
  );
}
