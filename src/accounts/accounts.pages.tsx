// The sign-in pages. Props to markup, nothing else.
import { Button } from '../platform/html/kit/button.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Account, SIGN_IN_LINK_MINUTES } from './accounts.schemas.js';
import { LEAST_CHARACTERS } from './passwords.calc.js';
import { towards } from './wanted.calc.js';

interface SignInProps {
  studio: Studio;
  formToken: string;
  email?: string;
  problems?: FieldProblem[];
  linkSent?: boolean;
  /** The page of the desk that they asked for. */
  wanted?: string | null;
}

export function SignInPage(props: SignInProps) {
  const { studio, formToken, email = '', problems = [], linkSent = false, wanted = null } = props;
  const action = `/s/${studio.slug}/sign-in`;
  return (
    <Page title="Sign in" {...studioFrame(studio)} errors={problems} unlisted>
      {linkSent && (
        <Notice tone="good">
          If {email} belongs to someone who works here, a link is on its way. It works once, within{' '}
          {SIGN_IN_LINK_MINUTES} minutes.
        </Notice>
      )}
      <p>This is for the people who run the studio. Sitters use the link from their mail.</p>
      <Form action={towards(action, wanted)} csrf={formToken} values={{ email }} errors={problems}>
        <TextField name="email" label="E-mail address" type="email" autocomplete="username" />
        <TextField name="password" label="Password" type="password" autocomplete="current-password" />
        <Button>Sign in</Button>
        <Button kind="quiet" formaction={`${action}/link`}>
          Mail me a link instead
        </Button>
      </Form>
    </Page>
  );
}

/** Opening the link only shows this page; the button signs in, so that a mail scanner uses nothing up. */
export function SignInLinkPage({
  studio,
  formToken,
  token,
}: {
  studio: Studio;
  formToken: string;
  token: string;
}) {
  return (
    <Page title="Sign in" {...studioFrame(studio)} unlisted>
      <Form action={`/s/${studio.slug}/sign-in/${token}`} csrf={formToken}>
        <p>Your link is good. One press and you are in.</p>
        <Button>Sign in to {studio.name}</Button>
      </Form>
    </Page>
  );
}

/** The second question of a sign-in. */
export function CodePage({
  studio,
  formToken,
  wanted,
  problems = [],
}: {
  studio: Studio;
  formToken: string;
  wanted: string | null;
  problems?: FieldProblem[];
}) {
  const action = towards(`/s/${studio.slug}/sign-in/code`, wanted);
  return (
    <Page title="One more step" {...studioFrame(studio)} errors={problems} unlisted>
      <Form action={action} csrf={formToken} errors={problems}>
        <TextField
          name="code"
          label="Code"
          hint="The six figures that your authenticator shows now, or one of the recovery codes you wrote down."
          autocomplete="one-time-code"
          width="medium"
        />
        <Button>Sign in</Button>
      </Form>
      <p class="hint">
        Lost both? The owner can turn this step off for others, and whoever has the machine that Plateday runs
        on for the owner: <code>npm run second-step-off</code>.
      </p>
    </Page>
  );
}

interface JoinProps {
  studio: Studio;
  formToken: string;
  token: string;
  account: Account;
  problems?: FieldProblem[];
}

/** Somebody is invited to work here: their name as others will read it, and a password. */
export function JoinPage({ studio, formToken, token, account, problems = [] }: JoinProps) {
  return (
    <Page title={`Work at ${studio.name}`} {...studioFrame(studio)} errors={problems} unlisted>
      <p>You will see who comes and when, the day sheet and the shelf. You sign in with {account.email}.</p>
      <Form
        action={`/s/${studio.slug}/join/${token}`}
        csrf={formToken}
        values={{ name: account.name }}
        errors={problems}
      >
        <TextField name="name" label="Your name" autocomplete="name" />
        <TextField
          name="password"
          label="A password"
          hint={`At least ${LEAST_CHARACTERS} characters; fifteen are better. A sentence of your own is good.`}
          type="password"
          autocomplete="new-password"
        />
        <Button>Begin</Button>
      </Form>
    </Page>
  );
}
