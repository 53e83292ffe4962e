// Who may do what, at every door there is: the rows are in test/support/who-may.ts, the doors in Fastify's table.
import { fingerprint } from '../support/all-rows.js';
import { call, type Caller, callerAt, sessionCookie } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { nameOf, type Route, routesOf } from '../support/routes.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { WHO_MAY, type Whose } from '../support/who-may.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;
let routes: Route[];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
  routes = routesOf(house);
});
afterAll(() => house.close());

type Who = 'nobody' | 'assistant' | 'owner' | 'the owner of another studio';

/** The refusal that a door of each kind has for each visitor; 0 where it opens. */
const REFUSAL: Record<Whose, Record<Who, number>> = {
  anyone: { nobody: 0, assistant: 0, owner: 0, 'the owner of another studio': 0 },
  half: { nobody: 401, assistant: 401, owner: 401, 'the owner of another studio': 401 },
  link: { nobody: 404, assistant: 404, owner: 404, 'the owner of another studio': 404 },
  staff: { nobody: 401, assistant: 0, owner: 0, 'the owner of another studio': 401 },
  owner: { nobody: 401, assistant: 403, owner: 0, 'the owner of another studio': 401 },
};

function whoIs(who: Who): Promise<Caller> {
  if (who === 'the owner of another studio') return callerAt(house, other, 'owner');
  return callerAt(house, studio, who);
}

/** Signing out ends the caller's session, so these come last. */
const lastOut = (route: Route) => (/sign-out|sessions\/current/.test(route.path) ? 1 : 0);
const rowOf = (route: Route): Whose => WHO_MAY[nameOf(route)] ?? 'owner';

it('every route has a row, and every row a route', () => {
  expect(routes.map(nameOf).sort()).toEqual(Object.keys(WHO_MAY).sort());
});

describe('At every door', () => {
  it.each(['nobody', 'assistant', 'owner', 'the owner of another studio'] as const)(
    '%s gets through where the table says so, and nowhere else',
    async (who) => {
      const caller = await whoIs(who);
      const met: string[] = [];
      const expected: string[] = [];
      for (const route of [...routes].sort((a, b) => lastOut(a) - lastOut(b))) {
        if (lastOut(route) && route.method === 'DELETE' && who !== 'nobody')
          Object.assign(caller, await whoIs(who));
        const { status } = await call(house, studio, route, caller);
        const refused = [401, 403].includes(status) || rowOf(route) === 'link' ? status : 0;
        met.push(`${nameOf(route)} ${status >= 500 ? status : refused}`);
        expected.push(`${nameOf(route)} ${REFUSAL[rowOf(route)][who]}`);
      }
      expect(met).toEqual(expected);
    },
  );

  it('a session of one studio is nothing at another, under whatever name the cookie comes', async () => {
    const theirs = await callerAt(house, other, 'owner');
    const disguised = { ...theirs, cookie: `${sessionCookie(studio)}=${theirs.secret}` };
    for (const route of routes.filter((one) => ['staff', 'owner'].includes(rowOf(one)))) {
      const { status } = await call(house, studio, route, disguised);
      expect([nameOf(route), status]).toEqual([nameOf(route), 401]);
    }
    expect((await call(house, other, { method: 'GET', path: '/s/:slug/desk' }, theirs)).status).toBe(200);
  });

  it('the API takes no cookie for a sign-in, and says how to sign in', async () => {
    const owner = await callerAt(house, studio, 'owner');
    for (const route of routes.filter((one) => one.path.startsWith('/api/') && rowOf(one) === 'owner')) {
      const { status, headers } = await call(house, studio, route, { ...owner, secret: '' });
      expect([nameOf(route), status]).toEqual([nameOf(route), 401]);
      expect(headers['www-authenticate']).toBe('Bearer');
    }
  });

  it('an ended or made-up session opens nothing', async () => {
    const owner = await callerAt(house, studio, 'owner');
    await call(house, studio, { method: 'POST', path: '/s/:slug/sign-out' }, owner);
    for (const secret of [owner.secret, 'B'.repeat(43), 'short', 'x'.repeat(5000)])
      for (const path of ['/s/:slug/desk', '/api/v1/s/:slug/requests']) {
        const caller = { ...owner, secret, cookie: `${sessionCookie(studio)}=${secret}` };
        expect((await call(house, studio, { method: 'GET', path }, caller)).status).toBe(401);
      }
  });
});

describe('A form is taken from our own pages only', () => {
  // the one door for mail programs acts on the secret in its address alone (RFC 8058), which none of these has
  const ONE_CLICK = 'POST /s/:slug/reminders/:token';
  const forms = () =>
    routes.filter(
      (one) => one.method !== 'GET' && !one.path.startsWith('/api/') && nameOf(one) !== ONE_CLICK,
    );

  it('wherever it comes from otherwise it is refused, and changes nothing', async () => {
    const owner = await callerAt(house, studio, 'owner');
    const visitor = await callerAt(house, studio, 'nobody');
    const before = await fingerprint(house);
    const tries: [title: string, change: Parameters<typeof call>[4]][] = [
      ['without a token', { fields: { _form: '' } }],
      ['with the token of another visitor', { fields: { _form: visitor.formToken } }],
      ['with a token that was tampered with', { fields: { _form: `${owner.formToken.slice(0, -1)}_` } }],
      ['too late', { fields: { _form: '' }, headers: { 'sec-fetch-site': 'same-origin' } }],
      ['without the cookie', { headers: { cookie: owner.cookie } }],
      ['from another site', { headers: { 'sec-fetch-site': 'cross-site' } }],
      ['from a neighbour', { headers: { 'sec-fetch-site': 'same-site' } }],
      ['as plain text', { headers: { 'content-type': 'text/plain' } }],
      ['as JSON', { headers: { 'content-type': 'application/json' }, fields: {} }],
    ];
    expect(forms().length).toBeGreaterThan(7);
    for (const route of forms())
      for (const [title, change] of tries) {
        const { status } = await call(house, studio, route, owner, change);
        const unread = title === 'as JSON' ? 400 : 403; // what is sent there is no JSON
        expect([nameOf(route), title, status]).toEqual([nameOf(route), title, unread]);
      }
    expect(await fingerprint(house)).toBe(before);
  });

  it('the refusal is a page in plain words', async () => {
    const owner = await callerAt(house, studio, 'owner');
    const { body } = await call(house, studio, { method: 'POST', path: '/s/:slug/ask' }, owner, {
      fields: { _form: '' },
    });
    expect(body).toContain('This form was open too long, or was sent from another site');
    expect(body).toContain(`href="/s/${studio.slug}"`);
  });

  it('from our own page it is taken', async () => {
    const owner = await callerAt(house, studio, 'owner');
    for (const site of ['same-origin', 'none']) {
      const path = '/s/:slug/desk/calendar';
      const change = { headers: { 'sec-fetch-site': site }, fields: { do: 'make', of: 'tasks' } };
      expect((await call(house, studio, { method: 'POST', path }, owner, change)).status).toBe(303);
    }
  });
});
