// Somebody's own account: the second step, the password, where they are signed in.
import type { OwnAccount } from '../../accounts/own-account.service.js';
import type { Proposed } from '../../accounts/second-factor.service.js';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { LEAST_CHARACTERS } from '../../accounts/passwords.calc.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CopyField } from '../../platform/html/kit/copy-field.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { deviceInWords, momentInWords } from '../words.calc.js';

export const ACCOUNT_FORMS = ['password', 'turn-on', 'turn-off', 'recovery', 'end', 'end-others'] as const;
export type AccountForm = (typeof ACCOUNT_FORMS)[number];

interface AccountProps {
  visit: StaffVisit;
  own: OwnAccount;
  /** For an authenticator, while none is in force. */
  proposed: Proposed | null;
  notice?: Notice | undefined;
  /** Of the form that was sent; passwords and codes are not shown again. */
  problems?: { form: AccountForm; fields: FieldProblem[] } | undefined;
}

export function AccountPage(props: AccountProps) {
  const { visit, own, notice, problems } = props;
  return (
    <DeskPage visit={visit} title="Your account" at="" notice={notice} errors={problems?.fields}>
      <p>
        {visit.account.name}, {visit.account.email}
      </p>
      <Card title="A second step when you sign in">
        {own.factorOn ? <FactorOn {...props} /> : <FactorOff {...props} />}
      </Card>
      <Card title="Password">
        <Post {...props} form="password" label="Password">
          {own.hasPassword && (
            <TextField
              name="current"
              label="Your password now"
              type="password"
              autocomplete="current-password"
            />
          )}
          <TextField
            name="next"
            label="A new one"
            hint={`At least ${LEAST_CHARACTERS} characters; fifteen are better. A sentence of your own is good.`}
            type="password"
            autocomplete="new-password"
          />
          <Button>Change the password</Button>
          <p class="hint">You stay signed in here, and are signed out everywhere else.</p>
        </Post>
      </Card>
      <Card title="Where you are signed in">
        <Sessions {...props} />
      </Card>
    </DeskPage>
  );
}

function FactorOff(props: AccountProps) {
  const { own, proposed } = props;
  return (
    <>
      <p>
        Besides the password, or the mailed link, a code is asked for that only your phone knows. Any
        authenticator program will do. Take the secret below into it, then type the code it shows.
      </p>
      {proposed && (
        <>
          <CopyField
            name="secret"
            label="The secret, to type in"
            value={proposed.typed}
            hint="Six figures, every 30 seconds."
          />
          <p class="alone">
            <a href={proposed.uri}>Open it in a program on this device</a>
          </p>
        </>
      )}
      <Post {...props} form="turn-on" label="Turn the second step on">
        {own.hasPassword && (
          <TextField name="password" label="Your password" type="password" autocomplete="current-password" />
        )}
        <Code />
        <Button>Turn the second step on</Button>
      </Post>
    </>
  );
}

function FactorOn(props: AccountProps) {
  const { own } = props;
  return (
    <>
      <p>
        It is on. {counted(own.recoveryLeft, 'recovery code')} {own.recoveryLeft === 1 ? 'is' : 'are'} not
        used yet.
      </p>
      <Post {...props} form="recovery" label="New recovery codes">
        <Code />
        <Button kind="quiet">Make new recovery codes</Button>
      </Post>
      <Post {...props} form="turn-off" label="Turn the second step off">
        <Code />
        <Button kind="danger">Turn the second step off</Button>
      </Post>
    </>
  );
}

const Code = () => (
  <TextField
    name="code"
    label="Code"
    autocomplete="one-time-code"
    width="medium"
    hint="Or a recovery code."
  />
);

function Sessions(props: AccountProps) {
  const { visit, own } = props;
  const { zone } = visit.studio;
  return (
    <>
      <Table
        caption="Sessions, the last seen first"
        columns={[{ head: 'Device' }, { head: 'Since' }, { head: 'Last seen' }, { head: 'End' }]}
        rows={own.sessions.map((one) => [
          deviceInWords(one.agent),
          momentInWords(zone, one.begunAt),
          momentInWords(zone, one.seenAt),
          one.current ? (
            'this one'
          ) : (
            <Post {...props} form="end" label={`Sign out ${deviceInWords(one.agent)}`}>
              <input type="hidden" name="session" value={one.id} />
              <Button kind="quiet">Sign out there</Button>
            </Post>
          ),
        ])}
      />
      {own.sessions.length > 1 && (
        <Post {...props} form="end-others" label="Sign out everywhere else">
          <Button kind="danger">Sign out everywhere else</Button>
        </Post>
      )}
    </>
  );
}

interface PostProps extends AccountProps {
  form: AccountForm;
  label: string;
  children: preact.ComponentChildren;
}

function Post({ visit, problems, form, label, children }: PostProps) {
  return (
    <Form
      action={`/s/${visit.studio.slug}/desk/account/${form}`}
      csrf={visit.formToken}
      errors={problems?.form === form ? problems.fields : []}
      label={label}
    >
      {children}
    </Form>
  );
}

/** Shown once, after the second step was turned on or new codes were made. */
export function RecoveryCodesPage({ visit, codes }: { visit: StaffVisit; codes: string[] }) {
  return (
    <DeskPage visit={visit} title="Your recovery codes" at="">
      <p>
        Write them down or print this page, and keep it where you keep your keys. Each lets you in once
        without your phone. They are not shown again.
      </p>
      <ul class="codes">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
      <p class="alone">
        <a href={`/s/${visit.studio.slug}/desk/account`}>I have them</a>
      </p>
    </DeskPage>
  );
}
