// Typing in what somebody asks for on the telephone: one short form, most of it filled in already.
import type { StaffVisit } from '../accounts/visits.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Fieldset, Form, NumberField, PlaceField, TextArea, TextField } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Kind } from '../room/rules.schemas.js';
import { PURPOSES, type Worded, type Wording } from '../sittings/consents.calc.js';
import { PURPOSE_WORDS } from '../sittings/words.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { LANGUAGE_NAMES, LANGUAGE_OF_DESK, LANGUAGES } from '../words/languages.js';
import { DeskPage } from './frame.pages.js';

export interface NewRequestProps {
  visit: StaffVisit;
  formKey: string;
  sizes: PlateSize[];
  kinds: Kind[];
  /** What is read out before somebody agrees. */
  wordings: Record<Worded, Wording>;
  values: Record<string, unknown>;
  errors?: FieldProblem[];
  /** Places of the name that was typed, when it was not clear which is meant. */
  places?: Option[] | undefined;
  notice?: string;
}

export function NewRequestPage(props: NewRequestProps) {
  const { visit, formKey, values, errors = [], notice } = props;
  const path = `/s/${visit.studio.slug}/desk/requests`;
  return (
    <DeskPage
      visit={visit}
      title="Somebody asks on the telephone"
      at=""
      errors={errors}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
      distances
    >
      <p>Name, number, where from: the rest can stay as it is. It is answered like any other request.</p>
      <Form
        action={`${path}/new`}
        csrf={visit.formToken}
        formKey={formKey}
        values={values}
        errors={errors}
        label="What they ask for"
      >
        <TextField name="name" label="Who rings" autocomplete="off" />
        <TextField name="telephone" label="Telephone" type="tel" autocomplete="off" width="medium" />
        <Home places={props.places} />
        <WhoSits {...props} />
        <Fieldset legend="Which days suit?">
          <DateField name="suits/from" label="From" />
          <DateField name="suits/until" label="Until" />
        </Fieldset>
        <TextArea name="anything" label="What they said" rows={3} optional />
        <Further {...props} />
        <Button>Enter the request</Button>
      </Form>
      <p class="alone">
        <a href={`/s/${visit.studio.slug}/desk`}>Back to the desk</a>
      </p>
    </DeskPage>
  );
}

function Home({ places }: Pick<NewRequestProps, 'places'>) {
  const label = 'Where do they travel from?';
  if (!places || places.length === 0)
    return (
      <PlaceField
        name="home"
        idName="homeId"
        label={label}
        hint="Their town or village, or the nearest one."
        placesUrl="/api/v1/places"
      />
    );
  return (
    <Fieldset legend={label}>
      <TextField name="home" label="Town or village" autocomplete="off" />
      <RadioGroup name="homeId" label="Which of these is it?" options={places} />
    </Fieldset>
  );
}

function WhoSits({ sizes, kinds }: NewRequestProps) {
  return (
    <>
      <TextArea
        name="people"
        label="Who sits"
        hint="A name a line. Leave this empty if it is whoever rings."
        rows={2}
        optional
      />
      {kinds.length > 1 && (
        <SelectField
          name="kindId"
          label="What kind of sitting?"
          empty={null}
          options={kinds.map((one) => ({ value: one.id, label: one.name }))}
        />
      )}
      <NumberField name="count" label="How many plates?" />
      <SelectField
        name="size"
        label="Size of the plates"
        empty={null}
        options={sizes.map((one) => ({ value: one.id, label: one.name }))}
      />
      <RadioGroup
        name="on"
        label="Who is on them, if several sit?"
        options={[
          { value: 'together', label: 'All together on each' },
          { value: 'each', label: 'Each by themselves, with so many plates each' },
        ]}
      />
    </>
  );
}

const FURTHER = /^(email|postalAddress|reachBy|language|minor|guardian|access|voucher|consents)/;

/** What is seldom said; open where something of it is wrong or was filled in. */
function Further({ wordings, values, errors = [] }: NewRequestProps) {
  const said = Object.entries(values).some(
    ([name, value]) =>
      FURTHER.test(name) &&
      value !== '' &&
      !(name === 'reachBy' && value === 'telephone') &&
      !(name === 'language' && value === LANGUAGE_OF_DESK),
  );
  return (
    <details open={said || errors.some(({ field }) => FURTHER.test(field))}>
      <summary>Under 18, access, a voucher, no telephone, what they agree to</summary>
      <CheckboxGroup
        name="minor"
        label="Ages"
        options={[{ value: 'yes', label: 'Somebody who sits is under 18' }]}
        optional
      />
      <TextField name="guardian/name" label="Parent or guardian" autocomplete="off" optional />
      <TextField name="guardian/relation" label="Who they are to them" width="medium" optional />
      <TextField name="guardian/reach" label="How to reach the parent or guardian" optional />
      <TextArea
        name="access"
        label="What would help them here?"
        hint="Steps, sitting down, holding still. Please leave out matters of health."
        rows={2}
        optional
      />
      <TextField name="voucher" label="Number of a gift voucher" width="medium" optional />
      <RadioGroup
        name="reachBy"
        label="How are they reached?"
        options={[
          { value: 'telephone', label: 'By telephone' },
          { value: 'email', label: 'By e-mail' },
          { value: 'letter', label: 'By letter' },
        ]}
      />
      <TextField name="email" label="E-mail address" type="email" autocomplete="off" optional />
      <TextArea name="postalAddress" label="Postal address" rows={3} optional />
      <SelectField
        name="language"
        label="Letters to them are in"
        empty={null}
        options={LANGUAGES.map((one) => ({ value: one, label: LANGUAGE_NAMES[one] }))}
      />
      <CheckboxGroup
        name="consents"
        label="They say yes to"
        hint="Read the words out first. A yes about plates counts for whoever rings, if they sit; the others are asked later."
        options={PURPOSES.map((one) => wordings[one])
          .filter(({ words }) => words !== '')
          .map(({ purpose, version, words }) => ({
            value: `${purpose}:${version}`,
            label: PURPOSE_WORDS[purpose],
            hint: words,
          }))}
        optional
      />
    </details>
  );
}
