// What a person sees when something cannot be done: what happened, and a way on. Tells nothing of the inside.
import type { Words } from '../../words/words-for.js';
import { type AppError, PROBLEMS } from '../problems.js';
import { Button } from './kit/button.js';
import { Form, TextField } from './kit/form.js';
import type { Spoken } from './kit/spoken.js';
import { Page } from './shell.js';

interface ProblemPageProps {
  problem: AppError;
  /** The studio's front page, when the address names a studio. */
  home: string | null;
  /** Below it, the page that was asked for; '' where there is none to come back to. */
  wanted: string;
  requestId: string;
  spoken: Spoken;
}

/** What a problem is called, and what else there is to say of it; null where that is all. */
function said(
  { code, detail, retryAfter }: AppError,
  { problem }: Words,
): { title: string; more: string | null } {
  const own = problem.said[code];
  const wait = retryAfter === undefined ? null : problem.wait(retryAfter);
  if (own) return { title: own.title, more: own.more ?? wait };
  const { title } = PROBLEMS[code];
  return { title, more: detail === title ? null : detail };
}

export function ProblemPage({ problem, home, wanted, requestId, spoken }: ProblemPageProps) {
  const { problem: words } = spoken.words;
  const { title, more } = said(problem, spoken.words);
  return (
    <Page title={title} homeHref={home ?? undefined} spoken={spoken} unlisted>
      {more !== null && <p class="lead">{more}</p>}
      {problem.fields.length > 0 && (
        <ul>
          {problem.fields.map(({ field, message }) => (
            <li key={field}>{message}</li>
          ))}
        </ul>
      )}
      {problem.status >= 500 && <p>{words.notInPart}</p>}
      {home !== null && problem.code === 'sign_in_needed' && (
        <p class="alone">
          <a href={`${home}/sign-in${wanted === '' ? '' : `?to=${encodeURIComponent(wanted)}`}`}>
            {words.signIn}
          </a>
        </p>
      )}
      {home !== null && (
        <p class="alone">
          <a href={home}>{words.home}</a>
        </p>
      )}
      <p class="small">{words.askUs(requestId)}</p>
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
  spoken: Spoken;
}

/** A form of ours that came too late: nothing was done, nothing but a password is lost, and one press sends it. */
export function SendAgainPage({ action, home, formToken, typed, secret, spoken }: SendAgainProps) {
  const { again: words } = spoken.words.problem;
  return (
    <Page title={words.title} homeHref={home ?? undefined} spoken={spoken} unlisted>
      <p class="lead">{secret ? words.secret : words.kept}</p>
      <Form action={action} csrf={formToken}>
        {typed.map(([name, value], at) => (
          <input key={at} type="hidden" name={name} value={value} />
        ))}
        {secret && (
          <TextField name="password" label={words.password} type="password" autocomplete="current-password" />
        )}
        <Button>{words.send}</Button>
      </Form>
      {home !== null && (
        <p class="alone">
          <a href={home}>{words.leave}</a>
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
