// Whoever steals the database, or a backup of it, opens nothing with it: no row of any table holds a usable secret.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import {
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  PASSWORD,
  type TestStudio,
} from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let superuser: pg.Client;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
});
afterAll(async () => {
  await superuser.end();
  await house.close();
});

describe('a dump of the whole database', () => {
  /** Every row of every table, the queue's too, as text. */
  async function dump(): Promise<string> {
    const { rows } = await superuser.query<{ name: string }>(
      `select format('%I.%I', nspname, relname) as name from pg_class join pg_namespace n on n.oid = relnamespace
       where relkind = 'r' and nspname not in ('pg_catalog', 'information_schema')`,
    );
    let text = '';
    for (const { name } of rows)
      text += (await superuser.query(`select t::text as row from ${name} t`)).rows
        .map(({ row }) => row)
        .join('\n');
    return text.toLowerCase();
  }

  /** A secret as it stands, and as bytes would be printed. */
  const spellings = (secret: string) =>
    [
      secret,
      Buffer.from(secret).toString('hex'),
      Buffer.from(secret, 'base64url').toString('hex'),
      Buffer.from(secret, 'base64url').toString('base64'),
    ].map((one) => one.toLowerCase());
  const found = (text: string, secrets: string[]) =>
    secrets.filter((secret) => spellings(secret).some((one) => text.includes(one)));

  it('holds no secret that opens anything', async () => {
    const accounts = house.app.get(AccountsService);
    const secrets = [await accounts.signIn(studio.id, studio.owner.email, PASSWORD)];
    const { token, sittingId } = await askForSitting(house, studio);
    await accounts.askForLink(studio.id, studio.owner.email);
    const [start] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-04-02' });
    await approve(house, studio, sittingId, start ?? '');
    const waiting = await dump();
    await house.work();
    for (const { text } of house.mail.sent) secrets.push(...(text.match(/(?<=\/)[\w-]{43}(?!\S)/g) ?? []));
    const page = await house.app.inject(`/s/${studio.slug}/place/${token}`);
    secrets.push(...new Set(page.body.match(/[\w-]{43}(?=\.ics)/g)), token, PASSWORD);
    expect(new Set(secrets).size).toBe(5); // session, place, sign-in link, feed, password
    const text = waiting + (await dump());
    expect(found(text, secrets)).toEqual([]);

    for (const [n, spelling] of spellings(secrets[0] ?? '').entries())
      await superuser.query('update sitting set message = message || $1 where sitting_id = $2', [
        `${n}${spelling}`,
        sittingId,
      ]);
    expect(found(await dump(), secrets)).toEqual([secrets[0]]);
  });
});
