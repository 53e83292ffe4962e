// What the owner looks at besides requests: the front page with many waiting, the shelf, the mail, the calendar
// link. Looking changes nothing.
import { jest } from '@jest/globals';
import { z } from 'zod';
import { LinksService } from '../../src/accounts/links.service.js';
import { Tx } from '../../src/platform/db/tx.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
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

describe('many waiting requests', () => {
  it('cost the front page no more statements than few', async () => {
    const busy = await foundTestStudio(house, { slug: 'busy-loft' });
    const busyOwner = await signedIn(house, busy, 'owner');
    const statements = jest.spyOn(Tx.prototype, 'many');
    const count = async () => {
      statements.mockClear();
      const { html } = await busyOwner.get('/s/busy-loft/desk');
      return {
        statements: statements.mock.calls.length,
        told: /Waiting for your answer \((\d+)\)/.exec(html)?.[1],
      };
    };
    await askForSitting(house, busy);
    const one = await count();
    for (let asked = 1; asked < 25; asked++) await askForSitting(house, busy);
    expect(await count()).toEqual({ statements: one.statements, told: '25' });
    expect([one.told, one.statements > 5]).toEqual(['1', true]);
    statements.mockClear();
    const { html } = await busyOwner.get('/s/busy-loft/desk/requests');
    expect(html.match(/<article/g)).toHaveLength(25);
    expect(statements.mock.calls.length).toBeLessThan(one.statements);
    statements.mockRestore();
  });
});

describe('who comes next', () => {
  it('is told in the order of days, and forgotten once the sitting is over', async () => {
    const place = async (name: string, start: string) =>
      approve(house, studio, (await askForSitting(house, studio, { name })).sittingId, start);
    await place('The later one', '2027-03-12T11:15');
    await place('The sooner one', '2027-03-05T11:15');
    const names = async (visitor: Visitor) =>
      (await visitor.get(desk)).html.match(/The (sooner|later) one(?=<\/td>)/g);
    expect(await names(owner)).toEqual(['The sooner one', 'The later one']);
    house.clock.set('2027-03-05T12:29:00Z'); // a minute before it ends
    try {
      const role = async (of: 'owner' | 'assistant') => names(await signedIn(house, studio, of));
      expect(await role('owner')).toEqual(['The sooner one', 'The later one']);
      house.clock.set('2027-03-05T12:30:00Z');
      expect(await role('owner')).toEqual(['The later one']);
      expect(await role('assistant')).toEqual(['The later one']);
    } finally {
      house.clock.set('2026-11-25T10:00:00Z');
      owner = await signedIn(house, studio, 'owner'); // signing in later swept the old session away
    }
  });
});

describe('the shelf at a glance', () => {
  it('is told for the plates of each request by itself', async () => {
    const mixed = await foundTestStudio(house, { slug: 'mixed-loft', shelf: { halfGlass: 0n } });
    const asks = (name: string, plateSizeId: string) =>
      askForSitting(house, mixed, { name, plates: [{ plateSizeId, sitters: [0] }] });
    await asks('Whole Plate Person', mixed.sizes.whole.id);
    await asks('Half Plate Person', mixed.sizes.half.id);
    const front = text((await (await signedIn(house, mixed, 'owner')).get('/s/mixed-loft/desk')).html);
    expect(front).toMatch(/Whole Plate Person one person [^·]*·[^·]*· enough ·/);
    expect(front).toMatch(/Half Plate Person one person [^·]*·[^·]*· nothing to do yet ·/);
  });
});

describe('what the shelf wants', () => {
  it('is not what a bottle or box has given already', async () => {
    const exact = await foundTestStudio(house, {
      slug: 'exact-shelf',
      shelf: { wholeGlass: 1n, collodion: 0n },
    });
    const { sittingId } = await askForSitting(house, exact);
    await approve(house, exact, sittingId, '2027-03-05T11:15');
    const shelf = text((await (await signedIn(house, exact, 'owner')).get('/s/exact-shelf/desk/shelf')).html);
    expect(shelf).toMatch(
      /Clear glass, whole plate Usable now 1 sheet Set aside 1 sheet Free 0 sheets one box First/,
    );
    expect(shelf).toMatch(/Iodised collodion Usable now 0 mL Set aside 0 mL Free 0 mL Still to be mixed/);
  });

  it('is what was promised without a bottle or box, while the last day to act is near', async () => {
    const bare = await foundTestStudio(house, {
      slug: 'half-bare',
      shelf: { wholeGlass: 0n, collodion: 0n },
    });
    const suits = { kind: 'any', from: '2026-11-28', until: '2027-03-31' } as const;
    const soon = await askForSitting(house, bare, { suits });
    await approve(house, bare, soon.sittingId, '2026-12-18T11:15');
    const bareOwner = await signedIn(house, bare, 'owner');
    const front = text((await bareOwner.get('/s/half-bare/desk')).html);
    expect(front).toMatch(
      /Order Clear glass, whole plate: \d+ sheets? by Friday 27 November\. For Friday 18 December 2026/,
    );
    expect(front).not.toContain('Mix Iodised collodion'); // 11 December is 16 days away
    const shelf = text((await bareOwner.get('/s/half-bare/desk/shelf')).html);
    expect(shelf).toMatch(
      /Still to be mixed for given places: [\d.]+ mL, the first for Friday 18 December, by Friday 11 December 2026/,
    );
  });
});

describe('mail and calendar link', () => {
  it('lists what was sent, and opens each letter, but shows no address of a sign-in link', async () => {
    const { token } = await askForSitting(house, studio, {
      name: 'Idony Marsh',
      email: 'idony@post.example',
    });
    const visitor = new Visitor(house);
    await visitor.get(`/s/${studio.slug}/sign-in`);
    await visitor.post(`/s/${studio.slug}/sign-in/link`, { email: studio.assistant.email });
    await house.work();
    const list = await owner.get(`${desk}/mail`);
    expect(text(list.html)).toContain('Idony Marsh idony@post.example');
    const mails = await house.app.get(OutboxService).latest(studio.id);
    const open = (kind: string, to: string) =>
      owner.get(`${desk}/mail/${mails.find((one) => one.kind === kind && one.recipient === to)?.mail_id}`);
    const asked = await open('asked', 'idony@post.example');
    expect(asked.html).toContain('Dear Idony Marsh,');
    expect(asked.html).toContain(`/s/${studio.slug}/place/${token}`);
    const signIn = await open('sign-in', studio.assistant.email);
    const secret = /sign-in\/([A-Za-z0-9_-]{43})/.exec(house.mail.sent.map((one) => one.text).join())?.[1];
    expect(secret).toHaveLength(43);
    expect(text(signIn.html)).toContain('Dear Odhran Pike,');
    expect(signIn.html).not.toContain(secret);
  });

  it('tells what waits and what the mail server refused', async () => {
    house.mail.failures.push(Object.assign(new Error('550 no such box'), { responseCode: 550 }));
    await askForSitting(house, studio, { name: 'Ysolt Crane', email: 'ysolt@post.example' });
    expect(text((await owner.get(`${desk}/mail`)).html)).not.toContain('refused by the mail server');
    await house.work();
    const { html } = await owner.get(`${desk}/mail`);
    expect(text(html)).toMatch(/\d+ sent, 0 waiting, 1 not sent/);
    expect(text(html)).toContain('refused by the mail server');
  });

  it('gives the owner a calendar address that works, and makes one where there is none', async () => {
    const { html } = await owner.get(`${desk}/calendar`);
    const path = /webcal:\/\/localhost:4180(\/[^"]+\/[\w-]{43}\.ics)"/.exec(html)?.[1];
    expect(html).toContain(`value="http://localhost:4180${path}"`);
    const feed = await new Visitor(house).get(path!);
    expect([feed.status, feed.html.split('\r\n')[0]]).toEqual([200, 'BEGIN:VCALENDAR']);
  });

  /** The address of teaching days is no secret, and always there. */
  const SECRET_FEED = /\/[\w-]{43}\.ics/;

  it('makes the owner’s calendar link again once it was ended, and only when asked to', async () => {
    const links = house.app.get(LinksService);
    await house.db.inStudio(studio.id, async (tx) => {
      await links.revoke(tx, await links.ensure(tx, 'feed', studio.owner.id, 'owner'));
    });
    for (let look = 0; look < 2; look++)
      expect((await owner.get(`${desk}/calendar`)).html).not.toMatch(SECRET_FEED);
    const made = await owner.postAndFollow(`${desk}/calendar`, { do: 'make', of: 'owner' });
    expect(text(made.html)).toContain('The link is made.');
    expect(made.html).toMatch(SECRET_FEED);
  });

  it('changes nothing by looking', async () => {
    const { sittingId } = await askForSitting(house, studio);
    await house.work();
    const before = await snapshot();
    for (const path of [
      '',
      '/shelf',
      '/mail',
      '/calendar',
      `/requests/${sittingId}`,
      `/requests/${sittingId}?done=approved`,
    ])
      expect((await owner.get(`${desk}${path}`)).status).toBe(200);
    expect(await snapshot()).toEqual(before);
  });
});

/** Every row of the studio in every table, with the transaction that wrote it last. */
async function snapshot(): Promise<string[]> {
  return house.db.inStudio(studio.id, async (tx) => {
    const named = z.object({ name: z.string() });
    const tables = await tx.many(
      named,
      `select tablename as name from pg_tables where schemaname = 'public'`,
    );
    const sums: string[] = [];
    for (const { name } of tables)
      sums.push(
        (
          await tx.one(
            named,
            `select '${name} ' || count(*) || coalesce(md5(string_agg(t.xmin::text || t::text, ',' order by t::text)), '')
             as name from ${name} t`,
          )
        ).name,
      );
    return sums.sort();
  });
}
