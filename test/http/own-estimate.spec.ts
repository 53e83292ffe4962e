// What plates would take in a studio: its own sizes, learned figures and formulas, through the staff's page.
import { FormulasService } from '../../src/stock/formulas.service.js';
import { writeDays } from '../support/actuals.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let staff: Visitor;
let path: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  staff = await signedIn(house, studio, 'assistant');
  path = `/s/${studio.slug}/desk/shelf/estimate`;
});
afterAll(() => house.close());

const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');
const look = (query: Record<string, string>) => staff.get(`${path}?${new URLSearchParams(query)}`);
const three = () => look({ [`keep-${studio.sizes.whole.id}`]: '3', madeBy: 'sittings' });

it('asks first, and is reached from what a day took', async () => {
  const { status, html } = await staff.get(path);
  expect(status).toBe(200);
  expect(html).not.toContain('What to have ready');
  expect((await staff.get(`/s/${studio.slug}/desk/shelf/used`)).html).toContain(`href="${path}"`);
});

// As the public estimate has it, by hand: 55.25 square inches x 0.2 mL x 3, 4 and 6 tries.
it('gives the usual figures while nothing is written down, and no raw chemicals without a formula', async () => {
  const text = textOf((await three()).html);
  expect(text).toMatch(/Sheets, .{0,40} 3 4 6 6 /);
  expect(text).toContain('Collodion 24.9 mL 44.2 mL 66.3 mL 82.9 mL');
  expect(text).not.toContain('What goes into');
  expect(text).toContain('Of a hundred plates 70 are kept');
});

it('follows what was written down, and comes down to raw chemicals by the formula of the shelf', async () => {
  await house.db.inStudio(studio.id, (tx) => writeDays(house, tx, studio));
  const asked = { starterKey: 'collodion-estabrooke-p29', itemId: studio.items.collodion.id };
  await house.app.get(FormulasService).take(studio.id, studio.owner, asked);
  const text = textOf((await three()).html);
  // one day: 80 mL over 6 whole plates is 241.3 microlitres; (5 x 200 + 241.3) / 6 = 206.9, as 207 in 4 tries
  expect(text).toMatch(/Collodion [\d.]+ mL 45\.8 mL/);
  expect(text).toContain('What goes into Iodised collodion');
  // Estabrooke, p. 29: 3.888 g of ammonium iodide in 591.5 mL; 13.49 mg of silver nitrate for each mL in the film
  expect(text).toMatch(/Ammonium iodide \d+ mg 30[12] mg/);
  expect(text).toMatch(/of it in the films \d+ mg 61[789] mg/);
});

it.each([
  ['many', 'Please give a whole number, 0 to 1000.'],
  ['1001', 'Please give a whole number, 0 to 1000.'],
  ['', 'Please say how many plates.'],
])('tells a mistake at its field: "%s"', async (typed, sentence) => {
  const { status, html } = await look({ [`keep-${studio.sizes.whole.id}`]: typed, madeBy: 'sittings' });
  expect(status).toBe(422);
  expect(html).toContain(sentence);
});

it('wants to know whose plates they are', async () => {
  const { status, html } = await look({ [`keep-${studio.sizes.whole.id}`]: '3', madeBy: 'magic' });
  expect(status).toBe(422);
  expect(html).toContain('Please say whose plates they are.');
});

it('is for the staff alone', async () => {
  expect((await new Visitor(house).get(path)).status).toBe(401);
});
