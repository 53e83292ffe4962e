// Asking for a sitting on the form, in a browser without script.
import { z } from 'zod';
import { askPath, countSittings, filledForm } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { choicesOf, errorAt, fieldsOf, type Sent, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { type Answer, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let ask: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  ask = askPath(studio);
});
afterAll(() => house.close());

const filled = (more: Sent = {}) => filledForm(house, studio, more);
const sittings = () => countSittings(house, studio);

/** What was typed stands in the form again; the token is masked anew each time, and the home is looked up. */
function expectKept(page: Answer, answers: Sent): void {
  const { _form: _new, homeId: _found, ...shown } = fieldsOf(page.html, ask);
  const { _form: _old, homeId: _sent, more: _button, ...typed } = answers;
  expect(shown).toEqual(typed);
}

describe('The way through the form', () => {
  it('leads from adding people and plates to a page of one’s own', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled();
    const two = await visitor.post(ask, { ...answers, more: 'sitter' });
    expect(two.status).toBe(200);
    expectKept(two, { ...answers, 'sitters/1': '', 'bands/1': 'adult' });
    const named = { ...fieldsOf(two.html, ask), 'sitters/1': 'Aubin Harrow', more: 'plate' };
    const plates = await visitor.post(ask, named);
    expect([...choicesOf(plates.html, 'plates/1/sitters')]).toEqual([
      ['0', 'Linnea Harrow'],
      ['1', 'Aubin Harrow'],
    ]);
    const whole = {
      ...fieldsOf(plates.html, ask),
      'plates/0/sitters': ['0', '1'],
      'plates/1/plateSizeId': studio.sizes.half.id,
      'plates/1/sitters': '1',
    };
    const own = await visitor.postAndFollow(ask, whole);
    expect(own.status).toBe(200);
    const words = wordsOf(own.html);
    expect(words).toContain('Your request has reached the studio.');
    expect(words).toContain('Linnea Harrow, Aubin Harrow');
    expect(words).toContain('Whole plate: Linnea Harrow, Aubin Harrow; Half plate: Aubin Harrow');
    expect(words).toContain('any open day from Saturday 28 November 2026 to Thursday 25 November 2027');
    expect(await sittings()).toBe(before + 1);
  });

  it('asks which place is meant when there are several, and takes the one that is chosen', async () => {
    const { visitor, answers } = await filled({ home: 'Springfield' });
    const unclear = await visitor.post(ask, answers);
    expect(unclear.status).toBe(422);
    expect(errorAt(unclear.html, 'homeId')).toBe('Please choose which of these places it is.');
    const choices = choicesOf(unclear.html, 'homeId');
    expect(choices.size).toBe(8);
    const [id] = [...choices].find(([, label]) => label.startsWith('Springfield, Illinois')) ?? [];
    expect(id).toBeDefined();
    const done = await visitor.post(ask, { ...fieldsOf(unclear.html, ask), homeId: id ?? '' });
    expect(done.status).toBe(303);
    expect(await homeOf(done)).toBe('Springfield, Illinois, United States');
  });

  it('goes by the name of the home that stands there, not by one chosen earlier', async () => {
    const { visitor, answers } = await filled({ name: '' });
    const again = await visitor.post(ask, answers);
    expect(again.status).toBe(422);
    const shown = fieldsOf(again.html, ask);
    expect(shown.homeId).not.toBe('');
    const done = await visitor.post(ask, { ...shown, name: 'Linnea Harrow', home: 'Lerwick' });
    expect(done.status).toBe(303);
    expect(await homeOf(done)).toBe('Lerwick, Scotland, United Kingdom');
  });

  it('takes particular days, and begins with the one that was tapped on the studio’s page', async () => {
    const visitor = new Visitor(house);
    const page = await visitor.get(`${ask}?day=2027-05-14`);
    expect(page.html.split('<details>')[0]).toContain('value="2027-05-14" checked');
    const { answers } = await filled();
    const shown = fieldsOf(page.html, ask);
    expect(shown).toMatchObject({ 'suits/kind': 'these', 'suits/days': '2027-05-14' });
    const own = await visitor.postAndFollow(ask, {
      ...answers,
      ...shown,
      ...{ name: 'Ida', reachBy: 'telephone', telephone: '01632 960 111', 'sitters/0': 'Ida' },
      ...{ 'plates/0/plateSizeId': studio.sizes.half.id, home: 'Lerwick' },
      'suits/days': ['2027-05-14', '2027-05-21'],
    });
    expect(wordsOf(own.html)).toContain('Friday 14 May 2027, Friday 21 May 2027');
  });

  it('drops rows of people that were left empty, and keeps who is on which plate', async () => {
    const { visitor, answers } = await filled({
      'sitters/1': '',
      'sitters/2': 'Third Person',
      'plates/0/sitters': ['2'],
    });
    const own = await visitor.postAndFollow(ask, answers);
    expect(wordsOf(own.html)).toContain('Linnea Harrow, Third Person');
    expect(wordsOf(own.html)).toContain('Whole plate: Third Person');
  });

  it('sends the request when Enter is pressed in a field', async () => {
    const { html } = await new Visitor(house).get(ask);
    const form = /<form class="form"[\s\S]*?<\/form>/.exec(html)?.[0] ?? '';
    const first = /<button\b([^>]*)>/.exec(form)?.[1] ?? '';
    expect(first).toContain('type="submit"');
    expect(first).not.toContain('name=');
  });

  async function homeOf(done: Answer): Promise<string> {
    const page = wordsOf((await new Visitor(house).get(done.location)).html);
    expect(page).toContain('Your request');
    return house.db.inStudio(studio.id, async (tx) => {
      const sql =
        'select home_name from contact where studio_id = $1 order by xmin::text::bigint desc limit 1';
      return (await tx.one(z.object({ home_name: z.string() }), sql, [studio.id])).home_name;
    });
  }
});

describe('Sending the same form again', () => {
  it('leads to the same page and asks once', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled();
    const first = await visitor.post(ask, answers);
    const second = await visitor.post(ask, answers);
    expect([first.status, second.status]).toEqual([303, 303]);
    expect(second.location).toBe(first.location);
    expect(await sittings()).toBe(before + 1);
  });

  it('asks once even when both arrive at the same moment', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled();
    const all = await Promise.all(Array.from({ length: 8 }, () => visitor.post(ask, answers)));
    expect(new Set(all.map((one) => `${one.status} ${one.location}`)).size).toBe(1);
    expect(all[0]?.status).toBe(303);
    expect(await sittings()).toBe(before + 1);
  });

  it('with other answers is told plainly, keeps them, and can then be sent as a second request', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled();
    const first = await visitor.post(ask, answers);
    const changed = { ...answers, hopes: 'A second thought.' };
    const told = await visitor.post(ask, changed);
    expect(told.status).toBe(422);
    expect(wordsOf(told.html)).toContain('This form was sent once already.');
    const { _key: key, ...shown } = fieldsOf(told.html, ask);
    expect(key).not.toBe(answers._key);
    expect(shown).toMatchObject({ hopes: 'A second thought.', name: 'Linnea Harrow' });
    const second = await visitor.post(ask, { ...shown, _key: key ?? '' });
    expect(second.status).toBe(303);
    expect(second.location).not.toBe(first.location);
    expect(await sittings()).toBe(before + 2);
  });

  it('after a mistake keeps its key, so that the mended form is still the same one', async () => {
    const { visitor, answers } = await filled({ name: '' });
    const again = await visitor.post(ask, answers);
    expect(fieldsOf(again.html, ask)._key).toBe(answers._key);
  });
});
