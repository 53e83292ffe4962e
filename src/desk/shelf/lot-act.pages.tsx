// One act with a bottle as a form of its own, folded away or not; what is wrong in it stands in it alone.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Form } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { BottleView } from '../../stock/shelf-views.service.js';
import { lotClass } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { shelfPath } from './frame.pages.js';
import { CLASS_WORDS } from './words.calc.js';

/** What was sent from one of the page's forms and is wrong; its fields are named by the act: "take-quantity". */
export interface SentAct {
  act: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

export interface BottlePageProps {
  visit: StaffVisit;
  view: BottleView;
  formKey: string;
  notice?: Notice | undefined;
  sent?: SentAct | undefined;
}

export type ActProps = Omit<BottlePageProps, 'notice'>;

interface OneActProps extends ActProps {
  act: string;
  label: string;
  button: string;
  kind?: 'primary' | 'quiet' | 'danger';
  folded?: boolean;
  values?: Record<string, unknown>;
  children?: ComponentChildren;
}

export function Act({
  visit,
  view,
  formKey,
  sent,
  act,
  label,
  button,
  kind,
  folded = false,
  values = {},
  children,
}: OneActProps) {
  const own = sent?.act === act;
  const form = (
    <Form
      action={shelfPath(visit, `/bottles/${view.lot.id}/${act}`)}
      csrf={visit.formToken}
      formKey={formKey}
      label={label}
      values={own ? sent.values : values}
      errors={own ? sent.errors : []}
    >
      {children}
      <Button kind={kind}>{button}</Button>
    </Form>
  );
  if (folded)
    return (
      <details open={own}>
        <summary>{label}</summary>
        {form}
      </details>
    );
  return (
    <>
      <h2>{label}</h2>
      {form}
    </>
  );
}

export const ClassField = ({ name }: { name: string }) => (
  <SelectField
    name={name}
    label="What it is like"
    empty={null}
    options={lotClass.options.map((one) => ({ value: one, label: CLASS_WORDS[one] }))}
  />
);
