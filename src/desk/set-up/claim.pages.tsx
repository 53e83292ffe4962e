// The first page of all: who runs the studio, what it is called, and where it stands.
import { LEAST_CHARACTERS } from '../../accounts/passwords.calc.js';
import { Button } from '../../platform/html/kit/button.js';
import type { Option } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, TextField } from '../../platform/html/kit/form.js';
import { HomeFields } from '../../platform/html/kit/journey.js';
import { Page } from '../../platform/html/shell.js';
import type { FieldProblem } from '../../platform/problems.js';
import { PLACES_CREDIT } from '../../travel/place.calc.js';

interface ClaimProps {
  token: string;
  formToken: string;
  values?: Record<string, unknown>;
  problems?: FieldProblem[];
  /** Several places of the name, to choose one of. */
  places?: Option[];
}

export function ClaimPage({ token, formToken, values = {}, problems = [], places = [] }: ClaimProps) {
  return (
    <Page title="Set up your studio" errors={problems} credits={[PLACES_CREDIT]} unlisted>
      <p class="lead">
        About a quarter of an hour from here to the first sitting. This page founds the studio; each step
        after it can be left and taken up again.
      </p>
      <Form action={`/set-up/${token}`} csrf={formToken} values={values} errors={problems}>
        <Fieldset legend="You">
          <TextField name="name" label="Your name" autocomplete="name" />
          <TextField
            name="email"
            label="E-mail address"
            hint="You sign in with it. The studio’s own address can be another; you are asked later."
            type="email"
            autocomplete="username"
          />
          <TextField
            name="password"
            label="A password"
            hint={`At least ${LEAST_CHARACTERS} characters; fifteen are better. A sentence of your own is good.`}
            type="password"
            autocomplete="new-password"
          />
        </Fieldset>
        <Fieldset legend="The studio">
          <TextField name="studio" label="What it is called" autocomplete="organization" />
          <HomeFields
            label="In which town does it stand?"
            places={places}
            zoneOpen={problems.some(({ field }) => field === 'zone')}
          />
          <TextField name="address" label="Address" autocomplete="street-address" optional />
          <TextField name="telephone" label="Telephone" type="tel" autocomplete="tel" optional />
        </Fieldset>
        <Button>Found the studio</Button>
      </Form>
    </Page>
  );
}
