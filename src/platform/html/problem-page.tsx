// What a person sees when something cannot be done: what happened, and a way on. Tells nothing of the inside.
import { type AppError, PROBLEMS } from '../problems.js';
import { Button } from './kit/button.js';
import { Form, TextField } from './kit/form.js';
import { Page } from './shell.js';

interface ProblemPageProps {
  problem: AppError;
  /** The studio's front page, when the address names a studio. */
  home: string | null;
  requestId: string;
}

export function ProblemPage({ problem, home, requestId }: ProblemPageProps) {
  const { title } = PROBLEMS[problem.code];
  return (
    <Page title={title} homeHref={home ?? undefined} unlisted>
      {problem.detail !== title && <p class="lead">{problem.detail}</p>}
      {problem.fields.length > 0 && (
        <ul>
          {problem.fields.map(({ field, message }) => (
            <li key={field}>{message}</li>
          ))}
        </ul>
      )}
      {problem.status >= 500 && (
        <p>Nothing you entered was acted on in part. Please try again in a moment.</p>
      )}
      {home !== null && problem.code === 'sign_in_needed' && (
        <p class="alone">
          <a href={`${home}/sign-in`}>Sign in</a>
        </p>
      )}
      {home !== null && (
        <p class="alone">
          <a href={home}>To the studio’s front page</a>
        </p>
      )}
      <p class="small">If you ask us about this, please say “{requestId}”.</p>
    </Page>
  );
}

interface SendAgainProps {
  action: string;
  home: string | null;
  formToken: string;
  /** What the form held, hidden fields and all. */
  typed: [name: string, value: string][];
  /** It held a password too, which is put into no page. */
  secret: boolean;
}

/** A form of ours that came too late: nothing was done, nothing but a password is lost, and one press sends it. */
export function SendAgainPage({ action, home, formToken, typed, secret }: SendAgainProps) {
  return (
    <Page title="Please send this once more" homeHref={home ?? undefined} unlisted>
      <p class="lead">
        The form was open for too long, or the browser was closed in between. Nothing was done yet
        {secret
          ? '. What you typed is kept, but not your password: please type it again.'
          : ', and nothing you typed is lost.'}
      </p>
      <Form action={action} csrf={formToken}>
        {typed.map(([name, value], at) => (
          <input key={at} type="hidden" name={name} value={value} />
        ))}
        {secret && (
          <TextField name="password" label="Password" type="password" autocomplete="current-password" />
        )}
        <Button>Send it now</Button>
      </Form>
      {home !== null && (
        <p class="alone">
          <a href={home}>Leave it, to the studio’s front page</a>
        </p>
      )}
    </Page>
  );
}

/** What each code of a problem document means; the documents' `type` leads here. */
export function ProblemListPage() {
  return (
    <Page title="Problems">
      <p>
        Every answer of the API that is not a success is a problem document (RFC 9457) with one of these
        codes.
      </p>
      <dl class="facts">
        {Object.entries(PROBLEMS).map(([code, { status, title }]) => (
          <div key={code} id={code}>
            <dt>{code}</dt>
            <dd>
              {status}: {title}
            </dd>
          </div>
        ))}
      </dl>
    </Page>
  );
}
