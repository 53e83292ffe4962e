// The form of a template: what a day of teaching is.
import { SOLUTION_KINDS } from '../../chemistry/use-per-area.calc.js';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Item, PlateSize } from '../../stock/stock.schemas.js';
import { WHERES, WORKS } from '../../teaching/course.schemas.js';
import type { Template } from '../../teaching/teaching.schemas.js';
import { WHERE_WORDS } from '../../teaching/words.calc.js';
import { WORK_WORDS } from './sheet-words.calc.js';
import { DeskPage } from '../frame.pages.js';
import { BenchFields } from './bench.pages.js';
import { type Fields, shownRows, toFields } from './template-form.calc.js';

interface TemplateProps {
  visit: StaffVisit;
  template: Template | null;
  sizes: PlateSize[];
  items: Item[];
  values: Fields;
  errors?: FieldProblem[] | undefined;
}

const SOLUTION_WORDS = { collodion: 'Collodion', developer: 'Developer', fixer: 'Fixer', varnish: 'Varnish' };
const STATION_WORDS = {
  tanks: 'Silver tanks',
  holders: 'Holders',
  cameras: 'Cameras',
  sinks: 'Sinks',
  darkroomPlaces: 'Places in the darkroom',
};

export function TemplatePage({ visit, template, sizes, items, values, errors }: TemplateProps) {
  const path = `/s/${visit.studio.slug}/desk/teaching/templates/${template?.id ?? 'new'}`;
  const rows = (stem: Parameters<typeof shownRows>[1]) => [...Array(shownRows(values, stem)).keys()];
  return (
    <DeskPage
      visit={visit}
      at="/teaching"
      title={template ? template.course.name : 'A new kind of teaching day'}
      errors={errors}
    >
      <p>Days made from it before stay as they are. Empty rows are left out.</p>
      <Form
        action={path}
        csrf={visit.formToken}
        values={values}
        errors={errors}
        shown={template ? toFields(template.course) : undefined}
      >
        <TextField name="name" label="Name" />
        <TextArea name="about" label="What it is, in a few sentences" optional />
        <Parts rows={rows('parts')} />
        <Plates stem="plates" title="Plates each student keeps" {...{ rows: rows('plates'), sizes }} />
        <Plates
          stem="demonstration"
          title="Plates of your own, to show how"
          {...{ rows: rows('demonstration'), sizes }}
        />
        <NumberField
          name="keeperShare"
          label="Of a hundred plates of a beginner, how many are kept?"
          hint="Leave empty to go by what your own days have shown."
          optional
        />
        <Poured items={items} />
        <Gear rows={rows('gear')} items={items} />
        <WhoComes errors={errors} />
        <h2>What people are told</h2>
        <TextArea name="bring" label="What to bring" rows={2} optional />
        <TextArea name="wear" label="What to wear" rows={2} optional />
        <TextArea
          name="reading"
          label="What to read or prepare"
          hint="It stands on their page, and in the reminders before the day."
          rows={2}
          optional
        />
        <TextField name="fee" label="Fee, as a note" optional />
        <TextField name="deposit" label="Deposit, as a note" optional />
        <TextArea name="release" label="If somebody cannot come" rows={2} optional />
        <Button>Save</Button>
      </Form>
    </DeskPage>
  );
}

interface PlatesProps {
  stem: 'plates' | 'demonstration';
  title: string;
  rows: number[];
  sizes: PlateSize[];
}

function Plates({ stem, title, rows, sizes }: PlatesProps) {
  return (
    <>
      <h2>{title}</h2>
      {rows.map((at) => (
        <Fieldset key={at} legend={`${title}: size ${at + 1}`}>
          <SelectField
            name={`${stem}/${at}/plateSizeId`}
            label="Size"
            empty="None"
            options={sizes.map(({ id, name }) => ({ value: id, label: name }))}
            optional
          />
          <NumberField name={`${stem}/${at}/count`} label="How many" unit="plates" optional />
        </Fieldset>
      ))}
    </>
  );
}

function Parts({ rows }: { rows: number[] }) {
  return (
    <>
      <h2>Parts of the day</h2>
      {rows.map((at) => (
        <Fieldset key={at} legend={`Part ${at + 1}`}>
          <TextField name={`parts/${at}/title`} label="What" optional />
          <NumberField name={`parts/${at}/minutes`} label="How long" unit="min" optional />
          <SelectField
            name={`parts/${at}/where`}
            label="Where"
            empty={null}
            options={WHERES.map((value) => ({ value, label: WHERE_WORDS[value] }))}
          />
          <CheckboxGroup
            name={`parts/${at}/work`}
            label="What is open, and what burns"
            options={WORKS.map((value) => ({ value, label: WORK_WORDS[value] }))}
            optional
          />
          <CheckboxGroup
            name={`parts/${at}/together`}
            label="How"
            options={[{ value: 'yes', label: 'All together: nobody’s plate goes on meanwhile' }]}
            optional
          />
        </Fieldset>
      ))}
    </>
  );
}

function Poured({ items }: { items: Item[] }) {
  return (
    <>
      <h2>What is poured</h2>
      {SOLUTION_KINDS.map((kind) => (
        <SelectField
          key={kind}
          name={`uses/${kind}`}
          label={SOLUTION_WORDS[kind]}
          hint={kind === 'fixer' ? 'The usual one is never cyanide here.' : undefined}
          empty={null}
          options={[
            { value: 'usual', label: 'The usual one' },
            { value: 'none', label: 'None' },
            ...items.filter((one) => one.kind === kind).map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      ))}
    </>
  );
}

function Gear({ rows, items }: { rows: number[]; items: Item[] }) {
  return (
    <>
      <h2>What each student is given</h2>
      {rows.map((at) => (
        <Fieldset key={at} legend={`Thing ${at + 1}`}>
          <TextField name={`gear/${at}/name`} label="What" optional />
          <NumberField name={`gear/${at}/each`} label="How many each" optional />
          <CheckboxGroup
            name={`gear/${at}/sized`}
            label="Size"
            options={[{ value: 'yes', label: 'Students tell their size' }]}
            optional
          />
          <SelectField
            name={`gear/${at}/itemId`}
            label="From the shelf"
            hint="A supply that is used up is set aside for each student."
            empty="Nothing"
            options={items
              .filter(({ kind }) => kind === 'supply' || kind === 'gear')
              .map(({ id, name }) => ({ value: id, label: name }))}
            optional
          />
        </Fieldset>
      ))}
    </>
  );
}

/** What the class shares, and for whom it is. */
function WhoComes({ errors }: Pick<TemplateProps, 'errors'>) {
  return (
    <>
      <h2>What the class shares</h2>
      {Object.entries(STATION_WORDS).map(([name, label]) => (
        <NumberField key={name} name={`stations/${name}`} label={label} />
      ))}
      <BenchFields weather="mild" errors={errors} />
      <h2>Who comes</h2>
      <NumberField name="leastAge" label="Least age" unit="years" />
      <NumberField name="most" label="Size of the group" hint="Four alone, six with helpers." />
      <NumberField name="least" label="Least number" />
      <NumberField name="decideDays" label="Decide so many days before whether it is held" unit="days" />
      <CheckboxGroup
        name="oneToOne"
        label="One to one"
        options={[{ value: 'yes', label: 'People may ask for it on a day of their own' }]}
        optional
      />
      <CheckboxGroup
        name="secondDay"
        label="A second day"
        options={[{ value: 'yes', label: 'Only for who came before' }]}
        optional
      />
    </>
  );
}
