// Whoever wants to learn is spoken to in French: the days to come, a day and its form, one to one; their own page in
// each state, with turns, calendar and journey, and what they find there after the day; and what is told of a mistake. Nothing of the English page is left, and no English sentence of the catalogue.
import { Temporal } from 'temporal-polyfill';
import { renderDocument } from '../../src/platform/html/shell.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { FIRST_SAFETY } from '../../src/teaching/safety.calc.js';
import { SIGN_UP_STATES } from '../../src/teaching/states.calc.js';
import { StudentPage } from '../../src/teaching/student.pages.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { type Language, LANGUAGE_NAMES } from '../../src/words/languages.js';
import { wordsFor } from '../../src/words/words-for.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, summaryOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { agreeToAll, keepTurns, signUp, teachingDay, writtenDown } from '../support/teaching.js';
import { englishIn, inBoth as inBothOf, leftIn, LETTERS, OF_THE_STUDIO } from '../support/two-languages.js';
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
  ...FIRST_SAFETY.wording.split('\n'), // agreed to as they stand
  /(Ada|Bo) Fell$/,
  'Train',
  'minutes',
  /York|Europe\/London/,
  /^\d\d:\d\d Rounds of plates/,
  ...Object.values(LANGUAGE_NAMES),
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

async function signedUp(sessionId: string) {
  const { signUpId, token } = await signUp(house, studio, sessionId, {
    students: [{ name: 'Ada Fell' }, { name: 'Bo Fell' }],
    home: 'Whitby',
  });
  return { signUpId, token, own: `/s/${studio.slug}/student/${token}` };
}

it('their own page before the day: what to tell, safety, turns, calendar, journey and data', async () => {
  const { sessionId } = await teachingDay(house, studio, { start: '2027-04-21T10:00' });
  const { own, token } = await signedUp(sessionId);
  const { done, notDone } = wordsFor('en').student;
  for (const act of [...Object.keys(done), ...Object.keys(notDone), '__proto__'])
    await inBoth(`${own}?done=${act}`);
  await agreeToAll(house, studio, token);
  await keepTurns(house, studio, sessionId);
  await inBoth(own);
  expect(wordsOf((await new Visitor(house).get(`${own}?lang=fr`)).html)).toMatch(
    /Faire votre première plaque/,
  );
  for (const path of [`${own}/journey`, `${own}/calendar`, `${own}/calendar?done=journeys`])
    await inBoth(path);
  await inBoth(`/s/${studio.slug}/your-data/${token}`);
});

it('every state that a sign-up can have, with an offer and without', async () => {
  const { sessionId } = await teachingDay(house, studio, { start: '2027-04-28T10:00' });
  const { token } = await signedUp(sessionId);
  const { feedToken, ...found } = await house.app.get(TeachingViews).behindLink(studio.id, token);
  const { safety, sizes, after, ...view } = found;
  const told = await house.app.get(StudiosService).at(studio.slug);
  const expiresAt = Temporal.Instant.from('2027-01-01T10:00:00Z');
  const render = (language: Language, change: object) =>
    renderDocument(
      StudentPage({
        view: { ...view, ...change },
        ...{
          studio: told,
          safety,
          sizes,
          after,
          begun: false,
          letters: LETTERS,
          feedUrl: null,
          formToken: '',
          path: '',
        },
        turns: null,
        spoken: { language, words: wordsFor(language), others: [] },
      }),
    );
  for (const state of SIGN_UP_STATES)
    for (const offer of [null, { expiresAt }]) {
      const change = { signUp: { ...view.signUp, state }, offer };
      expect([state, leftIn(render('fr', change), render('en', change), TYPED)]).toEqual([state, []]);
    }
});

it('what they find after the day', async () => {
  const { sessionId } = await teachingDay(house, studio, { start: '2027-05-05T10:00' });
  const { own, signUpId, token } = await signedUp(sessionId);
  await agreeToAll(house, studio, token);
  await writtenDown(house, studio, { sessionId, signUpId, day: Temporal.PlainDate.from('2027-05-05') });
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update sign_up set state = 'attended' where sign_up_id = $1`, [signUpId]),
  );
  house.clock.set('2027-05-06T10:00:00Z');
  await inBoth(own);
  house.clock.set('2026-11-25T10:00:00Z');
});

it('mistakes are told in French beside their fields and above, and nothing that was typed is lost', async () => {
  const visitor = new Visitor(house);
  const sent = {
    ...fieldsOf((await visitor.get(`${day}?lang=fr`)).html, day),
    reachBy: 'email',
    email: 'nulle part',
  };
  const wrong = await visitor.post(day, { ...sent, 'students/0/brings': 'Une chambre' });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'name')).toBe('Erreur : Veuillez nous dire votre nom.');
  expect(errorAt(wrong.html, 'email')).toMatch('Veuillez donner une adresse électronique');
  expect(errorAt(wrong.html, 'oldEnough')).toMatch('Veuillez confirmer l’âge');
  expect(summaryOf(wrong.html).map(({ sentence }) => sentence)).toContain('Veuillez nous dire votre nom.');
  expect(fieldsOf(wrong.html, day)).toMatchObject({
    email: 'nulle part',
    'students/0/brings': 'Une chambre',
  });
  expect(wordsOf(wrong.html)).not.toMatch(/Please|There is a problem/);
  const own = await visitor.post(oneToOne, {
    ...sent,
    name: 'Linnea',
    'day-day': '31',
    'day-month': 'février',
    'day-year': '2027',
  });
  expect(errorAt(own.html, 'day')).toMatch('Veuillez donner une date qui existe');
  expect(fieldsOf(own.html, oneToOne)).toMatchObject({ 'day-month': 'février', name: 'Linnea' });
});
