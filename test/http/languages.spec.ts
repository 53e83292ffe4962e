// Visitors are spoken to in French when they ask for it: nothing of the English page is left on the French one. And
// which language a page is in (RFC 9110 §12.5.4), how it is chosen, and how the choice is kept.
import { PRINTED } from '../../src/chemistry/estimate.schemas.js';
import { readDateField } from '../../src/platform/html/kit/date-field.js';
import { LANGUAGES } from '../../src/words/languages.js';
import { wordsFor } from '../../src/words/words-for.js';
import { likedLanguage } from '../../src/words/asked-language.js';
import { askPath, filledForm, ofStep, sendForm } from '../support/ask-form.js';
import { ListService } from '../../src/sittings/list.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, type Sent, summaryOf, wordsOf } from '../support/page-forms.js';
import { fetchedIn, inBoth, leftovers, OF_THE_STUDIO as owners } from '../support/two-languages.js';
import { signedIn, Visitor } from '../support/visitor.js';
import { approve, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

const fetched = (url: string, language: string) => fetchedIn(house, url, language);

it('nothing of the English pages is left on the French ones, step by step', async () => {
  const { visitor, answers } = await filledForm(house, studio, {});
  const paths = [`/s/${studio.slug}`, askPath(studio)];
  let action = askPath(studio);
  for (const step of ['you', 'people', 'days', 'more']) {
    const { location } = await visitor.post(action, ofStep(step, answers as Sent));
    paths.push(location);
    action = location;
  }
  expect(paths.at(-1)).toMatch(/\/check$/);
  const typed = ['Linnea Harrow', 'linnea@post.example', /^Whitby/, /: Linnea Harrow$/, /plate$/i];
  for (const path of paths) {
    const [english, french] = [(await fetched(path, 'en')).body, (await fetched(path, 'fr')).body];
    expect(english).toContain('<html lang="en-GB">');
    expect(french).toContain('<html lang="fr">');
    expect(french).toContain('n’a pas encore été relue');
    expect({ path, left: leftovers(english, french, [...owners, ...typed]) }).toEqual({ path, left: [] });
    const seeded = french.replace('</main>', '<p>Held for you</p></main>');
    const original = english.replace('</main>', '<p>Held for you</p></main>');
    expect(leftovers(original, seeded, [...owners, ...typed])).toEqual(['Held for you']);
  }
});

/** Names, figures and signs that are the same in both. */
const SAME = [/Whitby|York|Bergen|Europe\/London/, /^\d\d:\d\d$/, /^\d+ to \d+ km$/, 'Train', 'minutes'];

it('the calculators that anybody may open, asked and answered', async () => {
  const north = 'lat=54.49&lon=-0.61&zone=Europe/London&date=2027-05-14';
  const never = 'lat=78.2&lon=15.6&zone=Arctic/Longyearbyen&date=2027-12-21';
  const always = 'lat=78.2&lon=15.6&zone=Arctic/Longyearbyen&date=2027-06-21&referenceSeconds=3';
  for (const asked of ['', north, never, always]) {
    const path = `/daylight?${asked}`;
    await inBoth(house, path, [...owners, ...SAME]);
  }
  const journey = `/s/${studio.slug}/journey`;
  for (const asked of [
    '',
    '?place=Bergen,+Norway',
    '?place=Bergen,+Norway&date-day=14&date-month=5&date-year=2027&time=10:00',
  ])
    await inBoth(house, `${journey}${asked}`, [...owners, ...SAME]);
  await inBoth(house, '/daylight?place=Whitby', [...owners, ...SAME], 422);
  const answered = await fetched(`/daylight?${north}&lang=fr`, 'en');
  expect(wordsOf(answered.body)).toContain('La lumière du vendredi 14 mai 2027');
});

/** Of formulas books keep their names; sizes of plates do too. */
const OF_CHEMISTRY = [
  /\bplate\b.* in$|^\d+ x \d+ in$/i,
  'Collodion',
  /^[\d.]+ (kg|g|mg|L|mL)$/,
  'mL',
  'mm',
  'g',
];

it('the calculators of glass, solutions and baths, asked and answered', async () => {
  const formulas = PRINTED.map(({ kind, key }) => `&formula-${kind}=${key}`);
  const plates = 'size-1=4x5&keepers-1=3&size-2=own&width-2=90&height-2=120&keepers-2=1';
  for (const asked of [
    '',
    `?${plates}&madeBy=sittings`,
    `?${plates}&madeBy=beginners`,
    ...formulas.map((formula) => `?size-1=whole&keepers-1=1&madeBy=sittings${formula}`),
    '/bath',
    '/bath?density=1.073&celsius=18&volume=2000&full=2500&leastVolume=1500',
    '/bath?celsius=18&amount=60&measure=grams+in+a+litre&volume=2000&target=90&least=70',
    '/bath?amount=90&volume=2000&target=90&least=90',
    '/bath?thiocyanateMl=10&normality=0.1&titratedMl=2',
  ])
    await inBoth(house, `/chemistry${asked}`, [...owners, ...OF_CHEMISTRY]);
  await inBoth(house, '/chemistry?size-1=4x5', [...owners, ...OF_CHEMISTRY], 422);
  const [english, french] = await Promise.all(
    ['en', 'fr'].map(async (one) => (await fetched(`/chemistry?${plates}&madeBy=sittings`, one)).body),
  );
  const leftover = '<p>Other plates</p></main>'; // a seeded one is found
  const seeded = [english, french].map((page = '') => page.replace('</main>', leftover));
  expect(leftovers(seeded[0] ?? '', seeded[1] ?? '', [...owners, ...OF_CHEMISTRY])).toEqual(['Other plates']);
  const cyanide = `/chemistry?size-1=whole&keepers-1=1&madeBy=sittings&formula-fixer=fixer-cyanide-schriever`;
  const told = wordsOf((await fetched(cyanide, 'fr')).body);
  expect(told).toContain('Le cyanure peut tuer');
  expect(told).toContain('la fiche de données de sécurité de votre fournisseur');
  expect(told).toMatch(/Cyanure de potassium \d/);
});

it('what is wrong is told in French where somebody asks, and at the calculators', async () => {
  const visitor = new Visitor(house);
  await visitor.get(`${askPath(studio)}?lang=fr`);
  const asking = await visitor.postAndFollow(askPath(studio), {
    reachBy: 'email',
    name: '',
    email: 'linnea',
  });
  expect([asking.status, errorAt(asking.html, 'name')]).toEqual([
    422,
    'Erreur : Veuillez nous dire votre nom.',
  ]);
  expect(asking.html).toContain('value="linnea"');
  for (const path of [
    '/daylight?place=&zone=nowhere&date-day=31&date-month=2&date-year=2027&floor=99&referenceSeconds=x',
    '/daylight?lat=95&lon=x&date=2300-01-01',
    '/chemistry?size-1=own&width-1=1&height-1=x&keepers-1=0&madeBy=x&formula-fixer=x&size-2=odd&keepers-2=2',
    '/chemistry?madeBy=sittings',
    '/chemistry/bath?density=0.9&celsius=50&volume=x&full=0&size=x&target=60&least=70',
    '/chemistry/bath?density=1.07&amount=9',
    '/chemistry/bath?thiocyanateMl=x&normality=x&titratedMl=x',
    `/s/${studio.slug}/journey?place=XYZ&date-day=3&hours=x&margin=x&night=x&mode=x&zone=nowhere`,
    `/s/${studio.slug}/journey?place=Bergen,+Norway&date-day=1&date-month=mai&date-year=2027&time=x`,
  ]) {
    const [french = [], english = []] = await Promise.all(
      ['fr', 'en'].map(async (one) => summaryOf((await fetchedIn(house, path, one, 422)).body)),
    );
    expect([path, french.map(({ leadsTo }) => leadsTo)]).toEqual([
      path,
      english.map(({ leadsTo }) => leadsTo),
    ]);
    const same = english.filter(({ sentence }) => french.some((one) => one.sentence === sentence));
    expect([path, english.length > 0, same]).toEqual([path, true, []]);
  }
});

it.each([
  ['mai', '2027-05-14'],
  ['Août', '2027-08-14'],
  ['aout', '2027-08-14'],
  ['févr.', '2027-02-14'],
  ['juin', '2027-06-14'],
  ['juil', '2027-07-14'],
  ['jui', '14 jui 2027'], // June or July
  ['May', '2027-05-14'],
  ['sept', '2027-09-14'],
  ['mar', '2027-03-14'],
  ['dec', '2027-12-14'],
  ['Mär', '2027-03-14'],
  ['ju', '14 ju 2027'],
  ['brumaire', '14 brumaire 2027'],
])('the month may be typed as a word of any of our languages: %s', (month, read) => {
  const sent = { 'on-day': '14', 'on-month': month, 'on-year': '2027' };
  expect(readDateField(sent, 'on')).toBe(read);
});

it('each month is known by its whole name and by what tells it apart', () => {
  for (const language of LANGUAGES)
    for (let month = 1; month <= 12; month += 1) {
      const sent = { 'on-day': '1', 'on-month': wordsFor(language).dates.month(month), 'on-year': '2027' };
      expect(readDateField(sent, 'on')).toBe(`2027-${String(month).padStart(2, '0')}-01`);
    }
});

it('a link at the foot chooses the language, and the choice outlasts what the browser likes', async () => {
  const home = `/s/${studio.slug}`;
  const liked = await fetched(`${home}/ask?day=2027-03-12`, 'fr-CA, en;q=0.5');
  expect(liked.headers).toMatchObject({
    'content-language': 'fr',
    vary: expect.stringMatching(/^Accept-Language, Cookie/),
  });
  expect(liked.body).toContain('href="?day=2027-03-12&amp;lang=en"');
  expect(liked.cookies.map(({ name }) => name)).not.toContain('plateday-language');
  const chosen = await fetched(`${home}?lang=en`, 'fr');
  expect(chosen.headers['content-language']).toBe('en');
  const kept = chosen.cookies.find(({ name }) => name === 'plateday-language');
  expect(kept).toMatchObject({ value: 'en', httpOnly: true, sameSite: 'Lax', path: '/' });
  const cookie = 'plateday-language=en';
  const later = await house.app.inject({ url: home, headers: { 'accept-language': 'fr', cookie } });
  expect(later.headers['content-language']).toBe('en');
  const odd = await fetched(`${home}?lang=xx%22%3E`, 'fr');
  expect(odd.headers['content-language']).toBe('fr');
});

describe('letters', () => {
  const ask = async (name: string, more: Sent = {}) => {
    const { visitor, answers } = await filledForm(house, studio, { name, 'sitters/0': name, ...more });
    await visitor.get(`${askPath(studio)}?lang=fr`);
    const { location } = await sendForm(visitor, studio, answers);
    const token = /place\/([^?]+)/.exec(location)?.[1] ?? '';
    const sittingId = (await house.app.get(ListService).behindLink(studio.id, token)).view.sitting.id;
    return { visitor, sittingId, own: `/s/${studio.slug}/place/${token}` };
  };
  const mailTo = async (name: string) => {
    await house.work();
    return house.mail.sent.splice(0).filter(({ to }) => to.name === name);
  };

  it('go in the language in which somebody asked, until they or the studio say otherwise', async () => {
    const { visitor, sittingId, own } = await ask('Aubin Vire');
    const [first] = await mailTo('Aubin Vire');
    expect(first?.subject).toBe('Votre demande de séance à Sandpiper Loft');
    expect(first?.text).toContain(`Votre page:\nhttp://localhost:4180${own}?lang=fr`);
    expect(first?.text).toMatch(/Jours qui conviennent: tout jour|Jours qui conviennent: .*\b20\d\d/);
    expect(first?.html).toContain('<html lang="fr">');
    await approve(house, studio, sittingId, '2027-03-12T09:30');
    const [yes] = await mailTo('Aubin Vire');
    expect(yes?.subject).toBe('Votre place à Sandpiper Loft\u00a0: vendredi 12 mars 2027, 09:30');
    expect(yes?.text).not.toMatch(/Dear|Your page|Friday|studio time/);
    expect(yes?.invitation?.content).toContain('SUMMARY:Séance de pose chez Sandpiper Loft\r\n');

    const details = await visitor.get(`${own}/details`);
    expect(details.html).toMatch(/name="language" value="fr"[^>]*checked/);
    const kept = { ...fieldsOf(details.html, `${own}/details`), language: 'en' };
    expect((await visitor.post(`${own}/details`, kept)).location).toBe(`${own}?done=corrected`);
    await visitor.post(`${own}/give-up`);
    expect((await mailTo('Aubin Vire'))[0]?.subject).toMatch(/^Your place at Sandpiper Loft is given back/);
  });

  it('a letter on paper too, and what the studio passes on is in its own language', async () => {
    const post = { reachBy: 'letter', email: '', postalAddress: '4 Rue du Moulin\nVire' };
    const { sittingId } = await ask('Maelle Vire', post);
    await house.work();
    const passedOn = house.mail.sent.splice(0).find(({ subject }) => subject.includes('Maelle Vire'));
    expect(passedOn?.text).toContain('Thank you, your request has reached us.');
    expect(passedOn?.text).toContain('Days that suit: ');
    const owner = await signedIn(house, studio, 'owner');
    const paper = async () => (await owner.get(`/s/${studio.slug}/desk/telephone/letters`)).html;
    expect(await paper()).toMatch(/lang="fr"[\s\S]*Bonjour Maelle Vire,/);
    const messages = `/s/${studio.slug}/desk/requests/${sittingId}/messages`;
    expect((await owner.get(messages)).html).toMatch(/value="fr"[^>]*selected/);
    expect((await owner.post(messages, { language: 'xx' })).html).toContain('choose one of the languages');
    await owner.get(messages);
    const noted = await owner.postAndFollow(messages, { language: 'en' });
    expect(noted.html).toMatch(/value="en"[^>]*selected/);
    expect(await paper()).toContain('Bonjour Maelle Vire,'); // in the outbox before
  });
});

it.each([
  [undefined, 'en'],
  ['', 'en'],
  ['fr', 'fr'],
  ['FR-ca', 'fr'],
  ['da, en-gb;q=0.8, en;q=0.7', 'en'], // the example of the RFC
  ['en;q=0.4, fr;q=0.9', 'fr'],
  ['en;q=0, *', 'fr'],
  ['fr;q=0, *', 'en'],
  ['fr;q=0', 'en'],
  ['de, *;q=0.5', 'en'],
  ['fr;q=2, en;q=0.1', 'en'],
  ['frisian, fr-x;q=0.1', 'fr'],
])('of %p the language is %p', (header, language) => {
  expect(likedLanguage(header)).toBe(language);
});
