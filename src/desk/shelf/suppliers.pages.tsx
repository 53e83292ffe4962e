// Who things are bought from: for looking up whom to call, and for the owner to change.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { WholeShelf } from '../../stock/shelf-views.service.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import type { Notice } from '../frame.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';

interface SuppliersPageProps {
  visit: StaffVisit;
  shelf: WholeShelf;
  formKey: string;
  notice?: Notice | undefined;
  /** Of which supplier the form was sent; 'new' for a new one. */
  sent?: { of: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function SuppliersPage({ visit, shelf, formKey, notice, sent }: SuppliersPageProps) {
  const { suppliers, standings } = shelf;
  const owner = visit.account.role === 'owner';
  const form = (of: string, label: string, shown?: Record<string, unknown>) => (
    <details open={sent?.of === of}>
      <summary>{label}</summary>
      <Form
        action={shelfPath(visit, `/suppliers/${of}`)}
        csrf={visit.formToken}
        formKey={formKey}
        label={label}
        values={sent?.of === of ? sent.values : shown}
        shown={shown}
        errors={sent?.of === of ? sent.errors : []}
      >
        <TextField name={`${of}-name`} label="Name" width="full" />
        <TextArea name={`${of}-contact`} label="How to reach them" rows={3} optional />
        <NumberField name={`${of}-leadDays`} label="Days from order to arrival" unit="days" optional />
        <TextArea name={`${of}-note`} label="Note" rows={2} optional />
        <Button>Save</Button>
      </Form>
    </details>
  );
  return (
    <ShelfFrame visit={visit} title="Suppliers" at="/suppliers" notice={notice} errors={sent?.errors}>
      {suppliers.length === 0 && <p class="empty">No supplier is noted yet.</p>}
      {suppliers.map((supplier) => (
        <Card key={supplier.id} title={supplier.name}>
          <Facts items={factsOf(supplier, itemsOf(supplier))} />
          {owner && form(supplier.id, `Change ${supplier.name}`, answersOf(supplier))}
        </Card>
      ))}
      {owner && form('new', 'A new supplier')}
    </ShelfFrame>
  );

  function itemsOf({ id }: Supplier) {
    return standings.map(({ item }) => item).filter((item) => item.supplierId === id);
  }
}

function factsOf({ contact, leadDays, note }: Supplier, items: { name: string }[]) {
  const told = (term: string, detail: string) => (detail === '' ? [] : [{ term, detail }]);
  return [
    ...told('Reach them', contact),
    ...told('From order to arrival', leadDays === null ? '' : counted(leadDays, 'day')),
    ...told('Note', note),
    { term: 'Bought there', detail: items.map(({ name }) => name).join(', ') || 'nothing yet' },
  ];
}

/** The fields of each form are named by the supplier that it is of. */
export const answersOf = ({ id, name, contact, leadDays, note }: Supplier) => ({
  [`${id}-name`]: name,
  [`${id}-contact`]: contact,
  [`${id}-leadDays`]: leadDays === null ? '' : String(leadDays),
  [`${id}-note`]: note,
});
