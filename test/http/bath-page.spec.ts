// The public bath calculator, without a script: by hydrometer, by any measure, by titration, with mistakes.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let visitor: Visitor;
beforeAll(async () => {
  house = await openTestHouse();
  visitor = new Visitor(house);
});
afterAll(() => house.close());

const look = (query: Record<string, string>) => visitor.get(`/chemistry/bath?${new URLSearchParams(query)}`);
const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

it('asks first, and is linked from the other calculators', async () => {
  const { status, html } = await visitor.get('/chemistry/bath');
  expect(status).toBe(200);
  expect(html).toMatch(/name="celsius"[^>]*value="20"/);
  for (const path of ['/daylight', '/chemistry'])
    expect((await visitor.get(path)).html).toContain('href="/chemistry/bath"');
});

// engineeringtoolbox.com, page d_1958: 10 g in 100 g has density 1.0882, so 108.8 g in a litre; 47 grains in an imperial
// ounce of 28.41 mL are 107.2 g.
it('tells a density in every measure, as a guide only for a used bath', async () => {
  const { status, html } = await look({ density: '1,0882', celsius: '20' });
  const text = textOf(html);
  expect(status).toBe(200);
  expect(text).toContain('109 g of silver nitrate in a litre.');
  expect(text).toContain('10.9 g (per cent weight by volume)');
  expect(text).toContain('10 g (per cent by weight)');
  expect(text).toContain('49.7 grains');
  expect(text).toContain('47.7 grains');
  expect(text).toContain('it is a guide only');
  expect(text).not.toContain('To fill and strengthen it now');
  expect(html).not.toMatch(/NaN|undefined|Infinity/);
});

// Old and new measures as printed side by side: 45 grains are 99 g in a litre of American ounces, 103 of imperial.
it.each([
  [{ amount: '45', measure: 'grains in a US fluid ounce' }, '98.6 g of silver nitrate'],
  [{ amount: '45', measure: 'grains in an imperial fluid ounce' }, '103 g of silver nitrate'],
  [{ amount: '9', measure: 'grams in 100 mL' }, '90 g of silver nitrate'],
  [{ amount: '10', measure: 'grams in 100 g' }, '109 g of silver nitrate'],
  [{ thiocyanateMl: '26.49', normality: '0.1', titratedMl: '5' }, '90 g of silver nitrate'],
  [{ chlorideG: '0.7594', precipitatedMl: '10' }, '90 g of silver nitrate'],
])('takes %j', async (sent, sentence) => {
  const { status, html } = await look(sent as unknown as Record<string, string>);
  expect(status).toBe(200);
  expect(textOf(html)).toContain(sentence);
  expect(textOf(html)).not.toContain('it is a guide only');
});

// By hand: 950 mL of 84 g/L hold 79.8 g; a litre of 90 g/L holds 90 g.
it('says what to add now, and after how many plates again', async () => {
  const { html } = await look({
    amount: '84',
    measure: 'grams in a litre',
    volume: '950',
    full: '1000',
    leastVolume: '700',
    target: '90',
    least: '70',
    size: '4x5',
  });
  const text = textOf(html);
  expect(text).toContain(
    'To fill and strengthen it now: 10.2 g of silver nitrate and distilled water up to the full mark, about 50 mL.',
  );
  // the drops carry 73 microlitres of each of 20 square inches: 250 mL are gone after 171 plates, and by then the film
  // has made 0.95 L weaker by 3.16 / 73 x ln(950 / 700) = 13.2 g in a litre
  expect(text).toMatch(/It takes about 171 plates, between \d+ and \d+, until it is short of volume\./);
  expect(text).toMatch(/171 70\.8 /);
});

it('says when a bath is below its least already', async () => {
  const { html } = await look({ amount: '60', volume: '900' });
  expect(textOf(html)).toContain('It is below its least already.');
});

it.each([
  [{ density: '' }, 'Please give the density, or tell the strength in another way.'],
  [{ density: '1.07', amount: '90' }, 'Please tell the strength in one way only.'],
  [{ density: '1073' }, 'Please give the density, such as 1.073.'],
  [{ density: '0.9' }, 'This is lighter than water'],
  [{ density: '1.6' }, 'The table ends at 1.474'],
  [{ density: '1.07', celsius: '60' }, 'Please give degrees Celsius, 5 to 35.'],
  [{ amount: '900' }, 'This is stronger than the table'],
  [{ amount: 'weak' }, 'Please give a number, such as 90.'],
  [{ thiocyanateMl: '20' }, 'Please give moles in a litre'],
  [{ chlorideG: '0.7' }, 'Please give the millilitres of bath taken.'],
  [{ density: '1.07', volume: 'full' }, 'Please give millilitres, such as 2000.'],
  [{ density: '1.07', volume: '900', target: '0' }, 'Please give grams in a litre, 1 to 500.'],
  [{ density: '1.07', volume: '900', least: '95' }, 'The least is above the strength wanted.'],
  [{ density: '1.07', volume: '900', leastVolume: '950' }, 'This is more than a full bath.'],
  [{ density: '1.07', volume: '900', size: 'mammoth' }, 'Please choose a size.'],
])('tells a mistake at its field and keeps what was typed: %j', async (sent, sentence) => {
  const { status, html } = await look(sent as unknown as Record<string, string>);
  expect(status).toBe(422);
  expect(html).toContain(sentence);
  for (const [name, value] of Object.entries(sent))
    if (value && name !== 'size') expect(html).toContain(`value="${value}"`);
});
