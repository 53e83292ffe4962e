// The studio as visitors read it.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Notice } from '../frame.pages.js';
import { SettingsFrame, settingsPath } from '../settings/frame.pages.js';
import { profileOf } from './set-up.calc.js';

interface ProfileProps {
  visit: StaffVisit;
  values: Record<string, unknown>;
  problems?: FieldProblem[];
  notice?: Notice | undefined;
}

export function ProfilePage({ visit, values, problems = [], notice }: ProfileProps) {
  const sent = problems.length > 0 ? { answers: values, problems } : undefined;
  return (
    <SettingsFrame visit={visit} section="studio" notice={notice} sent={sent}>
      <Form
        action={settingsPath(visit, 'studio')}
        csrf={visit.formToken}
        values={values}
        errors={problems}
        label="The studio"
        shown={{ ...profileOf(visit.studio) }}
      >
        <TextField name="name" label="What it is called" />
        <TextArea
          name="welcome"
          label="Words at the top of your public page"
          hint="What you make, on what, by which light, and what a sitting is like."
          rows={5}
          optional
        />
        <TextField name="address" label="Address" hint="Where people come to." optional />
        <TextField
          name="email"
          label="E-mail address of the studio"
          hint="Letters carry it, and what is to be told by hand comes to it."
          type="email"
        />
        <TextField name="telephone" label="Telephone" type="tel" optional />
        <Button>Keep this</Button>
      </Form>
      <p class="alone">
        <a href={`/s/${visit.studio.slug}`}>Your public page</a>
      </p>
    </SettingsFrame>
  );
}
