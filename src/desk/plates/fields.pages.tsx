// The owner's fields for the back of a plate, in their order.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { type RecordField, WHATS, type What } from '../../plates/record.calc.js';
import type { Notice } from '../frame.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface FieldsProps {
  visit: StaffVisit;
  fields: RecordField[];
  /** They are those that every studio begins with. */
  usual: boolean;
  /** Which form is open: 'new', a field's id, or ''. */
  form: string;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const FIELDS = '/plates/fields';

export const answersOf = ({ label, what }: RecordField) => ({ label, what });

export const WHAT_WORDS: Record<What, string> = {
  names: 'the names, as they want them',
  day: 'the day it was made',
  number: 'its number',
  series: 'its series and its number there',
  place: 'where it was made: the studio’s address',
  size: 'its size',
  studio: 'the studio’s name',
  exposure: 'how long it was held open, and the sky',
  typed: 'something typed in for each plate',
};

export function FieldsPage(props: FieldsProps) {
  const { visit, fields, usual, form, notice, sent } = props;
  return (
    <PlatesFrame
      visit={visit}
      title="What stands on the back of a plate"
      at={FIELDS}
      notice={notice}
      errors={sent?.errors}
    >
      <p>
        These lines stand on the label of each plate, in this order. What is not known of a plate is left out
        there.
        {usual && ' They are our assumption of what most want, until you change them.'}
      </p>
      {fields.map((field, at) => (
        <Card key={field.id} title={field.label}>
          <p>Tells {WHAT_WORDS[field.what]}.</p>
          {form === field.id ? (
            <>
              <FieldForm {...props} field={field} />
              <Act {...props} field={field} act="remove" words="Put this away" />
            </>
          ) : (
            <div class="actions">
              <a href={`${deskPath(visit, FIELDS)}?form=${field.id}#form`}>
                Change this<span class="unseen">: {field.label}</span>
              </a>
              {at > 0 && <Act {...props} field={field} act="move" by="up" words="Up" />}
              {at < fields.length - 1 && <Act {...props} field={field} act="move" by="down" words="Down" />}
            </div>
          )}
        </Card>
      ))}
      {form === 'new' ? (
        <Card title="One more line">
          <FieldForm {...props} field={null} />
        </Card>
      ) : (
        <p class="alone">
          <a href={`${deskPath(visit, FIELDS)}?form=new#form`}>One more line</a>
        </p>
      )}
    </PlatesFrame>
  );
}

interface ActProps extends FieldsProps {
  field: RecordField;
  act: 'move' | 'remove';
  by?: 'up' | 'down';
  words: string;
}

function Act({ visit, field, act, by, words }: ActProps) {
  return (
    <Form
      action={deskPath(visit, `${FIELDS}/${field.id}/${act}`)}
      csrf={visit.formToken}
      label={`${words}: ${field.label}`}
    >
      {by && <input type="hidden" name="by" value={by} />}
      <Button kind={act === 'remove' ? 'danger' : 'quiet'}>
        {words}
        <span class="unseen">: {field.label}</span>
      </Button>
    </Form>
  );
}

function FieldForm({ visit, field, sent }: FieldsProps & { field: RecordField | null }) {
  return (
    <div id="form">
      <Form
        action={deskPath(visit, `${FIELDS}/${field?.id ?? 'new'}`)}
        csrf={visit.formToken}
        label={field ? `Change: ${field.label}` : 'One more line'}
        values={sent?.values ?? (field ? answersOf(field) : {})}
        shown={field ? answersOf(field) : undefined}
        errors={sent?.errors ?? []}
      >
        <TextField name="label" label="What it is called" hint="Stands before it on the label." />
        <SelectField
          name="what"
          label="What it tells"
          options={WHATS.map((what) => ({ value: what, label: WHAT_WORDS[what] }))}
        />
        <Button>{field ? 'Change this' : 'Add this'}</Button>
      </Form>
    </div>
  );
}
