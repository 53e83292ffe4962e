// The desk through its doors: who may come in, what each page needs, and the owner's answers to requests.
import { randomUUID } from 'node:crypto';
import { SittingViews } from '../../src/sittings/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let desk: string;
let owner: Visitor;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  desk = `/s/${studio.slug}/desk`;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const text = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
const stateOf = async (sittingId: string) => {
  const { views } = await house.app
    .get(SittingViews)
    .list(studio.id, ['requested', 'confirmed', 'declined', 'withdrawn']);
  return views.find((one) => one.sitting.id === sittingId)?.sitting.state;
};
const starts = () => openStarts(house, studio, { from: '2027-03-01', until: '2027-05-31' });

describe('who may come to the desk', () => {
  const ownerOnly = ['/mail', '/calendar', `/requests/${randomUUID()}`, `/mail/${randomUUID()}`];

  it('nobody who is not signed in, and what is answered is not kept by any cache', async () => {
    const stranger = new Visitor(house);
    for (const path of ['', '/shelf', ...ownerOnly]) {
      const answer = await stranger.get(`${desk}${path}`);
      expect([path, answer.status]).toEqual([path, 401]);
      expect(answer.header('cache-control')).toBe('no-store');
    }
    await stranger.get(`/s/${studio.slug}/sign-in`); // a form's token, and still no session
    expect((await stranger.post(`${desk}/requests/${randomUUID()}/approve`, { start: 'x' })).status).toBe(
      401,
    );
  });

  it('the assistant to see who comes next, and no further', async () => {
    const { sittingId } = await askForSitting(house, studio, {
      name: 'Perdita Vale',
      anything: 'a private note',
    });
    const { sittingId: coming } = await askForSitting(house, studio, { name: 'Corin Ashby' });
    await approve(house, studio, coming, (await starts())[0]!);
    const assistant = await signedIn(house, studio, 'assistant');
    const { status, html } = await assistant.get(desk);
    expect(status).toBe(200);
    expect(html).toContain('Corin Ashby');
    expect(html).not.toMatch(/Perdita Vale|a private note|desk\/requests/);
    for (const path of [...ownerOnly, `/requests/${sittingId}`])
      expect([path, (await assistant.get(`${desk}${path}`)).status]).toEqual([path, 403]);
    const start = (await starts())[0]!;
    expect((await assistant.post(`${desk}/requests/${sittingId}/approve`, { start })).status).toBe(403);
    expect((await assistant.post(`${desk}/requests/${sittingId}/decline`, { message: 'No' })).status).toBe(
      403,
    );
    expect(await stateOf(sittingId)).toBe('requested');
  });

  it('the owner of one studio not to the desk of another, nor to another’s request through the own desk', async () => {
    const other = await foundTestStudio(house, { slug: 'heron-mill', name: 'Heron Mill' });
    expect((await owner.get('/s/heron-mill/desk')).status).toBe(401);
    const { sittingId } = await askForSitting(house, other, { name: 'Not for these eyes' });
    expect((await owner.get(`${desk}/requests/${sittingId}`)).status).toBe(404);
    expect((await owner.get(desk)).html).not.toContain('Not for these eyes');
  });
});

describe('giving a place', () => {
  it('confirms the request, sets the stock aside, tells the contact, and shows it all', async () => {
    const { sittingId } = await askForSitting(house, studio, {
      name: 'Merrin Locke',
      email: 'merrin@post.example',
    });
    expect((await owner.get(desk)).html).toContain('Merrin Locke');
    const page = `${desk}/requests/${sittingId}`;
    const start = /value="(2027-[^"]+)"/.exec((await owner.get(page)).html)?.[1];
    const confirmed = await owner.postAndFollow(`${page}/approve`, { start: start! });
    expect(confirmed.status).toBe(200);
    expect(text(confirmed.html)).toContain('The place is given.');
    expect(text(confirmed.html)).toMatch(
      /Clear glass, whole plate \d+ sheets? First Clear glass, whole plate/,
    );
    expect(confirmed.html).not.toContain(`${page}/approve`);
    expect(text(confirmed.html)).toContain('Isaura Fenwick gave the place');
    await house.work();
    expect(
      house.mail.sent.filter((one) => one.to.address === 'merrin@post.example').map((one) => one.subject),
    ).toEqual([expect.stringContaining('Your request'), expect.stringContaining('Your place')]);
  });

  it('needs a place among those shown: anything else is asked for again, and nothing happens', async () => {
    const { sittingId } = await askForSitting(house, studio);
    const page = `${desk}/requests/${sittingId}`;
    await owner.get(page);
    for (const start of [
      undefined,
      '',
      'tomorrow',
      '2027-02-30T11:15',
      '2027-05-14',
      '2027-05-14T25:00',
      ['a', 'b'],
      '9'.repeat(5000),
    ]) {
      const answer = await owner.post(`${page}/approve`, start === undefined ? {} : { start });
      expect([start, answer.status]).toEqual([start, 422]);
      expect(answer.html).toContain('Please choose one of the places.');
      expect(answer.html).toContain('type="radio"');
    }
    for (const start of [
      '2027-05-13T11:15',
      '2027-06-04T11:15',
      '2027-05-14T11:16',
      '2001-05-04T11:15',
      '0000-01-01T00:00',
    ]) {
      const answer = await owner.post(`${page}/approve`, { start });
      expect([start, answer.status]).toEqual([start, 409]);
      expect(answer.html).toContain('class="notice bad"');
    }
    expect(await stateOf(sittingId)).toBe('requested');
  });

  it('that was taken meanwhile is told on the same page, with what is open now', async () => {
    const first = await askForSitting(house, studio);
    const second = await askForSitting(house, studio);
    const start = (await starts())[0]!;
    const page = `${desk}/requests/${second.sittingId}`;
    expect((await owner.get(page)).html).toContain(`value="${start}"`);
    await approve(house, studio, first.sittingId, start);
    const answer = await owner.post(`${page}/approve`, { start });
    expect(answer.status).toBe(409);
    expect(text(answer.html)).toContain('That place was taken a moment ago');
    expect(answer.html).not.toContain(`value="${start}"`);
    const other = (await starts())[0]!;
    expect((await owner.post(`${page}/approve`, { start: other })).status).toBe(303);
  });

  it('sent twice gives one place; the second is told how it stands', async () => {
    const { sittingId } = await askForSitting(house, studio);
    const page = `${desk}/requests/${sittingId}`;
    await owner.get(page);
    const [one, two] = await starts();
    expect((await owner.post(`${page}/approve`, { start: one! })).status).toBe(303);
    const again = await owner.post(`${page}/approve`, { start: two! });
    expect(again.status).toBe(409);
    expect(text(again.html)).toContain('Confirmed for');
    expect((await starts())[0]).toBe(two);
  });

  it('is not offered on a day for which the shelf cannot provide', async () => {
    const bare = await foundTestStudio(house, { slug: 'bare-shelf', shelf: { wholeGlass: 0n } });
    const bareOwner = await signedIn(house, bare, 'owner');
    const suits = { kind: 'any', from: '2026-11-28', until: '2027-03-31' } as const;
    const { sittingId } = await askForSitting(house, bare, { suits });
    const page = `/s/bare-shelf/desk/requests/${sittingId}`;
    const { html } = await bareOwner.get(page);
    expect(text(html)).toContain(
      'Friday 11 December: none. 09:30, the light is not yet good; 11:15, the shelf cannot provide Clear glass, whole plate',
    );
    expect(html).not.toContain('value="2026-12-11T11:15"');
    expect(html).toContain('value="2026-12-18T11:15"'); // glass takes 21 days, and 23 are left
    const answer = await bareOwner.post(`${page}/approve`, { start: '2026-12-11T11:15' });
    expect(answer.status).toBe(409);
    expect(text(answer.html)).toContain('There is not enough Clear glass, whole plate for that day');
  });
});

describe('declining', () => {
  it('sends the owner’s words and ends the request', async () => {
    const { sittingId } = await askForSitting(house, studio, { email: 'tobiah@post.example' });
    const page = `${desk}/requests/${sittingId}`;
    await owner.get(page);
    const done = await owner.postAndFollow(`${page}/decline`, {
      message: ' The spring is full,\r\nI am sorry.\u0000 ',
    });
    expect(text(done.html)).toMatch(/Declined\. .*Nobody has been told yet; the letter is about to go\./);
    expect(text(done.html)).not.toContain('being told');
    expect(done.html).toContain('<div>The spring is full,</div><div>I am sorry.</div>');
    await house.work();
    const letters = house.mail.sent.filter((one) => one.to.address === 'tobiah@post.example');
    expect(letters.map((one) => one.text).join()).toContain('The spring is full,\nI am sorry.');
    expect((await owner.post(`${page}/decline`, { message: 'Twice' })).status).toBe(409);
  });

  it('needs a word, and not too many; what was typed stays', async () => {
    const { sittingId } = await askForSitting(house, studio);
    const page = `${desk}/requests/${sittingId}`;
    await owner.get(page);
    const none = await owner.post(`${page}/decline`, { message: ' \n ' });
    expect([none.status, none.html.includes('Please say a word to them.')]).toEqual([422, true]);
    expect((await owner.post(`${page}/decline`)).status).toBe(422);
    expect((await owner.post(`${page}/decline`, { message: ['a', 'b'] })).status).toBe(422);
    const long = await owner.post(`${page}/decline`, { message: `<i>${'x'.repeat(1998)}` });
    expect(long.status).toBe(422);
    expect(long.html).toContain('Please keep this under 2,000 characters.');
    expect(long.html).toContain(`&lt;i>${'x'.repeat(1998)}</textarea>`);
    expect((await owner.post(`${page}/decline`, { message: 'x'.repeat(300_000) })).status).toBe(413);
    expect(await stateOf(sittingId)).toBe('requested');
  });
});

describe('bad addresses', () => {
  it('are told as such and never break anything', async () => {
    const unknown = [
      `/requests/${randomUUID()}`,
      '/requests/1',
      '/requests/%00',
      `/mail/${randomUUID()}`,
      '/mail/%27',
      '/nothing',
    ];
    for (const path of unknown)
      expect([path, (await owner.get(`${desk}${path}`)).status]).toEqual([path, 404]);
    await owner.get(desk);
    const start = (await starts())[0]!;
    for (const id of [randomUUID(), 'x'])
      for (const act of ['approve', 'decline'])
        expect((await owner.post(`${desk}/requests/${id}/${act}`, { start, message: 'x' })).status).toBe(404);
    const { sittingId } = await askForSitting(house, studio);
    for (const done of ['?done=constructor', '?done=approved&done=declined', '?done=%00'])
      expect((await owner.get(`${desk}/requests/${sittingId}${done}`)).status).toBe(200);
    expect((await owner.get('/s/no-such-studio/desk')).status).toBe(404);
  });

  it('and forms without their token are refused', async () => {
    const { sittingId } = await askForSitting(house, studio);
    await owner.get(desk);
    const start = (await starts())[0]!;
    expect((await owner.post(`${desk}/requests/${sittingId}/approve`, { _form: 'x', start })).status).toBe(
      403,
    );
    expect((await owner.post(`${desk}/calendar`, { _form: 'x' })).status).toBe(403);
    expect(await stateOf(sittingId)).toBe('requested');
  });

  it('and a request for days that are past has no place, and can still be answered', async () => {
    const suits = { kind: 'these', days: ['2026-12-04'] } as const;
    const { sittingId } = await askForSitting(house, studio, { suits: { ...suits, days: [...suits.days] } });
    house.clock.forward({ hours: 24 * 30 });
    try {
      const later = await signedIn(house, studio, 'owner');
      const { status, html } = await later.get(`${desk}/requests/${sittingId}`);
      expect(status).toBe(200);
      expect(text(html)).toContain('None of the days that suit has a place that can be given.');
      expect(html).not.toContain('/approve">');
      expect(text((await later.get(`${desk}/requests`)).html)).toContain('No place is open on these days');
      expect(
        (await later.post(`${desk}/requests/${sittingId}/decline`, { message: 'Too late.' })).status,
      ).toBe(303);
    } finally {
      house.clock.forward({ hours: -24 * 30 });
    }
  });
});
