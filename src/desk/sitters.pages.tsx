// How long the people of a sitting hold still: their ages in three bands, and whether a head rest is used.
import { Button } from '../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../platform/html/kit/choices.js';
import type { FormValues } from '../platform/html/kit/field.js';
import type { Sitter } from '../people/people.schemas.js';
import { AGES } from '../people/words.calc.js';
import { Form } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import type { SittingView } from '../sittings/sittings.schemas.js';

interface HoldingStillProps {
  view: SittingView;
  /** Seconds that all on the plates hold still. */
  limit: number;
  action: string;
  formToken: string;
  values: FormValues;
  errors: FieldProblem[];
}

/** How the sitters hold still, as the form holds it. */
export const poseAnswers = (sitters: readonly Sitter[]): Record<string, string> =>
  Object.fromEntries(
    sitters.flatMap(({ id, ageBand, headRest }) => [
      [`age-${id}`, ageBand],
      [`rest-${id}`, headRest ? 'yes' : ''],
    ]),
  );

export function HoldingStill({ view, limit, action, formToken, values, errors }: HoldingStillProps) {
  const shown = poseAnswers(view.sitters);
  const isSent = Object.keys(shown).some((name) => name in values);
  return (
    <>
      <h2>Holding still</h2>
      <p>
        {Number.isFinite(limit)
          ? `All on the plates hold still for about ${limit} seconds: it is what the least steady of them can.`
          : 'Nobody is on a plate yet.'}
      </p>
      <Form
        action={action}
        csrf={formToken}
        shown={shown}
        values={isSent ? values : shown}
        errors={errors}
        label="Holding still"
      >
        {view.sitters.map((one) => (
          <div key={one.id}>
            <SelectField name={`age-${one.id}`} label={`Age of ${one.name}`} options={AGES} empty={null} />
            <CheckboxGroup
              name={`rest-${one.id}`}
              label={`Head rest for ${one.name}`}
              options={[{ value: 'yes', label: 'A head rest is used' }]}
            />
          </div>
        ))}
        <Button kind="quiet">Note it</Button>
      </Form>
    </>
  );
}
