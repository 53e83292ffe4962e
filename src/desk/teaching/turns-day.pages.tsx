// While the day goes on, on the bright page: who is late or has left, which plate is skipped or done, and what was told
// so far. The darkroom's screen stands in turns-red.pages.tsx.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { clockTime, type NameOf } from '../../teaching/rota-words.calc.js';
import type { Turns } from '../../teaching/turns.schemas.js';
import type { TurnsView } from '../../teaching/turns.service.js';
import { turnTimes } from '../../teaching/turns-told.calc.js';
import { plateInWords, readPlate } from '../../teaching/turns-words.calc.js';

interface OnTheDayProps {
  visit: StaffVisit;
  view: TurnsView;
  kept: Turns;
  own: string;
  nameOf: NameOf;
  /** What was sent, by which form, with what is wrong. */
  sent: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function OnTheDay({ visit, view, kept, own, nameOf, sent }: OnTheDayProps) {
  const { told, bench, rota } = kept;
  const there = bench.students.filter(({ id }) => !told.gone.includes(id));
  const students = there.map(({ id }) => ({ value: id, label: nameOf(id) }));
  const left = rota.plates.filter(({ plate }) => !told.done.includes(plate));
  const plates = left.map((one) => ({
    value: one.plate,
    label: `${plateInWords(one, nameOf)}, from ${clockTime(turnTimes(bench, one)?.from ?? 0)}`,
  }));
  const slips = [
    ...told.gone.map((id) => ({ value: id, label: `${nameOf(id)} is here after all` })),
    ...told.skipped.map((one) => ({
      value: one,
      label: `${plateInWords(readPlate(one), nameOf)} is made after all`,
    })),
  ];
  const form = (name: string) => ({
    csrf: visit.formToken,
    ...(sent?.form === name ? { values: sent.values, errors: sent.errors } : {}),
  });
  const begun = view.now > 0;
  return (
    <div class="no-print">
      <Card title="On the day">
        <p>
          <a href={`${own}/turns/red`}>The red screen for the darkroom</a>: who is on, and who is next.
        </p>
        <SoFar told={told} nameOf={nameOf} />
        {students.length > 0 && (
          <Form action={`${own}/turns/late`} {...form('late')} label="Somebody is late">
            <SelectField name="studentId" label="Who is late" options={students} />
            <NumberField
              name="minutes"
              label="By how many minutes"
              hint={begun ? 'From now on.' : 'From the beginning of the day on.'}
              unit="min"
            />
            <Button kind="quiet">Plan the rest around it</Button>
          </Form>
        )}
        {plates.length > 0 && (
          <Form action={`${own}/turns/plate`} {...form('plate')} label="A plate is done or skipped">
            <SelectField name="plate" label="Which plate" options={plates} />
            <Button kind="quiet" name="what" value="done">
              This plate is done
            </Button>
            <Button kind="quiet" name="what" value="skip">
              Skip this plate
            </Button>
          </Form>
        )}
        {students.length > 0 && (
          <Form action={`${own}/turns/left`} {...form('left')} label="Somebody has left">
            <SelectField name="leaverId" label="Who has left" options={students} />
            <Button kind="quiet">Plan the rest without them</Button>
          </Form>
        )}
        {slips.length > 0 && (
          <Form action={`${own}/turns/again`} {...form('again')} label="It was a slip">
            <SelectField name="again" label="What was told by mistake" options={slips} />
            <Button kind="quiet">Plan the rest with it again</Button>
          </Form>
        )}
      </Card>
    </div>
  );
}

/** What was told so far, as a list. */
function SoFar({ told, nameOf }: { told: Turns['told']; nameOf: NameOf }) {
  const lines = [
    ...told.late.map(({ student, until }) => `${nameOf(student)} comes at ${clockTime(until)}.`),
    ...told.gone.map((id) => `${nameOf(id)} has left.`),
    ...told.done.map((one) => `Done: ${plateInWords(readPlate(one), nameOf)}.`),
    ...told.skipped.map((one) => `Skipped: ${plateInWords(readPlate(one), nameOf)}.`),
  ];
  if (lines.length === 0) return null;
  return (
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
