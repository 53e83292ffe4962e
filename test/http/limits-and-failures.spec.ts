// Too many requests, and failures of our own: what is told outside, what stands in the log.
import pg from 'pg';
import type { Response } from 'light-my-request';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { callerAt } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { Visitor } from '../support/visitor.js';

/** The settings as they are when nobody changes them. */
const DEFAULTS = { FORM_LIMIT_PER_MINUTE: '', RATE_LIMIT_PER_MINUTE: '', SIGN_IN_TRIES: '' };

interface Asking {
  method?: 'GET' | 'POST';
  from?: string;
  headers?: Record<string, string>;
}

async function withHouse<T>(env: NodeJS.ProcessEnv, act: (house: TestHouse) => Promise<T>): Promise<T> {
  const house = await openTestHouse({ env });
  try {
    return await act(house);
  } finally {
    await house.close();
  }
}

const asker =
  (house: TestHouse) =>
  (url: string, { method = 'GET', from = '192.0.2.1', headers = {} }: Asking = {}): Promise<Response> =>
    house.app.inject({ method, url, remoteAddress: from, headers: { accept: 'text/html', ...headers } });

describe('Too many requests', () => {
  it('by default 20 forms and 300 looks a minute, for each visitor apart', () =>
    withHouse(DEFAULTS, async (house) => {
      const ask = asker(house);
      const form = () => ask('/s/nobody/sign-in', { method: 'POST' });
      for (let count = 1; count <= 20; count++) expect((await form()).statusCode).toBe(403);
      const page = await form();
      expect(page.statusCode).toBe(429);
      expect(Number(page.headers['retry-after'])).toBeGreaterThan(0);
      expect(Number(page.headers['retry-after'])).toBeLessThanOrEqual(60);
      expect(wordsOf(page.body)).toMatch(/Too many requests\. Please wait \d+ seconds\./);
      const other = await ask('/s/nobody/sign-in', { method: 'POST', from: '192.0.2.2' });
      expect(other.statusCode).toBe(403);

      const problem = await ask('/api/v1/s/nobody/sessions', { method: 'POST' });
      expect(problem.headers['content-type']).toBe('application/problem+json; charset=utf-8');
      expect(problem.json()).toMatchObject({ code: 'too_many_requests', status: 429 });

      for (let count = 1; count <= 300; count++) expect((await ask('/healthz')).statusCode).toBe(200);
      expect((await ask('/healthz')).statusCode).toBe(429);
      expect((await ask('/healthz', { from: '2001:db8::1' })).statusCode).toBe(200);
      const style = /href="(\/static\/[^"]+)"/.exec(page.body)?.[1] ?? '';
      expect((await ask(style)).statusCode).toBe(200); // a page that is shown is shown whole
    }));

  it('a visitor’s own word about the address counts for nothing', () =>
    withHouse({ FORM_LIMIT_PER_MINUTE: '3' }, async (house) => {
      const ask = asker(house);
      const statuses = [];
      for (let count = 1; count <= 5; count++) {
        const headers = { 'x-forwarded-for': `198.51.100.${count}`, forwarded: `for=198.51.100.${count}` };
        statuses.push((await ask('/s/nobody/sign-in', { method: 'POST', headers })).statusCode);
      }
      expect(statuses).toEqual([403, 403, 403, 429, 429]);
    }));

  it('behind a proxy the proxy’s word counts, and what the visitor wrote before it does not', () =>
    withHouse({ FORM_LIMIT_PER_MINUTE: '3', TRUST_PROXY: '1' }, async (house) => {
      const ask = asker(house);
      const by = async (forwarded: string) => {
        const headers = { 'x-forwarded-for': forwarded };
        return (await ask('/s/nobody/sign-in', { method: 'POST', from: '127.0.0.1', headers })).statusCode;
      };
      const one = [];
      for (let count = 1; count <= 4; count++) one.push(await by(`203.0.113.${count}, 198.51.100.1`));
      expect(one).toEqual([403, 403, 403, 429]);
      expect(await by('198.51.100.2')).toBe(403);
    }));
});

describe('Too many requests from one IPv6 network', () => {
  it('are counted together, and those of a neighbouring network apart', () =>
    withHouse({ FORM_LIMIT_PER_MINUTE: '3' }, async (house) => {
      const ask = asker(house);
      const from = async (address: string) =>
        (await ask('/s/nobody/sign-in', { method: 'POST', from: address })).statusCode;
      const one = [];
      for (const address of ['2001:db8::1', '2001:db8::2', '2001:db8:0:0:ffff::3', '2001:db8::dead:beef'])
        one.push(await from(address));
      expect(one).toEqual([403, 403, 403, 429]);
      expect(await from('2001:db8:0:1::1')).toBe(403);
      const mapped = [];
      for (const last of [1, 2, 3, 4]) mapped.push(await from(`::ffff:192.0.2.${last}`));
      expect(mapped).toEqual([403, 403, 403, 403]);
    }));
});

describe('Too many tries of one address', () => {
  it('by default ten in a quarter of an hour, from wherever they come, whoever has the address', () =>
    withHouse({ ...DEFAULTS, FORM_LIMIT_PER_MINUTE: '100000' }, async (house) => {
      const studio = await foundTestStudio(house);
      let from = 0;
      const trying = (email: string, password: string) =>
        house.app.inject({
          method: 'POST',
          url: `/api/v1/s/${studio.slug}/sessions`,
          remoteAddress: `192.0.2.${++from}`,
          payload: { email, password },
        });
      const answers = new Map<string, string[]>();
      for (const email of [studio.owner.email, 'nobody@sandpiper-loft.example']) {
        for (let count = 1; count <= 10; count++)
          expect((await trying(email, 'a wrong password')).statusCode).toBe(401);
        const refused = [await trying(email, PASSWORD), await trying(email.toUpperCase(), PASSWORD)];
        for (const one of refused) {
          expect(one.statusCode).toBe(429);
          expect(one.headers['retry-after']).toBe('900');
        }
        answers.set(
          email,
          refused.map((one) => one.json<{ detail: string }>().detail),
        );
      }
      const [known, unknown] = [...answers.values()];
      expect(known).toEqual(unknown);
      expect(known?.[0]).toBe(
        'This address was tried too often. Please wait 15 minutes, or have a link mailed to you.',
      );
      expect((await trying(studio.assistant.email, PASSWORD)).statusCode).toBe(201);
      house.clock.forward({ minutes: 15 });
      expect((await trying(studio.owner.email, PASSWORD)).statusCode).toBe(201);
    }));

  it('whoever came in begins to be counted anew', () =>
    withHouse({ SIGN_IN_TRIES: '2' }, async (house) => {
      const studio = await foundTestStudio(house);
      const accounts = house.app.get(AccountsService);
      for (let count = 1; count <= 3; count++) {
        const wrong = accounts.signIn(studio.id, studio.owner.email, 'a wrong password');
        await expect(wrong).rejects.toMatchObject({ code: 'wrong_sign_in' });
        await accounts.signIn(studio.id, studio.owner.email, PASSWORD);
      }
    }));

  it('the page says so beside the address, and mails no more links than that', () =>
    withHouse({ SIGN_IN_TRIES: '2' }, async (house) => {
      const studio = await foundTestStudio(house);
      const visitor = new Visitor(house);
      const path = `/s/${studio.slug}/sign-in`;
      await visitor.get(path);
      for (const email of ['nobody@sandpiper-loft.example', studio.owner.email]) {
        const statuses = [];
        for (let count = 1; count <= 4; count++)
          statuses.push((await visitor.post(`${path}/link`, { email })).status);
        expect(statuses).toEqual([200, 200, 429, 429]);
      }
      const page = await visitor.post(`${path}/link`, { email: studio.owner.email });
      expect(errorAt(page.html, 'email')).toMatch(/^A link was asked for too often\. Please wait 15 minutes/);
      expect(page.header('retry-after')).toBe('900');
      await house.work();
      expect(house.mail.sent).toHaveLength(2);
    }));
});

describe('A failure of ours', () => {
  let house: TestHouse;
  let studio: TestStudio;
  let admin: pg.Client;
  const lines: string[] = [];
  const keep = (...parts: unknown[]) => void lines.push(parts.map(String).join(' '));

  beforeAll(async () => {
    house = await openTestHouse();
    studio = await foundTestStudio(house);
    house.app.useLogger({ log: keep, error: keep, warn: keep, debug: keep, verbose: keep, fatal: keep });
    admin = new pg.Client({ connectionString: house.database.url });
    admin.on('error', () => {});
    await admin.connect();
  });
  afterAll(async () => {
    await admin.end();
    await house.close();
  });

  /** While a table has another name, everything that asks for it fails inside. */
  async function broken<T>(table: string, act: () => Promise<T>): Promise<T> {
    await admin.query(`alter table ${table} rename to ${table}_is_away`);
    try {
      return await act();
    } finally {
      await admin.query(`alter table ${table}_is_away rename to ${table}`);
    }
  }

  it('tells nothing of the inside, but a word by which it is found in the log', async () => {
    const page = await broken('studio', () => house.app.inject({ url: `/s/${studio.slug}` }));
    expect(page.statusCode).toBe(500);
    const words = wordsOf(page.body);
    expect(words).toContain('Something broke on our side');
    expect(words).toContain('Please try again in a moment.');
    expect(page.body).not.toMatch(/relation|select|QueryFailed|_is_away|node_modules|\.ts|\.js:/i);
    const word = /please say “([^”]+)”/.exec(words)?.[1] ?? '';
    expect(word).toMatch(/\S/);
    expect(lines.filter((line) => line.includes(`${word} GET /s/${studio.slug}`))).toHaveLength(1);
    expect(lines.at(-1)).toContain('relation "studio" does not exist');

    const problem = await broken('studio', () =>
      house.app.inject({ url: `/api/v1/s/${studio.slug}/openings` }),
    );
    expect(problem.json()).toEqual({
      type: '/problems#broken',
      title: 'Something broke on our side',
      status: 500,
      detail: 'Something broke on our side',
      code: 'broken',
      instance: expect.stringMatching(/\S/) as string,
    });
    expect(lines.at(-1)).toContain(problem.json<{ instance: string }>().instance);
    for (const header of ['content-security-policy', 'strict-transport-security', 'x-content-type-options'])
      expect(problem.headers).toHaveProperty(header);
    expect((await house.app.inject({ url: `/s/${studio.slug}` })).statusCode).toBe(200);
  });

  it('writes no secret, no address and no line of a stranger into the log', async () => {
    const { token } = await askForSitting(house, studio, { email: 'planted@post.example' });
    const owner = await callerAt(house, studio, 'owner');
    const before = lines.length;
    const s = `/s/${studio.slug}`;
    const signIn = (email: string, password: string) =>
      house.app.inject({
        method: 'POST',
        url: `${s}/sign-in?email=${encodeURIComponent(email)}`,
        headers: {
          cookie: `${owner.formCookie}; ${owner.cookie}`,
          'content-type': 'application/x-www-form-urlencoded',
        },
        payload: new URLSearchParams({ _form: owner.formToken, email, password }).toString(),
      });
    await broken('account', async () => {
      expect((await signIn('planted@post.example', PASSWORD)).statusCode).toBe(500);
      const api = await house.app.inject({
        url: `/api/v1${s}/requests`,
        headers: { authorization: `Bearer ${owner.secret}` },
      });
      expect(api.statusCode).toBe(500);
    });
    await broken('contact', async () => {
      for (const url of [`${s}/place/${token}?done=asked`, `/api/v1${s}/place/${token}`])
        expect((await house.app.inject({ url })).statusCode).toBe(500);
    });
    await broken('link', async () => {
      for (const url of [
        `${s}/calendar/${token}.ics`,
        `${s}/sign-in/${token}`,
        `${s}/place/${token}?a%0d%0ab`,
      ])
        expect((await house.app.inject({ url })).statusCode).toBe(500);
    });
    const written = lines.slice(before);
    expect(written).toHaveLength(7);
    const all = written.join('\n');
    const secrets = [token, owner.secret, owner.formToken, PASSWORD, 'planted', studio.owner.email];
    for (const secret of secrets) expect(all).not.toContain(secret);
    expect(all).toContain(`GET ${s}/place/[secret]:`);
    for (const line of written) expect(line.split('\n')[0]).toMatch(/^req-\w+ (GET|POST) \/\S+: \w*Error: /);
  });

  it('who is refused at the sign-in, or tries another’s door, stands in the log by what they tried, not as they typed it', async () => {
    const before = lines.length;
    const accounts = house.app.get(AccountsService);
    const typed = ['planted@post.example', 'planted password'] as const;
    for (const email of [studio.owner.email, typed[0]])
      await expect(accounts.signIn(studio.id, email, typed[1])).rejects.toThrow();
    const { cookie } = await callerAt(house, studio, 'assistant');
    const door = { url: `/s/${studio.slug}/desk/settings/log`, headers: { cookie, accept: 'text/html' } };
    expect((await house.app.inject(door)).statusCode).toBe(403);
    expect((await house.app.inject({ method: 'POST', url: `/s/${studio.slug}/ask` })).statusCode).toBe(403);
    const written = lines.slice(before);
    expect(written.map((line) => line.replace(/^req-\w+ /, '').replace(/ Sign-in| Problem/, ''))).toEqual([
      `Studio ${studio.id}, account ${studio.owner.id}: wrong password.`,
      `Studio ${studio.id}, account of nobody: wrong password.`,
      `GET /s/${studio.slug}/desk/settings/log: not_allowed`,
      `POST /s/${studio.slug}/ask: form_expired`,
    ]);
  });

  it('ordinary refusals are not logged', async () => {
    const before = lines.length;
    for (const url of ['/nothing', '/s/nobody', `/s/${studio.slug}/desk`, '/s/%00'])
      await house.app.inject({ url });
    expect(lines.length).toBe(before);
  });

  it('a database that cannot be reached is told as "busy", on every door, and nothing is lost after it', async () => {
    const name = new URL(house.database.url).pathname.slice(1);
    const doors = [
      '/',
      '/healthz',
      `/s/${studio.slug}`,
      `/api/v1/s/${studio.slug}/openings`,
      `/s/${studio.slug}/calendar/${'A'.repeat(43)}.ics`,
    ];
    const statuses: number[] = [];
    await admin.query(`alter database "${name}" connection limit 0`);
    try {
      await admin.query(
        `select pg_terminate_backend(pid) from pg_stat_activity where datname = $1 and pid <> pg_backend_pid()`,
        [name],
      );
      for (const url of doors) statuses.push((await house.app.inject({ url })).statusCode);
    } finally {
      await admin.query(`alter database "${name}" connection limit -1`);
    }
    expect(statuses).toEqual(doors.map(() => 503));
    expect((await house.app.inject({ url: `/s/${studio.slug}` })).statusCode).toBe(200);
    expect((await house.app.inject({ url: '/healthz' })).json()).toEqual({ open: true });
  });

  it('a database that answers nobody in time is told as "busy" to whoever asks for our health', async () => {
    const release: (() => void)[] = [];
    const acts = Array.from({ length: 10 }, () =>
      house.db.inStudio(studio.id, () => new Promise<void>((done) => release.push(done))),
    );
    try {
      const answer = await house.app.inject({ url: '/healthz', headers: { accept: 'application/json' } });
      expect(answer.json()).toMatchObject({ status: 503, code: 'busy' });
    } finally {
      for (const done of release) done();
      await Promise.all(acts);
    }
    expect((await house.app.inject({ url: '/healthz' })).statusCode).toBe(200);
  });
});
