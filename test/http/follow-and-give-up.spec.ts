// A contact looks at the page of the request, and gives it up. That looking changes nothing: every-link.spec.ts.
import { LinksService } from '../../src/accounts/links.service.js';
import { fingerprint } from '../support/all-rows.js';
import { callerAt } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
});
afterAll(() => house.close());

const page = (token: string) => `/s/${studio.slug}/place/${token}`;

async function confirmed(): Promise<{ sittingId: string; token: string; start: string }> {
  const asked = await askForSitting(house, studio);
  const [start = ''] = await openStarts(house, studio, { from: '2027-05-01', until: '2027-05-31' });
  await approve(house, studio, asked.sittingId, start);
  return { ...asked, start };
}

const isOpen = async (start: string) =>
  (await openStarts(house, studio, { from: start.slice(0, 10), until: start.slice(0, 10) })).includes(start);

describe('Following a request', () => {
  it('the page says where it stands, before and after the studio’s answer', async () => {
    const { sittingId, token } = await askForSitting(house, studio, { hopes: 'To look like myself.' });
    const visitor = new Visitor(house);
    const { html } = await visitor.get(page(token));
    const waiting = wordsOf(html);
    expect(waiting).toContain('The studio has your request and will answer. Nothing is fixed yet.');
    expect(waiting).toContain('State waiting for the studio’s answer');
    expect(waiting).toContain('any open day from Monday 1 March 2027 to Monday 31 May 2027');
    expect(waiting).toContain('To look like myself.');
    expect(waiting).toContain('Withdraw my request');
    expect(html).not.toContain(`${page(token)}/calendar`);

    const [start = ''] = await openStarts(house, studio, { from: '2027-05-01', until: '2027-05-31' });
    await approve(house, studio, sittingId, start);
    const given = await visitor.get(page(token));
    expect(given.html).toContain(`${page(token)}/calendar`);
    const words = wordsOf(given.html);
    expect(words).toContain('You have a place.');
    expect(words).toContain('Friday 7 May 2027');
    expect(words).toContain('09:30 to 10:45, time at the studio (Europe/London)');
    expect(words).toMatch(/Leave home by Friday 7 May 2027, 07:00 ?, by your clocks/);
    expect(words).toContain('Give my place back');
    const itsPage = (await visitor.get(`${page(token)}/calendar`)).html;
    const feed = /value="http:\/\/localhost:4180(\/s\/[^"]+\.ics)"/.exec(itsPage)?.[1] ?? '';
    const calendar = await visitor.get(feed, { accept: 'text/calendar' });
    expect(calendar.status).toBe(200);
    expect(calendar.html).toContain('BEGIN:VEVENT');
  });

  it('the page shows a message of the studio, and says "declined" in words', async () => {
    const { sittingId, token } = await askForSitting(house, studio);
    const owner = await signedIn(house, studio, 'owner');
    await owner.get(`/s/${studio.slug}/desk/requests/${sittingId}`);
    await owner.postAndFollow(`/s/${studio.slug}/desk/requests/${sittingId}/decline`, {
      message: 'The room is closed all spring.',
    });
    const words = wordsOf((await new Visitor(house).get(page(token))).html);
    expect(words).toContain('The studio could not give you a place. The room is closed all spring.');
    expect(words).not.toContain('Withdraw');
  });

  it('the page is kept by no cache and no search engine, and tells no other site its address', async () => {
    const { token } = await askForSitting(house, studio);
    for (const url of [page(token), `${page(token)}?done=asked`]) {
      const answer = await new Visitor(house).get(url);
      expect(answer.header('cache-control')).toBe('no-store');
      expect(answer.header('referrer-policy')).toBe('no-referrer');
      expect(answer.html).toContain('<meta name="robots" content="noindex"/>');
    }
  });

  it('whatever stands behind the address as "done" is passed over, unless it is one of ours', async () => {
    const { token } = await askForSitting(house, studio);
    const plain = await new Visitor(house).get(page(token));
    for (const done of ['constructor', '__proto__', 'toString', '<b>', 'asked&done=asked', '%00']) {
      const answer = await new Visitor(house).get(`${page(token)}?done=${done}`);
      expect([done, answer.status]).toEqual([done, 200]);
      expect(answer.html).not.toContain('class="notice');
      expect(wordsOf(answer.html)).toBe(wordsOf(plain.html));
    }
  });
});

describe('Giving up', () => {
  it('a request: by a button, once, and the studio is told', async () => {
    const { token } = await askForSitting(house, studio);
    await house.work();
    const letters = house.mail.sent.length;
    const visitor = new Visitor(house);
    await visitor.get(page(token));
    const done = await visitor.postAndFollow(`${page(token)}/give-up`);
    expect(wordsOf(done.html)).toContain('It is given up, and a message about it is on its way.');
    expect(wordsOf(done.html)).toContain('You have withdrawn this request.');
    await house.work();
    expect(house.mail.sent.length).toBeGreaterThan(letters);
  });

  it('a place: the room and the stock are free again at once', async () => {
    const { token, start } = await confirmed();
    expect(await isOpen(start)).toBe(false);
    const visitor = new Visitor(house);
    await visitor.get(page(token));
    const done = await visitor.postAndFollow(`${page(token)}/give-up`);
    expect(wordsOf(done.html)).toContain('You have given this place back.');
    expect(wordsOf(done.html)).not.toContain('Your calendar link');
    expect(await isOpen(start)).toBe(true);
  });

  it('a place, by the studio’s program for who rings: once, and no request that waits', async () => {
    const { secret } = await callerAt(house, studio, 'owner');
    const giveBack = async (sittingId: string) => {
      const url = `/api/v1/s/${studio.slug}/requests/${sittingId}/give-back`;
      const headers = { authorization: `Bearer ${secret}` };
      return (await house.app.inject({ method: 'POST', url, headers })).statusCode;
    };
    expect(await giveBack((await askForSitting(house, studio)).sittingId)).toBe(409);
    const { sittingId, start } = await confirmed();
    expect(await giveBack(sittingId)).toBe(204);
    expect(await isOpen(start)).toBe(true);
    expect(await giveBack(sittingId)).toBe(409);
  });

  it('a second time is told in plain words and changes nothing', async () => {
    const { token } = await confirmed();
    const visitor = new Visitor(house);
    await visitor.get(page(token));
    await visitor.post(`${page(token)}/give-up`);
    const before = await fingerprint(house);
    const again = await visitor.postAndFollow(`${page(token)}/give-up`);
    expect(again.status).toBe(200);
    expect(wordsOf(again.html)).toContain('This was given up already, or answered in the meantime.');
    expect(await fingerprint(house)).toBe(before);
  });

  it('twice at the same moment gives up once', async () => {
    const { token } = await confirmed();
    const visitor = new Visitor(house);
    await visitor.get(page(token));
    const all = await Promise.all([1, 2, 3, 4].map(() => visitor.post(`${page(token)}/give-up`)));
    expect(all.map((one) => one.location.replace(/.*done=/, '')).sort()).toEqual([
      ...['already', 'already', 'already', 'given-up'],
    ]);
  });
});

describe('A link that does not open', () => {
  const LETTERS = 'abcdefghijklmnopqrstuvwxyz0123456789-_ABCDEFG';

  it('is answered 410 in words when its time is over, and its button does nothing', async () => {
    const { token, start } = await confirmed();
    const visitor = new Visitor(house);
    await visitor.get(page(token));
    const now = house.clock.now().toString();
    try {
      house.clock.set(`${start}:00Z`);
      house.clock.forward({ hours: 24 * 30 + 2 }); // 30 days after the end of the sitting, and a little
      const day = await isOpen(start);
      for (const answer of [await visitor.get(page(token)), await visitor.post(`${page(token)}/give-up`)]) {
        expect(answer.status).toBe(410);
        expect(wordsOf(answer.html)).toContain('This link has run out');
        expect(answer.html).toContain(`href="/s/${studio.slug}"`);
        expect(answer.header('cache-control')).toBe('no-store');
      }
      expect(await isOpen(start)).toBe(day);
    } finally {
      house.clock.set(now);
    }
    expect((await visitor.get(page(token))).status).toBe(200);
  });

  it('is answered 404, whether it never was, is another studio’s, or is of another kind', async () => {
    const theirs = await askForSitting(house, other);
    const feed = await house.db.inStudio(studio.id, async (tx) => {
      const links = house.app.get(LinksService);
      return links.token(await links.ensure(tx, 'feed', studio.owner.id, 'owner'));
    });
    const tokens = [theirs.token, feed, LETTERS.slice(0, 43), 'short', '%00', 'a%2Fb', `${theirs.token}x`];
    const seen = { looked: new Set<string>(), sent: new Set<string>() };
    for (const token of tokens) {
      const visitor = new Visitor(house);
      await visitor.get(`/s/${studio.slug}/ask`);
      const answers = {
        looked: await visitor.get(page(token)),
        sent: await visitor.post(`${page(token)}/give-up`),
      };
      for (const how of ['looked', 'sent'] as const) {
        expect([token, answers[how].status]).toEqual([token, 404]);
        if (token !== '%00') seen[how].add(wordsOf(answers[how].html).replace(/“.*?”/, ''));
      }
    }
    for (const same of Object.values(seen)) {
      expect(same.size).toBe(1);
      expect([...same][0]).toContain('This link is not known here. Please check that it was copied whole.');
    }
    const own = await new Visitor(house).get(`/s/${other.slug}/place/${theirs.token}`);
    expect(own.status).toBe(200);
  });
});

describe('Once the hour of a sitting has come', () => {
  it('the place cannot be given back any more: what was set aside stays, and nobody is written to', async () => {
    const { token, start } = await confirmed();
    const before = house.clock.now();
    house.clock.set(`${start}:00Z`); // in May studio time is an hour ahead of this: the sitting is under way
    const visitor = new Visitor(house);
    const words = wordsOf((await visitor.get(page(token))).html);
    expect(words).toContain('The hour of your sitting has come.');
    expect(words).not.toContain('Give my place back');
    const rows = await fingerprint(house);
    const pressed = await house.app.inject({ method: 'POST', url: `/api/v1${page(token)}/give-up` });
    expect(pressed.json()).toMatchObject({ status: 409, code: 'wrong_state' });
    expect(await fingerprint(house)).toEqual(rows);
    house.clock.set(before.toString());
  });
});
