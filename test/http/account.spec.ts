// One's own account: a second step at the sign-in, another password, signing out elsewhere; who works here; and the
// record of what was done.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, jest } from '@jest/globals';
import { codeAt } from '../../src/accounts/one-time-code.calc.js';
import { OwnAccountService } from '../../src/accounts/own-account.service.js';
import { SecondFactorStore } from '../../src/accounts/second-factor.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { rowsOf } from '../support/rows.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { type Answer, signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let home: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  home = `/s/${studio.slug}`;
});
afterAll(() => house.close());

const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
/** RFC 4648, 6, on its own: what a person's authenticator makes of the secret on the page. */
function secretOn(html: string): Buffer {
  const typed = /id="[^"]*secret[^"]*"[^>]*value="([A-Z2-7 ]+)"/.exec(html)?.[1] ?? '';
  const bits = [...typed.replaceAll(' ', '')].map((one) => BASE32.indexOf(one).toString(2).padStart(5, '0'));
  return Buffer.from((bits.join('').match(/.{8}/g) ?? []).map((one) => Number.parseInt(one, 2)));
}
const code = (secret: Buffer) => codeAt(secret, house.clock.now().epochMilliseconds);

/** Turns the assistant's second step on. */
async function withSecondStep(): Promise<{ visitor: Visitor; secret: Buffer; recovery: string[] }> {
  const visitor = await signedIn(house, studio, 'assistant');
  const secret = secretOn((await visitor.get(`${home}/desk/account`)).html);
  expect(secret).toHaveLength(20);
  const shown = await visitor.post(`${home}/desk/account/turn-on`, {
    code: code(secret),
    password: PASSWORD,
  });
  expect(shown.status).toBe(200);
  const recovery = [...shown.html.matchAll(/<code>([A-Z2-9-]{29})<\/code>/g)].map(([, one]) => one ?? '');
  expect(recovery).toHaveLength(8);
  house.clock.forward({ seconds: 60 });
  return { visitor, secret, recovery };
}

async function passwordGiven(to = ''): Promise<{ visitor: Visitor; answer: Answer }> {
  const visitor = new Visitor(house);
  await visitor.get(`${home}/sign-in${to}`);
  const answer = await visitor.post(`${home}/sign-in${to}`, {
    email: studio.assistant.email,
    password: PASSWORD,
  });
  await visitor.get(answer.location);
  return { visitor, answer };
}

it('a second step is turned on with a code, asked for at the sign-in, and turned off with one', async () => {
  const { visitor: here, secret, recovery } = await withSecondStep();
  expect(wordsOf((await here.get(`${home}/desk/account`)).html)).toContain(
    '8 recovery codes are not used yet',
  );

  const { visitor, answer } = await passwordGiven();
  expect(answer.location).toBe(`${home}/sign-in/code`);
  expect((await visitor.get(`${home}/desk`)).status).toBe(401);
  const wrong = await visitor.post(`${home}/sign-in/code`, { code: '000000' });
  expect([wrong.status, errorAt(wrong.html, 'code')]).toEqual([422, expect.stringContaining('not right')]);
  const now = code(secret);
  expect((await visitor.post(`${home}/sign-in/code`, { code: now })).location).toBe(`${home}/desk`);
  expect((await visitor.get(`${home}/desk`)).status).toBe(200);

  const again = await passwordGiven('?to=%2Fdesk%2Fmail');
  const asked = again.answer.location;
  expect(asked).toBe(`${home}/sign-in/code?to=%2Fdesk%2Fmail`);
  expect((await again.visitor.post(`${home}/sign-in/code`, { code: now })).status).toBe(422); // used already
  const [first = '', second = ''] = recovery;
  const { location } = await again.visitor.post(asked, { code: first.toLowerCase() });
  expect(location).toBe(`${home}/desk/mail`); // the page that was asked for
  const third = await passwordGiven();
  expect((await third.visitor.post(`${home}/sign-in/code`, { code: first })).status).toBe(422); // used already
  house.clock.forward({ minutes: 11 });
  expect((await third.visitor.post(`${home}/sign-in/code`, { code: second })).status).toBe(401); // took too long

  await here.get(`${home}/desk/account`);
  expect((await here.post(`${home}/desk/account/turn-off`, { code: second })).status).toBe(303);
  expect((await passwordGiven()).answer.location).toBe(`${home}/desk`);
});

it('whoever finds a screen open turns no second step on: it takes the password, and no late form keeps one', async () => {
  const visitor = await signedIn(house, studio, 'assistant');
  const secret = secretOn((await visitor.get(`${home}/desk/account`)).html);
  const turnOn = `${home}/desk/account/turn-on`;
  for (const password of ['', 'not mine']) {
    const refused = await visitor.post(turnOn, { code: code(secret), password });
    expect([refused.status, errorAt(refused.html, 'password')]).toEqual([422, 'This is not your password.']);
  }
  expect((await passwordGiven()).answer.location).toBe(`${home}/desk`);
  const late: [path: string, fields: Record<string, string>][] = [
    ['turn-on', { code: '123456', password: PASSWORD }],
    ['password', { current: PASSWORD, next: 'another sentence of mine' }],
    ['turn-off', { code: 'ABCD-EFGH' }],
  ];
  for (const [path, fields] of late) {
    const { status, html } = await visitor.post(`${home}/desk/account/${path}`, { ...fields, _form: 'old' });
    expect(status).toBe(403);
    for (const typed of Object.values(fields)) expect(html).not.toContain(typed);
  }
});

it('the API and a mailed link ask for the code too', async () => {
  const { visitor, secret } = await withSecondStep();
  const url = `/api/v1/s/${studio.slug}/sessions`;
  const body = { email: studio.assistant.email, password: PASSWORD };
  const without = await house.app.inject({ method: 'POST', url, payload: body });
  expect([without.statusCode, without.json().code]).toEqual([401, 'code_needed']);
  const token = (
    await house.app.inject({ method: 'POST', url, payload: { ...body, code: code(secret) } })
  ).json().token as string;
  const desk = {
    url: `/api/v1/s/${studio.slug}/sessions/current`,
    headers: { authorization: `Bearer ${token}` },
  };
  expect((await house.app.inject({ method: 'DELETE', ...desk })).statusCode).toBe(204);

  const other = new Visitor(house);
  await other.get(`${home}/sign-in`);
  await other.post(`${home}/sign-in/link`, { email: studio.assistant.email });
  await house.work();
  const link = /(\/s\/\S+\/sign-in\/[\w-]{43})/.exec(house.mail.sent.at(-1)?.text ?? '')?.[1] ?? '';
  await other.get(link);
  expect((await other.post(link)).location).toBe(`${home}/sign-in/code`);

  house.clock.forward({ seconds: 60 });
  await visitor.get(`${home}/desk/account`);
  await visitor.post(`${home}/desk/account/turn-off`, { code: code(secret) });
});

it('who has neither phone nor recovery codes is let in again at the machine, and the log says so', async () => {
  const { visitor } = await withSecondStep();
  const owner = await signedIn(house, studio, 'owner');
  const own = house.app.get(OwnAccountService);
  expect(await own.turnOffAtMachine(studio.id, 'nobody@elsewhere.example')).toBeNull();
  expect((await visitor.get(`${home}/desk`)).status).toBe(200);

  const folder = mkdtempSync(join(tmpdir(), 'plateday-machine-'));
  const program = ['--import', './test/support/plain-node.mjs', 'src/second-step-off.ts'];
  const { database, config } = house;
  const done = spawnSync(process.execPath, [...program, studio.slug, studio.assistant.email.toUpperCase()], {
    cwd: join(import.meta.dirname, '../..'),
    encoding: 'utf8',
    env: { DATABASE_URL: database.url, PLATEDAY_HOME: folder, SECRET_KEY: String(config.secretKey) },
  });
  rmSync(folder, { recursive: true });
  expect([done.status, done.stderr]).toEqual([0, '']);
  expect(done.stdout).toContain(`The second step of ${studio.assistant.name}`);
  expect(done.stdout).toMatch(/they are signed out \(\d+ devices?\)/);
  expect((await visitor.get(`${home}/desk`)).status).toBe(401);
  expect((await owner.get(`${home}/desk`)).status).toBe(200);
  expect((await passwordGiven()).answer.location).toBe(`${home}/desk`);
  const log = wordsOf((await owner.get(`${home}/desk/settings/log`)).html);
  expect(log).toContain(`whoever has the machine account second step turned off: ${studio.assistant.name}`);
  const again = await own.turnOffAtMachine(studio.id, studio.assistant.email);
  expect(again).toMatchObject({ wasOn: false, sessions: 0 });
});

it('one code lets in one of many who give it at the same moment, and all without its guard', async () => {
  const { visitor: here, secret } = await withSecondStep();
  const atOnce = async () => {
    house.clock.forward({ seconds: 60 });
    const half = await Promise.all(Array.from({ length: 6 }, passwordGiven));
    const now = code(secret);
    const all = await Promise.all(
      half.map(({ visitor }) => visitor.post(`${home}/sign-in/code`, { code: now })),
    );
    return all.filter(({ status }) => status === 303).length;
  };
  expect(await atOnce()).toBe(1);
  jest.spyOn(SecondFactorStore.prototype, 'takeStep').mockResolvedValue(true);
  expect(await atOnce()).toBe(6);
  jest.restoreAllMocks();
  house.clock.forward({ seconds: 60 });
  await here.get(`${home}/desk/account`);
  await here.post(`${home}/desk/account/turn-off`, { code: code(secret) });
});

it('another password ends all other sessions; weak ones are refused in a sentence', async () => {
  const [here, there] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
  const change = (fields: Record<string, string>) => here.post(`${home}/desk/account/password`, fields);
  await here.get(`${home}/desk/account`);
  const refusals = [
    [{ current: 'not mine', next: 'a sentence of my own' }, 'current', 'This is not your password.'],
    [{ current: PASSWORD, next: 'short' }, 'next', 'at least 8 characters'],
    [{ current: PASSWORD, next: 'password123' }, 'next', 'everybody tries first'],
    [{ current: PASSWORD, next: 'sandpiper loft 1' }, 'next', 'too near'],
  ] as const;
  for (const [fields, at, sentence] of refusals) {
    const refused = await change(fields);
    expect([refused.status, errorAt(refused.html, at)]).toEqual([422, expect.stringContaining(sentence)]);
  }
  const sessions = async () => {
    const rows = await rowsOf<{ id: string }>(
      house,
      studio.id,
      'select session_id as id from session where account_id = $1',
      [studio.owner.id],
    );
    return rows.map(({ id }) => id);
  };
  const before = await sessions();
  expect((await change({ current: PASSWORD, next: 'a sentence of my own' })).status).toBe(303);
  const after = await sessions();
  expect([after.length, before.includes(after[0] ?? '')]).toEqual([1, false]); // and here goes on with another
  expect((await there.get(`${home}/desk`)).status).toBe(401);
  expect((await here.get(`${home}/desk`)).status).toBe(200);
  expect((await change({ current: 'a sentence of my own', next: PASSWORD })).status).toBe(303);
});

it('sessions are listed with their device, ended one by one, and all but this one', async () => {
  await rowsOf(house, studio.id, 'delete from session');
  const here = await signedIn(house, studio, 'owner');
  const others = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
  const page = await here.get(`${home}/desk/account`);
  const ids = [...page.html.matchAll(/name="session" value="([0-9a-f-]{36})"/g)].map(([, id]) => id ?? '');
  expect(ids).toHaveLength(2);
  await here.post(`${home}/desk/account/end`, { session: ids[0] ?? '' });
  const still = await Promise.all(others.map((one) => one.get(`${home}/desk`)));
  expect(still.map(({ status }) => status).sort()).toEqual([200, 401]);
  await here.post(`${home}/desk/account/end-others`);
  for (const one of others) expect((await one.get(`${home}/desk`)).status).toBe(401);
  expect((await here.get(`${home}/desk`)).status).toBe(200);
});

it('an assistant is invited by mail, chooses a password, works here, and is out when the owner says so', async () => {
  const owner = await signedIn(house, studio, 'owner');
  await owner.get(`${home}/desk/settings/accounts`);
  const invite = (fields: Record<string, string>) => owner.post(`${home}/desk/settings/accounts`, fields);
  const taken = await invite({ name: 'Ines', email: studio.owner.email });
  expect([taken.status, errorAt(taken.html, 'email')]).toEqual([422, expect.stringContaining('already')]);
  expect((await invite({ name: 'Ines Marlow', email: 'ines@curlew.example', role: 'owner' })).status).toBe(
    303,
  );
  await house.work();
  const mail = house.mail.sent.at(-1);
  expect(mail?.to.address).toBe('ines@curlew.example');
  const link = /(\/s\/\S+\/join\/[\w-]{43})/.exec(mail?.text ?? '')?.[1] ?? '';
  const [row] = await rowsOf<{ id: string; role: string }>(
    house,
    studio.id,
    `select account_id as id, role from account where email = 'ines@curlew.example'`,
  );
  expect(row?.role).toBe('assistant'); // whatever the form said

  const ines = new Visitor(house);
  for (const method of ['HEAD', 'GET'] as const) expect(await ines.look(method, link)).toBe(200);
  await ines.get(link);
  const weak = await ines.post(link, { name: 'Ines', password: '12345678' });
  expect(errorAt(weak.html, 'password')).toContain('everybody tries first');
  expect(weak.html).toContain('value="Ines"');
  expect((await ines.post(link, { name: 'Ines', password: 'tide tables, read aloud' })).location).toBe(
    `${home}/desk`,
  );
  expect((await ines.get(`${home}/desk`)).status).toBe(200);
  expect((await ines.get(`${home}/desk/settings/accounts`)).status).toBe(403);
  expect((await new Visitor(house).get(link)).status).toBe(410); // once only

  await owner.get(`${home}/desk/settings/accounts`);
  expect((await owner.post(`${home}/desk/settings/accounts/${row?.id}/remove`)).status).toBe(303);
  expect((await ines.get(`${home}/desk`)).status).toBe(401);
  const log = wordsOf((await owner.get(`${home}/desk/settings/log`)).html);
  for (const deed of [
    'invited: Ines Marlow',
    'joined: Ines',
    'removed: Ines',
    'password changed',
    'signed in',
  ])
    expect(log).toContain(deed);
});

it('an invitation is good for a week, and not longer', async () => {
  const owner = await signedIn(house, studio, 'owner');
  await owner.get(`${home}/desk/settings/accounts`);
  await owner.post(`${home}/desk/settings/accounts`, { name: 'Late', email: 'late@curlew.example' });
  await house.work();
  const link = /(\/s\/\S+\/join\/[\w-]{43})/.exec(house.mail.sent.at(-1)?.text ?? '')?.[1] ?? '';
  const late = new Visitor(house);
  house.clock.forward({ hours: 7 * 24 - 1 });
  expect((await late.get(link)).status).toBe(200);
  house.clock.forward({ hours: 1 });
  expect((await late.get(link)).status).toBe(410);
  expect((await late.post(link, { name: 'Late', password: 'tide tables, read aloud' })).status).toBe(410);
  const mails = house.mail.sent.length;
  await late.get(`${home}/sign-in`);
  const asked = await late.post(`${home}/sign-in/link`, { email: 'late@curlew.example' });
  await house.work();
  expect([asked.status, house.mail.sent.length - mails]).toEqual([200, 0]); // no way round it
});

it('the record of what was done can be read on and on, and takes no change', async () => {
  const owner = await signedIn(house, studio, 'owner');
  await rowsOf(
    house,
    studio.id,
    `insert into history (studio_id, at, who, about_kind, about_id, event, note)
     select $1, '2026-11-25T09:00:00Z', 'Wren', 'settings', $1, 'change', 'line ' || n from generate_series(1, 130) n`,
    [studio.id],
  );
  const first = await owner.get(`${home}/desk/settings/log`);
  const older = /log\?before=(\d+)/.exec(first.html)?.[1] ?? '';
  const second = await owner.get(`${home}/desk/settings/log?before=${older}`);
  expect(wordsOf(first.html)).toContain('line 130');
  expect(wordsOf(second.html)).toContain('line 1');
  expect(wordsOf(second.html)).not.toContain('line 130');
  await expect(
    house.db.inStudio(studio.id, (tx) =>
      tx.run('update history set who = $2 where studio_id = $1', [studio.id, 'nobody']),
    ),
  ).rejects.toThrow(/permission denied/);
});
