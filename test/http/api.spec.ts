// The JSON door: what programs are told about it, how it answers, and the main job done through it.
import { LinksService } from '../../src/accounts/links.service.js';
import { Temporal } from 'temporal-polyfill';
import { PROBLEMS } from '../../src/platform/problems.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { call, callerAt, NO_ID, NO_SECRET } from '../support/caller.js';
import { turnSecondStepOn } from '../support/account-pages.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, openStarts, PASSWORD, requestBody, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;
let bearer: string;
let api: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, {
    ...{ slug: 'turnstone-attic', name: 'Turnstone Attic' },
    shelf: { wholeGlass: 1n },
  });
  bearer = (await callerAt(house, studio, 'owner')).secret;
  api = `/api/v1/s/${studio.slug}`;
});
afterAll(() => house.close());

interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  code: string;
  instance: string;
  errors?: { pointer: string; detail: string }[];
}

interface Reply<T> {
  status: number;
  kind: string;
  body: T;
  header(name: string): string;
}

async function ask<T = Problem>(
  method: 'GET' | 'POST' | 'DELETE',
  url: string,
  sent?: unknown,
  headers: Record<string, string> = {},
): Promise<Reply<T>> {
  const raw = typeof sent === 'string';
  const answer = await house.app.inject({
    method,
    url,
    headers: { ...(sent === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
    ...(sent === undefined ? {} : { payload: raw ? sent : JSON.stringify(sent) }),
  });
  return {
    status: answer.statusCode,
    kind: String(answer.headers['content-type'] ?? ''),
    body: (answer.body === '' ? undefined : JSON.parse(answer.body)) as T,
    header: (name) => String(answer.headers[name] ?? ''),
  };
}

const asOwner = () => ({ authorization: `Bearer ${bearer}` });
let keys = 0;
const withKey = (key = `key number ${++keys}`) => ({ 'idempotency-key': key });

interface Asked {
  sittingId: string;
  page: string;
}
const request = (more: Parameters<typeof requestBody>[2] = {}) => requestBody(house, studio, more);
const newRequest = async (more = {}): Promise<Asked> =>
  (await ask<Asked>('POST', `${api}/requests`, request(more), withKey())).body;

const met = new Set<string>();

/** A problem document as RFC 9457 has it, with our code and pointers (RFC 6901). */
function expectProblem(reply: Reply<Problem>, status: number, code: string): Problem {
  const { body } = reply;
  expect([body.code, reply.status, reply.kind]).toEqual([
    ...[code, status, 'application/problem+json; charset=utf-8'],
  ]);
  expect(body).toMatchObject({ type: `/problems#${code}`, status });
  met.add(body.code);
  for (const text of [body.title, body.detail, body.instance]) expect(text).toMatch(/\S/);
  for (const one of body.errors ?? []) {
    expect(one.pointer).toMatch(/^(\/([^~/]|~[01])*)*$/);
    expect(one.detail).toMatch(/^[A-Z].*\.$/);
  }
  expect(
    Object.keys(body)
      .sort()
      .filter((key) => key !== 'errors'),
  ).toEqual([...['code', 'detail', 'instance', 'status', 'title', 'type']]);
  return body;
}

describe('The main job by API', () => {
  it('from signing in and asking to a place, its calendar state, and giving it up', async () => {
    const signIn = await ask<{ token: string }>('POST', `${api}/sessions`, {
      ...{ email: studio.owner.email, password: PASSWORD },
    });
    expect(signIn.status).toBe(201);
    const owner = { authorization: `Bearer ${signIn.body.token}` };
    const asked = await ask<Asked>('POST', `${api}/requests`, request(), withKey());
    expect(asked.status).toBe(201);
    expect(asked.body.page).toMatch(new RegExp(`^/s/${studio.slug}/place/[\\w-]{43}$`));

    const openings = await ask<{ zone: string; days: { date: string; places: { start: string }[] }[] }>(
      ...(['GET', `${api}/openings?plates=1`] as const),
    );
    const first = openings.body.days.find(({ date }) => date.startsWith('2027-05'))?.places[0]?.start ?? '';
    expect(first).toMatch(/^2027-05-07T09:30:00\+01:00$/);

    const approved = await ask(
      'POST',
      `${api}/requests/${asked.body.sittingId}/approve`,
      {
        ...{ start: first.slice(0, 16) },
      },
      owner,
    );
    expect([approved.status, approved.body]).toEqual([204, undefined]);
    const own = await ask<{ state: string; place: { start: string; zone: string } }>(
      ...(['GET', `/api/v1${asked.body.page}`] as const),
    );
    expect(own.body).toMatchObject({ state: 'confirmed', place: { start: first, zone: 'Europe/London' } });
    expect(own.header('cache-control')).toBe('no-store');
    const list = await ask<{ id: string; state: string }[]>('GET', `${api}/requests`, undefined, owner);
    expect(list.body).toContainEqual(
      expect.objectContaining({ id: asked.body.sittingId, state: 'confirmed' }),
    );

    expect((await ask('POST', `/api/v1${asked.body.page}/give-up`)).status).toBe(204);
    expectProblem(await ask('POST', `/api/v1${asked.body.page}/give-up`), 409, 'wrong_state');
    expect((await ask('DELETE', `${api}/sessions/current`, undefined, owner)).status).toBe(204);
    expectProblem(await ask('GET', `${api}/requests`, undefined, owner), 401, 'sign_in_needed');
  });

  it('a request can be declined with a message, which keeps its lines and no NUL', async () => {
    const { sittingId, page } = await newRequest();
    const message = 'Not this year.\r\nPlease ask again.\0';
    expect((await ask('POST', `${api}/requests/${sittingId}/decline`, { message }, asOwner())).status).toBe(
      204,
    );
    expect((await ask<{ message: string }>('GET', `/api/v1${page}`)).body.message).toBe(
      'Not this year.\nPlease ask again.',
    );
  });
});

describe('An Idempotency-Key', () => {
  it('is needed for asking, and has to be one that can be kept', async () => {
    for (const key of [undefined, 'short', 'x'.repeat(256), 'schlüssel-nummer-eins'])
      expectProblem(
        await ask('POST', `${api}/requests`, request(), key === undefined ? {} : withKey(key)),
        ...([400, 'unreadable'] as const),
      );
  });

  it('makes a repeat the same request, alone or at the same moment, and another request a mistake', async () => {
    const key = withKey();
    const send = () => ask<Asked>('POST', `${api}/requests`, request({ name: 'Once Only' }), key);
    const all = await Promise.all([send(), send(), send(), send()]);
    const again = await send();
    expect(new Set([...all, again].map((one) => `${one.status} ${JSON.stringify(one.body)}`)).size).toBe(1);
    expect(again.status).toBe(201);
    const changed = await ask('POST', `${api}/requests`, request({ name: 'Somebody Else' }), key);
    expectProblem(changed, 422, 'same_key_other_request');
    const elsewhere = { ...requestBody(house, other, { name: 'Once Only' }) };
    const there = await ask<Asked>('POST', `/api/v1/s/${other.slug}/requests`, elsewhere, key);
    expect([there.status, there.body.page.includes(other.slug)]).toEqual([201, true]);
  });

  it('makes a repeated giving up no mistake', async () => {
    const { page } = await newRequest();
    const key = withKey();
    const statuses = [];
    for (const sent of [key, key, withKey(), {}])
      statuses.push((await ask('POST', `/api/v1${page}/give-up`, undefined, sent)).status);
    expect(statuses).toEqual([204, 204, 409, 409]);
    const another = await newRequest();
    const taken = await ask('POST', `/api/v1${another.page}/give-up`, undefined, key);
    expectProblem(taken, 422, 'same_key_other_request');
    expectProblem(
      await ask('POST', `/api/v1${another.page}/give-up`, undefined, withKey('x')),
      ...([400, 'unreadable'] as const),
    );
  });
});

describe('An offer by API', () => {
  const offered = async (start: string): Promise<Asked & { own: string }> => {
    const asked = await newRequest();
    const wallStart = Temporal.PlainDateTime.from(start);
    await house.app.get(OffersService).make(studio.id, studio.owner, asked.sittingId, wallStart);
    return { ...asked, own: `/api/v1${asked.page}` };
  };

  it('tells until when it is open, is taken once however often it is sent, and is a place then', async () => {
    const { own } = await offered('2027-05-07T09:30');
    expect((await ask('GET', own)).body).toMatchObject({
      state: 'offered',
      offerOpenUntil: '2026-12-07T18:00:00+00:00',
    });
    const key = withKey();
    for (let sent = 0; sent < 2; sent++)
      expect((await ask('POST', `${own}/accept`, undefined, key)).status).toBe(204);
    expect((await ask('GET', own)).body).toMatchObject({ state: 'confirmed', offerOpenUntil: null });
    expectProblem(await ask('POST', `${own}/refuse`, undefined, withKey()), 409, 'wrong_state');
    expect((await ask('POST', `${own}/another-day`, undefined, withKey())).status).toBe(204);
    expect((await ask('GET', own)).body).toMatchObject({ state: 'waiting', place: null });
  });

  it('is refused once, and a repeat with the same key is no mistake', async () => {
    const { own } = await offered('2027-05-07T09:30');
    const key = withKey();
    for (let sent = 0; sent < 2; sent++)
      expect((await ask('POST', `${own}/refuse`, undefined, key)).status).toBe(204);
    expectProblem(await ask('POST', `${own}/refuse`, undefined, withKey()), 409, 'wrong_state');
  });

  it('that has run out is gone, and a repeat is told the same', async () => {
    const { own } = await offered('2027-05-07T09:30');
    const now = house.clock.now().toString();
    house.clock.set('2026-12-07T18:00:00Z');
    const key = withKey();
    for (let sent = 0; sent < 2; sent++)
      expectProblem(await ask('POST', `${own}/accept`, undefined, key), 410, 'offer_ran_out');
    house.clock.set(now);
  });
});

describe('Problems', () => {
  it.each([
    ['broken JSON', '{"name": ', {}],
    ['nothing at all', '', {}],
    ['a prototype among the fields', '{"__proto__": {"x": 1}}', {}],
    ['a constructor among the fields', '{"constructor": {"prototype": {"x": 1}}}', {}],
    ['plain text', 'name=A', { 'content-type': 'text/plain' }],
    ['a form', 'name=A', { 'content-type': 'application/x-www-form-urlencoded' }],
    ['XML', '<name/>', { 'content-type': 'application/xml' }],
  ])('%s cannot be read', async (_title, sent, headers) => {
    const reply = await ask('POST', `${api}/requests`, sent, { ...withKey(), ...headers });
    expectProblem(reply, 400, 'unreadable');
  });

  it('300 kB are too much', async () => {
    const reply = await ask('POST', `${api}/requests`, { name: 'x'.repeat(300 * 1024) }, withKey());
    expectProblem(reply, 413, 'too_large');
  });

  it('bad input names each field by a pointer, and a body of another shape as a whole', async () => {
    const sent = { ...request(), name: '', email: 'x', plates: [{ plateSizeId: 'x', sitters: [] }] };
    const { errors } = expectProblem(await ask('POST', `${api}/requests`, sent, withKey()), 422, 'bad_input');
    expect(errors).toEqual(
      expect.arrayContaining([
        { pointer: '/name', detail: 'Please tell us your name.' },
        { pointer: '/email', detail: 'Please give an e-mail address like name@example.org.' },
        { pointer: '/plates/0/plateSizeId', detail: 'Please choose a plate size.' },
        { pointer: '/plates/0/sitters', detail: 'Please say who is on this plate.' },
      ]),
    );
    expect(errors).toHaveLength(4);
    for (const odd of [[], null, 7, 'text', true]) {
      const reply = await ask('POST', `${api}/requests`, JSON.stringify(odd), withKey());
      expect(expectProblem(reply, 422, 'bad_input').errors?.map(({ pointer }) => pointer)).toEqual(['']);
    }
  });

  it.each([
    ['a sitter who is not there', { plates: [{ plateSizeId: '', sitters: [1] }] }, '/plates/0/sitters'],
    ['13 sitters', { sitters: Array.from({ length: 13 }, (_, at) => `Person ${at}`) }, '/sitters'],
    ['an unknown home', { homeId: 1 }, '/homeId'],
    ['text for a number', { homeId: '2634135' }, '/homeId'],
    ['the year 0', { suits: { kind: 'any', from: '0000-01-01', until: '2027-05-01' } }, '/suits/from'],
    ['a day that is none', { suits: { kind: 'these', days: ['2027-02-29'] } }, '/suits/days/0'],
    ['another kind of days', { suits: { kind: 'never' } }, '/suits/kind'],
    ['an object for a name', { name: { first: 'A' } }, '/name'],
  ])('%s is told at its pointer', async (_title, change, pointer) => {
    const sent = { ...request(), ...change };
    for (const plate of sent.plates) plate.plateSizeId ||= studio.sizes.whole.id;
    const { errors } = expectProblem(await ask('POST', `${api}/requests`, sent, withKey()), 422, 'bad_input');
    expect(errors?.map((one) => one.pointer)).toEqual([pointer]);
  });

  it.each(['plates=0', 'plates=7', 'plates=two', 'plates=1&plates=2', 'plates='])(
    'the question "%s" is told at its field',
    async (query) => {
      const { errors } = expectProblem(await ask('GET', `${api}/openings?${query}`), 422, 'bad_input');
      expect(errors?.map((one) => one.pointer)).toEqual(['/plates']);
    },
  );

  it('what is not there is not found', async () => {
    expectProblem(await ask('GET', '/api/v1/nothing'), 404, 'not_found');
    expectProblem(await ask('GET', '/api/v1/s/%00/openings'), 404, 'not_found');
    expectProblem(await ask('GET', '/api/v1/s/%ff/openings'), 404, 'not_found');
    expectProblem(await ask('GET', '/api/v1/s/nobody/openings'), 404, 'unknown_studio');
    expectProblem(await ask('GET', `/api/v1/s/${'x'.repeat(3000)}/openings`), 404, 'unknown_studio');
    expectProblem(await ask('GET', `${api}/place/${NO_SECRET}`), 404, 'not_found');
    for (const id of [NO_ID, 'x', '%00', (await newRequestAt(other)).sittingId])
      for (const [act, sent] of [
        ['approve', { start: '2027-05-07T09:30' }],
        ['decline', { message: 'x' }],
      ] as const)
        expectProblem(await ask('POST', `${api}/requests/${id}/${act}`, sent, asOwner()), 404, 'not_found');
  });

  it('who may not is told so', async () => {
    expectProblem(await ask('GET', `${api}/requests`), 401, 'sign_in_needed');
    const wrong = { email: studio.owner.email, password: 'wrong' };
    expectProblem(await ask('POST', `${api}/sessions`, wrong), 401, 'wrong_sign_in');
    const assistant = (await callerAt(house, studio, 'assistant')).secret;
    const reply = await ask('GET', `${api}/requests`, undefined, { authorization: `Bearer ${assistant}` });
    expectProblem(reply, 403, 'not_allowed');
    const form = await ask('POST', `/s/${studio.slug}/ask`, {}, { accept: 'application/json' });
    expectProblem(form, 403, 'form_expired');
    await turnSecondStepOn(house, studio, studio.assistant);
    const right = { email: studio.assistant.email, password: PASSWORD };
    expectProblem(await ask('POST', `${api}/sessions`, right), 401, 'code_needed');
  });

  it('a place that cannot be given says why', async () => {
    const [start = ''] = await openStarts(house, studio, { from: '2027-05-14', until: '2027-05-14' });
    const first = await newRequest();
    const second = await newRequest();
    const give = (id: string, to: unknown) =>
      ask('POST', `${api}/requests/${id}/approve`, { start: to }, asOwner());
    expect((await give(first.sittingId, start)).status).toBe(204);
    const taken = expectProblem(await give(second.sittingId, start), 409, 'place_taken');
    expect(taken.detail).toMatch(/taken/);
    expectProblem(await give(second.sittingId, '2027-05-13T09:30'), 409, 'not_an_opening'); // a Thursday
    expectProblem(await give(second.sittingId, '2027-06-04T09:30'), 409, 'not_an_opening'); // not asked for
    expectProblem(await give(first.sittingId, start), 409, 'wrong_state');
    for (const odd of ['2027-02-30T09:30', '2027-05-14', '', '2027-05-14T09:30Z', null, 7, ['x']]) {
      const { errors } = expectProblem(await give(second.sittingId, odd), 422, 'bad_input');
      expect(errors?.map((one) => one.pointer)).toEqual(['/start']);
    }
  });

  it('a shelf that cannot provide is told', async () => {
    const owner = (await callerAt(house, other, 'owner')).secret;
    const { sittingId } = await newRequestAt(other, { plates: 3 });
    const path = `/api/v1/s/${other.slug}/requests/${sittingId}/approve`;
    const [start = ''] = await openStarts(house, other, {
      from: '2026-12-01',
      until: '2026-12-11',
      plates: 3,
    });
    const reply = await ask('POST', path, { start }, { authorization: `Bearer ${owner}` });
    expectProblem(reply, 409, 'short_of_stock');
  });

  it('a link that ran out or was used is gone', async () => {
    const { page } = await newRequest();
    const now = house.clock.now().toString();
    house.clock.forward({ hours: 401 * 24 });
    expectProblem(await ask('GET', `/api/v1${page}`), 410, 'link_expired');
    house.clock.set(now);

    const links = house.app.get(LinksService);
    const token = await house.db.inStudio(studio.id, async (tx) => {
      const link = await links.make(tx, 'sign-in', studio.owner.id, house.clock.now().add({ minutes: 10 }));
      await links.use(tx, link);
      return links.token(link);
    });
    const used = await ask('GET', `/s/${studio.slug}/sign-in/${token}`, undefined, {
      accept: 'application/json',
    });
    expectProblem(used, 410, 'link_used');
  });

  it('a problem travels as a problem to whoever asks a page’s address for JSON', async () => {
    const page = { method: 'GET', path: '/s/:slug/desk' } as const;
    const nobody = await callerAt(house, studio, 'nobody');
    const json = await call(house, studio, page, nobody, { headers: { accept: 'application/json' } });
    expect(json.headers['content-type']).toBe('application/problem+json; charset=utf-8');
    const html = await call(house, studio, page, nobody);
    expect(html.headers['content-type']).toBe('text/html; charset=utf-8');
  });

  it('each code was met here or in limits-and-failures, and has its place on the page its type leads to', async () => {
    const elsewhere = ['too_many_requests', 'busy', 'broken', 'changed_meanwhile']; // the last by forms alone
    expect([...met, ...elsewhere].sort()).toEqual(Object.keys(PROBLEMS).sort());
    const page = await house.app.inject({ url: '/problems' });
    for (const code of Object.keys(PROBLEMS)) expect(page.body).toContain(`id="${code}"`);
  });

  async function newRequestAt(where: TestStudio, { plates = 1 } = {}): Promise<Asked> {
    const plate = { plateSizeId: where.sizes.whole.id, sitters: [0] };
    const suits = { kind: 'any' as const, from: '2026-12-01', until: '2027-05-31' };
    const body = requestBody(house, where, { plates: Array.from({ length: plates }, () => plate), suits });
    return (await ask<Asked>('POST', `/api/v1/s/${where.slug}/requests`, body, withKey())).body;
  }
});
