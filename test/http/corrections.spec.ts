// People put their own details right, with a record that the owner sees; what would change the plan they ask for.
import { z } from 'zod';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import {
  approve,
  type Asking,
  askForSitting,
  foundTestStudio,
  openStarts,
  type TestStudio,
} from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

async function asked(asking: Asking = {}) {
  const { sittingId, token } = await askForSitting(house, studio, {
    name: 'Linnea Harrow',
    sitters: ['Linnea Harrow', 'Tobias Harrow'],
    ...asking,
  });
  const own = `/s/${studio.slug}/place/${token}`;
  const visitor = new Visitor(house);
  const page = await visitor.get(`${own}/details`);
  const form = fieldsOf(page.html, `${own}/details`);
  return { sittingId, own, visitor, page, form, desk: `/s/${studio.slug}/desk/requests/${sittingId}` };
}

describe('Details put right on one’s own page', () => {
  it('hold at once, and the owner sees what was changed, from what to what', async () => {
    const { own, visitor, form, desk } = await asked();
    const change = {
      ...form,
      name: 'Linnea Harrow-Voss',
      reachBy: 'telephone',
      telephone: '01632 960455',
      home: 'Lerwick',
      'sitters/1': 'Aubin Harrow',
      brings: 'A concertina.',
      access: 'A chair without arms.',
    };
    const after = wordsOf((await visitor.postAndFollow(`${own}/details`, change)).html);
    expect(after).toContain('Your details are kept as they stand below.');
    for (const words of ['Aubin Harrow', 'From Lerwick, Scotland', 'You bring A concertina.'])
      expect(after).toContain(words);
    expect(after).not.toContain('A chair without arms.');
    const told = wordsOf((await owner.get(desk)).html);
    for (const words of [
      'A chair without arms.',
      '01632 960455',
      'Linnea Harrow-Voss put details right: name: Linnea Harrow → Linnea Harrow-Voss; reach by: e-mail → telephone',
      'sits: Tobias Harrow → Aubin Harrow',
      'what helps them here; what they bring',
    ])
      expect(told).toContain(words);
  });

  it('change no plate and no place, and the same once more is no change', async () => {
    const { own, visitor, form, desk } = await asked({
      suits: { kind: 'any', from: '2027-04-02', until: '2027-05-28' },
    });
    const before = wordsOf((await owner.get(desk)).html);
    expect((await visitor.post(`${own}/details`, form)).location).toBe(`${own}?done=as-before`);
    expect(wordsOf((await owner.get(desk)).html)).toBe(before);
    const extra = { ...form, 'sitters/2': 'Somebody More', 'plates/1/plateSizeId': studio.sizes.half.id };
    await visitor.post(`${own}/details`, extra);
    expect(wordsOf((await owner.get(desk)).html)).toBe(before);
  });

  it('what helps them is never shown back, stays when nothing is written, and can be taken away', async () => {
    const { own, visitor, form, page, desk } = await asked({ access: 'No steps, please.' });
    expect(page.html).not.toContain('No steps, please.');
    await visitor.post(`${own}/details`, { ...form, brings: 'A hat.' });
    expect(wordsOf((await owner.get(desk)).html)).toContain('No steps, please.');
    await visitor.post(`${own}/details`, { ...form, brings: 'A hat.', accessGone: 'yes' });
    expect(wordsOf((await owner.get(desk)).html)).not.toContain('No steps, please.');
  });

  it('tell each mistake beside its field and keep what was typed', async () => {
    const { own, visitor, form, desk } = await asked();
    const before = wordsOf((await owner.get(desk)).html);
    const sent = { ...form, name: ' ', email: 'nobody', home: 'Newport', 'sitters/1': '', brings: 'A boat.' };
    const again = await visitor.post(`${own}/details`, sent);
    expect(again.status).toBe(422);
    expect(errorAt(again.html, 'name')).toBe('Please tell us your name.');
    expect(errorAt(again.html, 'email')).toMatch(/^Please give an e-mail address/);
    expect(errorAt(again.html, 'sitters/1')).toBe('Please give this person a name.');
    expect(errorAt(again.html, 'homeId')).toBe('Please choose which of these places it is.');
    expect(fieldsOf(again.html, `${own}/details`)).toMatchObject({ brings: 'A boat.', email: 'nobody' });
    expect(wordsOf((await owner.get(desk)).html)).toBe(before);
  });

  it('keep a guardian as long as somebody is under 18', async () => {
    const guardian = { name: 'Wilhelmina Harrow', relation: 'aunt', reach: '01632 960412' };
    const { own, visitor, form, desk } = await asked({ minor: true, guardian });
    const none = { ...form, 'guardian/name': '', 'guardian/relation': '', 'guardian/reach': '' };
    const again = await visitor.post(`${own}/details`, none);
    expect(again.status).toBe(422);
    expect(errorAt(again.html, 'guardian/name')).toMatch(/^Please name a parent or guardian/);
    await visitor.post(`${own}/details`, { ...form, 'guardian/reach': '01632 960413' });
    expect(wordsOf((await owner.get(desk)).html)).toContain('Wilhelmina Harrow (aunt), 01632 960413');
  });

  it('are shown again when the form had been open for too long, and change nothing until sent again', async () => {
    const { own, visitor, form } = await asked();
    const late = await visitor.post(`${own}/details`, { ...form, brings: 'A kite.', _form: 'old' });
    expect(late.status).toBe(403);
    const shown = fieldsOf(late.html, `${own}/details`);
    expect(shown).toMatchObject({ brings: 'A kite.' });
    expect(wordsOf((await visitor.get(own)).html)).not.toContain('A kite.');
    await visitor.get(`${own}/details`);
    expect(wordsOf((await visitor.postAndFollow(`${own}/details`, shown)).html)).toContain('A kite.');
  });

  it('are not changed once nothing lies ahead, and not without the secret', async () => {
    const { own, visitor, form } = await asked();
    await visitor.post(`${own}/give-up`);
    expect((await visitor.get(`${own}/details`)).location).toBe(`${own}?done=over`);
    expect((await visitor.post(`${own}/details`, { ...form, name: 'Other' })).location).toBe(
      `${own}?done=over`,
    );
    const nowhere = `/s/${studio.slug}/place/${'x'.repeat(43)}/details`;
    expect((await visitor.get(nowhere)).status).toBe(404);
    expect((await visitor.post(nowhere, form)).status).toBe(404);
  });

  it('a new home plans the reminders anew', async () => {
    const { sittingId, own, visitor, form } = await asked({ home: 'Whitby, United Kingdom' });
    const [start = ''] = await openStarts(house, studio, { from: '2027-05-14', until: '2027-05-21' });
    await approve(house, studio, sittingId, start);
    await house.work();
    const planned = () =>
      house.db.inStudio(studio.id, async (tx) => {
        const row = z.object({ kind: z.string() });
        const sql = `select kind from reminder where studio_id = $1 and sitting_id = $2 and state = 'planned' order by kind`;
        return (await tx.many(row, sql, [studio.id, sittingId])).map((one) => one.kind);
      });
    expect(await planned()).not.toContain('travel');
    await visitor.post(`${own}/details`, { ...form, home: 'Lerwick' });
    await house.work();
    expect(await planned()).toContain('travel');
  });
});

describe('Asking the studio for what would change the plan', () => {
  it('changes nothing, stands before the owner until it is answered, and on their own page', async () => {
    const { own, visitor, desk } = await asked();
    const front = `/s/${studio.slug}/desk`;
    const words = 'A second plate of the two of us, please.';
    const empty = await visitor.post(`${own}/wish`, { words: ' ' });
    expect(errorAt(empty.html, 'words')).toBe('Please tell the studio what you would like.');
    const after = wordsOf((await visitor.postAndFollow(`${own}/wish`, { words })).html);
    expect(after).toContain('The studio has your wish and will answer. Nothing is changed yet.');
    expect(after).toContain(words);
    expect(wordsOf((await owner.get(front)).html)).toMatch(
      /They ask for a change \(1\).*A second plate of the two/,
    );
    const before = await owner.get(desk);
    expect(wordsOf(before.html)).toContain(`asked for a change of the plan: ${words}`);
    const read = fieldsOf(before.html, `${desk}/wish`);

    house.clock.forward({ hours: 1 });
    await visitor.post(`${own}/wish`, { words: 'Two more plates, rather.' });
    const stale = await owner.post(`${desk}/wish`, read);
    expect(stale.status).toBe(409);
    expect(wordsOf(stale.html)).toContain('They have asked for something else since, or it was answered.');
    await owner.postAndFollow(`${desk}/wish`, fieldsOf(stale.html, `${desk}/wish`));
    expect(wordsOf((await owner.get(front)).html)).not.toContain('They ask for a change');
    expect(wordsOf((await visitor.get(own)).html)).not.toContain('Two more plates, rather.');
  });
});
