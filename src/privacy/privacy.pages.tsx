// "Your data", behind a person's own link: everything as one file, and asking to be erased.
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';

interface YourDataProps {
  studio: Studio;
  /** Address of this page. */
  path: string;
  formToken: string;
  /** They have asked to be erased already. */
  asked: boolean;
}

export function YourDataPage({ studio, path, formToken, asked }: YourDataProps) {
  return (
    <Page title="Your data" {...studioFrame(studio)} unlisted>
      <p class="lead">
        What you told the studio, what it wrote to you, what you agreed to, and the plates made of you.
      </p>
      <Card title="Take it with you">
        <p>
          One file with everything, except what helps you here and whom to ring, since others may see this
          page: the studio gives you that.
        </p>
        <TakeForms action={`${path}/file`} formToken={formToken} />
      </Card>
      <Card title="Have it erased">
        {asked ? (
          <p>You have asked for it. The studio has your wish and answers within a month.</p>
        ) : (
          <>
            <p>
              The studio erases your name, how to reach you and all you told it. That plates were made, with
              their numbers, and what was used for them stays, without you. A place that lies ahead has to be
              given back first. Older copies of the studio’s records keep you until they are thinned out, a
              year at most; none of them brings you back.
            </p>
            <Form action={`${path}/erase`} csrf={formToken} label="Have it erased">
              <Button kind="danger">Ask the studio to erase my data</Button>
            </Form>
          </>
        )}
      </Card>
    </Page>
  );
}

/** The file, for programs and for a spreadsheet. */
export function TakeForms({ action, formToken }: { action: string; formToken: string }) {
  return (
    <Form action={action} csrf={formToken} label="Take the data">
      <p class="actions">
        <Button name="as" value="json">
          Download as one file (JSON)
        </Button>
        <Button kind="quiet" name="as" value="csv">
          Download as a table (CSV)
        </Button>
      </p>
    </Form>
  );
}
