// Whoever has asked for a sitting is spoken to in French on their own page and all that lies behind it, in each state it
// can be in: nothing of the English page is left, and no English sentence of the catalogue.
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { renderDocument } from '../../src/platform/html/shell.js';
import { PROBLEMS } from '../../src/platform/problems.js';
import { ListService } from '../../src/sittings/list.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { PlacePage } from '../../src/sittings/place.pages.js';
import { type SittingState, STATES } from '../../src/sittings/states.calc.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { LANGUAGE_NAMES, LANGUAGES } from '../../src/words/languages.js';
import { wordsFor } from '../../src/words/words-for.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, type Asking, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import {
  englishIn,
  fetchedIn,
  inBoth as inBothOf,
  leftovers,
  LETTERS,
  OF_THE_STUDIO,
} from '../support/two-languages.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

/** What people and the studio wrote themselves, and names that are the same in both languages. */
const TYPED = [
  ...OF_THE_STUDIO,
  /^Linnea Harrow/,
  /^Whole plate : |^Whole plate: /,
  /York|Bergen|Europe\/London|localhost:4180/,
  'Wilhelmina Harrow',
  'A portrait of my hands.',
  'A concertina.',
  /^The studio may /, // the studio's words for what is agreed to stay as they were agreed to
  'Train',
  ...Object.values(LANGUAGE_NAMES),
  'minutes',
  /^\d+ to \d+ km$/,
];

const inBoth = (path: string, status?: number) => inBothOf(house, path, TYPED, status);

async function asked(asking: Asking = {}) {
  const { sittingId, token } = await askForSitting(house, studio, {
    hopes: 'A portrait of my hands.',
    brings: 'A concertina.',
    access: 'A chair with arms.',
    ...asking,
  });
  return { sittingId, token, own: `/s/${studio.slug}/place/${token}` };
}

const offer = (sittingId: string, start: string) =>
  house.app.get(OffersService).make(studio.id, studio.owner, sittingId, Temporal.PlainDateTime.from(start));

it('a request, the list, an offer, and one that ran out', async () => {
  const { own, sittingId } = await asked();
  await inBoth(own);
  await inBoth(`${own}?done=asked`);
  await house.app.get(ListService).wait(studio.id, studio.owner, sittingId);
  await inBoth(own);
  await offer(sittingId, '2027-04-02T09:30');
  await inBoth(own);
  house.clock.forward({ hours: 24 * 20 });
  await inBoth(own);
  await inBoth(`${own}/prepare`);
  house.clock.set('2026-11-25T10:00:00Z');
});

it('every state that a sitting can have, and what is told after each act', async () => {
  const { token } = await asked();
  const found = await house.app.get(ListService).behindLink(studio.id, token);
  const own = {
    ...found,
    consents: [],
    wish: null,
    letters: LETTERS,
    formToken: '',
    path: '',
    feedUrl: null,
  };
  const left = (state: SittingState, returnOwed: boolean, done?: string) => {
    const view = { ...found.view, sitting: { ...found.view.sitting, state, returnOwed } };
    const [english = '', french = ''] = LANGUAGES.map((language) => {
      const spoken = { language, words: wordsFor(language), others: [] };
      return renderDocument(PlacePage({ ...own, view, done, spoken }));
    });
    return leftovers(english, french, TYPED);
  };
  for (const state of STATES)
    for (const owed of [false, true]) expect({ state, left: left(state, owed) }).toEqual({ state, left: [] });
  const { done, notDone } = wordsFor('en').place;
  for (const act of [...Object.keys(done), ...Object.keys(notDone)])
    expect({ act, left: left('confirmed', false, act) }).toEqual({ act, left: [] });
});

it('a place: the page itself, consents, calendar, journey, preparation, reminders and data', async () => {
  const { own, sittingId, token } = await asked({ home: 'Bergen, Norway' });
  await approve(house, studio, sittingId, '2027-05-14T11:15');
  const visitor = new Visitor(house);
  await visitor.get(own);
  const agreed = { sitter: '', purpose: 'contact', version: '1', answer: 'agree' };
  expect((await visitor.post(`${own}/consents`, agreed)).location).toBe(`${own}?done=consent`);
  await inBoth(own);
  expect((await visitor.post(`${own}/consents`, { ...agreed, answer: 'withdraw' })).status).toBe(303);
  await visitor.post(`${own}/reminders`, { wanted: 'no' });
  await inBoth(own);
  await inBoth(`${own}/prepare`);
  await inBoth(`${own}/journey`);
  for (const act of Object.keys(wordsFor('en').ownCalendar.done)) await inBoth(`${own}/calendar?done=${act}`);
  const reminders = await house.db.inStudio(studio.id, async (tx) => {
    const { view } = await house.app.get(SittingViews).behind(tx, token);
    const links = house.app.get(LinksService);
    return links.token(await links.ensure(tx, 'reminders', view.contact.id));
  });
  await inBoth(`/s/${studio.slug}/reminders/${reminders}`);
  await visitor.post(`/s/${studio.slug}/reminders/${reminders}/again`);
  await inBoth(`/s/${studio.slug}/reminders/${reminders}`);
  await inBoth(`/s/${studio.slug}/your-data/${token}`);
  await visitor.post(`/s/${studio.slug}/your-data/${token}/erase`);
  await inBoth(`/s/${studio.slug}/your-data/${token}`);
});

it('details and wishes, also where they come too late', async () => {
  const { own } = await asked({ bands: ['under 8'] });
  const visitor = new Visitor(house);
  await visitor.get(`${own}/details?lang=fr`);
  expect((await visitor.post(`${own}/wish`, { words: 'A portrait of my hands.' })).status).toBe(303);
  await inBoth(own);
  await inBoth(`${own}/details`);
  const late = await visitor.post(`${own}/wish`, { words: 'Two plates.', _form: 'of last year' });
  expect([late.status, late.header('content-language')]).toEqual([403, 'fr']);
  expect(late.html).toContain(wordsFor('fr').correct.tooLate);
});

it('what cannot be done: a link that is not known or has run out, no studio, a form that came too late', async () => {
  const { own, sittingId, token } = await asked();
  await inBoth(`/s/${studio.slug}/place/${'x'.repeat(43)}`, 404);
  await inBoth('/s/nobody', 404);
  await inBoth(`/s/${studio.slug}/nothing%20here`, 404);
  const visitor = new Visitor(house);
  await visitor.get(`${own}?lang=fr`);
  const late = await visitor.post(`${own}/consents`, { sitter: '', _form: 'of last year' });
  expect(late.html).toContain(wordsFor('fr').problem.again.kept);
  await house.db.inStudio(studio.id, (tx) =>
    house.app.get(LinksService).setExpiry(tx, 'place', sittingId, house.clock.now()),
  );
  await inBoth(own, 410);
  await inBoth(`/s/${studio.slug}/your-data/${token}`, 410);
  // the desk stays as it is, and so does what programs are told
  const desk = await fetchedIn(house, `/s/${studio.slug}/desk`, 'fr', 401);
  expect(desk.body).toContain('<html lang="en-GB">');
  const odd = await house.app.inject({ url: '/s/%zz', headers: { accept: 'text/html' } });
  expect(odd.statusCode).toBe(404);
});

it('would notice an English sentence', async () => {
  const { own } = await asked();
  const french = (await fetchedIn(house, own, 'fr')).body;
  const { another } = wordsFor('en').place;
  expect(englishIn(french.replace('</main>', `<p>${another.says}</p></main>`))).toEqual([another.says]);
});

it('says in French what each problem is', () => {
  expect(Object.keys(wordsFor('fr').problem.said).sort()).toEqual(Object.keys(PROBLEMS).sort());
});

it('the owner reads the same request in English, whatever their browser likes', async () => {
  const { sittingId } = await asked();
  const owner = await signedIn(house, studio, 'owner');
  const { html } = await owner.get(`/s/${studio.slug}/desk/requests/${sittingId}`, {
    'accept-language': 'fr',
  });
  expect(html).toContain('<html lang="en-GB">');
  const french = Object.values(wordsFor('fr').place.states);
  expect(french.filter((words) => wordsOf(html).includes(words.replace(/\s/g, ' ')))).toEqual([]);
});
