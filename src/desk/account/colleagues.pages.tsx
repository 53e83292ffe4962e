// Who works here: the owner invites assistants, and takes their way in away again.
import type { Colleague } from '../../accounts/invitations.service.js';
import { INVITATION_DAYS } from '../../accounts/invitations.service.js';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { CopyField } from '../../platform/html/kit/copy-field.js';
import { Card } from '../../platform/html/kit/facts.js';
import type { FormValues } from '../../platform/html/kit/field.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Notice } from '../frame.pages.js';
import { SettingsFrame, settingsPath } from '../settings/frame.pages.js';

interface ColleaguesProps {
  visit: StaffVisit;
  colleagues: Colleague[];
  /** Where an invitation is opened, before its secret. */
  joinAt: string;
  notice?: Notice | undefined;
  values?: FormValues;
  problems?: FieldProblem[];
}

export function ColleaguesPage(props: ColleaguesProps) {
  const { visit, colleagues, notice, values = {}, problems = [] } = props;
  const path = settingsPath(visit, 'accounts');
  return (
    <SettingsFrame
      visit={visit}
      section="accounts"
      notice={notice}
      sent={problems.length > 0 ? { answers: {}, problems } : undefined}
    >
      {colleagues.map((one) => (
        <ColleagueCard key={one.account.id} {...props} one={one} />
      ))}
      <Card title="Invite an assistant">
        <p>
          An assistant sees who comes and when, the day sheet, the shelf and the plates; not the settings, the
          waiting list or your private notes.
        </p>
        <Form
          action={path}
          csrf={visit.formToken}
          values={values}
          errors={problems}
          label="Invite an assistant"
        >
          <TextField name="name" label="Name" autocomplete="off" />
          <TextField name="email" label="E-mail address" type="email" autocomplete="off" />
          <Button>Invite</Button>
          <p class="hint">The link is mailed to them, and is good for {INVITATION_DAYS} days.</p>
        </Form>
      </Card>
    </SettingsFrame>
  );
}

function ColleagueCard({ visit, joinAt, one }: ColleaguesProps & { one: Colleague }) {
  const { account, joined, factorOn, invitation } = one;
  const path = settingsPath(visit, 'accounts');
  const act = (name: string, label: string, kind: 'quiet' | 'danger') => (
    <Form action={`${path}/${account.id}/${name}`} csrf={visit.formToken} label={`${label}: ${account.name}`}>
      <Button kind={kind}>{label}</Button>
    </Form>
  );
  return (
    <Card title={account.name}>
      <p>
        {account.role === 'owner' ? 'Owner' : joined ? 'Assistant' : 'Invited as an assistant'},{' '}
        {account.email}. {factorOn ? 'Signs in with a second step.' : 'No second step.'}
      </p>
      {account.role === 'owner' ? (
        account.id === visit.account.id && <a href={`/s/${visit.studio.slug}/desk/account`}>Your account</a>
      ) : (
        <>
          {invitation !== null && (
            <CopyField
              name={`invitation-${account.id}`}
              label="Their link, to pass on"
              value={`${joinAt}/${invitation}`}
              hint="Whoever has it can begin to work here in their name."
            />
          )}
          {!joined && act('again', 'Make and mail a new link', 'quiet')}
          {factorOn && act('second-step-off', 'Turn their second step off', 'quiet')}
          {act('remove', joined ? 'Take their way in away' : 'Take the invitation back', 'danger')}
        </>
      )}
    </Card>
  );
}
