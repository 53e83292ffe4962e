// Days that cannot be held, with a teaching day on them: whom it touches is shown, nobody is told before the yes, and
// then room, places and stock are free and everybody is told once.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { SettingsService } from '../../src/room/settings.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let move: string;
let sessionId: string;
const DAY = { 'from-day': '7', 'from-month': 'April', 'from-year': '2027', reason: 'storm', words: '' };

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { halfGlass: 500n, wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  owner = await signedIn(house, studio, 'owner');
  move = `/s/${studio.slug}/desk/move`;
  ({ sessionId } = await teachingDay(house, studio, { most: 2 }));
  await signUp(house, studio, sessionId, {
    name: 'Oriel Stainsby',
    students: [{ name: 'Oriel' }, { name: 'Maud' }],
  });
  await signUp(house, studio, sessionId, {
    name: 'Isolde Kerr',
    reachBy: 'telephone',
    telephone: '01632 960714',
    email: '',
    orWait: true,
  });
  await house.work();
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

const text = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
const seen = (html: string) => new RegExp(`name="seen-${sessionId}" value="([^"]+)"`).exec(html)?.[1] ?? '';
const state = async () => {
  const { session, place, signUps } = await house.app.get(TeachingViews).session(studio.id, sessionId);
  return {
    state: session.state,
    taken: session.taken,
    holds: place.holds,
    of: signUps.map((one) => one.signUp.state),
  };
};

test('a teaching day under a closure stands on the front page among what is to be moved', async () => {
  const settings = house.app.get(SettingsService);
  const change = { do: 'close', title: 'The roof', from: '2027-04-07', until: '2027-04-07' };
  const { seen: shown } = await settings.preview(studio.id, change);
  expect(await settings.confirm(studio.id, studio.owner, change, shown)).toMatchObject({ ok: true });
  const desk = text((await owner.get(`/s/${studio.slug}/desk`)).html);
  expect(desk).toContain('Teaching days to be moved (1) First Plates');
  expect(desk).toContain('the room is closed; 2 places taken');
  expect(await state()).toMatchObject({ state: 'full', taken: 2, holds: true });
});

test('whom a teaching day touches is shown before anything is done, and nobody is told', async () => {
  await owner.get(move);
  const { html, status } = await owner.post(`${move}/preview`, DAY);
  expect(status).toBe(200);
  expect(text(html)).toContain('0 sittings and one teaching day');
  expect(text(html)).toContain('Oriel Stainsby: Oriel, Maud (has a place); by e-mail');
  expect(text(html)).toContain('On its waiting list: 1.');
  expect(text(html)).toContain('2 sign-ups are told, once you confirm');
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await state()).toMatchObject({ state: 'full', taken: 2 });
});

test('one that is left as it is stays, and one without an answer is asked again', async () => {
  const { html } = await owner.post(`${move}/preview`, DAY);
  const left = { ...DAY, [`seen-${sessionId}`]: seen(html), [`teach-${sessionId}`]: 'leave' };
  expect(text((await owner.post(`${move}/confirm`, left)).html)).toContain('Everything stays as it was.');
  const silent = await owner.post(`${move}/confirm`, { ...DAY, [`seen-${sessionId}`]: seen(html) });
  expect(silent.status).toBe(422);
  expect(text(silent.html)).toContain('Please choose one of these.');
  expect(await state()).toMatchObject({ state: 'full', taken: 2 });
});

test('what was shown and is not so any more is not done', async () => {
  const { html } = await owner.post(`${move}/preview`, DAY);
  const old = seen(html);
  const { signUps } = await house.app.get(TeachingViews).session(studio.id, sessionId);
  const waiting = signUps.find(({ signUp: one }) => one.state === 'waiting');
  expect(waiting).toBeDefined();
  const late = await signUp(house, studio, sessionId, {
    name: 'Late',
    email: 'late@post.example',
    orWait: true,
  });
  const chosen = { ...DAY, [`seen-${sessionId}`]: old, [`teach-${sessionId}`]: 'off' };
  const answer = await owner.post(`${move}/confirm`, chosen);
  expect(text(answer.html)).toContain('Done for 0 of 1.');
  expect(text(answer.html)).toContain('Somebody signed up, left or moved it meanwhile. Please look again.');
  expect(await state()).toMatchObject({ state: 'full', taken: 2 });
  await house.app.get(OwnSignUpService).leave(studio.id, late.token);
  await house.work();
  house.mail.sent.splice(0);
});

test('a day called off gives back room, places and stock, and everybody is told once, by mail or by telephone', async () => {
  const { html } = await owner.post(`${move}/preview`, DAY);
  const chosen = { ...DAY, [`seen-${sessionId}`]: seen(html), [`teach-${sessionId}`]: 'off' };
  const answer = await owner.post(`${move}/confirm`, chosen);
  expect(text(answer.html)).toContain('Done for 1 of 1.');
  expect(text(answer.html)).toContain('First Plates : called off; who signed up is told');
  expect(text((await owner.post(`${move}/confirm`, chosen)).html)).toContain('Done for 0 of 1.');
  const now = await state();
  expect([now.state, now.taken, now.holds]).toEqual(['called_off', 0, false]);
  expect(now.of.filter((one) => one !== 'withdrawn')).toEqual(['called_off', 'called_off']);
  const { signUps } = await house.app.get(TeachingViews).session(studio.id, sessionId);
  const held = [sessionId, ...signUps.flatMap(({ students }) => students.map(({ id }) => id))];
  const kept = await house.db.inStudio(studio.id, async (tx) => {
    let lines = 0;
    for (const id of held) lines += (await house.app.get(StockService).setAside(tx, id)).length;
    return lines;
  });
  expect(kept).toBe(0);
  await house.work();
  const letters = house.mail.sent.filter(({ subject }) => subject.includes('called off'));
  expect(letters.filter(({ to }) => to.address === 'linnea@post.example')).toHaveLength(1);
  expect(letters.find(({ to }) => to.address === 'linnea@post.example')?.text).toContain(
    'A storm is on its way',
  );
  const { teaching } = await house.app.get(TelephoneService).list(studio.id);
  expect(teaching.map(({ view, about }) => [view.contact.name, about.change])).toEqual([
    ['Isolde Kerr', 'called off'],
  ]);
});
