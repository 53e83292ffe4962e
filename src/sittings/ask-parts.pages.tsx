// Parts of the form by which somebody asks: who they are, who sits on which plate, who answers for somebody young.
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { fieldId } from '../platform/html/kit/errors.js';
import { Fieldset, TextArea, TextField } from '../platform/html/kit/form.js';
import { AGES } from '../people/words.calc.js';
import type { FieldProblem } from '../platform/problems.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { Kind } from '../room/rules.schemas.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Answers, type askedOf, firstIsContact, rowsOf } from './ask-form.calc.js';
import type { Step } from './ask-steps.calc.js';
import { MOST_PLATES, MOST_SITTERS } from './request.schemas.js';

export interface AskProps {
  studio: Studio;
  formToken: string;
  step: Step;
  /** Where the form is sent. */
  action: string;
  /** Whether what was typed is kept at an address of its own already. */
  kept: boolean;
  /** The days for what is asked, where they are asked for ... */
  days: DayOfPlaces[];
  /** ... which is this; a kind that is not offered stands for the first. */
  asked: ReturnType<typeof askedOf>;
  sizes: PlateSize[];
  /** Kinds of sitting offered to the public. */
  kinds: Kind[];
  answers: Answers;
  problems?: FieldProblem[];
  /** Places of the name that was typed, when it was not clear which is meant. */
  places?: Option[];
  notice?: string;
  houseRules: string;
}

/** Where the form is sent to get one row more: the page then opens at that row. */
const backTo = (action: string, field: string) => `${action}#${fieldId(field)}`;

export function You() {
  return (
    <Fieldset legend="You">
      <TextField name="name" label="Your name" autocomplete="name" />
      <WaysFields />
    </Fieldset>
  );
}

/** How somebody is reached. */
export function WaysFields() {
  return (
    <>
      <RadioGroup
        name="reachBy"
        label="How shall we reach you?"
        options={[
          { value: 'email', label: 'By e-mail' },
          { value: 'telephone', label: 'By telephone' },
          { value: 'letter', label: 'By letter' },
        ]}
      />
      <TextField
        name="email"
        label="E-mail address"
        type="email"
        autocomplete="email"
        hint="If you chose e-mail."
      />
      <TextField
        name="telephone"
        label="Telephone"
        type="tel"
        autocomplete="tel"
        hint="If you chose the telephone."
        width="medium"
      />
      <TextArea
        name="postalAddress"
        label="Postal address"
        autocomplete="street-address"
        hint="If you chose letters."
        rows={3}
      />
    </>
  );
}

export function KindOfSitting({ kinds }: { kinds: Kind[] }) {
  return (
    <SelectField
      name="kindId"
      label="What kind of sitting?"
      empty={null}
      options={kinds.map((one) => ({
        value: one.id,
        label: one.fee === '' ? one.name : `${one.name}, ${one.fee}`,
      }))}
    />
  );
}

export function Sitters({ answers, action }: AskProps) {
  const { sitters } = rowsOf(answers);
  return (
    <Fieldset legend="Who sits" hint="You yourself, or others you ask for.">
      {Array.from({ length: sitters }, (_, at) => (
        <div key={at}>
          <TextField
            name={`sitters/${at}`}
            label={sitters === 1 ? 'Name of the sitter' : `Name of sitter ${at + 1}`}
            hint={at === 0 ? 'Leave this empty if it is you.' : undefined}
          />
          <SelectField
            name={`bands/${at}`}
            label={sitters === 1 ? 'Age of the sitter' : `Age of sitter ${at + 1}`}
            options={AGES}
            empty={null}
          />
        </div>
      ))}
      {sitters < MOST_SITTERS && (
        <Button kind="quiet" name="more" value="sitter" formaction={backTo(action, `sitters/${sitters}`)}>
          Add a sitter
        </Button>
      )}
    </Fieldset>
  );
}

/** Asked of whoever sits, since the ages above know 15 or older only. */
export function Guardian() {
  return (
    <Fieldset
      legend="Under 18"
      hint="If somebody who sits is under 18, a parent or guardian has to agree. Otherwise leave this empty."
    >
      <CheckboxGroup
        name="minor"
        label="Ages"
        options={[{ value: 'yes', label: 'Somebody who sits is under 18' }]}
        optional
      />
      <GuardianFields />
    </Fieldset>
  );
}

/** Who answers for somebody under 18. */
export function GuardianFields() {
  return (
    <>
      <TextField name="guardian/name" label="Parent or guardian" optional />
      <TextField
        name="guardian/relation"
        label="Who they are to them"
        hint="Mother, grandfather, teacher."
        width="medium"
        optional
      />
      <TextField
        name="guardian/reach"
        label="How to reach the parent or guardian"
        hint="A telephone number or an address."
        optional
      />
    </>
  );
}

export function Plates({ answers, sizes, action }: AskProps) {
  const rows = rowsOf(answers);
  const sizeOptions = sizes.map((size) => ({ value: size.id, label: size.name }));
  const people = Array.from({ length: rows.sitters }, (_, at) => {
    const typed = answers[at === 0 && firstIsContact(answers) ? 'name' : `sitters/${at}`];
    return {
      value: String(at),
      label: typeof typed === 'string' && typed.trim() !== '' ? typed : `Sitter ${at + 1}`,
    };
  });
  return (
    <Fieldset legend="Plates" hint="Each plate is made once. A further plate lengthens the sitting.">
      {Array.from({ length: rows.plates }, (_, at) => (
        <div key={at}>
          <SelectField
            name={`plates/${at}/plateSizeId`}
            label={rows.plates === 1 ? 'Size of the plate' : `Size of plate ${at + 1}`}
            options={sizeOptions}
          />
          {people.length > 1 && (
            <CheckboxGroup
              name={`plates/${at}/sitters`}
              label={`Who is on plate ${at + 1}?`}
              options={people}
            />
          )}
        </div>
      ))}
      {rows.plates < MOST_PLATES && (
        <Button
          kind="quiet"
          name="more"
          value="plate"
          formaction={backTo(action, `plates/${rows.plates}/plateSizeId`)}
        >
          Add a plate
        </Button>
      )}
    </Fieldset>
  );
}
