// Choosing the plates whose labels are printed, and the owner's sheet.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { BookPage } from '../../plates/book.service.js';
import type { LabelSheet } from '../../plates/labels.calc.js';
import type { LabelQuery } from '../../plates/labels.schemas.js';
import type { Series } from '../../plates/series.schemas.js';
import type { Notice } from '../frame.pages.js';
import { whoOn } from './book.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface LabelsProps {
  visit: StaffVisit;
  /** Kept plates of what was chosen, the newest first. */
  book: BookPage;
  series: Series[];
  query: LabelQuery;
  sheet: LabelSheet;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const LABELS = '/plates/labels';

export function LabelsPage(props: LabelsProps) {
  const { visit, book, query, sheet, notice, sent } = props;
  const chosen = query.plate.length > 0 || query.day !== null || query.series !== null;
  return (
    <PlatesFrame
      visit={visit}
      title="Labels for the back of plates"
      at={LABELS}
      notice={notice}
      errors={sent?.errors}
    >
      <ChoiceForm {...props} />
      {book.plates.length === 0 ? (
        <p>No kept plate is found.</p>
      ) : (
        <Form action={deskPath(visit, `${LABELS}/print`)} method="get" label="Which plates">
          <CheckboxGroup
            name="plate"
            label={chosen ? 'Plates that were found' : 'The latest kept plates'}
            options={book.plates.map((one) => ({
              value: String(one.plate.number),
              label: `${one.plate.number}, ${whoOn(one)}`,
              hint: `${dayInWords(one.plate.day)}, ${one.plate.size}`,
            }))}
            values={chosen ? book.plates.map((one) => String(one.plate.number)) : []}
          />
          <Button>Show the labels</Button>
        </Form>
      )}
      {book.found > book.plates.length && query.series !== null && (
        <p class="alone">
          <a href={`${deskPath(visit, `${LABELS}/print`)}?series=${query.series}`}>
            All {book.found} labels of the series
          </a>
        </p>
      )}
      <Card title="The sheet">
        <p>
          {sheet.across} across, each {sheet.width} by {sheet.height} mm, on {sheet.paper}.
        </p>
        {visit.account.role === 'owner' && (
          <details open={sent !== undefined}>
            <summary>Change the sheet</summary>
            <SheetForm {...props} />
          </details>
        )}
      </Card>
    </PlatesFrame>
  );
}

function ChoiceForm({ visit, book, series, query }: LabelsProps) {
  const values = { day: query.day?.toString() ?? '', series: query.series ?? '' };
  return (
    <Form action={deskPath(visit, LABELS)} method="get" label="Of a day or a series" values={values}>
      <SelectField
        name="day"
        label="Day"
        options={book.days.map((day) => ({ value: day.toString(), label: dayInWords(day) }))}
        empty="Any day"
      />
      {series.length > 0 && (
        <SelectField
          name="series"
          label="Series"
          options={series.map((one) => ({ value: one.series_id, label: one.name }))}
          empty="Any, or none"
        />
      )}
      <Button kind="quiet">Find their plates</Button>
    </Form>
  );
}

function SheetForm({ visit, sheet, sent }: LabelsProps) {
  return (
    <Form
      action={deskPath(visit, `${LABELS}/sheet`)}
      csrf={visit.formToken}
      label="Change the sheet"
      shown={{ ...sheet }}
      values={sent?.values ?? { ...sheet }}
      errors={sent?.errors ?? []}
    >
      <SelectField
        name="paper"
        label="Paper"
        options={[
          { value: 'A4', label: 'A4, 210 by 297 mm' },
          { value: 'Letter', label: 'US Letter, 215.9 by 279.4 mm' },
        ]}
        empty={null}
      />
      <NumberField name="width" label="Width of a label" unit="mm" decimal />
      <NumberField name="height" label="Height of a label" unit="mm" decimal />
      <NumberField name="across" label="How many side by side" />
      <NumberField name="margin" label="Margin around all of them" unit="mm" decimal />
      <NumberField name="gap" label="Between two labels" unit="mm" decimal />
      <Button>Save the sheet</Button>
    </Form>
  );
}
