// What every answer carries, whatever it is: security headers, how long it may be kept, how much it weighs.
import { gunzipSync } from 'node:zlib';
import type { Response } from 'light-my-request';
import { LinksService } from '../../src/accounts/links.service.js';
import { callerAt, NO_ID, NO_SECRET } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let s: string;

beforeAll(async () => {
  house = await openTestHouse({ env: { FORM_LIMIT_PER_MINUTE: '6' } });
  studio = await foundTestStudio(house);
  s = `/s/${studio.slug}`;
});
afterAll(() => house.close());

interface Asking {
  method?: 'GET' | 'HEAD' | 'POST';
  headers?: Record<string, string>;
  payload?: string | object;
}
const get = (url: string, { method = 'GET', headers = {}, ...rest }: Asking = {}): Promise<Response> =>
  house.app.inject({ method, url, headers: { accept: 'text/html', ...headers }, ...rest });

const ownerFeed = () =>
  house.db.inStudio(studio.id, async (tx) => {
    const links = house.app.get(LinksService);
    return `${s}/calendar/${links.token(await links.ensure(tx, 'feed', studio.owner.id, 'owner'))}.ics`;
  });

/** "Not modified" stands for an answer that had the others: RFC 9110, 15.4.5. */
function expectShielded(answer: Response): void {
  const { headers } = answer;
  if (answer.statusCode === 304) {
    expect(headers).toMatchObject({
      'strict-transport-security': 'max-age=31536000; includeSubDomains',
      'cache-control': 'private, no-cache',
    });
    return;
  }
  const policy = String(headers['content-security-policy'])
    .split(';')
    .map((one) => one.trim())
    .sort();
  expect(policy).toEqual([
    "base-uri 'none'",
    "connect-src 'self'",
    "default-src 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    "img-src 'self'",
    "script-src 'self'",
    "style-src 'self'",
  ]);
  expect(headers).toMatchObject({
    'strict-transport-security': 'max-age=31536000; includeSubDomains',
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'x-frame-options': 'DENY',
    'cross-origin-opener-policy': 'same-origin',
  });
  expect(headers['cache-control']).toMatch(
    /^(no-store|private, no-cache|public, max-age=31536000, immutable)$/,
  );
  for (const told of ['server', 'x-powered-by']) expect(headers).not.toHaveProperty(told);
}

describe('Every answer is shielded', () => {
  it.each([
    ['a page', 200, () => get(s)],
    ['a page that is only asked about', 200, () => get(s, { method: 'HEAD' })],
    ['an answer of the API', 200, () => get('/api/v1/places?q=york')],
    ['the description of the API', 200, () => get('/api/openapi.json')],
    [
      'a style sheet',
      200,
      async () => get(/href="(\/static\/app[^"]*)"/.exec((await get(s)).body)?.[1] ?? ''),
    ],
    ['a calendar', 200, async () => get(await ownerFeed())],
    ['the way to the only studio', 302, () => get('/')],
    [
      'a calendar that did not change',
      304,
      async () => {
        const url = await ownerFeed();
        return get(url, { headers: { 'if-none-match': String((await get(url)).headers.etag) } });
      },
    ],
    ['an address that cannot be read', 404, () => get('/s/%zz')],
    ['an address with a NUL', 404, () => get('/s/%00')],
    ['an address that is no UTF-8', 404, () => get(`${s}/place/%ff`)],
    ['an address of the API that cannot be read', 404, () => get('/api/v1/s/%c0%80/openings')],
    ['a very long address', 404, () => get(`/s/${'x'.repeat(9000)}`)],
    ['a page that is not there', 404, () => get('/nothing')],
    ['a studio that is not there', 404, () => get('/s/nobody')],
    ['a page for others', 401, () => get(`${s}/desk`)],
    ['a form without its token', 403, () => get(`${s}/ask`, { method: 'POST' })],
    [
      'a body that cannot be read',
      400,
      () =>
        get(`/api/v1${s}/sessions`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          payload: '{',
        }),
    ],
    [
      'a body that is too large',
      413,
      () => get(`/api/v1${s}/sessions`, { method: 'POST', payload: { email: 'x'.repeat(300_000) } }),
    ],
    ['a wrong answer', 422, () => get(`/api/v1${s}/sessions`, { method: 'POST', payload: {} })],
    [
      'one form too many',
      429,
      async () => {
        for (let count = 0; count < 7; count++) await get(`${s}/sign-out`, { method: 'POST' });
        return get(`${s}/sign-out`, { method: 'POST' });
      },
    ],
  ] as [string, number, () => Promise<Response>][])('%s (%i)', async (_title, status, ask) => {
    const answer = await ask();
    expect(answer.statusCode).toBe(status);
    expectShielded(answer);
  });

  it('no page holds a script, style or handler of its own, which the policy would stop', async () => {
    const sitting = await askForSitting(house, studio);
    const given = await askForSitting(house, studio);
    const [start = ''] = await openStarts(house, studio, { from: '2027-05-01', until: '2027-05-31' });
    await approve(house, studio, given.sittingId, start);
    const mayVisit = new Visitor(house);
    const owner = await ownerOf(house, studio);
    const pages = [
      ...['', '/ask', '/sign-in', `/place/${sitting.token}`, `/place/${given.token}`].map(
        (at) => `${s}${at}`,
      ),
      ...[
        '',
        '/shelf',
        '/mail',
        '/calendar',
        `/requests/${sitting.sittingId}`,
        `/requests/${given.sittingId}`,
      ].map((at) => `${s}/desk${at}`),
      ...['/nothing', '/problems'],
    ];
    for (const url of pages) {
      const page = url.includes('/desk') ? await owner(url) : await mayVisit.get(url);
      expect([url, page.html.length > 500]).toEqual([url, true]);
      const scripts = page.html.match(/<script\b[^>]*>/g) ?? [];
      expect(scripts.filter((one) => !one.includes(' src="/static/'))).toEqual([]);
      expect(page.html.match(/<style|\sstyle=|\son[a-z]+="|javascript:/g)).toBeNull();
    }
  });
});

/** The form limit of this house is low, so the owner comes in by the bearer's cookie. */
async function ownerOf(at: TestHouse, where: TestStudio) {
  const { cookie } = await callerAt(at, where, 'owner');
  return async (url: string) => {
    const answer = await at.app.inject({ url, headers: { cookie, accept: 'text/html' } });
    expect([url, answer.statusCode]).toEqual([url, 200]);
    return { html: answer.body };
  };
}

describe('What may be kept', () => {
  it('static files for a year under a name that changes with them, packed or not', async () => {
    const page = (await get(s)).body;
    const files = [...page.matchAll(/(?:href|src)="(\/static\/[^"]+)"/g)].map(([, url = '']) => url);
    expect(files.length).toBeGreaterThanOrEqual(3);
    for (const url of files) {
      expect(url).toMatch(/\.[0-9a-f]{10}\.(css|js|svg)$/);
      const packed = await get(url, { headers: { 'accept-encoding': 'gzip' } });
      expect(packed.headers).toMatchObject({
        'cache-control': 'public, max-age=31536000, immutable',
        'content-encoding': 'gzip',
        vary: 'accept-encoding',
      });
      expect(gunzipSync(packed.rawPayload).equals((await get(url)).rawPayload)).toBe(true);
      const old = await get(url.replace(/[0-9a-f]{10}/, '0000000000'));
      expect([old.statusCode, old.headers['cache-control']]).toEqual([404, 'no-store']);
    }
  });

  it('pages of the visitor by their browser, which asks again; everything personal by nobody', async () => {
    const { token } = await askForSitting(house, studio);
    const kept = async (url: string) => (await get(url)).headers['cache-control'];
    for (const url of [s, `${s}/ask`]) expect(await kept(url)).toBe('private, no-cache');
    for (const url of [
      ...[`${s}/place/${token}`, `/api/v1${s}/place/${token}`, `${s}/sign-in`, `${s}/sign-in/${NO_SECRET}`],
      ...[`${s}/desk`, `${s}/desk/requests/${NO_ID}`, `/api/v1${s}/requests`, '/nothing'],
    ])
      expect([url, await kept(url)]).toEqual([url, 'no-store']);
  });
});

describe('What it weighs', () => {
  it('the public page, with all it brings along, is under 60 kB packed, and needs no script', async () => {
    const packed = { headers: { 'accept-encoding': 'gzip, deflate, br' } };
    const page = await get(s, packed);
    expect(page.headers).toMatchObject({
      'content-encoding': 'gzip',
      vary: 'Accept-Language, Cookie, accept-encoding',
    });
    const html = gunzipSync(page.rawPayload).toString();
    const files = [...html.matchAll(/(?:href|src)="(\/static\/[^"]+)"/g)].map(([, url = '']) => url);
    let weight = page.rawPayload.length;
    for (const url of files) weight += (await get(url, packed)).rawPayload.length;
    expect(weight).toBeLessThan(60_000);
    expect(html.match(/<a href="[^"]*\/ask\?day=/g)?.length).toBeGreaterThan(100); // places are plain links
    expect(html).not.toContain('<noscript');
  });

  it('is sent unpacked to whoever cannot unpack it, and small answers always are', async () => {
    for (const header of ['', 'identity', 'gzip;q=0', 'br']) {
      const page = await get(s, { headers: { 'accept-encoding': header } });
      expect(page.headers).not.toHaveProperty('content-encoding');
      expect(page.headers.vary).toBe('Accept-Language, Cookie, accept-encoding');
      expect(page.body).toContain('</html>');
    }
    const small = await get('/healthz', { headers: { 'accept-encoding': 'gzip' } });
    expect([small.headers['content-encoding'], small.json()]).toEqual([undefined, { open: true }]);
    const about = await get(s, { method: 'HEAD', headers: { 'accept-encoding': 'gzip' } });
    expect([about.headers['content-encoding'], about.rawPayload.length]).toEqual(['gzip', 0]);
  });
});
