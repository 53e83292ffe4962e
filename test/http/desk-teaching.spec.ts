// Teaching at the owner's desk, in a browser without script.
import { Temporal } from 'temporal-polyfill';
import { RoomService } from '../../src/room/room.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { choicesOf, errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { halfGlass: 20n } });
  owner = await signedIn(house, studio, 'owner');
  desk = `/s/${studio.slug}/desk/teaching`;
});
afterAll(() => house.close());

const date = (name: string, day: string, month: string) => ({
  [`${name}-day`]: day,
  [`${name}-month`]: month,
  [`${name}-year`]: '2027',
});

describe('The owner', () => {
  it('writes a kind of day, with mistakes told at their rows and nothing lost', async () => {
    const path = `${desk}/templates/new`;
    const form = fieldsOf((await owner.get(path)).html, path);
    const filled = {
      ...form,
      name: 'Whole Day',
      'parts/1/title': 'Rounds', // the first row stays empty
      'parts/1/minutes': 'long',
      'plates/0/plateSizeId': studio.sizes.half.id,
      'plates/0/count': '2',
      oneToOne: 'yes',
    };
    const wrong = await owner.post(path, filled);
    expect([wrong.status, errorAt(wrong.html, 'parts/1/minutes')]).toEqual([
      422,
      expect.stringContaining('whole number'),
    ]);
    const kept = fieldsOf(wrong.html, path);
    expect(kept).toMatchObject({ 'parts/1/title': 'Rounds', 'plates/0/count': '2', oneToOne: 'yes' });
    const saved = await owner.postAndFollow(path, { ...kept, 'parts/1/minutes': '300' });
    expect(wordsOf(saved.html)).toContain('The kind of day is saved.');
    const again = /href="([^"]*\/templates\/[0-9a-f-]{36})"/.exec(saved.html)?.[1] ?? '';
    expect(fieldsOf((await owner.get(again)).html, again)).toMatchObject({
      name: 'Whole Day',
      'parts/0/title': 'Rounds',
      'parts/0/minutes': '300',
      'plates/0/plateSizeId': studio.sizes.half.id,
    });
  });

  it('makes a day, sees what it takes before it opens, opens it, and copies it', async () => {
    const make = `${desk}/days`;
    const form = fieldsOf((await owner.get(desk)).html, make);
    const late = await owner.post(make, { ...form, ...date('day', '31', 'April'), time: '10:00' });
    expect([late.status, errorAt(late.html, 'day')]).toEqual([
      422,
      expect.stringContaining('the calendar has'),
    ]);
    const draft = await owner.postAndFollow(make, { ...form, ...date('day', '7', 'April'), time: '10:00' });
    const words = wordsOf(draft.html);
    expect(words).toContain('Wednesday 7 April 2027, 10:00 to 15:00 draft: nobody sees it');
    expect(words).toContain('With every place taken: enough');
    const own = /action="([^"]*)\/open"/.exec(draft.html)?.[1] ?? '';
    expect(wordsOf((await owner.postAndFollow(`${own}/open`)).html)).toContain('People can sign up now.');
    const taken = await owner.post(`${own}/copy`, {
      ...date('copy/day', '7', 'April'),
      'copy/time': '12:00',
    });
    expect([taken.status, errorAt(taken.html, 'copy/day')]).toEqual([
      409,
      expect.stringContaining('The room holds a teaching day at that time, from 10:00 to 15:00.'),
    ]);
    const copy = await owner.postAndFollow(`${own}/copy`, {
      ...date('copy/day', '8', 'April'),
      'copy/time': '10.00',
    });
    expect(wordsOf(copy.html)).toContain('Thursday 8 April 2027');
  });

  it('is told beside the day what has the room: a sitting, or that the studio is closed', async () => {
    const { sittingId } = await askForSitting(house, studio);
    await approve(house, studio, sittingId, '2027-04-16T11:15');
    const closed = Temporal.PlainDate.from('2027-04-14');
    await house.db.inStudio(studio.id, async (tx) => {
      const known = await house.app.get(StudiosService).load(tx);
      await house.app.get(RoomService).close(tx, known, { from: closed, until: closed }, 'Repairs');
    });
    const make = `${desk}/days`;
    const form = fieldsOf((await owner.get(desk)).html, make);
    const told = async (day: string) => {
      const answer = await owner.post(make, { ...form, ...date('day', day, 'April'), time: '10:00' });
      return [answer.status, errorAt(answer.html, 'day')];
    };
    expect(await told('16')).toEqual([
      409,
      expect.stringContaining('The room holds a sitting at that time, from 11:15 to'),
    ]);
    expect(await told('14')).toEqual([409, expect.stringContaining('The studio is closed at that time.')]);
  });

  it('sees when a class is more than the shelf can give: by when to order', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-06-02T10:00', open: false });
    const words = wordsOf((await owner.get(`${desk}/${sessionId}`)).html);
    expect(words).toMatch(/For who has a place: enough/);
    expect(words).toMatch(/With every place taken: (order by|nothing to do yet)/);
  });

  it('sees who comes, notes the deposit, and changes the day only after seeing whom it touches', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-05T10:00', most: 1, least: 1 });
    await signUp(house, studio, sessionId, { name: 'Ada', students: [{ name: 'Ada' }] });
    await signUp(house, studio, sessionId, { name: 'Bo', students: [{ name: 'Bo' }], orWait: true });
    const own = `${desk}/${sessionId}`;
    const page = await owner.get(own);
    const words = wordsOf(page.html);
    for (const seen of [
      'Ada: has a place',
      'not yet at the bench',
      'Deposit: due',
      'Bo: on the waiting list',
    ])
      expect(words).toContain(seen);
    const deposit = /action="([^"]*\/deposit)"/.exec(page.html)?.[1] ?? '';
    expect(wordsOf((await owner.postAndFollow(deposit, { deposit: 'received' })).html)).toContain(
      'Deposit: received',
    );
    const offer = /action="([^"]*\/offer)"/.exec(page.html)?.[1] ?? '';
    const full = await owner.post(offer);
    expect(full.status).toBe(409); // nothing is free
    const change = `${own}/change`;
    const form = fieldsOf(page.html, change);
    const none = await owner.post(change, form);
    expect([none.status, wordsOf(none.html)]).toEqual([
      422,
      expect.stringContaining('Nothing would change.'),
    ]);
    const shown = await owner.post(change, { ...form, time: '11:00' });
    const told = wordsOf(shown.html);
    expect(told).toContain(
      'It begins on Wednesday 5 May 2027, 11:00 and not on Wednesday 5 May 2027, 10:00.',
    );
    expect(told).toContain('Ada (Ada): has a place; is told');
    const done = await owner.postAndFollow(`${change}/confirm`, fieldsOf(shown.html, `${change}/confirm`));
    expect(wordsOf(done.html)).toContain('Wednesday 5 May 2027, 11:00 to 17:00');
    const off = await owner.postAndFollow(`${own}/call-off`, { message: 'A storm.' });
    expect(wordsOf(off.html)).toContain('Ada: called off');
  });

  it('is asked whether a late or early hour is meant, and told that no class runs past midnight', async () => {
    const make = `${desk}/days`;
    const { templateId } = await teachingDay(house, studio, { start: '2027-06-23T10:00', open: false });
    await owner.get(desk);
    const form = { templateId, ...date('day', '9', 'June') }; // six hours
    const past = await owner.post(make, { ...form, time: '23:30' });
    expect([past.status, errorAt(past.html, 'time'), errorAt(past.html, 'meant')]).toEqual([
      422,
      'The class would run past midnight, until 05:30 on Thursday 10 June 2027. Please choose an earlier time.',
      null,
    ]);
    const late = await owner.post(make, { ...form, time: '17.30' });
    expect([late.status, errorAt(late.html, 'meant')]).toEqual([
      422,
      'The class would be from 17:30 to 23:30. Please tick here if that is meant, or choose another time.',
    ]);
    expect(fieldsOf(late.html, make)).toMatchObject({ time: '17.30', 'day-day': '9', 'day-month': 'June' });
    expect(choicesOf(late.html, 'meant')).toEqual(new Map([['17.30', 'Yes, from 17.30']]));
    const other = await owner.post(make, { ...form, time: '5:30', meant: '17.30' }); // meant was another
    expect(errorAt(other.html, 'meant')).toContain('from 05:30 to 11:30');
    const made = await owner.postAndFollow(make, { ...form, time: '17.30', meant: '17.30' });
    expect(wordsOf(made.html)).toContain('Wednesday 9 June 2027, 17:30 to 23:30 draft');

    const own = /action="([^"]*)\/copy"/.exec(made.html)?.[1] ?? '';
    const copy = { ...date('copy/day', '10', 'June'), 'copy/time': '18:30' };
    const copied = await owner.post(`${own}/copy`, copy);
    expect(errorAt(copied.html, 'copy/time')).toContain('past midnight, until 00:30');
    const change = `${own}/change`;
    const shown = fieldsOf(made.html, change);
    const moved = await owner.post(change, { ...shown, time: '18:00' });
    expect(errorAt(moved.html, 'meant')).toContain('from 18:00 to 00:00');
    expect(errorAt((await owner.post(change, { ...shown, time: '20:00' })).html, 'time')).toContain('02:00');
    const preview = await owner.post(change, { ...shown, time: '18:00', meant: '18:00' });
    const done = await owner.postAndFollow(`${change}/confirm`, fieldsOf(preview.html, `${change}/confirm`));
    expect(wordsOf(done.html)).toContain('Wednesday 9 June 2027, 18:00 to 00:00');
    const fewer = await owner.post(change, { ...fieldsOf(done.html, change), places: '3', least: '1' });
    expect([fewer.status, wordsOf(fewer.html)]).toEqual([200, expect.stringContaining('There are 3 places')]);
  });

  it('follows the safety wording with another', async () => {
    const form = fieldsOf((await owner.get(desk)).html, `${desk}/safety`);
    const after = await owner.postAndFollow(`${desk}/safety`, { ...form, wording: 'Goggles on.\0' });
    expect(wordsOf(after.html)).toContain('It is version 2');
  });
});

describe('The assistant', () => {
  it('sees days and students, and neither acts nor whom to ring', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-12T10:00' });
    await signUp(house, studio, sessionId);
    await house.db.inStudio(studio.id, (tx) => tx.run(`update student set emergency_name = 'Wilfred Askew'`));
    const assistant = await signedIn(house, studio, 'assistant');
    const page = await assistant.get(`${desk}/${sessionId}`);
    expect(wordsOf(page.html)).toContain('Linnea Harrow: has a place');
    expect(page.html).not.toContain('Wilfred Askew');
    expect(page.html).not.toContain('/call-off');
    expect(wordsOf((await owner.get(`${desk}/${sessionId}`)).html)).toContain('Wilfred Askew');
    await house.app.get(SessionsService).callOff(studio.id, studio.owner, sessionId, '');
  });
});
