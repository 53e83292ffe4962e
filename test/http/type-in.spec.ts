// Typing in the day through its page and its API door, as a browser without script and a program would.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { DaylightService } from '../../src/daylight/daylight.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, type Sent, wordsOf } from '../support/page-forms.js';
import { enterBath } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let assistant: Visitor;
let address: string;
let bathId: string;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `type-in-${++count}` });
  address = `/s/${studio.slug}/desk/days/2027-04-02/plates`;
  bathId = await enterBath(house, studio);
  const asked = await askForSitting(house, studio, { name: 'Corin Ashby', anything: 'Shy about his teeth.' });
  await approve(house, studio, asked.sittingId, '2027-04-02T09:30');
  house.clock.set('2027-04-02T15:00:00Z');
  assistant = await signedIn(house, studio, 'assistant');
});
afterAll(() => house.close());

const form = async () => fieldsOf((await assistant.get(address)).html, address);
/** The ids of the lines of a form, the sitters' before the tests. */
const lines = (fields: Sent) => [fields.line ?? []].flat().map((one) => one.split(' ')[0] ?? '');

describe('the page on which a day is typed in', () => {
  it('has a line for the plate they asked for with what is likely, and one for a test plate', async () => {
    const { html } = await assistant.get(address);
    const words = wordsOf(html);
    expect(words).toContain('Type in Friday 2 April 2027');
    expect(words).toContain('09:30 Corin Ashby');
    expect(words).toContain('Number of the first plate');
    expect(words).not.toContain('Shy about his teeth');
    const fields = fieldsOf(html, address);
    const [one = ''] = lines(fields);
    expect(lines(fields)).toHaveLength(2);
    expect(fields).toMatchObject({
      [`${one}-names`]: 'Corin Ashby',
      [`${one}-bathId`]: bathId,
      [`${one}-lotId`]: studio.lots.collodion,
      [`${one}-out`]: '',
    });
  });

  it('keeps what was typed with the numbers, on the page and on the day sheet; what was left empty is no plate', async () => {
    const fields = await form();
    const [one] = lines(fields);
    const typed = {
      ...fields,
      first: '118',
      [`${one}-out`]: 'kept',
      [`${one}-seconds`]: '6,5',
      [`${one}-sky`]: 'dull',
      [`${one}-result`]: 'Fine',
    };
    const done = wordsOf((await assistant.postAndFollow(address, typed)).html);
    expect(done).toContain('It is typed in.');
    expect(done).toContain('The next plate gets the number 119.');
    const sheet = wordsOf((await assistant.get(address.replace('/plates', ''))).html);
    expect(sheet).toContain('118: kept, 6.5 s, dull, Fine');
    // the same form once more, and what stands on the page now, change nothing
    await assistant.postAndFollow(address, typed);
    const again = wordsOf((await assistant.postAndFollow(address, await form())).html);
    expect(again).toContain('Nothing was typed in, so nothing has changed.');
    expect(wordsOf((await assistant.get(address)).html)).toContain('The next plate gets the number 119.');
  });

  it('tells each mistake beside its field and keeps all that was typed', async () => {
    const fields = await form();
    const [one, test] = lines(fields);
    const typed = {
      ...fields,
      [`${one}-seconds`]: 'six',
      [`${one}-result`]: 'Fine & sharp',
      [`${test}-out`]: 'not kept',
      [`${test}-lotId`]: studio.lots.fixer,
    };
    const wrong = await assistant.post(address, typed);
    expect(wrong.status).toBe(422);
    expect(errorAt(wrong.html, `${one}-seconds`)).toContain('Please give the seconds, such as 6.');
    expect(errorAt(wrong.html, `${one}-out`)).toContain('Please say whether it was kept.');
    expect(fieldsOf(wrong.html, address)).toMatchObject({
      [`${one}-seconds`]: 'six',
      [`${one}-result`]: 'Fine & sharp',
      [`${test}-out`]: 'not kept',
    });
    const better = { ...typed, [`${one}-seconds`]: '6', [`${one}-out`]: 'kept', first: 'many' };
    const first = await assistant.post(address, better);
    expect(errorAt(first.html, 'first')).toContain('Please give a whole number, such as 1.');
    const bottle = await assistant.post(address, { ...better, first: '1' });
    expect(errorAt(bottle.html, `${test}-lotId`)).toContain('a bottle that could be used on the day');
    expect(wordsOf((await assistant.get(address)).html)).not.toContain('Plate 1');
  });

  it('gives more lines without script, and loses nothing that was typed', async () => {
    const fields = await form();
    const [one, test] = lines(fields);
    const sitting = [fields.line].flat()[0]?.split(' ')[1] ?? '';
    const typed = { ...fields, [`${one}-out`]: 'not kept', [`${test}-result`]: 'fog' };
    const { html, status } = await assistant.post(address, { ...typed, more: sitting });
    expect(status).toBe(200);
    const now = fieldsOf(html, address);
    expect(lines(now)).toHaveLength(5);
    expect(now).toMatchObject({ [`${one}-out`]: 'not kept', [`${test}-result`]: 'fog' });
    const added = lines(now).find((id) => id !== one && id !== test);
    const saved = { ...now, first: '1', [`${added}-out`]: 'kept', [`${test}-out`]: 'not kept' };
    const done = wordsOf((await assistant.postAndFollow(address, saved)).html);
    expect(done).toContain('Plate 1, 09:30 Corin Ashby');
    expect(done).toContain('The next plate gets the number 4.');
  });

  it('saves by the Enter key, and strikes nothing by it', async () => {
    const fields = await form();
    const [one] = lines(fields);
    await assistant.postAndFollow(address, { ...fields, [`${one}-out`]: 'kept' });
    const { html } = await assistant.get(address);
    expect(html).toContain('name="strike"');
    const inside = html.slice(html.indexOf(`action="${address}"`));
    expect(/<button[^>]*>/.exec(inside)?.[0]).not.toContain('name=');
  });

  it('strikes a plate that was a slip and saves the rest of the form with it', async () => {
    const fields = await form();
    const [one, test] = lines(fields);
    await assistant.postAndFollow(address, { ...fields, [`${one}-out`]: 'kept', [`${test}-out`]: 'kept' });
    const again = { ...(await form()), [`${one}-result`]: 'Fine', strike: test ?? '' };
    const words = wordsOf((await assistant.postAndFollow(address, again)).html);
    expect(words).toContain('Struck, as typed in by mistake: 2.');
    expect((await form())[`${one}-result`]).toBe('Fine');
    const sheet = wordsOf((await assistant.get(address.replace('/plates', ''))).html);
    expect(sheet).not.toContain('Test plates made');
  });

  it('shows what somebody else typed meanwhile beside one’s own, and saves nothing twice', async () => {
    const [mine, theirs] = [await form(), await form()];
    const out = (fields: Sent) => ({ ...fields, [`${lines(fields)[0]}-out`]: 'kept' });
    await assistant.postAndFollow(address, out(theirs));
    const answer = await assistant.post(address, out(mine));
    expect(answer.status).toBe(409);
    expect(wordsOf(answer.html)).toContain('Somebody else typed in plates of this day meanwhile.');
    const both = fieldsOf(answer.html, address);
    expect(both[`${lines(mine)[0]}-out`]).toBe('kept');
    expect(both[`${lines(theirs)[0]}-out`]).toBe('kept');
    await assistant.postAndFollow(address, both);
    expect(wordsOf((await assistant.get(address)).html)).toContain('The next plate gets the number 3.');
  });

  it('cannot be filled before the day', async () => {
    const before = address.replace('04-02', '04-09');
    const { html } = await assistant.get(before);
    expect(wordsOf(html)).toContain('This day is still to come.');
    expect((await assistant.post(before, {})).status).toBe(409);
    expect((await assistant.get(address.replace('04-02', '02-30'))).status).toBe(404);
  });

  it('writes exposure notes of kept plates only once lens, f-number and framing are said, and takes them out again', async () => {
    const fields = await form();
    const [one, test] = lines(fields);
    const notes = async () => (await house.app.get(DaylightService).notes(studio.id)).notes;
    const typed = {
      ...fields,
      ...{ [`${one}-out`]: 'kept', [`${one}-seconds`]: '6', [`${one}-sky`]: 'clear' },
      ...{ [`${test}-out`]: 'kept', [`${test}-seconds`]: '5', [`${test}-sky`]: 'clear' },
    };
    await assistant.postAndFollow(address, typed);
    expect(await notes()).toEqual([]);
    const wrong = await assistant.post(address, { ...(await form()), light: 'yes', lens: 'Petzval 300 mm' });
    expect(errorAt(wrong.html, 'framing')).toContain('Please say how close');
    const light = { light: 'yes', lens: 'Petzval 300 mm', fNumber: '4', framing: 'head' };
    await assistant.postAndFollow(address, { ...(await form()), ...light });
    const [note, ...others] = await notes();
    expect(others).toEqual([]); // nobody told the hour of the test plate
    expect(note).toMatchObject({ id: one, seconds: 6, lens: 'Petzval 300 mm', fNumber: 4, verdict: 'good' });
    expect(note?.wallAt.toString()).toBe('2027-04-02T10:10:00');
    expect(await form()).toMatchObject(light);
    await assistant.postAndFollow(address, { ...(await form()), light: '' });
    expect(await notes()).toEqual([]);
    expect(await form()).not.toHaveProperty('light');
  });
});

describe('the API door of a day’s plates', () => {
  it('types in, tells what stands, and refuses where others changed the day since it was seen', async () => {
    const { app } = house;
    const url = `/api/v1${address}`;
    const secret = await app.get(AccountsService).signIn(studio.id, studio.assistant.email, PASSWORD);
    const headers = { authorization: `Bearer ${secret}` };
    const seen = (await app.inject({ method: 'GET', url, headers })).json() as {
      version: string;
      next: null;
    };
    expect(seen.next).toBeNull();
    const id = new SystemRandom().id();
    const plate = { id, plateSizeId: studio.sizes.half.id, keeper: false, seconds: 4 };
    const put = (payload: object) => app.inject({ method: 'PUT', url, headers, payload });
    const typed = await put({ plates: [plate], first: 7, seen: seen.version });
    expect(typed.json()).toMatchObject({ next: 8, plates: [{ id, number: 7, struck: false, seconds: 4 }] });
    expect((await put({ plates: [{ ...plate, keeper: true }], seen: seen.version })).statusCode).toBe(409);
    const wrong = await put({ plates: [{ ...plate, seconds: -1 }] });
    expect(wrong.json()).toMatchObject({ code: 'bad_input', errors: [{ pointer: '/plates/0/seconds' }] });
    const other = await put({ plates: [{ ...plate, sittingId: id }] });
    expect(other.json()).toMatchObject({ code: 'bad_input', errors: [{ pointer: '/plates/0/sittingId' }] });
    expect((await app.inject({ method: 'GET', url })).statusCode).toBe(401);
  });
});
