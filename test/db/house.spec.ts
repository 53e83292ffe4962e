// The house opens whole or not at all, and closing leaves nothing open, whatever goes wrong on the way.
import 'reflect-metadata';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { AppModule } from '../../src/app.module.js';
import { alreadyOpen, type Opening, openHouse } from '../../src/platform/house.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';

let database: TestDatabase;
let home: string;
let told: string[];

beforeEach(async () => {
  database = await createTestDatabase();
  home = mkdtempSync(join(tmpdir(), 'plateday-house-'));
  told = [];
});
afterEach(async () => {
  await database.drop();
  rmSync(home, { recursive: true });
});

function opening(change: Partial<Opening> = {}): Opening {
  return {
    env: { DATABASE_URL: database.url, PLATEDAY_HOME: home, PORT: '0' },
    database: 'plateday',
    root: AppModule.with,
    web: true,
    worker: true,
    log: (line) => told.push(line),
    ...change,
  };
}

/** Connections that the house holds; those that it ended take the server a moment to forget. */
async function connections(): Promise<number> {
  const client = new pg.Client({ connectionString: database.adminUrl });
  await client.connect();
  const sql = `select count(*)::int from pg_stat_activity
    where datname = current_database() and pid <> pg_backend_pid()`;
  let count = -1;
  for (let look = 0; look < 100 && count !== 0; look++) {
    count = (await client.query(sql)).rows[0].count;
    if (count !== 0) await new Promise((done) => setTimeout(done, 20));
  }
  await client.end();
  return count;
}
const found = () => alreadyOpen({ PLATEDAY_HOME: home }, 'plateday');

describe('a house', () => {
  it('is found while it is open, and leaves nothing when it is closed', async () => {
    const house = await openHouse(opening());
    expect(await found()).toBe(house.base);
    await house.close();
    expect(await found()).toBeNull();
    expect(await connections()).toBe(0);
    expect(existsSync(join(home, 'running.json'))).toBe(false);
    await house.close();
  });

  it('is closed whole, also when a part of it cannot be, of which it tells', async () => {
    const house = await openHouse(opening());
    jest.spyOn(house.platform.mailer, 'close').mockImplementation(() => {
      throw new Error('the letter box is stuck');
    });
    await expect(house.close()).rejects.toThrow('the letter box is stuck');
    expect(await connections()).toBe(0);
  });

  it('that could not be prepared is closed again, and says why', async () => {
    const prepare = () => Promise.reject(new Error('The demo studio cannot be loaded.'));
    await expect(openHouse(opening({ prepare }))).rejects.toThrow('The demo studio cannot be loaded.');
    expect(await connections()).toBe(0);
    expect(await found()).toBeNull();
  });

  it('does not open on a port that somebody else has, and says what to do', async () => {
    const first = await openHouse(opening());
    const port = new URL(first.base).port;
    const env = { DATABASE_URL: database.url, PLATEDAY_HOME: join(home, 'second'), PORT: port };
    await expect(openHouse(opening({ env }))).rejects.toThrow(
      `Port ${port} is taken by another program. Set PORT to another one, or to 0 for any free one.`,
    );
    expect(await found()).toBe(first.base);
    await first.close();
    expect(await connections()).toBe(0);
  });

  it('for jobs alone has no pages', async () => {
    const worker = await openHouse(opening({ web: false }));
    expect(worker.base).toBe('');
    expect(await found()).toBeNull();
    await worker.close();
    expect(await connections()).toBe(0);
  });
});
