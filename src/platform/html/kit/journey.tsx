// What every page shows of a journey, and the boxes in which people tell of their own.
import type { FieldProblem } from '../../problems.js';
import { Button } from './button.js';
import { type Option, RadioGroup, SelectField } from './choices.js';
import { Card, type Fact, Facts } from './facts.js';
import type { FormValues } from './field.js';
import { Form, NumberField, PlaceField, TextField } from './form.js';
import { useWords } from './spoken.js';
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
  const { journey: words } = useWords();
  const { before, after } = words.leave;
  const table = ways.length > 1 && (
    <Table
      caption={words.ways.caption}
      columns={[{ head: words.ways.by }, { head: words.ways.time }, { head: words.ways.length }]}
      rows={ways}
    />
  );
  return (
    <>
      {leaveBy && (
        <p>
          {before}
          <strong>{leaveBy.when}</strong>
          {after(leaveBy.zone)}
        </p>
      )}
      <Facts items={facts} />
      {!brief && table}
      <details>
        <summary>{brief ? words.others : words.how}</summary>
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
  const { card } = useWords().journey;
  return (
    <Card title={card.title}>
      <p>{address}</p>
      {told && <JourneyTold {...told} brief />}
      <p class="alone">
        <a href={href}>{told ? card.change : card.tell}</a>
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
export function HomeFields({ places, zoneOpen, label }: HomeProps) {
  const { form } = useWords().journey;
  const asked = label ?? form.home;
  return (
    <>
      {places.length === 0 ? (
        <PlaceField
          name="place"
          idName="placeId"
          label={asked}
          hint={form.homeHint}
          placesUrl="/api/v1/places"
        />
      ) : (
        <>
          <TextField name="place" label={asked} hint={form.others} />
          <RadioGroup name="placeId" label={form.which} options={places} />
        </>
      )}
      <details open={zoneOpen}>
        <summary>{form.zone}</summary>
        <TextField name="zone" label={form.zoneLabel} hint={form.zoneHint} width="medium" optional />
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
  const { form } = useWords().journey;
  return (
    <details open={open}>
      <summary>{form.better}</summary>
      <SelectField name="mode" label={form.mode} options={modes} empty={form.leaveIt} optional />
      <TextField name="hours" label={form.hours} hint={form.hoursHint} width="short" optional />
      <SelectField
        name="night"
        label={form.night}
        options={[
          { value: 'yes', label: form.nightYes },
          { value: 'no', label: form.nightNo },
        ]}
        empty={form.leaveIt}
        optional
      />
      <NumberField
        name="margin"
        label={form.margin}
        hint={form.marginHint(usualMargin)}
        unit={form.minutes}
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
  /** What stands there. */
  shown: FormValues;
  values: FormValues;
  errors: FieldProblem[];
  places: Option[];
}

/** The form about one's own journey. */
export function JourneyForm({ csrf, action, back, shown, values, errors, places, ...plan }: FormProps) {
  const { form } = useWords().journey;
  return (
    <>
      <p class="lead">{form.lead}</p>
      <Form action={action} csrf={csrf} shown={shown} values={values} errors={errors}>
        <HomeFields places={places} zoneOpen={errors.some(({ field }) => field === 'zone')} />
        <TextField
          name="postcode"
          label={form.postcode}
          hint={form.postcodeHint}
          autocomplete="postal-code"
          width="short"
          optional
        />
        <PlanFields {...plan} open={needsLooking(PLAN_FIELDS, values, errors)} />
        <Button>{form.keep}</Button>
      </Form>
      <p class="alone">
        <a href={back}>{form.back}</a>
      </p>
    </>
  );
}
