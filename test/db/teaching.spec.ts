// A day of teaching from its making to its end: room, places, what is set aside, offers, and what is erased.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../../src/chemistry/actuals.service.js';
import { quantitiesToReserve } from '../../src/chemistry/estimate.calc.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { offering } from '../support/offering.js';
import { courseOf, signUp, signUpOf, TEACHING_START, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
const wall = (text: string) => Temporal.PlainDateTime.from(text);

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
});

const stateOf = async (id: string) =>
  (await at.rows<{ state: string }>('select state from sign_up where sign_up_id = $1', [id]))[0]?.state;
const sessionOf = async (id: string) =>
  (
    await at.rows<{ state: string; taken: number }>(
      'select state, taken from teaching_session where session_id = $1',
      [id],
    )
  )[0];
/** What is set aside for the students of a sign-up, or for the day itself, by item. */
const heldFor = (signUpId: string) =>
  at.rows(
    `select r.item_id, sum(r.quantity)::text as quantity from reservation r
     where r.held_for in (select student_id from student where sign_up_id = $1 union select $1) group by 1 order by 1`,
    [signUpId],
  );

describe('a day of teaching', () => {
  it('takes the room as a draft; a sitting that day finds it taken, and another class too', async () => {
    await teachingDay(house, at.studio, { start: '2027-04-02T09:00', open: false });
    const { sittingId } = await at.waiter();
    await expect(
      at.offers.make(at.studio.id, at.studio.owner, sittingId, wall('2027-04-02T09:30')),
    ).rejects.toMatchObject({ code: 'place_taken' });
    await expect(teachingDay(house, at.studio, { start: '2027-04-02T12:00' })).rejects.toMatchObject({
      code: 'place_taken',
    });
  });

  it('takes no one while it is a draft, and sets the teacher’s own plate aside when it opens', async () => {
    const { sessionId } = await teachingDay(house, at.studio, { open: false });
    await expect(signUp(house, at.studio, sessionId)).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await heldFor(sessionId)).toEqual([]);
    await house.app.get(SessionsService).open(at.studio.id, at.studio.owner, sessionId);
    expect((await heldFor(sessionId)).length).toBe(5); // glass and four solutions
    await house.app.get(SessionsService).close(at.studio.id, at.studio.owner, sessionId);
    expect(await heldFor(sessionId)).toEqual([]);
  });

  it('is copied to another date with what was changed on it, and needs the clocks to show its hour', async () => {
    const { sessionId } = await teachingDay(house, at.studio);
    const sessions = house.app.get(SessionsService);
    const copy = await sessions.copy(at.studio.id, at.studio.owner, sessionId, wall('2027-05-05T10:00'));
    expect(copy).toMatchObject({
      state: 'draft',
      places: 6,
      least: 2,
      decideOn: Temporal.PlainDate.from('2027-04-14'),
    });
    await expect(
      sessions.copy(at.studio.id, at.studio.owner, sessionId, wall('2027-03-28T01:30')), // skipped in London
    ).rejects.toMatchObject({ code: 'not_an_opening' });
  });

  it('opens with a cyanide fixer only for adults and with a second adult named', async () => {
    await at.rows(`update item set name = 'Potassium cyanide fixer' where kind = 'fixer'`);
    const { fixer } = at.studio.items;
    const day = await teachingDay(house, at.studio, { open: false, uses: { fixer: fixer.id }, leastAge: 16 });
    const open = () => house.app.get(SessionsService).open(at.studio.id, at.studio.owner, day.sessionId);
    await expect(open()).rejects.toThrow(/under 18/);
    await at.rows(`update teaching_session set course = jsonb_set(course, '{leastAge}', '18')`);
    await expect(open()).rejects.toThrow(/second trained adult/);
    await at.rows(`update teaching_session set second_adult = 'Odhran Pike'`);
    await open();
  });
});

describe('signing up', () => {
  it('takes places and sets aside for each student exactly what the estimate says, and leaving gives all back', async () => {
    const { sessionId } = await teachingDay(house, at.studio);
    const students = [
      { name: 'Ada', experience: 'none' },
      { name: 'Bo', experience: 'practised' },
    ];
    const { signUpId, token } = await signUp(house, at.studio, sessionId, { students });
    expect(await sessionOf(sessionId)).toEqual({ state: 'open', taken: 2 });
    const { shelf } = await house.app.get(TeachingViews).session(at.studio.id, sessionId);
    for (const { student, estimate } of shelf.perStudent) {
      const reserve = quantitiesToReserve(estimate, 'likely');
      const held = await at.rows<{ kind: string; quantity: string }>(
        `select i.kind, sum(r.quantity)::text as quantity from reservation r join item i using (studio_id, item_id)
         where r.held_for = $1 group by 1 order by 1`,
        [student.id],
      );
      expect(Object.fromEntries(held.map((one) => [one.kind, BigInt(one.quantity)]))).toEqual({
        ...reserve.solutions,
        glass: reserve.glass.reduce((sum, { sheets }) => sum + sheets, 0n),
      });
    }
    const [ada, bo] = shelf.perStudent.map(({ estimate }) => estimate.glass[0]?.sheets.ninety ?? 0n);
    expect(Number(ada)).toBeGreaterThan(Number(bo)); // who practises needs fewer tries
    await house.app.get(OwnSignUpService).leave(at.studio.id, token);
    expect(await heldFor(signUpId)).toEqual([]);
    expect(await sessionOf(sessionId)).toEqual({ state: 'open', taken: 0 });
    const learned = await house.db.inStudio(at.studio.id, (tx) => house.app.get(ActualsService).figures(tx));
    expect(learned.attempts.beginners.keeperShare).toBeLessThan(learned.attempts.sittings.keeperShare);
  });

  it('is done once for one key, and says what is wrong by field', async () => {
    const { sessionId } = await teachingDay(house, at.studio);
    const service = house.app.get(SignUpsService);
    const key = new SystemRandom().id();
    const once = await service.signUp(at.studio.id, sessionId, signUpOf(), key);
    expect(await service.signUp(at.studio.id, sessionId, signUpOf(), key)).toEqual(once);
    expect((await sessionOf(sessionId))?.taken).toBe(1);
    await expect(
      signUp(house, at.studio, sessionId, { email: 'no', oldEnough: false }),
    ).rejects.toMatchObject({
      code: 'bad_input',
      fields: [{ field: 'oldEnough' }, { field: 'email' }],
    });
  });

  it('is not possible when the shelf cannot provide, and then takes no place', async () => {
    const short = await offering(house, { shelf: { halfGlass: 1n } });
    const { sessionId } = await teachingDay(house, short.studio, { start: '2026-12-09T10:00' });
    await expect(signUp(house, short.studio, sessionId)).rejects.toMatchObject({ code: 'short_of_stock' });
    expect(await short.rows('select taken from teaching_session')).toEqual([{ taken: 0 }]);
  });

  it('of a full day is refused with the waiting list told, and goes on it where that was said', async () => {
    const { sessionId } = await teachingDay(house, at.studio, { most: 2 });
    await signUp(house, at.studio, sessionId, { students: [{ name: 'A' }, { name: 'B' }] });
    expect(await sessionOf(sessionId)).toEqual({ state: 'full', taken: 2 });
    await expect(signUp(house, at.studio, sessionId)).rejects.toMatchObject({
      code: 'place_taken',
      detail: expect.stringContaining('waiting list'),
    });
    const { signUpId } = await signUp(house, at.studio, sessionId, { orWait: true });
    expect(await stateOf(signUpId)).toBe('waiting');
    expect(await heldFor(signUpId)).toEqual([]);
  });
});

describe('an offer of places', () => {
  async function offered() {
    const { sessionId } = await teachingDay(house, at.studio, { most: 2 });
    const first = await signUp(house, at.studio, sessionId, { students: [{ name: 'A' }, { name: 'B' }] });
    const waiting = await signUp(house, at.studio, sessionId, { orWait: true, email: 'wilf@post.example' });
    await house.app.get(OwnSignUpService).leave(at.studio.id, first.token);
    await house.app.get(TeachingRequestsService).offer(at.studio.id, at.studio.owner, waiting.signUpId);
    return { sessionId, waiting };
  }

  it('holds places and stock, and is a place once it is taken', async () => {
    const { sessionId, waiting } = await offered();
    expect(await stateOf(waiting.signUpId)).toBe('offered');
    expect((await sessionOf(sessionId))?.taken).toBe(1);
    expect((await heldFor(waiting.signUpId)).length).toBeGreaterThan(0);
    await house.app.get(OwnSignUpService).accept(at.studio.id, waiting.token);
    await house.app.get(OwnSignUpService).accept(at.studio.id, waiting.token); // once more is no mistake
    expect(await stateOf(waiting.signUpId)).toBe('signed');
    expect((await sessionOf(sessionId))?.taken).toBe(1);
  });

  it('runs out at its moment: stands a millisecond before, is refused at it, and then nothing is held', async () => {
    const { sessionId, waiting } = await offered();
    const [offer] = await at.rows<{ ends: string }>(
      `select to_char(expires_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as ends from offer where for_id = $1`,
      [waiting.signUpId],
    );
    house.clock.set(offer?.ends ?? '');
    house.clock.forward({ milliseconds: -1 });
    await house.app.get(TeachingRequestsService).passOn(at.studio.id, sessionId); // locks, and lets nothing lapse yet
    expect(await stateOf(waiting.signUpId)).toBe('offered');
    house.clock.forward({ milliseconds: 1 });
    await expect(house.app.get(OwnSignUpService).accept(at.studio.id, waiting.token)).rejects.toMatchObject({
      code: 'offer_ran_out',
    });
    expect(await stateOf(waiting.signUpId)).toBe('waiting');
    expect(await heldFor(waiting.signUpId)).toEqual([]);
    expect((await sessionOf(sessionId))?.taken).toBe(0);
  });

  it('lapses by its job too, without anybody coming, and the job does not come back for ever', async () => {
    const { waiting } = await offered();
    house.clock.forward({ hours: 24 * 14 });
    await house.work();
    expect(await stateOf(waiting.signUpId)).toBe('waiting');
  });
});

describe('a day that is not held', () => {
  it('frees room and stock, settles offers, and tells everybody once', async () => {
    const { sessionId } = await teachingDay(house, at.studio, { most: 2 });
    await signUp(house, at.studio, sessionId, {
      students: [{ name: 'A' }, { name: 'B' }],
      email: 'ada@post.example',
    });
    await signUp(house, at.studio, sessionId, { orWait: true, email: 'bo@post.example', name: 'Bo' });
    await at.sent();
    await house.app.get(SessionsService).callOff(at.studio.id, at.studio.owner, sessionId, 'Too few of us.');
    expect(await at.rows('select quantity from reservation')).toEqual([]);
    expect(await at.rows('select state, taken from teaching_session')).toEqual([
      { state: 'called_off', taken: 0 },
    ]);
    const told = (await at.sent()).map(({ to, text }) => `${to.name}: ${/Too few of us/.test(text)}`);
    expect(told.sort()).toEqual(['Bo: true', 'Linnea Harrow: true']);
    await teachingDay(house, at.studio, { start: TEACHING_START }); // the room is free
  });
});

describe('a change of a day that people have signed up for', () => {
  const wanted = (more: object = {}) => ({
    day: '2027-04-14',
    time: '10:30',
    places: '6',
    least: '2',
    decideOn: '2027-03-17',
    ...more,
  });

  it('shows whom it touches, then moves room, stock and letters with it, as the same calendar entry', async () => {
    const { sessionId } = await teachingDay(house, at.studio);
    const ada = await signUp(house, at.studio, sessionId, { email: 'ada@post.example', name: 'Ada' });
    await at.sent();
    const changes = house.app.get(TeachingChanges);
    const before = await heldFor(ada.signUpId);
    const uid = `select uid, sequence, to_char(wall_start, 'YYYY-MM-DD HH24:MI') as start from occupancy where kind = 'teaching'`;
    const [entry] = await at.rows<{ uid: string }>(uid);
    const shown = await changes.preview(at.studio.id, sessionId, wanted());
    expect(shown.touched).toEqual([{ name: 'Ada', students: ['Linnea Harrow'], state: 'signed' }]);
    expect(shown.change.what).toEqual(['start']);
    house.clock.forward({ minutes: 1 });
    await signUp(house, at.studio, sessionId, { email: 'bo@post.example', name: 'Bo' }); // meanwhile
    const again = await changes.confirm(at.studio.id, at.studio.owner, sessionId, wanted(), shown.hash);
    expect(again?.touched.map(({ name }) => name)).toEqual(['Ada', 'Bo']);
    expect(
      await changes.confirm(at.studio.id, at.studio.owner, sessionId, wanted(), again?.hash ?? ''),
    ).toBeNull();
    expect(await at.rows(uid)).toEqual([{ uid: entry?.uid, sequence: 2, start: '2027-04-14 10:30' }]);
    expect(await heldFor(ada.signUpId)).toEqual(before);
    expect(await at.rows(`select distinct needed_on::text from reservation`)).toEqual([
      { needed_on: '2027-04-14' },
    ]);
    const told = (await at.sent()).filter(({ subject }) => /has changed/.test(subject));
    expect(told.map(({ to }) => to.name).sort()).toEqual(['Ada', 'Bo']);
    expect(told[0]?.text).toContain('Wednesday 14 April 2027, 10:30 to 16:30');
  });

  it('cannot leave fewer places than are taken, and with more places the first who waits may come', async () => {
    const { sessionId } = await teachingDay(house, at.studio, { most: 2 });
    await signUp(house, at.studio, sessionId, { students: [{ name: 'A' }, { name: 'B' }] });
    const changes = house.app.get(TeachingChanges);
    const same = { day: '2027-04-07', time: '10:00' };
    const fewer = changes.preview(at.studio.id, sessionId, wanted({ ...same, places: '1', least: '1' }));
    await expect(fewer).rejects.toMatchObject({ fields: [{ field: 'places' }] });
    const more = wanted({ ...same, places: '3' });
    const { hash, touched } = await changes.preview(at.studio.id, sessionId, more);
    expect(touched).toEqual([]);
    await changes.confirm(at.studio.id, at.studio.owner, sessionId, more, hash);
    expect(await sessionOf(sessionId)).toEqual({ state: 'open', taken: 2 });
  });

  it('as the template says now sets aside anew what it takes', async () => {
    const { sessionId, templateId } = await teachingDay(house, at.studio);
    const { signUpId } = await signUp(house, at.studio, sessionId);
    const glass = async () =>
      (
        await at.rows<{ sheets: string }>(
          `select sum(r.quantity)::text as sheets from reservation r join item i using (studio_id, item_id)
         where i.kind = 'glass' and r.held_for in (select student_id from student where sign_up_id = $1)`,
          [signUpId],
        )
      )[0]?.sheets;
    const before = Number(await glass());
    const two = { plates: [{ plateSizeId: at.studio.sizes.half.id, count: 1 }] };
    await house.app
      .get(SessionsService)
      .saveTemplate(at.studio.id, at.studio.owner, templateId, courseOf(at.studio, two));
    const renew = wanted({ day: '2027-04-07', time: '10:00', renew: 'yes' });
    const changes = house.app.get(TeachingChanges);
    const { hash, change } = await changes.preview(at.studio.id, sessionId, renew);
    expect(change.what).toEqual(['course']);
    expect(await changes.confirm(at.studio.id, at.studio.owner, sessionId, renew, hash)).toBeNull();
    expect(Number(await glass())).toBeLessThan(before);
  });
});

describe('teaching one to one', () => {
  it('is asked for, given a day by the owner with room and stock at once, and on no public page', async () => {
    const { templateId } = await teachingDay(house, at.studio, { open: false });
    const ask = { ...signUpOf(), day: '2027-04-14' };
    const service = house.app.get(SignUpsService);
    const { signUpId } = await service.askOneToOne(at.studio.id, templateId, ask, new SystemRandom().id());
    expect(await stateOf(signUpId)).toBe('requested');
    const requests = house.app.get(TeachingRequestsService);
    await requests.approve(at.studio.id, at.studio.owner, signUpId, wall('2027-04-14T10:00'));
    expect(await stateOf(signUpId)).toBe('signed');
    expect((await heldFor(signUpId)).length).toBeGreaterThan(0);
    expect((await house.app.get(TeachingViews).open(at.studio.id)).days).toEqual([]);
    await expect(
      requests.approve(at.studio.id, at.studio.owner, signUpId, wall('2027-04-21T10:00')),
    ).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('of a second day is for who came before', async () => {
    const { templateId } = await teachingDay(house, at.studio, { open: false, secondDay: true });
    const ask = (more: object) =>
      house.app
        .get(SignUpsService)
        .askOneToOne(
          at.studio.id,
          templateId,
          { ...signUpOf(), day: '2027-04-14', ...more },
          new SystemRandom().id(),
        );
    await expect(ask({})).rejects.toMatchObject({ fields: [{ field: 'cameBefore' }] });
    await ask({ cameBefore: true });
  });
});

describe('what a student tells', () => {
  it('is kept, whom to ring until the day is over, and an agreement only to the wording that holds', async () => {
    const { sessionId } = await teachingDay(house, at.studio);
    const { signUpId, token } = await signUp(house, at.studio, sessionId);
    const [student] = await at.rows<{ student_id: string }>('select student_id from student');
    const tell = (more: object) =>
      house.app
        .get(OwnSignUpService)
        .tellDetails(at.studio.id, token, { studentId: student?.student_id, ...more });
    await tell({
      gear: { Gloves: 'M' },
      emergencyName: 'Wilf',
      emergencyTelephone: '01632 960001',
      agreesTo: 1,
    });
    await tell({ access: 'A stool, please.' }); // what is not said stays
    const seen = `select gear, access, emergency_name, safety_version from student`;
    expect(await at.rows(seen)).toEqual([
      { gear: { Gloves: 'M' }, access: 'A stool, please.', emergency_name: 'Wilf', safety_version: 1 },
    ]);
    await house.app.get(SessionsService).saveSafety(at.studio.id, at.studio.owner, 'Goggles on.');
    await expect(tell({ agreesTo: 1 })).rejects.toMatchObject({ fields: [{ field: 'agreesTo' }] });
    await tell({ agreesTo: 2 });
    house.clock.set('2027-04-07T14:59:00Z');
    await house.work();
    expect(await at.rows('select emergency_name from student')).toEqual([{ emergency_name: 'Wilf' }]);
    house.clock.set('2027-04-07T15:00:00Z'); // six hours after ten, in summer time
    await house.work();
    expect(await at.rows('select emergency_name, emergency_telephone from student')).toEqual([
      { emergency_name: '', emergency_telephone: '' },
    ]);
    expect(await stateOf(signUpId)).toBe('signed');
  });
});
