// Teaching for people on the telephone, as the owner types it in: signing up, answers to an offer, giving a place back;
// and the day on the sheet of its date.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { halfGlass: 500n, wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
  desk = `/s/${studio.slug}/desk/teaching`;
});
afterAll(() => house.close());

const view = (sessionId: string) => house.app.get(TeachingViews).session(studio.id, sessionId);
const states = async (sessionId: string) =>
  Object.fromEntries((await view(sessionId)).signUps.map((one) => [one.contact.name, one.signUp.state]));
const toTelephone = async () =>
  (await house.app.get(TelephoneService).list(studio.id)).teaching.map(
    ({ view: one, about }) => `${one.contact.name}: ${about.change}`,
  );

describe('somebody who telephones', () => {
  it('is signed up in one short form without e-mail, once, and is told nothing a second time', async () => {
    const { sessionId } = await teachingDay(house, studio);
    const page = `${desk}/${sessionId}/sign-up`;
    expect(wordsOf((await owner.get(`${desk}/${sessionId}`)).html)).toContain(
      'Sign up somebody who telephones',
    );
    const form = fieldsOf((await owner.get(page)).html, page);
    const wrong = await owner.post(page, {
      ...form,
      name: 'Isolde Kerr',
      students: 'Isolde Kerr\nMaud Ravn',
    });
    expect([wrong.status, errorAt(wrong.html, 'telephone'), errorAt(wrong.html, 'oldEnough')]).toEqual([
      422,
      'Please give a telephone number we can ring.',
      'Please confirm the age of everybody who comes.',
    ]);
    const kept = fieldsOf(wrong.html, page);
    expect(kept).toMatchObject({ name: 'Isolde Kerr', students: 'Isolde Kerr\nMaud Ravn' });
    const typed = { ...kept, telephone: '01632 960714', experience: 'some', oldEnough: 'yes' };
    const done = await owner.postAndFollow(page, typed);
    expect(wordsOf(done.html)).toContain('They are signed up, or on the list, as it stands below.');
    await owner.post(page, typed); // sent twice
    const { signUps, session, history } = await view(sessionId);
    expect([signUps.length, session.taken]).toEqual([1, 2]);
    expect(signUps[0]?.contact).toMatchObject({ reachBy: 'telephone', email: '' });
    expect(signUps[0]?.students.map(({ name, experience }) => `${name} ${experience}`)).toEqual([
      'Isolde Kerr some',
      'Maud Ravn some',
    ]);
    expect(history.length).toBeGreaterThan(0);
    const own = await owner.postAndFollow(`${desk}/sign-ups/${signUps[0]?.signUp.id}/page`, {});
    expect(wordsOf(own.html)).toContain('How we work safely');
    house.mail.sent.splice(0);
    await house.work();
    expect(await toTelephone()).toEqual([]);
    expect(house.mail.sent.filter(({ subject }) => subject.startsWith('To pass on'))).toEqual([]);
    const { told } = await house.app.get(TelephoneService).list(studio.id);
    expect(told.map(({ contact, who }) => [contact.name, who])).toEqual([['Isolde Kerr', studio.owner.name]]);
  });

  it('is told that there is no place, and goes on the list only where that is ticked; by letter there is one to post', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-04-14T10:00', most: 1, least: 1 });
    await signUp(house, studio, sessionId);
    const page = `${desk}/${sessionId}/sign-up`;
    const form = { ...fieldsOf((await owner.get(page)).html, page), name: 'Old Tom', oldEnough: 'yes' };
    const typed = { ...form, postalAddress: '4 Chandlery Row\nHull' };
    const full = await owner.post(page, typed);
    expect(full.status).toBe(409);
    expect(wordsOf(full.html)).toContain('There are not so many places left on that day.');
    const again = { ...fieldsOf(full.html, page), orWait: 'yes' };
    expect(again).toMatchObject({ name: 'Old Tom' });
    await owner.postAndFollow(page, again);
    expect(await states(sessionId)).toMatchObject({ 'Old Tom': 'waiting' });
    await house.work();
    const printed = await owner.get(`/s/${studio.slug}/desk/telephone/letters`);
    expect(wordsOf(printed.html)).toContain('4 Chandlery Row');
    expect(wordsOf(printed.html)).toContain('The day is full, and you are on its waiting list.');
    expect(wordsOf(printed.html)).not.toContain('has no e-mail');
  });
});

describe('what somebody says on the telephone', () => {
  it('is noted for them: a place taken, one refused, one given back; once each, and late is said so', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-04-21T10:00', most: 2, least: 1 });
    const first = await signUp(house, studio, sessionId, {
      name: 'First',
      students: [{ name: 'A' }, { name: 'B' }],
    });
    const ways = { reachBy: 'telephone', telephone: '01632 960188', email: '', orWait: true };
    const yes = await signUp(house, studio, sessionId, { name: 'Yes', ...ways });
    const no = await signUp(house, studio, sessionId, { name: 'No', ...ways });
    const answer = async (signUpId: string, what: string) =>
      wordsOf((await owner.postAndFollow(`${desk}/sign-ups/${signUpId}/answer`, { answer: what })).html);
    await owner.get(`${desk}/${sessionId}`);
    expect(await answer(first.signUpId, 'leave')).toContain('Noted: it is given up.');
    const requests = house.app.get(TeachingRequestsService);
    await requests.offer(studio.id, studio.owner, yes.signUpId);
    await requests.offer(studio.id, studio.owner, no.signUpId);
    expect(await answer(yes.signUpId, 'accept')).toContain('Noted: the place is theirs.');
    expect(await answer(no.signUpId, 'refuse')).toContain('They keep their turn on the waiting list.');
    expect(await answer(no.signUpId, 'refuse')).toContain('answered or given up in the meantime');
    expect(await states(sessionId)).toEqual({ First: 'released', Yes: 'signed', No: 'waiting' });
    expect((await view(sessionId)).session.taken).toBe(1);
    expect((await owner.post(`${desk}/sign-ups/${yes.signUpId}/answer`, { answer: 'dance' })).status).toBe(
      422,
    );
    expect(
      (await assistant.post(`${desk}/sign-ups/${yes.signUpId}/answer`, { answer: 'leave' })).status,
    ).toBe(403);
  });

  it('can be answered by a program behind the link as well', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-04-28T10:00', most: 1, least: 1 });
    const first = await signUp(house, studio, sessionId);
    const next = await signUp(house, studio, sessionId, { name: 'Next', orWait: true });
    const api = `/api/v1/s/${studio.slug}/student`;
    const post = async (path: string) =>
      (await house.app.inject({ method: 'POST', url: `${api}/${path}` })).statusCode;
    expect(await post(`${first.token}/leave`)).toBe(204);
    expect(await post(`${next.token}/accept`)).toBe(409);
    await house.app.get(TeachingRequestsService).offer(studio.id, studio.owner, next.signUpId);
    expect(await post(`${next.token}/refuse`)).toBe(204);
    await house.app.get(TeachingRequestsService).offer(studio.id, studio.owner, next.signUpId);
    expect([await post(`${next.token}/accept`), await post(`${next.token}/accept`)]).toEqual([204, 204]);
    expect(await states(sessionId)).toMatchObject({ Next: 'signed' });
  });
});

describe('a teaching day on the sheet of its date', () => {
  it('tells who learns and what helps them, to owner and assistant, and on the red screen without white', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-05T10:00' });
    const { token } = await signUp(house, studio, sessionId, { students: [{ name: 'Oriel Stainsby' }] });
    const own = `/api/v1/s/${studio.slug}/student/${token}`;
    const { students } = (await house.app.inject({ url: own })).json();
    const details = { studentId: students[0].studentId, access: 'a stool', emergencyName: 'Hesper' };
    await house.app.inject({ method: 'POST', url: `${own}/details`, payload: details });
    for (const staff of [owner, assistant]) {
      const sheet = (await staff.get(`/s/${studio.slug}/desk/days/2027-05-05`)).html;
      expect(wordsOf(sheet)).toContain('10:00 to 16:00: teaching, First Plates');
      expect(wordsOf(sheet)).toContain('What helps: a stool');
      expect(sheet).toContain(`href="${desk}/${sessionId}"`);
      expect(sheet).not.toContain('Hesper');
      const red = (await staff.get(`/s/${studio.slug}/desk/days/2027-05-05/red`)).html;
      expect(wordsOf(red)).toContain('Oriel Stainsby. What helps: a stool');
      expect(red).not.toMatch(/<script|Hesper/);
    }
    expect(wordsOf((await owner.get(`/s/${studio.slug}/desk/days/2027-05-06`)).html)).not.toContain(
      'teaching,',
    );
  });

  it('leads from the student’s page to their calendar, and from the public one to that of all days', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-12T10:00' });
    const { token } = await signUp(house, studio, sessionId);
    const addressIn = (html: string) =>
      /(?:value|href)="[^"]*(\/s\/[^"]*\/calendar\/[^"]+\.ics)"/.exec(html)?.[1] ?? '';
    const student = (await owner.get(`/s/${studio.slug}/student/${token}`)).html;
    expect(student).toContain('href="webcal://');
    const learn = (await owner.get(`/s/${studio.slug}/teaching`)).html;
    expect(addressIn(learn)).toBe(`/s/${studio.slug}/calendar/teaching-days.ics`);
    for (const url of [addressIn(student), addressIn(learn)]) {
      const { statusCode, body } = await house.app.inject({ url });
      expect([statusCode, body.includes('BEGIN:VEVENT')]).toEqual([200, true]);
      expect(body.includes(token)).toBe(false);
    }
  });
});
