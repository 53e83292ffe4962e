// When a class begins, asked in several forms; and where the hour is unusual, whether it is meant.
import type { Temporal } from 'temporal-polyfill';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';

interface StartFieldsProps {
  /** Before the names of this form's fields: "copy/". */
  at?: string;
  day?: Pick<Temporal.PlainDate, 'day' | 'month' | 'year'> | undefined;
  time?: string | undefined;
  /** What was typed and is wrong, where the form was sent. */
  form: { values?: Record<string, unknown>; errors?: FieldProblem[] };
}

export function StartFields({ at = '', day, time, form: { values = {}, errors = [] } }: StartFieldsProps) {
  const [meant, typed] = [`${at}meant`, values[`${at}time`]];
  const asked = errors.some(({ field }) => field === meant) || Boolean(values[meant]);
  return (
    <>
      <DateField name={`${at}day`} label="Day" value={day} />
      <TextField name={`${at}time`} label="From what time" width="short" value={time} />
      {asked && typeof typed === 'string' && (
        <CheckboxGroup
          name={meant}
          label="Is this hour meant?"
          options={[{ value: typed, label: `Yes, from ${typed}` }]}
        />
      )}
    </>
  );
}
