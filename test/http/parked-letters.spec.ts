// Letters that did not go: what the owner is told of them, and sending one again.
import { historyBefore } from '../../src/platform/db/history.js';
import { DayLetters } from '../../src/reminders/day-letters.service.js';
import { studioFacts } from '../../src/reminders/letter-facts.calc.js';
import { Sending } from '../../src/reminders/sending.service.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let desk: string;
let owner: Visitor;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { halfGlass: 100n, wholeGlass: 100n } });
  desk = `/s/${studio.slug}/desk`;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());
beforeEach(() => house.clock.forward({ seconds: 1 })); // letters of different tests differ in time

const mailOf = async (kind: string) => {
  const found = (await house.app.get(OutboxService).latest(studio.id)).find((one) => one.kind === kind);
  if (!found) throw new Error(`There is no letter "${kind}".`);
  return found;
};
const letterPage = async (id: string) => wordsOf((await owner.get(`${desk}/mail/${id}`)).html);
const busyServer = () => Object.assign(new Error('421 try later'), { responseCode: 421 });

it('a letter that was refused is told as refused, and can be sent again once', async () => {
  const { sittingId } = await askForSitting(house, studio, { email: 'ysolt@post.example' });
  house.mail.failures.push(...[1, 2].map(() => Object.assign(new Error('550 no'), { responseCode: 550 })));
  await house.work();
  const mail = await mailOf('asked');
  expect([mail.state, mail.attempts]).toEqual(['parked', 1]);
  expect(await letterPage(mail.mail_id)).toContain('refused by the mail server');
  const again = await owner.postAndFollow(`${desk}/mail/${mail.mail_id}/send-again`);
  expect(wordsOf(again.html)).toContain('It is being sent again.');
  expect(wordsOf(again.html)).not.toContain('Send it again');
  await house.work();
  expect(house.mail.sent.map((one) => one.to.address)).toEqual(['ysolt@post.example']);
  expect((await mailOf('asked')).state).toBe('sent');
  const history = wordsOf((await owner.get(`${desk}/requests/${sittingId}`)).html);
  expect(history.match(/Isaura Fenwick had a letter sent again/g)).toHaveLength(1);
  expect((await owner.post(`${desk}/mail/${mail.mail_id}/send-again`)).status).toBe(409);
});

it('a letter that was tried in vain is told with its tries, and has as many more when it is sent again', async () => {
  await askForSitting(house, studio, { name: 'Corin Ashby', email: 'corin@post.example' });
  const failing = (count: number) => house.mail.failures.push(...Array.from({ length: count }, busyServer));
  failing(2); // the sitter's and the owner's
  await house.work();
  const mail = await mailOf('asked');
  const send = () => house.app.get(Sending).send(studio.id, mail.mail_id);
  failing(11);
  for (let count = 2; count <= 11; count++) await expect(send()).rejects.toThrow('421');
  expect((await mailOf('asked')).state).toBe('waiting');
  await send();
  expect(await mailOf('asked')).toMatchObject({ state: 'parked', attempts: 12 });
  const told = await letterPage(mail.mail_id);
  expect(told).toContain('given up after 12 tries');
  expect(told).not.toContain('refused');
  await owner.post(`${desk}/mail/${mail.mail_id}/send-again`);
  failing(1);
  await expect(send()).rejects.toThrow('421');
  expect((await mailOf('asked')).state).toBe('waiting');
  await send();
  expect((await mailOf('asked')).state).toBe('sent');
});

it('the log says of each letter that is sent again what it is about', async () => {
  const { sessionId } = await teachingDay(house, studio);
  const { signUpId } = await signUp(house, studio, sessionId, { email: 'ewan@post.example' });
  const { sittingId } = await askForSitting(house, studio, { email: 'maud@post.example' });
  const { id } = studio;
  const day = { day: '2026-11-26', evening: false, today: [], tomorrow: [], due: [], calls: [] };
  await house.db.inStudio(id, async (tx) => {
    const at = await house.app.get(StudiosService).load(tx);
    const offers = [{ name: 'Maud', until: '2026-11-27T18:00:00' }];
    await house.app.get(DayLetters).post(tx, at, { ...day, offers, studio: studioFacts(at) });
  });
  house.mail.failures.push(
    ...Array.from({ length: 5 }, () => Object.assign(new Error('550'), { responseCode: 550 })),
  );
  await house.work();
  const mails = (await house.app.get(OutboxService).latest(id)).filter(
    ({ about_id: about, state }) => state === 'parked' && [signUpId, sittingId, id].includes(about),
  );
  for (const { mail_id } of mails) await owner.post(`${desk}/mail/${mail_id}/send-again`);
  const lines = await house.db.inStudio(id, (tx) => historyBefore(tx, null, 5));
  expect(lines.map((one) => [one.event, one.note, one.about_kind, one.about_id]).sort()).toEqual([
    ['send again', 'asked', 'sitting', sittingId],
    ['send again', 'owner: asked', 'sitting', sittingId],
    ['send again', 'owner: day', 'day letter', id],
    ['send again', 'owner: teaching', 'sign-up', signUpId],
    ['send again', 'teaching', 'sign-up', signUpId],
  ]);
  await house.work();
});

it('a letter with a sign-in link is not sent again', async () => {
  const visitor = new Visitor(house);
  await visitor.get(`/s/${studio.slug}/sign-in`);
  await visitor.post(`/s/${studio.slug}/sign-in/link`, { email: studio.owner.email });
  house.mail.failures.push(Object.assign(new Error('550 no'), { responseCode: 550 }));
  await house.work();
  const { mail_id, state } = await mailOf('sign-in');
  expect(state).toBe('parked');
  expect(await letterPage(mail_id)).not.toContain('Send it again');
  expect((await owner.post(`${desk}/mail/${mail_id}/send-again`)).status).toBe(409);
});
