// The own pages of sitters and students open twice, in two windows or by two people of one family: whoever sends the older
// form is told what the other wrote, in their language, and nothing is overwritten unseen.
import { SEEN_FIELD } from '../../src/platform/seen.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, summaryOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let place: string;
let student: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  place = `/s/${studio.slug}/place/${(await askForSitting(house, studio)).token}`;
  const { sessionId } = await teachingDay(house, studio);
  student = `/s/${studio.slug}/student/${(await signUp(house, studio, sessionId)).token}`;
  const first = new Visitor(house);
  await first.get(`${student}/journey`);
  await first.post(`${student}/journey`, { place: 'York, United Kingdom' });
});
afterAll(() => house.close());

/** Where it is shown, where it is sent to, which of its boxes, and what the one and the other write there. */
const FORMS: [what: string, at: () => [string, string], field: string, ones: string, others: string][] = [
  ['details', () => [`${place}/details`, `${place}/details`], 'brings', 'A violin.', 'A cello.'],
  ['wish', () => [`${place}/details`, `${place}/wish`], 'words', 'Two plates.', 'Three plates.'],
  ['journey', () => [`${place}/journey`, `${place}/journey`], 'hours', '3:00', '4:00'],
  ['journey of a student', () => [`${student}/journey`, `${student}/journey`], 'hours', '3:00', '4:00'],
];

describe.each(FORMS)('of the %s open twice', (_what, at, field, ones, others) => {
  it.each([
    ['en', 'Meanwhile it says: ', /^Somebody changed this/, ones, others],
    ['fr', 'Erreur : Entre-temps, il est écrit : ', /^Quelqu’un a changé ceci/, others, ones],
  ])(
    'the second is told in %s, and puts theirs in its place only knowingly',
    async (lang, says, why, ones, others) => {
      const [page, action] = at();
      const [one, other] = [new Visitor(house), new Visitor(house)];
      for (const visitor of [one, other]) await visitor.get(`${page}?lang=${lang}`);
      const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(page)).html, action);
      const [shown, alsoShown] = [await shownTo(one), await shownTo(other)];
      expect(alsoShown[SEEN_FIELD]).toBe(shown[SEEN_FIELD]);
      const mine = { ...shown, [field]: ones };
      expect((await one.post(action, mine)).status).toBe(303);

      const told = await other.post(action, { ...alsoShown, [field]: others });
      expect([told.status, errorAt(told.html, field)]).toEqual([409, `${says}${ones}`]);
      expect(summaryOf(told.html)[0]).toEqual({ sentence: expect.stringMatching(why), leadsTo: '' });
      const again = fieldsOf(told.html, action);
      expect(again[field]).toBe(others);
      expect((await shownTo(one))[field]).toBe(ones);
      expect((await other.post(action, again)).status).toBe(303);
      expect((await shownTo(one))[field]).toBe(others);

      // without the mark the first is lost
      const { [SEEN_FIELD]: _, ...unmarked } = mine;
      expect((await one.post(action, unmarked)).status).toBe(303);
      expect((await shownTo(one))[field]).toBe(ones);
    },
  );
});

it('the sizes of a student’s gear are not overwritten unseen', async () => {
  const [one, other] = [new Visitor(house), new Visitor(house)];
  const forms = async (visitor: Visitor) => {
    const { html } = await visitor.get(student);
    const action = `${student}/students`;
    return { action, fields: fieldsOf(html, action) };
  };
  const [first, second] = [await forms(one), await forms(other)];
  const gear = Object.keys(first.fields).find((name) => name.includes('gear/')) ?? '';
  expect((await one.post(first.action, { ...first.fields, [gear]: 'M' })).status).toBe(303);
  const told = await other.post(second.action, { ...second.fields, [gear]: 'L' });
  expect([told.status, errorAt(told.html, gear)]).toEqual([409, 'Meanwhile it says: M']);
  expect((await other.post(second.action, fieldsOf(told.html, second.action))).status).toBe(303);
  expect((await forms(one)).fields[gear]).toBe('L');
});
