// Whoever wants to learn is spoken to in French: the days to come, a day and its form, one to one, and what is told of
// a mistake. Nothing of the English page is left, and no English sentence of the catalogue.
import { wordsFor } from '../../src/words/words-for.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { englishIn, inBoth as inBothOf, OF_THE_STUDIO } from '../support/two-languages.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let day: string;
let oneToOne: string;
let full: string;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  const open = await teachingDay(house, studio, { secondDay: true });
  const small = await teachingDay(house, studio, { start: '2027-04-14T10:00', most: 2, least: 1 });
  await signUp(house, studio, small.sessionId, { students: [{ name: 'Ada' }, { name: 'Bo' }] });
  const home = `/s/${studio.slug}/teaching`;
  [day, full, oneToOne] = [open.sessionId, small.sessionId, `one-to-one/${open.templateId}`].map(
    (one) => `${home}/${one}`,
  ) as [string, string, string];
});
afterAll(() => house.close());

/** What people and the studio wrote themselves, and names that are the same in both languages. */
const TYPED = [
  ...OF_THE_STUDIO,
  /^First Plates( · Sandpiper Loft)?$/,
  'A whole day, hands in the chemistry.',
  'Something to eat at noon.',
  'Old clothes.',
  'Gloves',
  /pounds$/,
  /^(Half|Whole) plate/i,
  /localhost:4180/,
  /^\d\d:\d\d Rounds of plates/,
];

const inBoth = (path: string, status?: number) => inBothOf(house, path, TYPED, status);

it('the days to come, one of them, a full one, and a day of one’s own', async () => {
  for (const path of [`/s/${studio.slug}/teaching`, day, full, oneToOne]) await inBoth(path);
});

it('a form that came too late says so in French, and loses nothing', async () => {
  const visitor = new Visitor(house);
  const { html } = await visitor.get(`${day}?lang=fr`);
  const typed = { ...fieldsOf(html, day), name: 'Linnea', 'students/0/brings': 'Une chambre 13x18' };
  const late = await visitor.post(day, { ...typed, _form: 'of last year' });
  expect([late.status, late.header('content-language')]).toEqual([403, 'fr']);
  expect(wordsOf(late.html)).toContain(wordsFor('fr').teaching.tooLate);
  expect(fieldsOf(late.html, day)).toMatchObject({
    name: 'Linnea',
    'students/0/brings': 'Une chambre 13x18',
  });
  expect(englishIn(late.html)).toEqual([]);
});
