// "The chemistry is off": one form that puts a bath or a bottle aside, and what follows from it.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, TextArea } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import { type Fault, FAULTS, HELPED } from '../../stock/baths.schemas.js';
import type { Notice as Said } from '../frame.pages.js';
import { shortDay } from '../words.calc.js';
import type { Concerned } from './concerned.service.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** What may be off: "bath:ID" or "bottle:ID" with its name. */
export interface Suspect {
  value: string;
  label: string;
}

interface OffPageProps {
  visit: StaffVisit;
  suspects: Suspect[];
  formKey: string;
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
}

export function OffPage({ visit, suspects, formKey, values = {}, errors = [] }: OffPageProps) {
  return (
    <ShelfFrame visit={visit} title="The chemistry is off" at="/baths" errors={errors}>
      <p>
        What you choose is put aside at once. You see whom it concerns and what takes its place; nobody is
        written to before you say so.
      </p>
      <Form
        action={shelfPath(visit, '/baths/off')}
        csrf={visit.formToken}
        formKey={formKey}
        label="The chemistry is off"
        values={values}
        errors={errors}
      >
        <SelectField name="what" label="What is off?" options={suspects} />
        <RadioGroup
          name="seen"
          label="What was seen"
          options={FAULTS.map((value) => ({ value, label: capital(value) }))}
        />
        <TextArea name="note" label="More about it" rows={3} optional />
        <Button kind="danger">Put it aside</Button>
      </Form>
    </ShelfFrame>
  );
}

/** What was done about it, as the form holds it. */
export const remedyAnswers = ({ changed, helped }: Pick<Fault, 'changed' | 'helped'>) => ({
  changed,
  helped,
});

interface FaultPageProps {
  visit: StaffVisit;
  found: Concerned;
  notice?: Said | undefined;
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
}

export function FaultPage({ visit, found, notice, values, errors = [] }: FaultPageProps) {
  const { whole } = found;
  const { fault, bath, platesThatDay } = whole;
  const name = suspectName(whole);
  return (
    <ShelfFrame
      visit={visit}
      title={`${capital(fault.seen)}, ${shortDay(fault.day)}`}
      at="/baths"
      notice={notice}
      errors={errors}
    >
      <Facts
        items={[
          { term: 'With', detail: bath ? <a href={shelfPath(visit, `/baths/${bath.id}`)}>{name}</a> : name },
          { term: 'Seen by', detail: fault.who },
          ...(fault.note === '' ? [] : [{ term: 'More', detail: fault.note }]),
          ...(platesThatDay > 0
            ? [{ term: 'That day', detail: `${counted(platesThatDay, 'plate')} went through it` }]
            : []),
        ]}
      />
      <Whom visit={visit} found={found} name={name} />
      <ThatDay visit={visit} found={found} />
      <Card title="What was changed, and did it help?">
        <Form
          action={shelfPath(visit, `/baths/off/${fault.id}`)}
          csrf={visit.formToken}
          label="What was changed"
          shown={remedyAnswers(fault)}
          values={values ?? remedyAnswers(fault)}
          errors={errors}
        >
          <TextArea name="changed" label="What was changed" rows={3} optional />
          <RadioGroup
            name="helped"
            label="Did it help?"
            options={HELPED.map((value) => ({ value, label: capital(value) }))}
          />
          <Button>Write it down</Button>
        </Form>
      </Card>
    </ShelfFrame>
  );
}

/** Those who have a place on that day, and what can be done for them. */
function ThatDay({ visit, found: { whole, thatDay } }: FaultPageProps) {
  const { fault, today } = whole;
  if (thatDay.length === 0 || !fault.day.equals(today)) return null;
  const desk = `/s/${visit.studio.slug}/desk`;
  return (
    <Card title="Who comes today">
      <ul>
        {thatDay.map(({ sitting, contact, place }) => (
          <li key={sitting.id}>
            {place && timeInWords(place.wallStart)} {contact.name}
          </li>
        ))}
      </ul>
      <p>
        Whoever is here already: tell it on the <a href={`${desk}/days/${today}`}>day sheet</a> as “Came, no
        plate: the chemistry was off”. They are owed another place and stand first on the list.
      </p>
      {visit.account.role === 'owner' && (
        <p>
          For whoever is still to come:{' '}
          <a href={`${desk}/move?from=${today}&reason=chemistry`}>move or call off today’s sittings</a>. You
          see the letters’ words first.
        </p>
      )}
    </Card>
  );
}

/** Its name; for a test plate that failed nothing has one. */
export function suspectName({ fault, bath, bottle }: Concerned['whole']): string {
  if (isTestPlate(fault)) return 'the test plate, nobody knows yet why';
  return bath?.name ?? bottle?.label ?? 'a bottle that is gone';
}

const isTestPlate = ({ bathId, lotId }: Pick<Fault, 'bathId' | 'lotId'>) => bathId === null && lotId === null;

function Whom({ visit, found: { whole, names }, name }: FaultPageProps & { name: string }) {
  const { fault, bath, days, concerned } = whole;
  if (isTestPlate(fault)) return <p>Nothing is put aside yet: once you know what it was, put it aside.</p>;
  if (bath && bath.state !== 'suspect') return <p>{name} is in use again.</p>;
  if (days.length === 0 && concerned.length === 0)
    return <Notice tone="good">No sitting to come depends on it.</Notice>;
  const who = (date: string) => names.get(date) ?? [];
  return (
    <>
      <h2>Whom it concerns</h2>
      <p>Nobody is written to.</p>
      <ul>
        {days.map(({ day, instead }) => (
          <li key={day.date.toString()}>
            {dayInWords(day.date)}, {counted(day.plates, 'plate')}
            {who(day.date.toString()).length > 0 && <> ({who(day.date.toString()).join(', ')})</>}:{' '}
            {instead ? (
              <a href={shelfPath(visit, `/baths/${instead.id}`)}>{instead.name} takes it</a>
            ) : (
              <strong>no other bath takes it</strong>
            )}
          </li>
        ))}
        {concerned.map(({ heldFor, day, instead, missing }) => (
          <li key={heldFor}>
            {dayInWords(day)} ({(names.get(heldFor) ?? ['the day’s own materials']).join(', ')}):{' '}
            {instead.length > 0 &&
              `${instead.join(' and ')} ${instead.length === 1 ? 'serves' : 'serve'} now`}
            {instead.length > 0 && missing && '; '}
            {missing && <strong>more is to be mixed or bought</strong>}
          </li>
        ))}
      </ul>
    </>
  );
}
