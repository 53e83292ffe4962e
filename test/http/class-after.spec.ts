// What a teaching day came to, typed in at the desk, and what students find on their page afterwards.
import { SEEN_FIELD } from '../../src/platform/seen.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { offering } from '../support/offering.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { agreeToAll, signUp, teachingDay } from '../support/teaching.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
let staff: Visitor;
let desk: string;
let half: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
  desk = `/s/${at.studio.slug}/desk/teaching`;
  half = at.studio.sizes.half.id;
});

/** Ada and Bo under one link, on the evening of their day. */
async function evening() {
  const { sessionId } = await teachingDay(house, at.studio);
  const { token } = await signUp(house, at.studio, sessionId, {
    students: [{ name: 'Ada Fell' }, { name: 'Bo Fell' }],
  });
  await agreeToAll(house, at.studio, token);
  const found = await at.rows<{ student_id: string }>(
    `select student_id from student join sign_up using (studio_id, sign_up_id) where session_id = $1 order by name`,
    [sessionId],
  );
  const [ada = '', bo = ''] = found.map((one) => one.student_id);
  house.clock.set('2027-04-07T16:00:00Z');
  staff = await signedIn(house, at.studio, 'assistant');
  return { ada, bo, own: `${desk}/${sessionId}`, path: `${desk}/${sessionId}/after`, token };
}
const formOf = async (path: string) => fieldsOf((await staff.get(path)).html, path);

it('keeps what was typed and tells what is wrong beside its field, then writes it down and lets it be corrected', async () => {
  const { ada, bo, path, own } = await evening();
  const form = await formOf(path);
  expect(form).toMatchObject({ [`how-${ada}`]: 'present', [`tries-${ada}-${half}`]: '' });
  const wrong = await staff.post(path, {
    ...form,
    [`tries-${ada}-${half}`]: '3',
    [`kept-${ada}-${half}`]: '4',
    [`tries-group-${half}`]: '2',
    collodion: 'much',
    note: 'Dull light.',
  });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, `kept-${ada}-${half}`)).toContain('not more than the 3 made');
  expect(errorAt(wrong.html, `kept-group-${half}`)).toContain('how many of them are kept');
  expect(errorAt(wrong.html, 'collodion')).not.toBe('');
  const kept = fieldsOf(wrong.html, path);
  expect(kept).toMatchObject({ note: 'Dull light.', [`kept-${ada}-${half}`]: '4', collodion: 'much' });
  const right = {
    ...kept,
    [`kept-${ada}-${half}`]: '2',
    [`kept-group-${half}`]: '0',
    collodion: '45',
    [`how-${bo}`]: 'late',
  };
  const done = await staff.postAndFollow(path, right);
  expect(wordsOf(done.html)).toContain('It is written down');
  const { _form: token, [SEEN_FIELD]: _, ...typed } = right;
  expect(token).not.toBe('');
  expect(await formOf(path)).toMatchObject(typed);
  expect(wordsOf((await staff.get(own)).html)).toContain('10:00 to 16:00 held');
  const much = await staff.post(path, { ...(await formOf(path)), collodion: '99 L' });
  expect([much.status, errorAt(much.html, 'collodion')]).toEqual([
    422,
    expect.stringContaining('please count it first'),
  ]);
  const back = await staff.postAndFollow(`${path}/undo`);
  expect(wordsOf(back.html)).toContain('It is taken back.');
  expect(await formOf(path)).toMatchObject({
    [`how-${bo}`]: 'present',
    [`tries-${ada}-${half}`]: '',
    note: '',
  });
});

it('shows on the page of the day what it took, and what was reckoned for those who were there', async () => {
  const { ada, bo, path, own } = await evening();
  const sheets = async () => {
    const words = wordsOf((await staff.get(own)).html);
    const reckoned = /Reckoned for (who .*?), your own plates included .*?Sheets, Half plate (\d+)/.exec(
      words,
    );
    return { words, reckoned: reckoned && `${reckoned[1]}: ${reckoned[2]}` };
  };
  expect((await sheets()).words).toContain('For who has a place, your own plates included');
  await house.app.get(SessionsService).end(at.studio.id, at.studio.owner, own.split('/').at(-1) ?? '');
  const held = await sheets();
  expect(held.words).toContain('What it took is not written down yet.');
  expect(held.reckoned).toBe('who had a place: 6');
  await staff.postAndFollow(path, {
    ...(await formOf(path)),
    [`tries-${ada}-${half}`]: '7',
    [`kept-${ada}-${half}`]: '3',
    [`how-${bo}`]: 'did_not_come',
    collodion: '45',
    silver: '2',
  });
  const { words, reckoned } = await sheets();
  expect(reckoned).toBe('who was there: 3'); // Bo was not
  expect(words).toContain('What it took of the shelf');
  expect(words).toMatch(/Clear glass, half plate 7 sheets/);
  expect(words).toMatch(/collodion 45(\.0)? mL/i);
  expect(words).toMatch(/Silver nitrate, out of the bath 2(\.00)? g/);
  expect(words).toContain('Given out: 1 Gloves.');
  expect(words).toMatch(/For each student .*Ada Fell/);
  expect(words).not.toMatch(/Somebody who never poured a plate|With every place taken|For who has a place/);
});

it('cannot be written before the day has begun, which is told over the form', async () => {
  const { path } = await evening();
  house.clock.set('2026-11-25T12:00:00Z');
  staff = await signedIn(house, at.studio, 'assistant');
  const early = await staff.post(path, await formOf(path));
  expect([early.status, wordsOf(early.html)]).toEqual([409, expect.stringContaining('has not begun yet')]);
});

it('gives students their own plates, the formulas as cards, and how to go on safely with hypo', async () => {
  const { ada, path, token } = await evening();
  const page = `/s/${at.studio.slug}/student/${token}`;
  const student = new Visitor(house);
  expect(wordsOf((await student.get(page)).html)).not.toContain('How to go on safely');
  await at.rows(
    `with f as (insert into formula (studio_id, formula_id, item_kind, name, own, current_version, archived)
       select studio_id, gen_random_uuid(), 'developer', 'House developer', true, 1, false from item where kind = 'developer'
       returning studio_id, formula_id),
     v as (insert into formula_version (studio_id, formula_id, version, created_at, who, batch_quantity, batch_as_written,
         ripen_days, life_days, source, method, note)
       select studio_id, formula_id, 1, timestamptz '2026-11-01', 'Wren', 500000, '', 0, 90, '', 'Dissolve the salt.', '' from f)
     select formula_id from f`,
  );
  await at.rows(
    `insert into formula_line (studio_id, formula_id, version, position, ingredient, quantity, unit, as_written, note)
     select studio_id, formula_id, 1, 0, 'Iron sulphate', 20000, 'mg', '20 g', '' from formula where name = 'House developer'`,
  );
  await at.rows(
    `update item set formula_id = (select formula_id from formula where name = 'House developer') where kind = 'developer'`,
  );
  await staff.postAndFollow(path, {
    ...(await formOf(path)),
    [`tries-${ada}-${half}`]: '5',
    [`kept-${ada}-${half}`]: '3',
  });
  const words = wordsOf((await student.get(page)).html);
  for (const part of [
    'Ada Fell: 3 kept of 5 plates made, Half plate',
    'House developer, for 500 mL',
    'Iron sulphate 20 g 20 g',
    'Dissolve the salt.',
    'Fix in hypo. Cyanide fixers are not for somebody who works alone.',
    'current safety data sheet',
    'licence or a trained person',
  ])
    expect(words).toContain(part);
});

it('gives no formula of a cyanide fixer to anybody', async () => {
  const { path, token } = await evening();
  await at.rows(
    `update teaching_session set course = jsonb_set(course, '{uses,fixer}', to_jsonb($1::text))`,
    [at.studio.items.fixer.id],
  );
  await at.rows(`update item set substance = 'potassium cyanide' where kind = 'fixer'`);
  await staff.postAndFollow(path, await formOf(path));
  const words = wordsOf((await new Visitor(house).get(`/s/${at.studio.slug}/student/${token}`)).html);
  expect(words).toContain('in the teacher’s hands only; its formula is not given out');
  expect(words).toContain('Hydrogen cyanide gas, which kills.');
});

it('two who write the same day down: the second is told what the first wrote', async () => {
  const { ada, path } = await evening();
  const other = await signedIn(house, at.studio, 'owner');
  const shown = await formOf(path);
  const alsoShown = fieldsOf((await other.get(path)).html, path);
  expect((await staff.post(path, { ...shown, note: 'Dull light.' })).status).toBe(303);
  const told = await other.post(path, { ...alsoShown, [`how-${ada}`]: 'late', note: 'Bright.' });
  expect([told.status, errorAt(told.html, 'note')]).toEqual([409, 'Meanwhile it says: Dull light.']);
  expect(await formOf(path)).toMatchObject({ note: 'Dull light.', [`how-${ada}`]: 'present' });
  expect((await other.post(path, fieldsOf(told.html, path))).status).toBe(303);
  expect((await formOf(path)).note).toBe('Bright.');
});
