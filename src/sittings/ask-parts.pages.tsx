// Parts of the form by which somebody asks: who they are, who sits on which plate, who answers for somebody young.
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { fieldId } from '../platform/html/kit/errors.js';
import { Fieldset, TextArea, TextField } from '../platform/html/kit/form.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
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
  spoken: Spoken;
  formToken: string;
  step: Step;
  /** Where the form is sent. */
  action: string;
  /** Whether the page stands at an address of its own, where what was typed is kept. */
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
  const { steps, you } = useWords().asking;
  return (
    <Fieldset legend={steps.you}>
      <TextField name="name" label={you.name} autocomplete="name" />
      <WaysFields />
    </Fieldset>
  );
}

/** How somebody is reached. */
export function WaysFields() {
  const { you } = useWords().asking;
  return (
    <>
      <RadioGroup
        name="reachBy"
        label={you.reachBy}
        options={[
          { value: 'email', label: you.ways.email },
          { value: 'telephone', label: you.ways.telephone },
          { value: 'letter', label: you.ways.letter },
        ]}
      />
      <TextField name="email" label={you.email} type="email" autocomplete="email" hint={you.emailHint} />
      <TextField
        name="telephone"
        label={you.telephone}
        type="tel"
        autocomplete="tel"
        hint={you.telephoneHint}
        width="medium"
      />
      <TextArea
        name="postalAddress"
        label={you.post}
        autocomplete="street-address"
        hint={you.postHint}
        rows={3}
      />
    </>
  );
}

export function KindOfSitting({ kinds }: { kinds: Kind[] }) {
  const { people } = useWords().asking;
  return (
    <SelectField
      name="kindId"
      label={people.kind}
      empty={null}
      options={kinds.map((one) => ({
        value: one.id,
        label: one.fee === '' ? one.name : `${one.name}, ${one.fee}`,
      }))}
    />
  );
}

export function Sitters({ answers, action }: AskProps) {
  const { people, steps } = useWords().asking;
  const { sitters } = rowsOf(answers);
  return (
    <Fieldset legend={steps.people} hint={people.hint}>
      {Array.from({ length: sitters }, (_, at) => (
        <div key={at}>
          <TextField
            name={`sitters/${at}`}
            label={sitters === 1 ? people.name : people.nameOf(at + 1)}
            hint={at === 0 ? people.nameHint : undefined}
          />
          <SelectField
            name={`bands/${at}`}
            label={sitters === 1 ? people.age : people.ageOf(at + 1)}
            options={AGES.map(({ value }) => ({ value, label: people.ages[value] }))}
            empty={null}
          />
        </div>
      ))}
      {sitters < MOST_SITTERS && (
        <Button kind="quiet" name="more" value="sitter" formaction={backTo(action, `sitters/${sitters}`)}>
          {people.more}
        </Button>
      )}
    </Fieldset>
  );
}

/** Asked of whoever sits, since the ages above know 15 or older only. */
export function Guardian() {
  const { people } = useWords().asking;
  return (
    <Fieldset legend={people.young} hint={people.youngHint}>
      <CheckboxGroup
        name="minor"
        label={people.agesLabel}
        options={[{ value: 'yes', label: people.isYoung }]}
        optional
      />
      <GuardianFields />
    </Fieldset>
  );
}

/** Who answers for somebody under 18. */
export function GuardianFields() {
  const { people } = useWords().asking;
  return (
    <>
      <TextField name="guardian/name" label={people.guardian} optional />
      <TextField
        name="guardian/relation"
        label={people.relation}
        hint={people.relationHint}
        width="medium"
        optional
      />
      <TextField
        name="guardian/reach"
        label={people.guardianReach}
        hint={people.guardianReachHint}
        optional
      />
    </>
  );
}

export function Plates({ answers, sizes, action }: AskProps) {
  const words = useWords().asking;
  const rows = rowsOf(answers);
  const sizeOptions = sizes.map((size) => ({ value: size.id, label: size.name }));
  const people = Array.from({ length: rows.sitters }, (_, at) => {
    const typed = answers[at === 0 && firstIsContact(answers) ? 'name' : `sitters/${at}`];
    return {
      value: String(at),
      label: typeof typed === 'string' && typed.trim() !== '' ? typed : words.people.sitter(at + 1),
    };
  });
  return (
    <Fieldset legend={words.plates.title} hint={words.plates.hint}>
      {Array.from({ length: rows.plates }, (_, at) => (
        <div key={at}>
          <SelectField
            name={`plates/${at}/plateSizeId`}
            label={rows.plates === 1 ? words.plates.size : words.plates.sizeOf(at + 1)}
            options={sizeOptions}
          />
          {people.length > 1 && (
            <CheckboxGroup name={`plates/${at}/sitters`} label={words.plates.who(at + 1)} options={people} />
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
          {words.plates.more}
        </Button>
      )}
    </Fieldset>
  );
}
