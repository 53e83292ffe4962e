// What every page shows of a journey, and the boxes in which people tell of their own.
import type { FieldProblem } from '../../problems.js';
import { Button } from './button.js';
import { type Option, RadioGroup, SelectField } from './choices.js';
import { Card, type Fact, Facts } from './facts.js';
import type { FormValues } from './field.js';
import { Form, NumberField, PlaceField, TextField } from './form.js';
import { Table } from './table.js';

export interface Told {
  /** Day, hour and zone; null without a day. */
  leaveBy: { when: string; zone: string } | null;
  facts: Fact[];
  /** How, how long, and how far along the way. */
  ways: string[][];
  reckoning: readonly string[];
}

/** The journey in facts, and how it was reckoned; `brief` folds the other ways away with that. */
export function JourneyTold({ leaveBy, facts, ways, reckoning, brief = false }: Told & { brief?: boolean }) {
  const table = ways.length > 1 && (
    <Table
      caption="From door to door, one way"
      columns={[{ head: 'By' }, { head: 'Time' }, { head: 'Length of the way' }]}
      rows={ways}
    />
  );
  return (
    <>
      {leaveBy && (
        <p>
          Leave home by <strong>{leaveBy.when}</strong>, by your clocks ({leaveBy.zone}).
        </p>
      )}
      <Facts items={facts} />
      {!brief && table}
      <details>
        <summary>{brief ? 'Other ways, and how this was reckoned' : 'How was this reckoned?'}</summary>
        {brief && table}
        <ul>
          {reckoning.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

interface CardProps {
  address: string;
  /** Null as long as nobody knows where they come from. */
  told: Told | null;
  /** The address of the form. */
  href: string;
}

/** The journey on somebody's own page. */
export function JourneyCard({ address, told, href }: CardProps) {
  return (
    <Card title="Coming here">
      <p>{address}</p>
      {told && <JourneyTold {...told} brief />}
      <p class="alone">
        <a href={href}>
          {told ? 'Change where you come from, or how' : 'Tell where you come from, and see when to leave'}
        </a>
      </p>
    </Card>
  );
}

interface HomeProps {
  label?: string;
  /** Several of the name typed. */
  places: Option[];
  zoneOpen: boolean;
}

/** Where they start from; where several places are called so, which of them. */
export function HomeFields({ places, zoneOpen, label = 'Where do you travel from?' }: HomeProps) {
  return (
    <>
      {places.length === 0 ? (
        <PlaceField
          name="place"
          idName="placeId"
          label={label}
          hint="A town or village; or coordinates, such as 54.49, -0.61."
          placesUrl="/api/v1/places"
        />
      ) : (
        <>
          <TextField
            name="place"
            label={label}
            hint="Not among those below? Add the region or the country: Springfield, Illinois."
          />
          <RadioGroup name="placeId" label="Which of these is it?" options={places} />
        </>
      )}
      <details open={zoneOpen}>
        <summary>Your clocks go by another time zone?</summary>
        <TextField
          name="zone"
          label="Time zone"
          hint="Taken from the town, unless you give a name such as Europe/London."
          width="medium"
          optional
        />
      </details>
    </>
  );
}

export interface PlanProps {
  modes: Option[];
  usualMargin: number;
}

/** What they know better than any guess. */
export function PlanFields({ modes, usualMargin, open }: PlanProps & { open: boolean }) {
  return (
    <details open={open}>
      <summary>You know your journey better?</summary>
      <SelectField name="mode" label="How do you travel?" options={modes} empty="Leave it to us" optional />
      <TextField
        name="hours"
        label="How many hours does it take?"
        hint="From your door to the studio’s, one way: 6.5 or 6:30."
        width="short"
        optional
      />
      <SelectField
        name="night"
        label="Do you stay the night before?"
        options={[
          { value: 'yes', label: 'Yes, near the studio' },
          { value: 'no', label: 'No, I come on the day' },
        ]}
        empty="Leave it to us"
        optional
      />
      <NumberField
        name="margin"
        label="How long before the start do you want to be there?"
        hint={`We reckon with ${usualMargin}.`}
        unit="minutes"
        optional
      />
    </details>
  );
}

export const PLAN_FIELDS = ['mode', 'hours', 'night', 'margin'];

/** Whether one of these boxes has something in it or something wrong with it, so that it must not be folded away. */
export const needsLooking = (names: string[], values: FormValues, errors: FieldProblem[]): boolean =>
  names.some((name) => errors.some(({ field }) => field === name) || (values[name] ?? '') !== '');

interface FormProps extends PlanProps {
  csrf: string;
  /** The address it is sent to, and of the page it belongs to. */
  action: string;
  back: string;
  values: FormValues;
  errors: FieldProblem[];
  places: Option[];
}

/** The form about one's own journey. */
export function JourneyForm({ csrf, action, back, values, errors, places, ...plan }: FormProps) {
  return (
    <>
      <p class="lead">
        From this we reckon how long it takes and when to leave. What you know better wins over what we guess.
      </p>
      <Form action={action} csrf={csrf} values={values} errors={errors}>
        <HomeFields places={places} zoneOpen={errors.some(({ field }) => field === 'zone')} />
        <TextField
          name="postcode"
          label="Postcode"
          hint="Kept as you write it. We have no list of postcodes: the way is reckoned from the town."
          autocomplete="postal-code"
          width="short"
          optional
        />
        <PlanFields {...plan} open={needsLooking(PLAN_FIELDS, values, errors)} />
        <Button>Keep this</Button>
      </Form>
      <p class="alone">
        <a href={back}>Back, without changing anything</a>
      </p>
    </>
  );
}
