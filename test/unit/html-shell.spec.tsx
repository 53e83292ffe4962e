import fc from 'fast-check';
import { Button } from '../../src/platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../src/platform/html/kit/choices.js';
import { CopyField } from '../../src/platform/html/kit/copy-field.js';
import { DateField } from '../../src/platform/html/kit/date-field.js';
import { DayList } from '../../src/platform/html/kit/day-list.js';
import { Card, Facts, Steps } from '../../src/platform/html/kit/facts.js';
import {
  Fieldset,
  Form,
  NumberField,
  PlaceField,
  TextArea,
  TextField,
} from '../../src/platform/html/kit/form.js';
import { Notice, Tag } from '../../src/platform/html/kit/notices.js';
import { StockMark } from '../../src/platform/html/kit/stock-mark.js';
import { Table } from '../../src/platform/html/kit/table.js';
import { RedPage } from '../../src/platform/html/red-page.js';
import { Page, renderDocument } from '../../src/platform/html/shell.js';
import { Temporal } from 'temporal-polyfill';

const DATE = Temporal.PlainDate.from('2027-05-14');
const NOON = { hour: 12, minute: 0 };
const ONE = { hour: 13, minute: 0 };

/** A page with every piece of the kit, the same words put everywhere a person's words can stand. */
function everything(words: string): string {
  const options = [{ value: words, label: words, hint: words }];
  const field = { label: words, hint: words };
  const errors = ['text', 'area', 'number', 'pick', 'one', 'any', 'date', 'place', words].map((name) => ({
    field: name,
    message: words,
  }));
  return renderDocument(
    <Page
      title={words}
      studioName={words}
      homeHref={words}
      nav={[{ href: words, label: words, current: true }]}
      user={{ name: words, href: '/s/x/desk/account', signOutAction: words, csrf: words }}
      notice={{ tone: 'warn', text: words }}
      help={{ address: [words, words], telephone: words, email: words }}
      credits={[{ text: words, href: words }]}
      errors={errors}
    >
      <Form
        action={words}
        csrf={words}
        formKey={words}
        errors={errors}
        values={{ text: words, any: [words] }}
      >
        <Fieldset legend={words} hint={words}>
          <TextField {...field} name="text" autocomplete="name" />
          <TextArea {...field} name="area" value={words} optional />
          <NumberField {...field} name="number" value={words} unit={words} />
        </Fieldset>
        <SelectField {...field} name="pick" options={options} empty={words} value={words} />
        <RadioGroup {...field} name="one" options={options} value={words} />
        <CheckboxGroup {...field} name="any" options={options} />
        <DateField {...field} name="date" value={DATE} />
        <PlaceField
          {...field}
          name="place"
          idName="placeId"
          placesUrl={words}
          value={words}
          idValue={words}
        />
        <Button name={words} value={words} formaction={words}>
          {words}
        </Button>
      </Form>
      <Card title={words}>
        <Facts items={[{ term: words, detail: words }]} />
      </Card>
      <Steps label={words} steps={[{ label: words, state: 'now', detail: words }]} />
      <Table caption={words} columns={[{ head: words }, { head: 'Second' }]} rows={[[words, words]]} />
      <Notice tone="bad">{words}</Notice>
      <Tag tone="good">{words}</Tag>
      <StockMark state="mix by" by={DATE} near />
      <CopyField name="copy" label={words} value={words} hint={words} />
      <DayList
        days={[
          {
            date: DATE,
            light: { from: NOON, until: ONE },
            places: [{ from: NOON, until: ONE, state: 'open', href: words, hold: words }],
            note: words,
          },
        ]}
      />
    </Page>,
  );
}

const counts = (html: string) => ['<', '"'].map((sign) => html.split(sign).length);
const HOSTILE = [
  '<script>alert(1)</script>',
  '" onfocus="x',
  "' onfocus='x",
  '</title><img>',
  '&lt;',
  '</textarea>',
  '-->',
];

describe('the words of people', () => {
  it('never become markup, wherever they stand', () => {
    const plain = counts(everything('plain'));
    const words = fc.oneof(
      fc.string({ minLength: 1, unit: 'binary' }),
      fc
        .array(fc.constantFrom(...HOSTILE, '<', '"', '&', 'x'), { minLength: 1 })
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(words, (text) => expect(counts(everything(text))).toEqual(plain)),
      { numRuns: 300 },
    );
  });

  it('arrive as they were written', () => {
    expect(everything('Aoife & <Tom>')).toContain('<h1>Aoife &amp; &lt;Tom></h1>');
  });
});

describe('a page', () => {
  const html = everything('plain');

  it('holds no style attribute, no inline script, no event attribute and no data: address', () => {
    const red = renderDocument(
      <RedPage title="Today" back={{ href: '/', label: 'To the bright pages' }}>
        <p>Plate 1</p>
      </RedPage>,
    );
    for (const page of [html, red]) {
      expect(page).not.toMatch(/<[^>]* style=/);
      expect(page).not.toMatch(
        /<style|<script(?![^>]* src="\/static\/app\.[0-9a-f]{10}\.js")|<script[^>]*>[^<]/,
      );
      expect(page).not.toMatch(/<[^>]* on[a-z]+=/);
      expect(page).not.toMatch(/="(data|javascript|https?):/);
    }
  });

  it('says its language, has one main landmark, one h1 and a way to skip to it', () => {
    expect(html).toMatch(/^<!doctype html><html lang="en-GB">/);
    expect(html.match(/<main /g)).toHaveLength(1);
    expect(html.match(/<h1>/g)).toHaveLength(1);
    expect(html.indexOf('href="#main"')).toBeLessThan(html.indexOf('<header'));
    expect(html).toContain('<main id="main" tabindex="-1">');
  });

  it('tells what is wrong before its heading', () => {
    expect(html.indexOf('There is a problem')).toBeLessThan(html.indexOf('<h1>'));
    expect(html).toContain('<title>Error: plain · plain</title>');
  });

  it('says how to reach the studio at its foot, with a number one can tap', () => {
    const foot = renderDocument(
      <Page
        title="Days"
        studioName="Kittiwake Yard"
        help={{ telephone: '(01632) 960 118', email: 'a@b.example' }}
      />,
    ).split('<footer')[1];
    expect(foot).toContain('<a href="tel:01632960118">(01632) 960 118</a>');
    expect(foot).toContain('<a href="mailto:a@b.example">');
  });

  it('marks the page one is on', () => {
    expect(html).toContain('<a href="plain" aria-current="page">');
  });

  it('asks search engines to keep away only when it is unlisted', () => {
    expect(html).not.toContain('noindex');
    expect(renderDocument(<Page title="Your place" unlisted />)).toContain(
      '<meta name="robots" content="noindex"',
    );
  });

  it('signs out with a form that carries the token', () => {
    expect(html).toMatch(
      /<form class="user" method="post" action="plain"><input type="hidden" name="_form" value="plain"/,
    );
  });
});
