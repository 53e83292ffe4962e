import { Button } from '../../src/platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../src/platform/html/kit/choices.js';
import { DateField, readDateField } from '../../src/platform/html/kit/date-field.js';
import { fieldId } from '../../src/platform/html/kit/errors.js';
import { Form, NumberField, TextArea, TextField } from '../../src/platform/html/kit/form.js';
import { Page, renderDocument } from '../../src/platform/html/shell.js';

const SIZES = [
  { value: 'half', label: 'Half plate' },
  { value: 'whole', label: 'Whole plate', hint: '216 by 165 mm' },
];

function request(values: Record<string, unknown>, errors: { field: string; message: string }[] = []) {
  return renderDocument(
    <Page title="Ask for a Friday" studioName="Kittiwake Yard" errors={errors}>
      <Form action="/s/kittiwake-yard/ask" csrf="token" formKey="key-1" values={values} errors={errors}>
        <TextField name="name" label="Your name" autocomplete="name" />
        <TextField name="secret" label="Password" type="password" />
        <TextArea name="hopes" label="What do you hope for?" optional />
        <NumberField name="plates/0/count" label="How many plates" unit="plates" hint="One is usual." />
        <SelectField name="size" label="Size" options={SIZES} />
        <RadioGroup name="reachBy" label="How do we reach you?" options={SIZES} />
        <CheckboxGroup name="days" label="Which days?" options={SIZES} values={['half']} />
        <DateField name="until" label="Until when?" />
        <Button>Ask</Button>
      </Form>
    </Page>,
  );
}

/** The start tags of one element, by name. */
const tags = (html: string, name: string) => html.match(new RegExp(`<${name}[ >][^>]*>?`, 'g')) ?? [];
const withName = (html: string, name: string) =>
  tags(html, '(?:input|textarea|select)').filter((tag) => tag.includes(`name="${name}"`));

describe('a form with mistakes', () => {
  const wrong = [
    { field: 'name', message: 'Please tell us your name.' },
    { field: 'plates/0/count', message: 'Please give a number.' },
    { field: 'until', message: 'Please give a date.' },
    { field: 'reachBy', message: 'Please say how we can reach you.' },
  ];
  const html = request({}, wrong);

  it('says so at the start of the title and in a summary', () => {
    expect(html).toContain('<title>Error: Ask for a Friday · Kittiwake Yard</title>');
    expect(html).toContain('There is a problem');
    expect(request({})).toContain('<title>Ask for a Friday · Kittiwake Yard</title>');
    expect(request({})).not.toContain('There is a problem');
  });

  it.each(wrong)(
    'links from the summary to the field $field and says the same words beside it',
    ({ field, message }) => {
      const id = fieldId(field);
      expect(html).toContain(`<a href="#${id}">${message}</a>`);
      expect(html.split(` id="${id}"`)).toHaveLength(2);
      expect(html.split(message)).toHaveLength(3);
    },
  );

  it('ties hint, unit and message to the input and marks it invalid', () => {
    const [count] = withName(html, 'plates/0/count');
    const id = fieldId('plates/0/count');
    expect(count).toContain(`aria-describedby="${id}-hint ${id}-error ${id}-unit"`);
    expect(count).toContain('aria-invalid="true"');
  });

  it('marks no other input invalid', () => {
    expect(withName(html, 'hopes')[0]).not.toContain('aria-');
  });

  it('gives every input one label and every id once', () => {
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const fors = [...html.matchAll(/<label for="([^"]+)"/g)].map(([, id]) => id);
    const inputs = tags(html, '(?:input|textarea|select)').filter((tag) => !tag.includes('type="hidden"'));
    expect(inputs.map((tag) => / id="([^"]+)"/.exec(tag)?.[1])).toEqual(fors);
  });

  it('points with aria-describedby only at ids that are there', () => {
    const ids = new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
    const about = [...html.matchAll(/aria-(?:describedby|labelledby)="([^"]+)"/g)].flatMap(([, list]) =>
      list?.split(' '),
    );
    expect(about.length).toBeGreaterThan(4);
    expect(about.filter((id) => id === undefined || !ids.has(id))).toEqual([]);
  });
});

describe('what was sent', () => {
  const html = request({
    name: 'Aoife "Marsh" <b>',
    secret: 'pass',
    hopes: 'A plate\nof my boat',
    'plates/0/count': 2,
    size: 'whole',
    reachBy: 'half',
    days: ['whole'],
    'until-day': '31',
    'until-month': 'Feb',
    'until-year': '2027',
  });

  it('is kept in every field, escaped', () => {
    expect(withName(html, 'name')[0]).toContain('value="Aoife &quot;Marsh&quot; &lt;b');
    expect(html).toContain('>A plate\nof my boat</textarea>');
    expect(withName(html, 'plates/0/count')[0]).toContain('value="2"');
    expect(withName(html, 'until-month')[0]).toContain('value="Feb"');
    expect(tags(html, 'option').filter((tag) => tag.includes('selected'))).toEqual([
      '<option value="whole" selected>',
    ]);
    expect(withName(html, 'reachBy').map((tag) => tag.includes('checked'))).toEqual([true, false]);
    expect(withName(html, 'days').map((tag) => tag.includes('checked'))).toEqual([false, true]);
  });

  it('does not include a password', () => {
    expect(html).not.toContain('value="pass"');
  });

  it('is preceded by what was known before, until something is sent', () => {
    expect(withName(request({}), 'days').map((tag) => tag.includes('checked'))).toEqual([true, false]);
  });

  it('carries the form token and the form key', () => {
    expect(html).toContain('<input type="hidden" name="_form" value="token"');
    expect(html).toContain('<input type="hidden" name="_key" value="key-1"');
  });
});

describe('a date in three boxes', () => {
  const read = (day: string, month: string, year: string) =>
    readDateField({ 'x-day': day, 'x-month': month, 'x-year': year }, 'x');

  it.each([
    ['14', '5', '2027', '2027-05-14'],
    [' 14 ', 'May', '2027', '2027-05-14'],
    ['9', 'sept.', '2027', '2027-09-09'],
    ['01', 'JANUARY', '2028', '2028-01-01'],
    ['29', '2', '2028', '2028-02-29'],
    ['', '', '', ''],
  ])('reads %j %j %j as %j', (day, month, year, iso) => {
    expect(read(day, month, year)).toBe(iso);
  });

  it.each([
    ['29', '2', '2027', '29 2 2027'],
    ['14', 'ju', '2027', '14 ju 2027'],
    ['14', 'Maybe', '2027', '14 Maybe 2027'],
    ['14', '5', '27', '14 5 27'],
    ['14', '', '2027', '14 2027'],
    ['14', '13', '2027', '14 13 2027'],
  ])('hands %j %j %j on as typed, which is no date', (day, month, year, typed) => {
    expect(read(day, month, year)).toBe(typed);
  });

  it('takes lists and files in place of text for nothing', () => {
    expect(readDateField({ 'x-day': ['1', '2'], 'x-month': {} }, 'x')).toBe('');
  });
});
