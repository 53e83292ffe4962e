// The secret link of whoever asked, at the foot of the page of their request.
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';

interface TheirLinkProps {
  /** Whole address; null once it has run out. */
  url: string | null;
  action: string;
  formToken: string;
}

export function TheirLink({ url, action, formToken }: TheirLinkProps) {
  return (
    <details>
      <summary>The link to their own page</summary>
      {url === null ? (
        <p>It has run out.</p>
      ) : (
        <>
          <p>
            Whoever has this address sees the request and can answer for them. If it fell into wrong hands,
            make a new one: the old one stops at once, and that of their calendar with it.
          </p>
          <CopyField
            name="their-page"
            label="Address of their page"
            value={url}
            hint="Later letters carry it. A new one is not mailed by itself: please pass it on."
          />
          <Form action={action} csrf={formToken} label="The link to their page">
            <Button kind="danger">Make a new link</Button>
          </Form>
        </>
      )}
    </details>
  );
}
