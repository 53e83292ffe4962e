// "Your data", behind a person's own link: everything as one file, and asking to be erased.
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
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
  spoken: Spoken;
}

export function YourDataPage({ studio, path, formToken, asked, spoken }: YourDataProps) {
  const { title, lead, take, erase } = spoken.words.ownData;
  return (
    <Page title={title} {...studioFrame(studio)} spoken={spoken} unlisted>
      <p class="lead">{lead}</p>
      <Card title={take.title}>
        <p>{take.says}</p>
        <TakeForms action={`${path}/file`} formToken={formToken} />
      </Card>
      <Card title={erase.title}>
        {asked ? (
          <p>{erase.asked}</p>
        ) : (
          <>
            <p>{erase.says}</p>
            <Form action={`${path}/erase`} csrf={formToken} label={erase.title}>
              <Button kind="danger">{erase.button}</Button>
            </Form>
          </>
        )}
      </Card>
    </Page>
  );
}

/** The file, for programs and for a spreadsheet. */
export function TakeForms({ action, formToken }: { action: string; formToken: string }) {
  const { take } = useWords().ownData;
  return (
    <Form action={action} csrf={formToken} label={take.label}>
      <p class="actions">
        <Button name="as" value="json">
          {take.json}
        </Button>
        <Button kind="quiet" name="as" value="csv">
          {take.csv}
        </Button>
      </p>
    </Form>
  );
}
