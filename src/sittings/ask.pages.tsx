// The form by which somebody asks for a sitting: seven things, on one page. Props to markup.
import { studioFrame } from '../studios/frame.calc.js';
import { counted, dayInWords } from '../lib/words.js';
import { AGES } from '../people/words.calc.js';
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, type Option, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { fieldId } from '../platform/html/kit/errors.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Fieldset, Form, PlaceField, TextArea, TextField } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { DayOfPlaces } from '../room/room.service.js';
import { openToPublic } from '../room/openings.calc.js';
import type { Kind } from '../room/rules.schemas.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { type Answers, type askedOf, firstIsContact, rowsOf } from './ask-form.calc.js';
import { noPlaceInWords } from './no-place.calc.js';
import { MOST_PLATES, MOST_SITTERS } from './request.schemas.js';

export interface AskProps {
  studio: Studio;
  formToken: string;
  formKey: string;
  /** The days for what is asked ... */
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
}

export function AskPage(props: AskProps) {
  const { studio, formToken, formKey, answers, problems = [], notice } = props;
  const home = `/s/${studio.slug}`;
  return (
    <Page
      title="Ask for a sitting"
      {...studioFrame(studio)}
      nav={[
        { href: home, label: 'Open places' },
        { href: `${home}/ask`, label: 'Ask for a sitting', current: true },
      ]}
      credits={[PLACES_CREDIT]}
      errors={problems}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
    >
      <p class="lead">
        Tell us who sits and which days suit. Nothing is fixed by asking: the studio reads every request and
        answers.
      </p>
      <Form action={`${home}/ask`} csrf={formToken} formKey={formKey} values={answers} errors={problems}>
        {/* Enter in a field presses the first button of a form: that must not be "Add a sitter". */}
        <button type="submit" hidden>
          Send the request
        </button>
        <You />
        {props.kinds.length > 1 && <KindOfSitting kinds={props.kinds} />}
        <Sitters {...props} />
        <Plates {...props} />
        <Home {...props} />
        <Days {...props} />
        <TextArea
          name="hopes"
          label="What do you hope for?"
          hint="A portrait of how you are, a gift, your place in a series: a sentence or two."
          optional
        />
        <TextArea
          name="anything"
          label="Anything we should know?"
          hint="Steps you cannot climb, a dog that comes along, a date to avoid. Please leave out matters of health."
          rows={3}
          optional
        />
        <Button>Send the request</Button>
      </Form>
    </Page>
  );
}

function You() {
  return (
    <Fieldset legend="You">
      <TextField name="name" label="Your name" autocomplete="name" />
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
    </Fieldset>
  );
}

function KindOfSitting({ kinds }: { kinds: Kind[] }) {
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

/** Where the form is sent to get one row more: the page then opens at that row. */
const backTo = (studio: Studio, field: string) => `/s/${studio.slug}/ask#${fieldId(field)}`;

function Sitters({ answers, studio }: AskProps) {
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
        <Button kind="quiet" name="more" value="sitter" formaction={backTo(studio, `sitters/${sitters}`)}>
          Add a sitter
        </Button>
      )}
    </Fieldset>
  );
}

function Plates({ answers, sizes, studio }: AskProps) {
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
          formaction={backTo(studio, `plates/${rows.plates}/plateSizeId`)}
        >
          Add a plate
        </Button>
      )}
    </Fieldset>
  );
}

function Home({ places }: AskProps) {
  const label = 'Where do you travel from?';
  if (!places || places.length === 0)
    return (
      <PlaceField
        name="home"
        idName="homeId"
        label={label}
        hint="Your town or village, or the nearest one."
        placesUrl="/api/v1/places"
      />
    );
  return (
    <Fieldset legend={label}>
      <TextField
        name="home"
        label="Town or village"
        autocomplete="address-level2"
        hint="Not among those below? Add the region or the country: Springfield, Illinois."
      />
      <RadioGroup name="homeId" label="Which of these is it?" options={places} />
    </Fieldset>
  );
}

function Days({ studio, days, asked, kinds, answers, problems = [] }: AskProps) {
  const isTicked = (day: DayOfPlaces) => [answers['suits/days']].flat().includes(day.date.toString());
  const ticked = days.filter(isTicked);
  const others = days.filter((day) => !isTicked(day) && day.openings.some(openToPublic));
  const shown = [...ticked, ...others];
  const wrong = problems.some(({ field }) => field === 'suits/days');
  return (
    <Fieldset legend="Which days suit?" hint="The more days suit, the sooner there is a place.">
      <RadioGroup
        name="suits/kind"
        label="Days"
        options={[
          { value: 'any', label: 'Any open day between two dates' },
          { value: 'these', label: 'Only the days ticked below' },
        ]}
      />
      <DateField name="suits/from" label="From" />
      <DateField name="suits/until" label="Until" />
      <p class="hint">
        Open days are shown for {askedInWords(asked, kinds)}. If you change that above, have them shown again.
      </p>
      <Button kind="quiet" name="more" value="days" formaction={backTo(studio, 'suits/days')}>
        Show the open days again
      </Button>
      <CheckboxGroup
        name="suits/days"
        label="Particular days"
        hint={shown.length === 0 ? noPlaceInWords(days) : undefined}
        options={shown.map((day) => ({
          value: day.date.toString(),
          label: day.openings.some(openToPublic)
            ? dayInWords(day.date)
            : `${dayInWords(day.date)}: not open for this`,
        }))}
        folded={{
          after: ticked.length,
          words: `${ticked.length > 0 ? 'Other open' : 'Open'} days to tick`,
          open: wrong,
        }}
      />
    </Fieldset>
  );
}

/** "2 plates and 3 people, Series sitting": the kind only where there is a choice. */
function askedInWords({ kindId, plates, sitters }: AskProps['asked'], kinds: Kind[]): string {
  const kind = kinds.find((one) => one.id === kindId) ?? kinds[0];
  const words = [counted(plates, 'plate'), counted(sitters, 'person', 'people')].join(' and ');
  return kind && kinds.length > 1 ? `${words}, ${kind.name}` : words;
}
