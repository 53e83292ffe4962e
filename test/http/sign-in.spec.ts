// Owner and assistant sign in, by password or by a mailed link, and out again.
import type { Response } from 'light-my-request';
import { fingerprint } from '../support/all-rows.js';
import { call, callerAt, NO_SECRET, sessionCookie } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { rowsOf } from '../support/rows.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { type Answer, signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let door: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  door = `/s/${studio.slug}/sign-in`;
});
afterAll(() => house.close());

async function tried(email: string, password: string): Promise<Answer> {
  const visitor = new Visitor(house);
  await visitor.get(door);
  return visitor.post(door, { email, password });
}

/** Asks for a link, and reads it in the mail that came; '' when none came. */
async function mailedLink(email: string): Promise<{ answer: Answer; link: string }> {
  const visitor = new Visitor(house);
  await visitor.get(door);
  const before = house.mail.sent.length;
  const answer = await visitor.post(`${door}/link`, { email });
  await house.work();
  const [mail] = house.mail.sent.slice(before);
  return { answer, link: /http:\/\/localhost:4180(\/s\/\S+)/.exec(mail?.text ?? '')?.[1] ?? '' };
}

/** What stays the same when an address or a token is another. */
const bare = (html: string, ...typed: string[]) =>
  typed.reduce((text, one) => text.replaceAll(one, '…'), html).replace(/value="[^"]{30,}"/g, '');

describe('By password', () => {
  it.each(['owner', 'assistant'] as const)('the %s comes to the desk', async (role) => {
    const visitor = new Visitor(house);
    await visitor.get(door);
    const desk = await visitor.postAndFollow(door, { email: studio[role].email, password: PASSWORD });
    expect(desk.status).toBe(200);
    expect(wordsOf(desk.html)).toContain(studio[role].name);
    expect((await visitor.get(door)).location).toBe(`/s/${studio.slug}/desk`);
  });

  it('whoever asked for a page of the desk comes to it, also after a slip', async () => {
    const visitor = new Visitor(house);
    const wanted = '/desk/requests?kind=any';
    const asked = await visitor.get(`/s/${studio.slug}${wanted}`);
    const link = /href="([^"]*sign-in[^"]*)"/.exec(asked.html)?.[1] ?? '';
    expect([asked.status, link]).toEqual([401, `${door}?to=${encodeURIComponent(wanted)}`]);
    await visitor.get(link);
    const slip = await visitor.post(link, { email: studio.owner.email, password: 'not the password' });
    expect(fieldsOf(slip.html, link)).toMatchObject({ email: studio.owner.email });
    const answer = await visitor.post(link, { email: studio.owner.email, password: PASSWORD });
    expect(answer.location).toBe(`/s/${studio.slug}${wanted}`);
    expect((await visitor.get(link)).location).toBe(`/s/${studio.slug}${wanted}`); // signed in already
  });

  it.each([
    '//elsewhere.example',
    'https://elsewhere.example/desk',
    '/sign-out',
    '/desk/../sign-out',
    '/desk\n',
  ])('nobody is led to %s', async (to) => {
    const visitor = new Visitor(house);
    const link = `${door}?to=${encodeURIComponent(to)}`;
    await visitor.get(link);
    const answer = await visitor.post(link, { email: studio.owner.email, password: PASSWORD });
    expect(answer.location).toBe(`/s/${studio.slug}/desk`);
  });

  it('the address may be typed in capitals and with spaces around it', async () => {
    expect((await tried(`  ${studio.owner.email.toUpperCase()} `, PASSWORD)).status).toBe(303);
  });

  it('a wrong password and an unknown address are answered with the same words and status', async () => {
    const wrong = await tried(studio.owner.email, 'not the password');
    const unknown = await tried('nobody@elsewhere.example', 'not the password');
    expect([wrong.status, unknown.status]).toEqual([401, 401]);
    expect(errorAt(wrong.html, 'email')).toBe('That e-mail address and password do not go together');
    expect(bare(wrong.html, studio.owner.email)).toBe(bare(unknown.html, 'nobody@elsewhere.example'));
    expect(fieldsOf(wrong.html, door)).toMatchObject({ email: studio.owner.email, password: '' });
    expect(wrong.html).not.toContain('not the password');
  });

  it.each([
    ['nothing', '', '', 'email', 'Please give an e-mail address like name@example.org.'],
    ['no address', 'owner', PASSWORD, 'email', 'Please give an e-mail address like name@example.org.'],
    ['no password', 'a@b.example', '', 'password', 'Please type your password.'],
    [
      'a long password',
      'a@b.example',
      'x'.repeat(10_000),
      'password',
      'A password has at most 500 characters.',
    ],
    ['a long address', `${'x'.repeat(10_000)}@b.example`, 'x', 'email', 'An e-mail address has at most 254'],
    ['a NUL', 'a\0b@c.example', 'x', 'email', 'Please give an e-mail address like name@example.org.'],
  ])('%s is told beside its field', async (_title, email, password, field, sentence) => {
    const answer = await tried(email, password);
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, field)).toContain(sentence);
    expect(fieldsOf(answer.html, door).email).toBe(email.trim());
  });

  it('the password counts as it was typed, to its last character, and for as long as it is not changed', async () => {
    for (const near of [`${PASSWORD} `, ` ${PASSWORD}`, PASSWORD.toUpperCase(), PASSWORD.slice(0, -1)])
      expect([near, (await tried(studio.owner.email, near)).status]).toEqual([near, 401]);
    const now = house.clock.now().toString();
    house.clock.forward({ hours: 5 * 365 * 24 });
    expect((await tried(studio.owner.email, PASSWORD)).status).toBe(303);
    house.clock.set(now);
  });

  it('the box of a password hides it, and lets a browser or a keeper of passwords fill it in', async () => {
    const owner = await signedIn(house, studio, 'owner');
    const pages = [await new Visitor(house).get(door), await owner.get(`/s/${studio.slug}/desk/account`)];
    const boxes = pages.flatMap(({ html }) => html.match(/<input[^>]*password[^>]*>/g) ?? []);
    expect(boxes.length).toBe(4); // to sign in; to turn a second step on; the one of now, and a new one
    for (const box of boxes) {
      expect(box).toContain('type="password"');
      expect(box).toMatch(/autocomplete="(current|new)-password"/);
      expect(box).not.toMatch(/\sonpaste|maxlength|readonly/);
    }
  });

  it('lists where texts are expected are no way in', async () => {
    const visitor = new Visitor(house);
    await visitor.get(door);
    const { status } = await visitor.post(door, {
      email: [studio.owner.email, 'a@b.example'],
      password: [PASSWORD, PASSWORD],
    });
    expect(status).toBe(422);
  });
});

describe('By a mailed link', () => {
  it('opening it uses nothing up; its button signs in, once', async () => {
    const { answer, link } = await mailedLink(studio.owner.email);
    expect(answer.status).toBe(200);
    expect(wordsOf(answer.html)).toContain('a link is on its way. It works once, within 10 minutes.');
    const scanner = new Visitor(house);
    const before = await fingerprint(house);
    for (const method of ['GET', 'HEAD', 'GET'] as const) expect(await scanner.look(method, link)).toBe(200);
    expect(await fingerprint(house)).toBe(before);
    const owner = new Visitor(house);
    const page = await owner.get(link);
    expect(page.header('cache-control')).toBe('no-store');
    expect(page.header('referrer-policy')).toBe('no-referrer');
    expect(page.html).toContain('<meta name="robots" content="noindex"/>');
    expect((await owner.postAndFollow(link)).status).toBe(200);
    expect((await owner.get(`/s/${studio.slug}/desk`)).status).toBe(200);
    for (const again of [await owner.post(link), await owner.get(link)]) {
      expect(again.status).toBe(410);
      expect(wordsOf(again.html)).toContain('This link was used already');
    }
  });

  it('eight presses at the same moment begin one session', async () => {
    const { link } = await mailedLink(studio.owner.email);
    const visitor = new Visitor(house);
    await visitor.get(link);
    const all = await Promise.all(Array.from({ length: 8 }, () => visitor.post(link)));
    const statuses = all.map((one) => one.status).sort();
    expect(statuses).toEqual([303, 410, 410, 410, 410, 410, 410, 410]);
  });

  it('after ten minutes it has run out', async () => {
    const { link } = await mailedLink(studio.owner.email);
    const visitor = new Visitor(house);
    await visitor.get(link);
    house.clock.forward({ minutes: 11 });
    for (const late of [await visitor.post(link), await visitor.get(link)]) expect(late.status).toBe(410);
    expect((await visitor.get(`/s/${studio.slug}/desk`)).status).toBe(401);
  });

  it('as much is written down for an address of nobody as for one of ours, so that the time tells nothing', async () => {
    const visitor = new Visitor(house);
    await visitor.get(door);
    const written = async (email: string) => {
      const before = await rowsKept();
      expect((await visitor.post(`${door}/link`, { email })).status).toBe(200);
      const after = await rowsKept();
      await house.work();
      return after.map((count, at) => count - (before[at] ?? 0));
    };
    expect(await written(studio.owner.email)).toEqual([1, 1]);
    expect(await written('nobody@elsewhere.example')).toEqual([1, 1]);
  });

  /** Links, and jobs that wait. */
  async function rowsKept(): Promise<number[]> {
    const counts = `select (select count(*) from link)::int as links,
      (select count(*) from graphile_worker._private_jobs)::int as jobs`;
    const [row] = await rowsOf<{ links: number; jobs: number }>(house, studio.id, counts);
    return [row?.links ?? 0, row?.jobs ?? 0];
  }

  it('an address that belongs to nobody gets the same answer, and no mail', async () => {
    const known = await mailedLink(studio.owner.email);
    const unknown = await mailedLink('nobody@elsewhere.example');
    expect(unknown.answer.status).toBe(known.answer.status);
    expect(bare(unknown.answer.html, 'nobody@elsewhere.example')).toBe(
      bare(known.answer.html, studio.owner.email),
    );
    expect([known.link !== '', unknown.link]).toEqual([true, '']);
  });
});

describe('The session', () => {
  it('ends on signing out, on the server too', async () => {
    const owner = await signedIn(house, studio, 'owner');
    const desk = `/s/${studio.slug}/desk`;
    await owner.get(desk);
    const left = await owner.postAndFollow(`/s/${studio.slug}/sign-out`);
    expect(left.status).toBe(200);
    const after = await owner.get(desk);
    expect(after.status).toBe(401);
    expect(after.html).toContain(`<a href="${door}?to=%2Fdesk">Sign in</a>`);
  });

  it('ends when its browser signs in anew, and no session that somebody else put there is taken up', async () => {
    const [desk, signIn] = ['/s/:slug/desk', '/s/:slug/sign-in'];
    const owner = await callerAt(house, studio, 'owner');
    const fields = { email: studio.owner.email, password: PASSWORD };
    for (const held of [owner.secret, NO_SECRET]) {
      const browser = { ...owner, cookie: `${sessionCookie(studio)}=${held}` };
      const answer = await call(house, studio, { method: 'POST', path: signIn }, browser, { fields });
      const given = String(answer.headers['set-cookie']);
      expect([answer.status, given.includes(`${browser.cookie};`)]).toEqual([303, false]);
      expect(given).toMatch(new RegExp(`^${sessionCookie(studio)}=[\\w-]{43};`));
      expect((await call(house, studio, { method: 'GET', path: desk }, browser)).status).toBe(401);
    }
    const api = { method: 'GET', path: '/api/v1/s/:slug/requests' } as const;
    expect((await call(house, studio, api, owner)).status).toBe(401);
  });

  it('takes what the browser kept of our pages along when it ends', async () => {
    const owner = await signedIn(house, studio, 'owner');
    await owner.get(`/s/${studio.slug}/desk`);
    const left = await owner.post(`/s/${studio.slug}/sign-out`);
    expect([left.status, left.header('clear-site-data')]).toEqual([303, '"cache"']);
  });

  it('is forgotten after 14 days unused, and after 30 in any case', async () => {
    const desk = `/s/${studio.slug}/desk`;
    const now = house.clock.now().toString();
    const [idle, busy] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
    const seen: number[] = [];
    for (let day = 0; day < 30; day += 10) {
      house.clock.forward({ hours: 10 * 24 });
      seen.push((await busy.get(desk)).status);
    }
    house.clock.set(now);
    house.clock.forward({ hours: 14 * 24 + 1 });
    seen.push((await idle.get(desk)).status);
    house.clock.set(now);
    expect(seen).toEqual([200, 200, 401, 401]);
  });
});

describe('Cookies', () => {
  async function setCookies(at: TestHouse, where: TestStudio): Promise<Response['cookies']> {
    const url = `/s/${where.slug}/sign-in`;
    const page = await at.app.inject({ url });
    const cookie = page.cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    const answer = await at.app.inject({
      method: 'POST',
      url,
      headers: { cookie, 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({
        _form: String(fieldsOf(page.body, url)._form),
        email: where.owner.email,
        password: PASSWORD,
      }).toString(),
    });
    expect(answer.statusCode).toBe(303);
    return [...page.cookies, ...answer.cookies];
  }

  it('are out of reach of scripts and other sites, and go over http on this machine', async () => {
    const cookies = await setCookies(house, studio);
    expect(cookies.map(({ name }) => name)).toEqual(['plateday-form', sessionCookie(studio)]);
    for (const one of cookies) {
      expect(one).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/' });
      expect(one).not.toHaveProperty('secure');
      expect(one).not.toHaveProperty('domain');
    }
    expect(cookies[1]?.value).toMatch(/^[\w-]{43}$/); // 256 bits
    expect(cookies[1]?.maxAge).toBe(30 * 24 * 3600);
    expect((await setCookies(house, studio))[1]?.value).not.toBe(cookies[1]?.value);
  });

  it('are bound to the host, and to https, where that is how people reach us', async () => {
    const secure = await openTestHouse({ env: { PUBLIC_URL: 'https://plates.example' } });
    try {
      const there = await foundTestStudio(secure);
      const cookies = await setCookies(secure, there);
      expect(cookies.map(({ name }) => name)).toEqual([
        '__Host-plateday-form',
        `__Host-${sessionCookie(there)}`,
      ]);
      for (const one of cookies) {
        expect(one).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/', secure: true });
        expect(one).not.toHaveProperty('domain');
      }
    } finally {
      await secure.close();
    }
  });

  it('of a studio carry its name, so that one browser can be signed in at two', async () => {
    const other = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
    const visitor = await signedIn(house, studio, 'owner');
    await visitor.get(`/s/${other.slug}/sign-in`);
    await visitor.post(`/s/${other.slug}/sign-in`, { email: other.assistant.email, password: PASSWORD });
    expect(wordsOf((await visitor.get(`/s/${other.slug}/desk`)).html)).toContain('Turnstone Attic');
    expect((await visitor.get(`/s/${studio.slug}/desk/mail`)).status).toBe(200);
    expect((await visitor.get(`/s/${other.slug}/desk/mail`)).status).toBe(403);
  });
});
