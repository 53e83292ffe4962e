// Planning through its doors: the pages as the owner uses them, and the API that proposes and reads and gives nothing.
import { ListService } from '../../src/sittings/list.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { DEFAULT_WEIGHTS } from '../../src/waiting/planner-points.calc.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let first: string;
let second: string;
const slug = 'plan-loft';
const start = `/s/${slug}/desk/plan`;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  owner = await signedIn(house, studio, 'owner');
  const suits = { kind: 'any', from: '2027-04-01', until: '2027-04-30' } as const;
  const never = { kind: 'these' as const, days: ['2027-04-03'] };
  [first = '', second = ''] = await Promise.all(
    [
      { name: 'Ebba Fjordvik', suits },
      { name: 'Tobias Harrow', suits: never },
    ].map(async (asking) => (await askForSitting(house, studio, asking)).sittingId),
  );
  for (const id of [first, second]) await house.app.get(ListService).wait(studio.id, studio.owner, id);
}, 60_000);
afterAll(() => house.close());

const textOf = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');
const stateOf = (id: string) =>
  house.db.inStudio(
    studio.id,
    async (tx) => (await house.app.get(SittingViews).byId(tx, { lat: 0, lon: 0 } as never, id)).sitting.state,
  );

it('says what is wrong beside the choice, and keeps the others', async () => {
  await owner.get(start);
  const { status, html } = await owner.post(start, { ...DEFAULT_WEIGHTS, light: '', together: 'rather' });
  expect(status).toBe(422);
  expect(textOf(html)).toContain('Error: Please choose one of the three.');
  expect(html).toMatch(/name="together" value="rather"[^>]*checked/);
});

it('proposes in plain words, gives on the owner’s yes, and tells what became of each', async () => {
  await owner.get(start);
  const proposed = await owner.postAndFollow(start, { ...DEFAULT_WEIGHTS });
  const text = textOf(proposed.html);
  expect(text).toContain('A place for 1 of 2 people. No better plan exists for what you said matters.');
  expect(text).toMatch(/Friday \d+ April 2027 .* Ebba Fjordvik .*hold still .*all on the shelf/);
  expect(text).toContain('Tobias Harrow : None of your days is among those they asked for.');
  expect(text).toMatch(/having a place at all 400, their turn on the list 300/);
  // the sum of the parts, less what opening an empty day costs, is the plan's
  expect(text).toMatch(/This one has (\d+); none can have more than \1\./);
  expect(text).toContain('Opening a day on which nobody sits yet costs 60 points.');
  expect(await stateOf(first)).toBe('waiting');

  const path = /action="([^"]+)\/confirm"/.exec(proposed.html)?.[1] ?? '';
  const nobody = await owner.post(`${path}/confirm`, { gives: 'offer' });
  expect(nobody.status).toBe(422);
  expect(textOf(nobody.html)).toContain('Please leave at least one person in the plan.');

  const done = await owner.postAndFollow(`${path}/confirm`, { gives: 'place', people: first });
  expect(textOf(done.html)).toMatch(/Places given .*April 2027, .*: Ebba Fjordvik/);
  expect(await stateOf(first)).toBe('confirmed');
  expect(await stateOf(second)).toBe('waiting');
  const late = await owner.postAndFollow(`${path}/drop`, {});
  expect(textOf(late.html)).toContain('That plan was decided about in the meantime.');
});
