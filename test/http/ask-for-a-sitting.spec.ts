// Asking for a sitting step by step, in a browser without script.
import { z } from 'zod';
import { enqueueNight } from '../../src/platform/jobs/night.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { STEPS } from '../../src/sittings/ask-steps.calc.js';
import { askPath, countSittings, filledForm, ofStep, sendForm } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { choicesOf, errorAt, fieldsOf, type Sent, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { type Answer, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;
let ask: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
  ask = askPath(studio);
});
afterAll(() => house.close());

const filled = (more: Sent = {}) => filledForm(house, studio, more);
const sittings = () => countSittings(house, studio);

/** Somebody who has sent all steps and looks them over. */
async function atCheck(more: Sent = {}) {
  const { visitor, answers } = await filled(more);
  let path = ask;
  for (const step of STEPS) path = (await visitor.post(path, ofStep(step, answers))).location;
  return { visitor, answers, check: path, draft: path.replace(/\/check$/, '') };
}

describe('The way through the steps', () => {
  it('leads from adding people and plates past a look at everything to a page of one’s own', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled({ hopes: 'Both of us.', brings: 'A spaniel.' });
    const { location: people } = await visitor.post(ask, ofStep('you', answers));
    expect(wordsOf((await visitor.get(people)).html)).toContain('Step 2 of 4: Who sits.');
    const two = await visitor.post(people, { ...ofStep('people', answers), more: 'sitter' });
    expect(two.status).toBe(200);
    const named = { ...fieldsOf(two.html, people), 'sitters/1': 'Aubin Harrow', more: 'plate' };
    const plates = await visitor.post(people, named);
    expect([...choicesOf(plates.html, 'plates/1/sitters')]).toEqual([
      ['0', 'Linnea Harrow'],
      ['1', 'Aubin Harrow'],
    ]);
    const whole = {
      ...fieldsOf(plates.html, people),
      'plates/0/sitters': ['0', '1'],
      'plates/1/plateSizeId': studio.sizes.half.id,
      'plates/1/sitters': '1',
    };
    const { location: days } = await visitor.post(people, whole);
    const { location: more } = await visitor.post(days, ofStep('days', answers));
    const check = await visitor.postAndFollow(more, ofStep('more', answers));
    const shown = 'Whole plate: Linnea Harrow, Aubin Harrow; Half plate: Aubin Harrow';
    for (const words of [
      shown,
      'You bring A spaniel.',
      'by e-mail',
      'any open day from Saturday 28 November',
    ])
      expect(wordsOf(check.html)).toContain(words);
    expect(await sittings()).toBe(before);
    const own = await visitor.postAndFollow(more.replace(/more$/, 'send'));
    const words = wordsOf(own.html);
    expect(words).toContain('Your request has reached the studio.');
    expect(words).toContain(shown);
    expect(words).toContain('any open day from Saturday 28 November 2026 to Thursday 25 November 2027');
    expect(await sittings()).toBe(before + 1);
  });

  it('goes back with what was typed, and from the last page to one step and back to it', async () => {
    const { visitor, answers, check, draft } = await atCheck();
    const half = { ...ofStep('days', answers), home: 'Nowhere yet' };
    const back = await visitor.post(`${draft}/days`, { ...half, more: 'back' });
    expect(back.location).toBe(`${draft}/people`);
    const days = await visitor.get(`${draft}/days`);
    expect(fieldsOf(days.html, `${draft}/days`)).toMatchObject({ home: 'Nowhere yet' });

    const unwhole = await visitor.get(check);
    expect(wordsOf(unwhole.html)).toContain('We do not know this place; please give the nearest town.');
    expect(unwhole.html).not.toContain('Send the request');
    expect(unwhole.html).toContain(`href="${draft}/days?to=check"`);
    const change = await visitor.get(`${draft}/days?to=check`);
    const mended = { ...fieldsOf(change.html, `${draft}/days?to=check`), home: 'Lerwick' };
    expect((await visitor.post(`${draft}/days?to=check`, mended)).location).toBe(check);
    expect(wordsOf((await visitor.get(check)).html)).toContain('Please look this over.');
  });

  it('a box that was unticked on the way is not ticked any more', async () => {
    const young = { minor: 'yes', 'guardian/name': 'Wilhelmina Harrow', 'guardian/reach': '01632 960412' };
    const { visitor, draft, answers } = await atCheck(young);
    const { minor: _gone, ...people } = ofStep('people', answers);
    await visitor.post(`${draft}/people`, people);
    expect(fieldsOf((await visitor.get(`${draft}/people`)).html, `${draft}/people`).minor).toBeUndefined();
  });

  it('asks for a parent or guardian where somebody is under 18', async () => {
    for (const change of [{ minor: 'yes' }, { 'bands/0': 'under 8' }] as Sent[]) {
      const { visitor, answers } = await filled(change);
      const page = await sendForm(visitor, studio, answers);
      expect(page.status).toBe(422);
      expect(errorAt(page.html, 'guardian/name')).toMatch(/^Please name a parent or guardian/);
    }
  });

  it('asks which place is meant when there are several, and takes the one that is chosen', async () => {
    const { visitor, answers } = await filled({ home: 'Springfield' });
    const unclear = await sendForm(visitor, studio, answers);
    expect(unclear.status).toBe(422);
    expect(errorAt(unclear.html, 'homeId')).toBe('Please choose which of these places it is.');
    const choices = choicesOf(unclear.html, 'homeId');
    expect(choices.size).toBe(8);
    const [id] = [...choices].find(([, label]) => label.startsWith('Springfield, Illinois')) ?? [];
    expect(id).toBeDefined();
    await visitor.post(unclear.action, { ...fieldsOf(unclear.html, unclear.action), homeId: id ?? '' });
    const check = await visitor.get(`${unclear.draft}/check`);
    expect(wordsOf(check.html)).toContain('You travel from Springfield, Illinois, United States');
    const done = await visitor.post(`${unclear.draft}/send`);
    expect(await homeOf(done)).toBe('Springfield, Illinois, United States');
  });

  it('goes by the name of the home that stands there, not by one chosen earlier', async () => {
    const { visitor, draft } = await atCheck();
    const days = `${draft}/days`;
    const shown = fieldsOf((await visitor.get(days)).html, days);
    expect(shown.homeId).not.toBe('');
    await visitor.post(days, { ...shown, home: 'Lerwick' });
    expect(await homeOf(await visitor.post(`${draft}/send`))).toBe('Lerwick, Scotland, United Kingdom');
  });

  it('takes particular days, and begins with the one that was tapped on the studio’s page', async () => {
    const { visitor, answers } = await filled();
    const first = await visitor.get(`${ask}?day=2027-05-14`);
    expect(first.html).toContain(`action="${ask}?day=2027-05-14"`);
    const { location: people } = await visitor.post(`${ask}?day=2027-05-14`, ofStep('you', answers));
    const { location: days } = await visitor.post(people, ofStep('people', answers));
    const page = await visitor.get(days);
    expect(page.html.split('<details>')[0]).toContain('value="2027-05-14" checked');
    const shown = fieldsOf(page.html, days);
    expect(shown).toMatchObject({ 'suits/kind': 'these', 'suits/days': '2027-05-14' });
    const chosen = { ...shown, home: 'Lerwick', 'suits/days': ['2027-05-14', '2027-05-21'] };
    await visitor.post(days, chosen);
    const own = await visitor.postAndFollow(days.replace(/days$/, 'send'));
    expect(wordsOf(own.html)).toContain('Friday 14 May 2027, Friday 21 May 2027');
  });

  it('drops rows of people that were left empty, and keeps who is on which plate', async () => {
    const more = { 'sitters/1': '', 'sitters/2': 'Third Person', 'plates/0/sitters': ['2'] };
    const { visitor, draft } = await atCheck(more);
    const own = await visitor.postAndFollow(`${draft}/send`);
    expect(wordsOf(own.html)).toContain('Linnea Harrow, Third Person');
    expect(wordsOf(own.html)).toContain('Whole plate: Third Person');
  });

  it('goes on when Enter is pressed in a field', async () => {
    const { visitor, draft } = await atCheck();
    for (const path of [ask, ...STEPS.map((step) => `${draft}/${step}`)]) {
      const { html } = await visitor.get(path);
      const form = /<form class="form"[\s\S]*?<\/form>/.exec(html)?.[0] ?? '';
      const first = /<button\b([^>]*)>/.exec(form)?.[1] ?? '';
      expect(first).toContain('type="submit"');
      expect(first).not.toContain('name=');
    }
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

describe('What is begun', () => {
  const keptOf = (draft: string) =>
    house.db
      .inStudio(studio.id, (tx) =>
        tx.many(
          z.object({ kept: z.string(), sitting_id: z.string().nullable() }),
          'select answers::text as kept, sitting_id from request_draft where studio_id = $1 order by saved_at',
          [studio.id],
        ),
      )
      .then((rows) => ({ rows, hasSecret: rows.some(({ kept }) => kept.includes(draft)) }));

  it('can be gone on with from another device by its address, and by nobody else', async () => {
    const { draft, check } = await atCheck({ hopes: 'Only of my hands.' });
    const elsewhere = new Visitor(house);
    expect(wordsOf((await elsewhere.get(check)).html)).toContain('Only of my hands.');
    const secret = draft.split('/').at(-1) ?? '';
    expect((await keptOf(secret)).hasSecret).toBe(false);
    expect((await elsewhere.get(`/s/${other.slug}/ask/${secret}/check`)).status).toBe(404);
    expect((await elsewhere.get(`${ask}/${'x'.repeat(43)}/check`)).status).toBe(404);
    expect((await elsewhere.get(`${draft}/nothing`)).status).toBe(404);
  });

  it('is said to be kept at the address of the page only where that is so', async () => {
    const KEPT = 'is kept at the address of this page for two weeks';
    const { visitor, answers } = await filled();
    expect(wordsOf((await visitor.get(ask)).html)).not.toContain(KEPT);
    const { location } = await visitor.post(ask, ofStep('you', answers));
    expect(wordsOf((await visitor.get(location)).html)).toContain(KEPT);
  });

  it('has an address of its own also when the first step is refused, and repeats nothing when read again', async () => {
    const { visitor, answers } = await filled();
    const wrong = { ...ofStep('you', answers), email: 'linnea.example' };
    const before = (await keptOf('')).rows.length;
    const { status, location } = await visitor.post(`${ask}?day=2027-05-14`, wrong);
    expect([status, location]).toEqual([303, expect.stringMatching(/\/ask\/[\w-]{43}\/you\?again=yes$/)]);
    const you = location.replace('?again=yes', '');
    for (const _reload of [1, 2]) {
      const refused = await visitor.get(location);
      expect(refused.status).toBe(422);
      expect(errorAt(refused.html, 'email')).toMatch(/^Please give an e-mail address/);
      expect(refused.html).not.toContain('Please choose a plate size.'); // nobody was asked for it yet
      expect(fieldsOf(refused.html, you)).toMatchObject(wrong);
    }
    expect((await keptOf('')).rows).toHaveLength(before + 1);
    const people = await visitor.post(you, ofStep('you', answers));
    expect(people.location).toBe(you.replace(/you$/, 'people'));
    expect((await visitor.get(location)).status).toBe(200); // nothing is wrong with it any more
    expect((await keptOf('')).rows).toHaveLength(before + 1);
    const days = you.replace(/you$/, 'days');
    expect(fieldsOf((await visitor.get(days)).html, days)).toMatchObject({ 'suits/days': '2027-05-14' });
  });

  it('is not asked before it is whole', async () => {
    const before = await sittings();
    const { visitor, answers } = await filled();
    const { location } = await visitor.post(ask, ofStep('you', answers));
    const sent = await visitor.post(location.replace(/people$/, 'send'));
    expect(sent.status).toBe(422);
    expect(wordsOf(sent.html)).toContain('Please choose a plate size.');
    expect(wordsOf(sent.html)).toContain('Please tell us where you travel from.');
    expect(await sittings()).toBe(before);
  });

  it('is forgotten two weeks after it was last gone on with', async () => {
    const { visitor, check } = await atCheck();
    const night = () =>
      house.db.inStudio(studio.id, (tx) => enqueueNight(tx, house.app.get(Jobs), house.clock));
    await night();
    house.clock.forward({ hours: 24 * 13 });
    await house.work();
    expect((await visitor.get(check)).status).toBe(200);
    house.clock.forward({ hours: 24 * 2 });
    await house.work();
    expect((await visitor.get(check)).status).toBe(404);
  });
});

describe('Sending the same again', () => {
  it('leads to the same page and asks once, even when all arrive at the same moment', async () => {
    const before = await sittings();
    const { visitor, draft } = await atCheck();
    const all = await Promise.all(Array.from({ length: 8 }, () => visitor.post(`${draft}/send`)));
    expect(new Set(all.map((one) => one.location.replace('?done=asked', ''))).size).toBe(1);
    expect(new Set(all.map((one) => one.status))).toEqual(new Set([303]));
    expect(await sittings()).toBe(before + 1);
  });

  it('keeps nothing of what was typed, and every step then leads to the page of the request', async () => {
    const { visitor, answers, draft } = await atCheck({ hopes: 'A secret of mine.' });
    const { location } = await visitor.post(`${draft}/send`);
    const own = location.replace('?done=asked', '');
    for (const step of STEPS) {
      expect((await visitor.get(`${draft}/${step}`)).location).toBe(own);
      expect((await visitor.post(`${draft}/${step}`, ofStep(step, answers))).location).toBe(own);
    }
    const kept = await house.db.inStudio(studio.id, (tx) =>
      tx.many(z.object({ t: z.string() }), `select d::text as t from request_draft d where studio_id = $1`, [
        studio.id,
      ]),
    );
    expect(kept.filter(({ t }) => t.includes('A secret of mine.'))).toEqual([]);
  });
});
