// Preparation through the doors of owner and assistant: the list with one tap a task, moving, the room of the day, and
// the owner's rules and day materials.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { ruleOf } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let prepare: string;
let number = 0;
const DAY = '2026-12-04';

beforeAll(async () => {
  house = await openTestHouse(); // Wednesday 25 November 2026
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `prepared-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  prepare = `/s/${slug}/desk/prepare`;
  const { sittingId } = await askForSitting(house, studio, { suits: { kind: 'these', days: [DAY] } });
  const [start = ''] = await openStarts(house, studio, { from: DAY, until: DAY });
  await approve(house, studio, sittingId, start);
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
});

const words = async (who: Visitor = owner) => wordsOf((await who.get(prepare)).html);
const glass = () => ({ day: DAY, rule: ruleOf(/glass/) });

describe('the list', () => {
  it('says what to do by when, for which day, with the sheets of the day', async () => {
    const text = await words(assistant);
    expect(text).toContain('Cut, clean and polish the glass: 1 × Whole plate');
    expect(text).toContain('Thursday 3 December');
    expect(text).toMatch(/09:00 to 09:19 \(19 min\) · for Friday 4 December/);
    expect(text).toContain('Cold room: warm bath and developer to the room'); // December, and nothing measured
    expect(text).not.toContain('Hot room');
  });

  it('is ticked by one tap and unticked by another, by assistant and owner', async () => {
    await assistant.get(prepare);
    const { html } = await assistant.postAndFollow(`${prepare}/tick`, { ...glass(), done: 'yes' });
    expect(wordsOf(html)).toContain('done by Odhran Pike');
    await owner.get(prepare);
    const again = await owner.postAndFollow(`${prepare}/tick`, { ...glass(), done: 'no' });
    expect(wordsOf(again.html)).not.toContain('done by');
    expect(wordsOf(again.html)).toContain('It stands on the list again.');
  });

  it('keeps what was left over in sight until its day is past', async () => {
    house.clock.set('2026-12-03T20:00:00Z');
    expect(await words()).toContain('Today, Thursday 3 December');
    house.clock.set('2026-12-04T07:00:00Z');
    const late = await words();
    expect(late).toMatch(/Left over.*Cut, clean and polish the glass.*Today, Friday 4 December/);
    house.clock.set('2026-12-05T07:00:00Z');
    expect(await words()).not.toContain('Cut, clean and polish');
    house.clock.set('2026-11-25T10:00:00Z');
  });

  it('takes no tick for a task that no rule knows', async () => {
    await owner.get(prepare);
    const unknown = { day: DAY, rule: '00000000-0000-4000-8000-000000000000', done: 'yes' };
    expect((await owner.post(`${prepare}/tick`, unknown)).status).toBe(404);
    expect((await owner.post(`${prepare}/tick`, { ...glass(), done: 'maybe' })).status).toBe(422);
  });

  it('warns of what is needed and can no longer be had in time', async () => {
    const reason = { reason: 'It is red.' };
    await house.app.get(ShelfService).discard(studio.id, studio.owner, studio.lots.collodion, reason);
    house.clock.set('2026-11-27T10:00:00Z');
    expect(await words()).toMatch(/By a date Mix Iodised collodion: 11\.1 mL ?, by Friday 27 November/);
    house.clock.set('2026-11-28T10:00:00Z');
    const late = await words(assistant);
    house.clock.set('2026-11-02T10:00:00Z'); // 32 days before
    await house.db.inStudio(studio.id, (tx) =>
      tx.run('update item set ripen_days = 33 where studio_id = $1 and item_id = $2', [
        tx.studioId,
        studio.items.collodion.id,
      ]),
    );
    const far = await words(assistant);
    house.clock.set('2026-11-25T10:00:00Z');
    expect(far).toContain('Mixed today it would be ready on Saturday 5 December 2026.');
    expect(late).toMatch(
      /Iodised collodion: 11\.1 mL cannot be had in time ?\. First needed on Friday 4 December 2026\. Mixed today it would be ready on Saturday 5 December 2026\..*Cut, clean and polish/,
    );
  });

  it('says what comes next where nothing is to do in two weeks, and nothing where nobody comes', async () => {
    house.clock.set('2026-11-02T10:00:00Z');
    expect(await words()).toContain('The next day to prepare for is Friday 4 December 2026.');
    house.clock.set('2026-11-25T10:00:00Z');
    const empty = await foundTestStudio(house, { slug: `empty-${number}`, email: 'desk@empty.example' });
    const alone = await signedIn(house, empty, 'owner');
    const { html } = await alone.get(`/s/${empty.slug}/desk/prepare`);
    expect(wordsOf(html)).toContain('Nothing is left to do in the next two weeks.');
  });
});

describe('a task', () => {
  const moved = (day: string, month: string) => ({
    ...glass(),
    'to-day': day,
    'to-month': month,
    'to-year': '2026',
  });

  it('is put on another day, and back where its rule finds it', async () => {
    await owner.get(prepare);
    const { html } = await owner.postAndFollow(`${prepare}/move`, moved('1', 'December'));
    expect(wordsOf(html)).toMatch(/Tuesday 1 December.*Cut, clean and polish.*put here by you/);
    await owner.get(prepare);
    const back = await owner.postAndFollow(`${prepare}/move`, {
      ...glass(),
      'to-day': '',
      'to-month': '',
      'to-year': '',
    });
    expect(wordsOf(back.html)).not.toContain('put here by you');
  });

  it('cannot be put after its day, or on a day that is none; what was typed stays', async () => {
    await owner.get(prepare);
    const after = await owner.post(`${prepare}/move`, moved('5', '12'));
    expect([after.status, errorAt(after.html, 'to')]).toEqual([422, 'This is after the day it is for.']);
    const past = await owner.post(`${prepare}/move`, moved('24', 'Nov'));
    expect(errorAt(past.html, 'to')).toBe('This day is past.');
    const none = await owner.post(`${prepare}/move`, moved('31', 'Nov'));
    expect(none.status).toBe(422);
    expect(errorAt(none.html, 'to')).toMatch(/date/);
    expect(none.html).toMatch(/name="to-day"[^>]*value="31"/);
  });
});

describe('the room of the day', () => {
  it('decides about heat and cold once it is written down', async () => {
    await assistant.get(prepare);
    const { html } = await assistant.postAndFollow(`${prepare}/day`, {
      day: DAY,
      roomTemperature: '25,5',
      humidity: '70',
      note: 'Stove lit.',
    });
    expect(wordsOf(html)).toContain('Hot room: bath and developer into the cool');
    expect(wordsOf(html)).not.toContain('Cold room');
    expect(fieldsOf(html, `${prepare}/day`)).toMatchObject({ roomTemperature: '25.5', humidity: '70' });
  });

  it('is refused with a sentence beside the field', async () => {
    await owner.get(prepare);
    const answer = await owner.post(`${prepare}/day`, {
      day: DAY,
      roomTemperature: 'warm',
      humidity: '70.5',
    });
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'roomTemperature')).toBe('Please give degrees Celsius, -20 to 50.');
    expect(errorAt(answer.html, 'humidity')).toBe('Please give whole per cent, 0 to 100.');
    expect(answer.html).toMatch(/name="roomTemperature"[^>]*value="warm"/);
  });
});

describe('the rules', () => {
  const rule = {
    what: 'Sweep the floor',
    forDay: 'both',
    daysBefore: '1',
    minutes: '10',
    minutesEach: '',
    condition: 'always',
    amount: 'none',
    notWith: '',
    note: '',
  };

  it('are the owner’s to add, change and put away', async () => {
    const rules = `${prepare}/rules`;
    await owner.get(`${rules}?form=new`);
    const added = await owner.postAndFollow(`${rules}/new`, { ...rule, darkroom: 'yes' });
    expect(wordsOf(added.html)).toContain('Sweep the floor');
    expect(await words()).toMatch(/Sweep the floor.*darkroom/);
    const id = /form=([0-9a-f-]{36})#form"[^>]*>Change this rule<span class="unseen">: Sweep/.exec(
      added.html,
    )?.[1];
    const form = await owner.get(`${rules}?form=${id}`);
    expect(fieldsOf(form.html, `${rules}/${id}`)).toMatchObject({ what: 'Sweep the floor', darkroom: 'yes' });
    await owner.postAndFollow(`${rules}/${id}`, { ...rule, what: 'Wash the floor', daysBefore: '2' });
    expect(await words()).toMatch(/Wednesday 2 December.*Wash the floor/);
    await owner.get(`${rules}?form=${id}`);
    const gone = await owner.postAndFollow(`${rules}/${id}/remove`);
    expect(wordsOf(gone.html)).not.toContain('Wash the floor');
    expect(await words()).not.toContain('Wash the floor');
    expect(await words()).toContain('Cut, clean and polish');
  });

  it('tell each mistake beside its field and keep what was typed', async () => {
    const rules = `${prepare}/rules`;
    await owner.get(`${rules}?form=new`);
    const answer = await owner.post(`${rules}/new`, { ...rule, what: ' ', minutes: '0', daysBefore: 'two' });
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'what')).toBe('Please say what is to be done.');
    expect(errorAt(answer.html, 'minutes')).toBe('Please give whole minutes, 1 to 600.');
    expect(answer.html).toMatch(/name="daysBefore"[^>]*value="two"/);
    const unknown = { ...rule, notWith: '00000000-0000-4000-8000-000000000000' };
    const other = await owner.post(`${rules}/new`, unknown);
    expect(errorAt(other.html, 'notWith')).toBe('Please choose one of the rules.');
  });

  it('keep two tasks off one day when one says so', async () => {
    const rules = `${prepare}/rules`;
    await owner.get(`${rules}?form=new`);
    await owner.postAndFollow(`${rules}/new`, { ...rule, notWith: ruleOf(/glass/) });
    expect(await words()).toMatch(/Wednesday 2 December.*Sweep the floor.*Thursday 3 December.*Cut, clean/);
  });
});

describe('what a day takes besides', () => {
  it('is set aside for days that are given already, and told on the page', async () => {
    const form = `${prepare}/takes`;
    const fields = fieldsOf((await owner.get(`${prepare}/rules`)).html, form);
    const material = `item-${studio.items.developer.id}`;
    const said = { ...fields, testPlates: '2', testSizeId: studio.sizes.half.id, [material]: '250 ml' };
    const { html } = await owner.postAndFollow(form, said);
    expect(fieldsOf(html, form)).toMatchObject({ testPlates: '2', [material]: '250 mL' });
    expect(await words()).toContain('Cut, clean and polish the glass: 1 × Whole plate, 2 × Half plate');
  });

  it('is refused beside the field, and nothing typed is lost', async () => {
    await owner.get(`${prepare}/rules`);
    const material = `item-${studio.items.developer.id}`;
    const sent = { testPlates: '99', testSizeId: '', [material]: 'a splash' };
    const answer = await owner.post(`${prepare}/takes`, sent);
    expect([answer.status, errorAt(answer.html, 'testPlates')]).toEqual([
      422,
      'Please give a number of plates, 0 to 10.',
    ]);
    const other = await owner.post(`${prepare}/takes`, { ...sent, testPlates: '1' });
    expect(errorAt(other.html, material)).toMatch(/^Please write how much/);
    expect(errorAt(other.html, 'testSizeId')).toBe('Please choose a plate size.');
    expect(other.html).toMatch(new RegExp(`name="${material}"[^>]*value="a splash"`));
  });
});
