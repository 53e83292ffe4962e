// What a person sees when something cannot be done: what happened, and a way on. Tells nothing of the inside.
import { type AppError, PROBLEMS } from '../problems.js';
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
