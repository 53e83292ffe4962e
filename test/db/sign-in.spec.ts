// Signing in, under the doors: a mailed link works once and not for long, a session has two limits, and who may
// not come in learns nothing from the answer or from how long it took.
import { afterAll, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { LinksService } from '../../src/accounts/links.service.js';
import { LinksStore } from '../../src/accounts/links.store.js';
import type { LinkPurpose } from '../../src/platform/security/tokens.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;
let accounts: AccountsService;
let owner: pg.Client;

beforeAll(async () => {
  house = await openTestHouse({ pool: 20 });
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, { slug: 'curlew-shed', name: 'Curlew Shed' });
  accounts = house.app.get(AccountsService);
  owner = new pg.Client({ connectionString: house.database.url });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
});
afterAll(async () => {
  await owner.end();
  await house.close();
});
beforeEach(() => owner.query('delete from session'));

const sessions = async () => Number((await owner.query('select count(*) from session')).rows[0].count);

/** A link as it is mailed to the owner; `askForLink` makes the same. */
async function mailedLink(): Promise<string> {
  house.mail.sent.length = 0;
  await accounts.askForLink(studio.id, studio.owner.email);
  await house.work();
  return /sign-in\/([\w-]{43})/.exec(house.mail.sent[0]?.text ?? '')?.[1] ?? '';
}

const refused = (code: string) => ({ code });

describe('a mailed link', () => {
  it('begins one session, and says so when it is used again', async () => {
    const token = await mailedLink();
    await accounts.checkLink(studio.id, token);
    await accounts.checkLink(studio.id, token);
    const secret = await accounts.signInByLink(studio.id, token);
    expect(await accounts.signedIn(studio.id, secret)).toEqual(studio.owner);
    await expect(accounts.signInByLink(studio.id, token)).rejects.toMatchObject(refused('link_used'));
    await expect(accounts.checkLink(studio.id, token)).rejects.toMatchObject(refused('link_used'));
    expect(await sessions()).toBe(1);
  });

  /** Fifty who use one link at the same moment. @returns how many came in */
  async function fiftyAtOnce(): Promise<number> {
    const token = await mailedLink();
    const uses = await Promise.allSettled(
      Array.from({ length: 50 }, () => accounts.signInByLink(studio.id, token)),
    );
    const lost = uses.filter((use) => use.status === 'rejected');
    for (const use of lost) expect(use.reason).toMatchObject(refused('link_used'));
    return uses.length - lost.length;
  }

  it('begins one session for fifty who use it at the same moment', async () => {
    expect(await fiftyAtOnce()).toBe(1);
    expect(await sessions()).toBe(1);
  });

  it('would begin several if its use were not guarded', async () => {
    jest.spyOn(LinksStore.prototype, 'use').mockImplementation(async (tx, id, at) => {
      await tx.run('update link set used_at = $3 where studio_id = $1 and link_id = $2', [
        tx.studioId,
        id,
        at,
      ]);
      return true;
    });
    expect(await fiftyAtOnce()).toBeGreaterThan(1);
    jest.restoreAllMocks();
  });

  it('works until ten minutes are over, and not in the eleventh', async () => {
    const early = await mailedLink();
    house.clock.forward({ minutes: 9, seconds: 59, milliseconds: 999 });
    expect(await accounts.signInByLink(studio.id, early)).toHaveLength(43);
    const late = await mailedLink();
    house.clock.forward({ minutes: 10 });
    for (const act of ['checkLink', 'signInByLink'] as const)
      await expect(accounts[act](studio.id, late)).rejects.toMatchObject(refused('link_expired'));
    expect(await sessions()).toBe(1);
  });

  it('opens nothing at another studio, nor does any other kind of link sign in', async () => {
    const token = await mailedLink();
    await expect(accounts.signInByLink(other.id, token)).rejects.toMatchObject(refused('not_found'));
    const links = house.app.get(LinksService);
    for (const purpose of ['place', 'feed'] satisfies LinkPurpose[]) {
      const link = await house.db.inStudio(studio.id, (tx) => links.make(tx, purpose, studio.owner.id, null));
      await expect(accounts.signInByLink(studio.id, links.token(link))).rejects.toMatchObject(
        refused('not_found'),
      );
    }
    for (const garbage of ['', 'A'.repeat(43), `${token}A`, token.toLowerCase(), '\0'.repeat(43)])
      await expect(accounts.signInByLink(studio.id, garbage)).rejects.toMatchObject(refused('not_found'));
    expect(await sessions()).toBe(0);
    expect(await accounts.signInByLink(studio.id, token)).toHaveLength(43);
  });
});

describe('a session', () => {
  const begin = () => accounts.signIn(studio.id, studio.owner.email, PASSWORD);
  const holds = async (secret: string) => (await accounts.signedIn(studio.id, secret)) !== null;

  it('is forgotten when it was not used for fourteen days, not before', async () => {
    const [used, unused] = [await begin(), await begin()];
    house.clock.forward({ hours: 14 * 24 - 1 });
    expect(await holds(used)).toBe(true);
    house.clock.forward({ hours: 1 });
    expect(await holds(unused)).toBe(false);
    house.clock.forward({ hours: 13 * 24 });
    expect(await holds(used)).toBe(true);
  });

  it('is forgotten after thirty days however often it was used', async () => {
    const secret = await begin();
    for (let day = 1; day < 30; day++) {
      house.clock.forward({ hours: 24 });
      expect([day, await holds(secret)]).toEqual([day, true]);
    }
    house.clock.forward({ hours: 23, minutes: 59 });
    expect(await holds(secret)).toBe(true);
    house.clock.forward({ minutes: 1 });
    expect(await holds(secret)).toBe(false);
  });

  it('leaves no row behind once it is over and somebody signs in', async () => {
    await begin();
    house.clock.forward({ hours: 20 * 24 });
    const used = await begin();
    expect(await sessions()).toBe(1);
    house.clock.forward({ hours: 10 * 24 });
    await holds(used);
    house.clock.forward({ hours: 10 * 24 });
    await begin();
    expect(await sessions()).toBe(2);
    house.clock.forward({ hours: 10 * 24 });
    await begin();
    expect(await sessions()).toBe(2);
  });

  it('ends on signing out, and only that one', async () => {
    const [one, two] = [await begin(), await begin()];
    expect(one).not.toBe(two);
    await accounts.signOut(studio.id, one);
    await accounts.signOut(studio.id, one);
    expect([await holds(one), await holds(two)]).toEqual([false, true]);
    expect(await sessions()).toBe(1);
  });

  it('is nobody’s at another studio, nor with anything but its secret', async () => {
    const secret = await begin();
    expect(await accounts.signedIn(other.id, secret)).toBeNull();
    await accounts.signOut(other.id, secret);
    expect(await holds(secret)).toBe(true);
    for (const guess of ['', secret.slice(1), `${secret} `, 'A'.repeat(43)])
      expect(await holds(guess)).toBe(false);
    expect(await accounts.signedIn(studio.id, undefined)).toBeNull();
  });

  it('ends with its account', async () => {
    const secret = await begin();
    await house.db.inStudio(studio.id, (tx) =>
      tx.run(`update session set account_id = $1`, [studio.assistant.id]),
    );
    expect(await accounts.signedIn(studio.id, secret)).toEqual(studio.assistant);
    await house.db.inStudio(studio.id, (tx) =>
      tx.run('delete from account where account_id = $1', [studio.assistant.id]),
    );
    expect(await holds(secret)).toBe(false);
  });
});

describe('who gives a wrong address or password', () => {
  const unknown = () => accounts.signIn(studio.id, 'eve@evil.example', PASSWORD);
  const wrong = () => accounts.signIn(studio.id, studio.owner.email, 'not the password');
  const withoutPassword = () => accounts.signIn(studio.id, 'links-only@sandpiper-loft.example', PASSWORD);
  const elsewhere = () => accounts.signIn(other.id, studio.owner.email, PASSWORD);

  beforeAll(() =>
    house.db.inStudio(studio.id, (tx) =>
      accounts.create(tx, {
        role: 'assistant',
        name: 'Links Only',
        email: 'links-only@sandpiper-loft.example',
      }),
    ),
  );

  it('is told the same in every case', async () => {
    const errors = [];
    for (const way of [unknown, wrong, withoutPassword, elsewhere])
      errors.push(await way().catch((error) => error));
    for (const error of errors) expect(error).toMatchObject(refused('wrong_sign_in'));
    expect(
      new Set(errors.map((error) => JSON.stringify([error.message, error.detail, error.fields]))).size,
    ).toBe(1);
    expect(await sessions()).toBe(0);
  });

  it('waits as long in every case, which is long beside looking the address up', async () => {
    const ways = {
      unknown,
      wrong,
      withoutPassword,
      lookingUp: () => accounts.signedIn(studio.id, 'A'.repeat(43)),
    };
    const took = new Map(Object.keys(ways).map((name) => [name, [] as number[]]));
    for (let round = 0; round < 9; round++)
      for (const [name, way] of Object.entries(ways)) {
        const begun = performance.now();
        await way().catch(() => {});
        took.get(name)?.push(performance.now() - begun);
      }
    const median = (name: string) => took.get(name)?.sort((a, b) => a - b)[4] ?? 0;
    expect(median('unknown') / median('wrong')).toBeGreaterThan(0.5);
    expect(median('unknown') / median('wrong')).toBeLessThan(2);
    expect(median('withoutPassword') / median('wrong')).toBeGreaterThan(0.5);
    expect(median('lookingUp') / median('wrong')).toBeLessThan(0.5); // as an answer without reckoning would be
  });
});
