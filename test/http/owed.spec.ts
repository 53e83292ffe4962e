// What is owed after the day, through the doors of owner and assistant, as a browser without script would.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { EndingsService } from '../../src/sittings/endings.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let owed: string;
let id: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owed = `/s/${studio.slug}/desk/owed`;
  id = (await askForSitting(house, studio, { name: 'Corin Ashby', anything: 'Shy about his teeth.' }))
    .sittingId;
  await approve(house, studio, id, '2027-04-02T09:30');
  house.clock.set('2027-04-02T10:00:00Z');
  await house.app.get(EndingsService).end(studio.id, studio.owner, id, { how: 'made' });
  house.clock.set('2027-04-05T10:00:00Z');
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
});
afterAll(() => house.close());

const stepOf = (html: string, what: string) => {
  const form = new RegExp(`aria-label="Done: ${what}[^>]*>.*?name="step" value="([^"]+)"`, 's').exec(html);
  return form?.[1] ?? '';
};

test('the assistant sees what is owed for whom and what is late, and nothing told in confidence', async () => {
  const { html } = await assistant.get(owed);
  const words = wordsOf(html);
  expect(words).toContain('5 things are owed for the plates of one sitting, one of them late.');
  expect(words).toContain('Corin Ashby Sat on Friday 2 April 2027 · one person on one plate: Whole plate');
  expect(words).toContain('It was due on Saturday 3 April, 2 days ago.');
  expect(words).toContain('By tomorrow.');
  expect(words).not.toContain('Shy about his teeth');
  expect(html).not.toContain('/desk/owed/steps');
});

test('a step is ticked by one tap and taken back by another; with the last the plates have left', async () => {
  const { html } = await assistant.get(owed);
  const ticked = await assistant.postAndFollow(`${owed}/${id}/done`, {
    step: stepOf(html, 'Scan'),
    done: 'yes',
  });
  expect(wordsOf(ticked.html)).toContain('4 things are owed for the plates of one sitting.');
  expect(wordsOf(ticked.html)).toContain('done by Odhran Pike');
  const left = { step: stepOf(html, 'Post or hand over'), done: 'yes' };
  const gone = wordsOf((await assistant.postAndFollow(`${owed}/${id}/done`, left)).html);
  expect(gone).toContain('Nothing is owed: the plates of every sitting have left.');
  expect(gone).toContain('Done in the last seven days (1)');
  const back = await assistant.postAndFollow(`${owed}/${id}/done`, { ...left, done: 'no' });
  expect(wordsOf(back.html)).toContain('It is owed again.');
});

test('a step that is not known, or a sitting, is not found', async () => {
  const nobody = '00000000-0000-4000-8000-000000000009';
  await owner.get(owed);
  expect((await owner.post(`${owed}/${id}/done`, { step: nobody, done: 'yes' })).status).toBe(404);
  const step = stepOf((await owner.get(owed)).html, 'Varnish');
  expect((await owner.post(`${owed}/${nobody}/done`, { step, done: 'yes' })).status).toBe(404);
  expect((await owner.post(`${owed}/${id}/done`, { step })).status).toBe(422);
});

test('the owner changes a step in the form as it stands, and a mistake stands beside its field with all that was typed', async () => {
  const steps = `${owed}/steps`;
  const listed = (await owner.get(steps)).html;
  const form = /form=([0-9a-f-]{36})#form/.exec(listed)?.[1] ?? '';
  const page = await owner.get(`${steps}?form=${form}`);
  const known = fieldsOf(page.html, `${steps}/${form}`);
  expect(known).toMatchObject({ what: 'Scan', days: '1' });
  const wrong = await owner.post(`${steps}/${form}`, { ...known, what: 'Scan both sides', days: 'soon' });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'days')).toBe('Please give whole days, 0 to 730.');
  expect(fieldsOf(wrong.html, `${steps}/${form}`)).toMatchObject({ what: 'Scan both sides', days: 'soon' });
  const saved = await owner.postAndFollow(`${steps}/${form}`, { ...known, what: 'Scan both sides' });
  expect(wordsOf(saved.html)).toContain('Scan both sides By one day after the day');
});

test('the last step with which plates leave is not put away, and says so', async () => {
  const steps = `${owed}/steps`;
  const { html } = await owner.get(steps);
  const form = [...html.matchAll(/form=([0-9a-f-]{36})#form/g)].at(-1)?.[1] ?? '';
  await owner.get(`${steps}?form=${form}`);
  const { html: stays } = await owner.postAndFollow(`${steps}/${form}/remove`);
  expect(wordsOf(stays)).toContain('this is the last');
  expect(wordsOf(stays)).toContain('Post or hand over');
});

test('the desk’s front page says how much is owed, and leads there', async () => {
  const home = `/s/${studio.slug}/desk`;
  await owner.get(owed);
  await owner.post(`${owed}/${id}/done`, {
    step: stepOf((await owner.get(owed)).html, 'Varnish'),
    done: 'no',
  });
  const { html } = await owner.get(home);
  const said = /href="[^"]*\/desk\/owed">([^<]*owed for[^<]*)</.exec(html)?.[1];
  expect(said).toMatch(/^(One thing is|\d things are) owed for the plates of one sitting/);
  expect((await assistant.get(home)).html).not.toContain('owed for the plates');
});
