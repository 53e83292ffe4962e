// The owner's own words for letters: shown as they would read, kept as versions, and in every letter written from then
// on, in its language. What is so (day, place, link) stands there whatever they write.
import { simpleParser } from 'mailparser';
import { createTransport } from 'nodemailer';
import { toMailOptions } from '../../src/platform/mailer.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { headersOf } from '../support/raw-mail.js';
import {
  type Asking,
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  type TestStudio,
} from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let words: string;
let starts: string[];
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  words = `/s/${studio.slug}/desk/mail/words`;
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-06-25' });
});
afterAll(() => house.close());

const own = {
  subject: 'Come, {name}: {place}',
  body: 'Dear friend of {studio},\n\nwe are glad. Braces: {{a}}.',
};
/** Sends the form of a letter as it stands, with other words. */
async function keep(kind: string, more: Record<string, string>, visitor = owner) {
  const path = `${words}/${kind}`;
  const { html } = await visitor.get(path);
  return visitor.post(path, { ...fieldsOf(html, path), do: 'keep', ...more });
}
async function confirmed(name: string, more: Asking = {}) {
  const { sittingId, token } = await askForSitting(house, studio, { name, sitters: [name], ...more });
  await house.work();
  house.mail.sent.length = 0;
  await approve(house, studio, sittingId, starts.shift() ?? '');
  await house.work();
  const message = house.mail.sent.find(({ to }) => to.name === name);
  if (!message) throw new Error(`No letter went to ${name}.`);
  return { message, sittingId, page: `/s/${studio.slug}/place/${token}` };
}
const letters = (sittingId: string) =>
  house.app
    .get(OutboxService)
    .latest(studio.id)
    .then((all) => all.filter((one) => one.about_id === sittingId && one.kind === 'confirmed'));

it('begins with ours, and with somebody invented', async () => {
  const list = await owner.get(words);
  expect(wordsOf(list.html)).toMatch(/Asking and offers.*Confirmed and changed.*Before the day.*Teaching/);
  const { html } = await owner.get(`${words}/confirmed/en`);
  const form = fieldsOf(html, `${words}/confirmed/en`);
  expect(form).toMatchObject({ subject: 'Your place at {studio}: {place}', seen: '0' });
  expect(form.body).toMatch(
    /^We are glad to tell you that you have a place\. The calendar entry is attached\.\n\nIf/,
  );
  expect(wordsOf(html)).toContain('The person in it is invented');
  expect((await owner.get(`${words}/nothing/en`)).status).toBe(404);
  expect((await owner.get(`${words}/confirmed/xx`)).status).toBe(404);
});

it('says what is wrong beside the field, loses nothing and keeps nothing', async () => {
  const wrong: [Record<string, string>, string, RegExp][] = [
    [{ subject: 'A {nobody}' }, 'subject', /“\{nobody\}” is not known in this letter/],
    [{ subject: '' }, 'subject', /Please write a subject/],
    [{ subject: 'x'.repeat(151) }, 'subject', /at most 150 characters/],
    [{ body: ' \r\n ' }, 'body', /Please write what the letter says/],
    [{ body: 'x'.repeat(5001) }, 'body', /under 5,000 characters/],
    [{ body: 'a { b' }, 'body', /brace “\{” that belongs to nothing/],
    [{ body: 'Held until {until}' }, 'body', /“\{until\}” is not known/],
    [{ body: '{constructor} {__proto__}' }, 'body', /“\{constructor\}” is not known/],
  ];
  for (const [more, field, sentence] of wrong) {
    const answer = await keep('confirmed/en', { ...own, ...more });
    expect([answer.status, errorAt(answer.html, field)]).toEqual([422, expect.stringMatching(sentence)]);
    expect(fieldsOf(answer.html, `${words}/confirmed/en`)).toMatchObject(
      field === 'subject' ? { body: own.body } : { subject: own.subject },
    );
  }
  expect((await owner.get(words)).html).not.toContain('yours');
});

it('shows how they read, and has them in letters written from then on, as they were then', async () => {
  const looked = await keep('confirmed/en', { ...own, do: 'look' });
  expect(wordsOf(looked.html)).toContain('we are glad. Braces: {a}.');
  expect((await owner.get(words)).html).not.toContain('yours');
  expect((await keep('confirmed/en', own)).location).toBe(`${words}/confirmed/en?done=kept`);
  expect(wordsOf((await owner.get(words)).html)).toContain('yours, version 1');

  const { message, sittingId, page } = await confirmed('Ebba Fjordvik');
  expect(message.subject).toBe('Come, Ebba Fjordvik: Friday 5 March 2027, 09:30');
  for (const there of ['Dear Ebba Fjordvik,', 'Dear friend of Sandpiper Loft,', 'Braces: {a}.'])
    expect(message.text).toContain(there);
  for (const there of ['Day: Friday 5 March 2027', 'Sitter: Ebba Fjordvik', page, 'Ropewalk'])
    expect(message.text).toContain(there);
  expect(message.text).not.toContain('We are glad to tell you');

  await keep('confirmed/en', { subject: 'Other', body: 'Other' });
  const [mail] = await letters(sittingId);
  const again = await house.app.get(OutboxService).read(studio.id, mail?.mail_id ?? '');
  expect(again.letter?.subject).toBe(message.subject);
  const shown = await owner.get(`${words}/confirmed/en`);
  expect(wordsOf(shown.html)).toContain('As it would go to Ebba Fjordvik');
  expect((await confirmed('Merrin Locke')).message.subject).toBe('Other');
});

it('goes back to an older version and to ours, as further versions', async () => {
  const path = `${words}/confirmed/en`;
  await owner.get(path);
  expect((await owner.post(`${path}/back`, { version: '1' })).location).toBe(`${path}?done=back`);
  expect((await confirmed('Ottilie Marsh')).message.subject).toMatch(/^Come, Ottilie Marsh: /);
  await owner.get(path);
  expect(wordsOf((await owner.postAndFollow(`${path}/back`, { version: '0' })).html)).toContain(
    'those words again',
  );
  expect((await confirmed('Wilfred Askew')).message.subject).toMatch(/^Your place at Sandpiper Loft: /);
  const { html } = await owner.get(path);
  expect(fieldsOf(html, path)).toMatchObject({ subject: 'Your place at {studio}: {place}', seen: '4' });
  expect((await owner.post(`${path}/back`, { version: '99' })).status).toBe(404);
});

it('of two who keep words at once the second is told, and puts theirs in the place knowingly', async () => {
  const other = await signedIn(house, studio, 'owner');
  const path = `${words}/declined/en`;
  const form = { ...fieldsOf((await other.get(path)).html, path), do: 'keep' };
  await keep('declined/en', { subject: 'First', body: 'First' });
  const second = await other.post(path, { ...form, subject: 'Second', body: 'Second' });
  expect([second.status, fieldsOf(second.html, path)]).toEqual([
    409,
    expect.objectContaining({ subject: 'Second', body: 'Second', seen: '1' }),
  ]);
  const { status } = await other.post(path, { ...fieldsOf(second.html, path), do: 'keep' });
  expect(status).toBe(303);
  expect(fieldsOf((await owner.get(path)).html, path)).toMatchObject({ subject: 'Second', seen: '2' });
});

it('are those of the language of whoever gets them', async () => {
  await keep('confirmed/fr', { subject: 'Venez, {name}', body: 'À bientôt le {day}.' });
  const { message } = await confirmed('Aubin Vire', { language: 'fr' });
  expect(message.subject).toBe('Venez, Aubin Vire');
  expect(message.text).toMatch(
    /Bonjour Aubin Vire,\n\nÀ bientôt le vendredi \d+ \S+ 2027\.\n\nJour: vendredi/,
  );
});

it('hostile words add no header and no markup', async () => {
  const bad = {
    subject: 'Hi {name}\r\nBcc: eve@evil.example =?utf-8?Q?=0D=0ABcc:_eve=40evil.example?=',
    body: '<script>alert(1)</script></p>\r\n\r\n{{name}} {{{name}}} =?utf-8?B?QQ0K?=\r\n.\r\n--x',
  };
  expect((await keep('confirmed/en', bad)).status).toBe(303);
  const { message } = await confirmed('{studio} <b>Eve</b>');
  const built = await createTransport({ streamTransport: true, buffer: true }).sendMail(
    toMailOptions(message),
  );
  const raw = built.message as Buffer;
  expect(headersOf(raw).map(([name]) => name.toLowerCase())).not.toContain('bcc');
  const read = await simpleParser(raw, { skipHtmlToText: true });
  expect([read.to].flat().flatMap((one) => one?.value ?? [])).toHaveLength(1);
  expect(message.html).not.toMatch(/<script|<b>Eve/);
  expect(message.html).toContain('{name} {{studio} &lt;b>Eve&lt;/b>}');
  const { html } = await owner.get(`${words}/confirmed/en`);
  expect(html).not.toMatch(/<script>alert|<b>Eve/);
});
