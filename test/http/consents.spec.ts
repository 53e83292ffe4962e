// People agree to each thing by itself, with the words and the day, and take it back; the owner notes what was told,
// and writes new words without touching what was agreed to before.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  starts = await openStarts(house, studio, { from: '2027-04-02', until: '2027-05-28' });
});
afterAll(() => house.close());

async function confirmed() {
  const { sittingId, token } = await askForSitting(house, studio, {
    sitters: ['Linnea Harrow', 'Tobias Harrow'],
  });
  await approve(house, studio, sittingId, starts.shift() ?? '');
  const own = `/s/${studio.slug}/place/${token}`;
  const request = `/s/${studio.slug}/desk/requests/${sittingId}`;
  const visitor = new Visitor(house);
  const page = await visitor.get(own);
  const press = (html: string, label: string) => {
    const form = new RegExp(`<form[^>]*aria-label="${label}"[\\s\\S]*?</form>`).exec(html)?.[0] ?? '';
    const value = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(form)?.[1] ?? 'none';
    return Object.fromEntries(['sitter', 'purpose', 'version', 'answer'].map((one) => [one, value(one)]));
  };
  return { own, request, visitor, page, press };
}

describe('On their own page', () => {
  it('nothing is asked before a place is offered', async () => {
    const { token } = await askForSitting(house, studio);
    const page = await new Visitor(house).get(`/s/${studio.slug}/place/${token}`);
    expect(wordsOf(page.html)).not.toContain('What you agree to');
  });

  it('each yes is given and taken back by itself, and the owner sees when and in which words', async () => {
    const { own, request, visitor, page, press } = await confirmed();
    const show = press(page.html, 'Tobias Harrow: Showing it');
    expect(show).toMatchObject({ purpose: 'show', version: '1', answer: 'agree' });
    const after = await visitor.postAndFollow(`${own}/consents`, show);
    expect(wordsOf(after.html)).toContain(
      'Agreed to on Wednesday 25 November 2026, in version 1 of these words.',
    );
    expect(wordsOf(after.html).match(/Not agreed to\./g)).toHaveLength(6);
    const told = wordsOf((await owner.get(request)).html);
    expect(told).toContain('Agreed to on Wednesday 25 November 2026, on their own page, in version 1');
    expect(told).toContain('Linnea Harrow noted a yes to one of the things that are asked');

    await visitor.postAndFollow(`${own}/consents`, show); // a second tap
    const back = press(after.html, 'Tobias Harrow: Showing it');
    expect(back.answer).toBe('withdraw');
    const gone = wordsOf((await visitor.postAndFollow(`${own}/consents`, back)).html);
    expect(gone.match(/Not agreed to\./g)).toHaveLength(7);
    expect(gone.match(/was agreed to on .* and taken back on/g)).toHaveLength(1);
  });

  it('a press that no form of ours makes is refused, and so is one without the secret', async () => {
    const { own, visitor, page, press } = await confirmed();
    const show = press(page.html, 'Tobias Harrow: Showing it');
    expect((await visitor.post(`${own}/consents`, { ...show, purpose: 'house_rules' })).status).toBe(422);
    expect((await visitor.post(`${own}/consents`, {})).status).toBe(422);
    const other = { ...show, sitter: '00000000-0000-4000-8000-000000000001' };
    expect((await visitor.post(`${own}/consents`, other)).status).toBe(404);
    const nowhere = `/s/${studio.slug}/place/${'x'.repeat(43)}/consents`;
    expect((await visitor.post(nowhere, show)).status).toBe(404);
  });
});

describe('At the desk', () => {
  const words = () => `/s/${studio.slug}/desk/settings/words`;

  it('a yes that was told is noted with who heard it, and nobody agrees to words that were not read', async () => {
    const { own, request, visitor, page, press } = await confirmed();
    const before = press((await owner.get(request)).html, 'Linnea Harrow: Keeping the record');
    const noted = wordsOf((await owner.postAndFollow(`${request}/consents`, before)).html);
    expect(noted).toContain('told to Isaura Fenwick, in version 1 of these words.');

    await owner.get(words());
    const longer = { purpose: 'record', version: '1', 'words/record': 'The studio keeps my name for ever.' };
    expect(wordsOf((await owner.postAndFollow(words(), longer)).html)).toContain('Your words are kept.');
    const late = await visitor.postAndFollow(
      `${own}/consents`,
      press(page.html, 'Tobias Harrow: Keeping the record'),
    );
    expect(wordsOf(late.html)).toContain('The studio has changed these words in the meantime.');
    expect(wordsOf(late.html)).toContain('The studio keeps my name for ever.');
    // What was agreed to stays in its own words.
    expect(wordsOf(late.html)).toContain('told to Isaura Fenwick, in version 1 of these words.');
    expect(wordsOf(late.html)).toContain('The studio may keep my name with the record of my plate');
    const now = press(late.html, 'Tobias Harrow: Keeping the record');
    const agreed = wordsOf((await visitor.postAndFollow(`${own}/consents`, now)).html);
    expect(agreed).toContain('in version 2 of these words.');
  });

  it('words written over others that came between are refused, and what was typed stays', async () => {
    await owner.get(words());
    const stale = await owner.post(words(), {
      purpose: 'record',
      version: '1',
      'words/record': 'Something else.',
    });
    expect(stale.status).toBe(409);
    expect(stale.html).toContain('Something else.');
    const long = await owner.post(words(), { purpose: 'show', version: '1', 'words/show': 'x'.repeat(4001) });
    expect(long.status).toBe(422);
    expect(errorAt(long.html, 'words/show')).toMatch(/under 4,000 characters/);
  });

  it('keeps every version, and shows the house rules only once there are some', async () => {
    const page = wordsOf((await owner.get(words())).html);
    expect(page).toContain('Earlier versions');
    expect(page).toContain('the standard words');
  });
});
