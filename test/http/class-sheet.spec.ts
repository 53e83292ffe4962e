// The sheet of a teaching day at the desk: refused with what is missing, filled in, and then printed whole.
import { Temporal } from 'temporal-polyfill';
import { FormulasService } from '../../src/stock/formulas.service.js';
import { TeachingDecisions } from '../../src/teaching/decisions.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { offering } from '../support/offering.js';
import { agreeToAll, signUp, teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
let owner: Visitor;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
  owner = await signedIn(house, at.studio, 'owner');
  desk = `/s/${at.studio.slug}/desk/teaching`;
});

/** One student with a place, who has agreed or not. */
async function day(agrees: boolean, change: Record<string, unknown> = {}) {
  const { sessionId } = await teachingDay(house, at.studio, change);
  const { token } = await signUp(house, at.studio, sessionId, { students: [{ name: 'Ada Fell' }] });
  const agree = () => agreeToAll(house, at.studio, token);
  if (agrees) await agree();
  return { sessionId, token, agree, own: `${desk}/${sessionId}` };
}
const sheetOf = async (own: string, who = owner) => wordsOf((await who.get(`${own}/sheet`)).html);
const REFUSED = 'This sheet cannot be printed yet';

it('is refused while somebody has not agreed, with their name and where they do, and printed once they have', async () => {
  const { own, token, agree } = await day(false);
  const refused = await owner.get(`${own}/sheet`);
  expect(wordsOf(refused.html)).toContain('Not yet agreed to working safely: Ada Fell.');
  expect(refused.html).toContain(`/student/${token}"`);
  for (const word of ['Who comes', 'Mixing and filling', 'To give out', 'whom to ring'])
    expect(wordsOf(refused.html)).not.toContain(word);
  await agree();
  expect(await sheetOf(own)).not.toContain(REFUSED);
});

it('tells roster, day, amounts, gear and dangers; whom to ring on the last page, for the owner only', async () => {
  const { own } = await day(true);
  const words = await sheetOf(own);
  for (const part of [
    'Ada Fell: A stool, please.',
    'Has never poured a plate',
    '10:00 Safety and a demonstration in the studio',
    'Emergency number ______',
    'Write in what is blank',
    '1, size small',
    'No flame and no heater anywhere today.',
    'Silver nitrate: May intensify fire; oxidiser (H272)',
    'Keep apart',
    'collodion, ether and alcohol',
    'Follow the supplier’s current safety data sheet',
  ])
    expect(words).toContain(part);
  expect(words).not.toContain('Cyanide is on the bench');
  expect(words.indexOf('Una, of Ada Fell')).toBeGreaterThan(
    words.indexOf('For the teacher only: whom to ring'),
  );
  const assistant = await signedIn(house, at.studio, 'assistant');
  const theirs = await sheetOf(own, assistant);
  expect(theirs).toContain('Ada Fell: A stool, please.');
  expect(theirs).not.toContain('Una, of Ada Fell');
  house.clock.set('2027-04-07T15:00:00Z');
  await house.work();
  owner = await signedIn(house, at.studio, 'owner');
  expect(await sheetOf(own)).toContain('Nobody has named anyone, or it is erased already.');
});

it('with cyanide wants number, hospital, eyewash, two names and the age of the youngest, each where it is filled in', async () => {
  await at.rows(`update item set substance = 'potassium cyanide' where kind = 'fixer'`);
  const made = await teachingDay(house, at.studio, {
    leastAge: 18,
    uses: { fixer: at.studio.items.fixer.id },
    open: false,
    start: '2027-04-08T10:00',
  });
  const path = `${desk}/${made.sessionId}`;
  const refused = await owner.get(`${path}/sheet`);
  const words = wordsOf(refused.html);
  for (const blank of [
    'Emergency number is blank',
    'Nearest hospital is blank',
    'Where the eyewash is is blank',
    'Teacher is blank',
    'Second trained adult is blank',
    'how old the youngest in the room is',
  ])
    expect(words).toContain(blank);
  expect(refused.html).toContain(`${path}/briefing#f-hospital`);

  const form = fieldsOf((await owner.get(`${path}/briefing`)).html, `${path}/briefing`);
  const wrong = await owner.post(`${path}/briefing`, { ...form, hospital: 'Whitby', youngest: 'old' });
  expect([wrong.status, errorAt(wrong.html, 'youngest')]).toEqual([
    422,
    expect.stringContaining('whole years'),
  ]);
  const filled = {
    ...fieldsOf(wrong.html, `${path}/briefing`),
    emergencyNumber: '999',
    eyewash: 'By the sink',
    teacher: 'Wren Calder',
    secondAdult: 'Tobias Pike',
  };
  await owner.postAndFollow(`${path}/briefing`, { ...filled, youngest: '17' });
  expect(await sheetOf(path)).toContain('somebody of 17 will be in the room. Nobody may be under 18.');
  const now = fieldsOf((await owner.get(`${path}/briefing`)).html, `${path}/briefing`);
  await owner.postAndFollow(`${path}/briefing`, { ...now, youngest: '34' });
  const printed = await sheetOf(path);
  expect(printed).not.toContain(REFUSED);
  for (const part of [
    'Emergency number 999',
    'Nearest hospital Whitby',
    'The teacher’s hands only',
    'cyanide, alone',
  ])
    expect(printed).toContain(part);
  // the next day begins with what was said, but for the age
  const next = await teachingDay(house, at.studio, { start: '2027-04-14T10:00' });
  expect(
    fieldsOf(
      (await owner.get(`${desk}/${next.sessionId}/briefing`)).html,
      `${desk}/${next.sessionId}/briefing`,
    ),
  ).toMatchObject({ hospital: 'Whitby', youngest: '' });
});

it('knows a cyanide fixer by what it is mixed from, whatever it is called: the day does not open, nor its sheet print', async () => {
  const { fixer } = at.studio.items;
  const taken = { starterKey: 'fixer-cyanide-schriever', itemId: fixer.id };
  await house.app.get(FormulasService).take(at.studio.id, at.studio.owner, taken);
  await at.rows(`update item set name = 'Clear jar', substance = null, h_codes = '{}' where item_id = $1`, [
    fixer.id,
  ]);
  const { sessionId } = await teachingDay(house, at.studio, { open: false, leastAge: 16 });
  expect(await sheetOf(`${desk}/${sessionId}`)).toContain('Cyanide is on the bench, and nobody said how old');
  const opened = await owner.post(`${desk}/${sessionId}/open`);
  expect([opened.status, wordsOf(opened.html)]).toEqual([
    409,
    expect.stringContaining('nobody may be under 18'),
  ]);
});

it('is refused for a flame in the room and hour of open collodion, and prints once it is an hour off', async () => {
  const { own } = await day(true);
  const path = `${own}/briefing`;
  const form = fieldsOf((await owner.get(path)).html, path);
  await owner.postAndFollow(path, { ...form, 'work-0': ['ether', 'flame'] });
  expect(await sheetOf(own)).toContain(
    'a flame, such as the varnish lamp in part 1, “Safety and a demonstration”, and collodion or ether is open in part 1',
  );
  const now = fieldsOf((await owner.get(path)).html, path);
  await owner.postAndFollow(path, { ...now, 'work-0': 'ether', 'work-1': 'flame' });
  const printed = await sheetOf(own);
  expect(printed).not.toContain(REFUSED);
  expect(printed).not.toContain('No flame and no heater');
});

it('asks for a decision from a week before its date until the owner says that it goes ahead', async () => {
  const { own, sessionId } = await day(true, { least: 2, decideDays: 21 }); // decide by 17 March
  const due = (today: string) =>
    house.db.inStudio(at.studio.id, (tx) =>
      house.app.get(TeachingDecisions).decisionsDue(tx, Temporal.PlainDate.from(today)),
    );
  expect(await due('2027-03-09')).toEqual([]);
  expect(await due('2027-03-10')).toMatchObject([{ session: { id: sessionId }, enough: false }]);
  expect(wordsOf((await owner.get(own)).html)).toContain('2, not reached; decide by Wednesday 17 March 2027');
  const done = await owner.postAndFollow(`${own}/go-ahead`);
  expect(wordsOf(done.html)).toContain('It goes ahead. You are not asked again.');
  expect(await due('2027-03-10')).toEqual([]);
  const open = wordsOf((await owner.get(own.replace('/desk', ''))).html);
  expect(open).toContain('The day goes ahead.');
  expect(open).not.toContain('Please do not buy tickets');
});
