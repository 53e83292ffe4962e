// Undoing what the desk did last with a sign-up: as if it had not been done while nobody was told, refused after that.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SystemRandom } from '../../src/platform/clock.js';
import { TeachingUndoActs } from '../../src/desk/teaching/undo.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, signUpOf, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let studio: TestStudio;
let day = 0;

beforeAll(async () => {
  house = await openTestHouse({ env: { UNDO_SECONDS: '60' } });
  studio = await foundTestStudio(house, {
    shelf: { halfGlass: 500n, wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
});
afterAll(() => house.close());

const start = () => `2027-04-${String(5 + day++).padStart(2, '0')}T10:00`;
const undo = (signUpId: string) =>
  house.app.get(TeachingUndoActs).takeBack(studio.id, studio.owner, signUpId);
const who = () => studio.owner.name;
const leave = (signUpId: string) =>
  house.app.get(OwnSignUpService).leave(studio.id, { signUpId, who: who() });
const view = async (sessionId: string) => {
  const { session, signUps } = await house.app.get(TeachingViews).session(studio.id, sessionId);
  return {
    taken: session.taken,
    state: session.state,
    of: Object.fromEntries(signUps.map((one) => [one.contact.name, one.signUp.state])),
    students: signUps.flatMap(({ students }) => students.map(({ id }) => id)),
  };
};
const kept = (ids: string[]) =>
  house.db.inStudio(studio.id, async (tx) => {
    const lines = [];
    for (const id of ids) lines.push(...(await house.app.get(StockService).setAside(tx, id)));
    return lines.length;
  });
const typedIn = (sessionId: string) =>
  house.app
    .get(SignUpsService)
    .signUp(
      studio.id,
      sessionId,
      signUpOf({ name: 'Isolde Kerr', reachBy: 'telephone', telephone: '01632 960714', email: '' }),
      new SystemRandom().id(),
      who(),
    );
const sent = async () => {
  house.clock.forward({ minutes: 2 });
  await house.work();
  return house.mail.sent.splice(0).map(({ subject }) => subject);
};

describe('undoing, while nobody was told', () => {
  it('gives a place back to who had it, with what they need; no letter goes, nobody else is asked', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: start(), most: 1, least: 1 });
    const { signUpId } = await signUp(house, studio, sessionId);
    await signUp(house, studio, sessionId, { name: 'Next', email: 'next@post.example', orWait: true });
    await sent();
    const before = await view(sessionId);
    const aside = await kept(before.students);
    await leave(signUpId);
    expect(await view(sessionId)).toMatchObject({
      taken: 0,
      state: 'open',
      of: { 'Linnea Harrow': 'released' },
    });
    expect(await kept(before.students)).toBe(0);
    await undo(signUpId);
    expect(await view(sessionId)).toEqual(before);
    expect([aside > 0, await kept(before.students)]).toEqual([true, aside]);
    expect(await sent()).toEqual([]);
    await expect(undo(signUpId)).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('takes a sign-up typed in away again, from every calendar too', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: start() });
    const { signUpId, token } = await typedIn(sessionId);
    expect(await view(sessionId)).toMatchObject({ taken: 1 });
    await undo(signUpId);
    const now = await view(sessionId);
    expect(now).toMatchObject({ taken: 0, of: { 'Isolde Kerr': 'withdrawn' } });
    expect(await kept(now.students)).toBe(0);
    const { feedToken } = await house.app.get(TeachingViews).behindLink(studio.id, token);
    const feed = await house.app.inject({ url: `/s/${studio.slug}/calendar/${feedToken}.ics` });
    expect(feed.body).not.toContain('VEVENT');
    expect(await sent()).toEqual([]);
  });

  it('puts a wish to learn back that was said no to', async () => {
    const { templateId } = await teachingDay(house, studio, { start: start(), open: false });
    const { signUpId } = await house.app
      .get(SignUpsService)
      .askOneToOne(studio.id, templateId, { ...signUpOf(), day: '2027-06-02' }, new SystemRandom().id());
    await sent();
    await house.app.get(TeachingRequestsService).decline(studio.id, studio.owner, signUpId, 'A slip.');
    const { undoable } = await house.app.get(TeachingViews).all(studio.id);
    expect(undoable.map((one) => one.signUp.id)).toEqual([signUpId]);
    await undo(signUpId);
    const { requested } = await house.app.get(TeachingViews).all(studio.id);
    expect(requested.map((one) => [one.signUp.id, one.signUp.message])).toEqual([[signUpId, '']]);
    expect(await sent()).toEqual([]);
  });
});

describe('undoing is refused, and nothing is changed,', () => {
  it('once the letter has gone, or they were told on the telephone', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: start() });
    const mailed = await signUp(house, studio, sessionId);
    const rung = await typedIn(sessionId);
    await leave(mailed.signUpId);
    expect(await sent()).toContain('Your place is given back: First Plates');
    const before = await view(sessionId);
    for (const { signUpId } of [mailed, rung])
      await expect(undo(signUpId)).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await view(sessionId)).toEqual(before);
  });

  it('once somebody else has the place, or they did something themselves', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: start(), most: 1, least: 1 });
    const first = await signUp(house, studio, sessionId);
    await sent();
    await leave(first.signUpId);
    await signUp(house, studio, sessionId, { name: 'Faster', email: 'faster@post.example' });
    await expect(undo(first.signUpId)).rejects.toMatchObject({ code: 'place_taken' });
    const other = await teachingDay(house, studio, { start: start() });
    const typed = await typedIn(other.sessionId);
    await house.app.get(OwnSignUpService).leave(studio.id, typed.token);
    await expect(undo(typed.signUpId)).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await view(other.sessionId)).toMatchObject({ taken: 0, of: { 'Isolde Kerr': 'released' } });
  });
});
