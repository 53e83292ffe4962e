// The form for something new to keep.
import { STARTER_PLATE_SIZES } from '../../chemistry/plate-sizes.calc.js';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form } from '../../platform/html/kit/form.js';
import { itemKind, type PlateSize, surface, type Unit, unit } from '../../stock/stock.schemas.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { KIND_WORDS } from './words.calc.js';
import { type SentItem, Settings } from './item-settings.pages.js';

interface NewItemPageProps {
  visit: StaffVisit;
  sizes: PlateSize[];
  suppliers: Supplier[];
  formKey: string;
  sent?: SentItem | undefined;
}

const UNIT_WORDS: Record<Unit, string> = {
  mg: 'by weight',
  uL: 'by volume',
  sheet: 'in sheets',
  piece: 'in pieces',
};

/** The studio's own sizes, then those it could begin, told apart by their measures. */
function sizesToChoose(sizes: PlateSize[]) {
  const isOwn = ({ widthMm, heightMm }: { widthMm: number; heightMm: number }) =>
    sizes.some((one) => one.widthMm === widthMm && one.heightMm === heightMm);
  return [
    ...sizes.map(({ id, name }) => ({ value: id, label: name })),
    ...STARTER_PLATE_SIZES.filter((one) => !isOwn(one)).map(({ key, name }) => ({
      value: key,
      label: `${name}, new here`,
    })),
  ];
}

export function NewItemPage({ visit, sizes, suppliers, formKey, sent }: NewItemPageProps) {
  const typed = unit.options.find((one) => one === sent?.values.unit) ?? null;
  return (
    <ShelfFrame visit={visit} title="Keep something new" at="" errors={sent?.errors}>
      <Form
        action={shelfPath(visit, '/items/new')}
        csrf={visit.formToken}
        formKey={formKey}
        label="Something new to keep"
        values={sent?.values ?? {}}
        errors={sent?.errors ?? []}
      >
        <SelectField
          name="kind"
          label="What kind of thing is it?"
          options={itemKind.options.map((one) => ({ value: one, label: KIND_WORDS[one] }))}
        />
        <SelectField
          name="unit"
          label="How is it measured?"
          options={unit.options.map((one) => ({ value: one, label: UNIT_WORDS[one] }))}
        />
        <Fieldset legend="Glass only">
          <SelectField
            name="plateSizeId"
            label="Size"
            empty="It is no glass"
            hint="A size you have not had before is offered to sitters from then on."
            options={sizesToChoose(sizes)}
          />
          <SelectField
            name="surface"
            label="Made of"
            empty="It is no glass"
            options={surface.options.map((one) => ({ value: one, label: one }))}
          />
        </Fieldset>
        <Settings unit={typed} suppliers={suppliers} />
        <Button>Keep it</Button>
      </Form>
    </ShelfFrame>
  );
}
