// A studio copied, wiped and put back: row for row, sum for sum, its calendars and links as before, its jobs still to come.
// And every altered or cut-off copy is refused before anything is touched.
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { openArchive, packArchive } from '../../src/backup/archive.js';
import { BackupService } from '../../src/backup/backup.service.js';
import { RestoreService } from '../../src/backup/restore.service.js';
import { FeedDoors } from '../../src/calendar/feed-doors.service.js';
import { FeedsService } from '../../src/calendar/feeds.service.js';
import { fillStudio } from '../support/full-studio.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio } from '../support/studio.js';

let home: string;
let from: TestHouse;
let to: TestHouse;
let studio: { id: string; slug: string; feedToken: string };
let copy: Awaited<ReturnType<BackupService['archive']>>;

beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'plateday-copies-'));
  const env = { PLATEDAY_HOME: home };
  from = await openTestHouse({ env });
  to = await openTestHouse({ env });
  const founded = await foundTestStudio(from);
  studio = { ...(await fillStudio(from, founded)), id: founded.id };
  copy = await from.app.get(BackupService).archive(studio.id);
}, 60_000);
afterAll(async () => {
  await Promise.all([from.close(), to.close()]);
  await rm(home, { recursive: true, force: true });
});

const restores = () => to.app.get(RestoreService);
const nothingThere = async () => expect(await to.db.studioIds()).toEqual([]);

describe('a copy that is not whole', () => {
  it('is refused where one byte of any part is another, and nothing is touched', async () => {
    const entries = await openArchive(copy.bytes);
    for (const [name, content] of entries) {
      if (content.length === 0) continue;
      const altered = Buffer.from(content);
      altered[Math.floor(content.length / 2)] = (content[Math.floor(content.length / 2)] ?? 0) ^ 1;
      const bytes = await packArchive(new Map([...entries, [name, altered]]));
      await expect(
        restores()
          .check(bytes)
          .then((checked) => restores().restore(checked)),
      ).rejects.toThrow();
    }
    await nothingThere();
  });
  it('is refused where a part is missing or one too many', async () => {
    const entries = await openArchive(copy.bytes);
    const less = new Map([...entries].filter(([name]) => name !== 'tables/contact.jsonl'));
    await expect(restores().check(await packArchive(less))).rejects.toThrow(
      'contact.jsonl is not what was saved',
    );
    const more = new Map([...entries, ['tables/other.jsonl', Buffer.from('{}\n')] as const]);
    await expect(restores().check(await packArchive(more))).rejects.toThrow('does not belong to it');
    await expect(restores().check(copy.bytes.subarray(0, 2000))).rejects.toThrow('no whole copy');
    await expect(restores().check(Buffer.from('a letter'))).rejects.toThrow('no whole copy');
  });
  it('leaves nothing behind where its sums are not true', async () => {
    const checked = await restores().check(copy.bytes);
    const [first, ...others] = checked.manifest.shelf;
    const shelf = [{ ...(first ?? { item: '', moved: '', setAside: '' }), onHand: '1' }, ...others];
    await expect(
      restores().restore({ ...checked, manifest: { ...checked.manifest, shelf } }),
    ).rejects.toThrow('sums of the shelf');
    await nothingThere();
  });
  it('is refused where it comes from a version this one does not know', async () => {
    const checked = await restores().check(copy.bytes);
    const migrations = [...checked.manifest.migrations, { name: '9999_later.sql', checksum: 'x' }];
    await expect(
      restores().restore({ ...checked, manifest: { ...checked.manifest, migrations } }),
    ).rejects.toThrow('9999_later.sql');
    await nothingThere();
  });
});

describe('a studio put back', () => {
  beforeAll(async () => {
    await restores().restore(await restores().check(copy.bytes));
  });
  it('has every row it had, and copies to the same again', async () => {
    const again = await to.app.get(BackupService).archive(studio.id);
    const parts = (one: typeof copy) =>
      one.manifest.parts.filter(
        ({ name }) => !/^tables\/(bath_event|history|movement|preparation_tick)/.test(name),
      );
    expect(parts(again)).toEqual(parts(copy));
    expect(again.manifest.tables).toEqual(copy.manifest.tables);
    expect(again.manifest.shelf).toEqual(copy.manifest.shelf);
    expect(copy.manifest.tables.filter(({ rows }) => rows > 0).length).toBeGreaterThan(45);
  });
  it('keeps the order of what the database numbers by itself', async () => {
    const lines = async (bytes: Buffer, table: string) =>
      ((await openArchive(bytes)).get(`tables/${table}.jsonl`)?.toString() ?? '').replace(
        /"(seq|history_id)": \d+,? ?/g,
        '',
      );
    const again = await to.app.get(BackupService).archive(studio.id);
    for (const table of ['movement', 'history', 'bath_event', 'preparation_tick'])
      expect(await lines(again.bytes, table)).toBe(await lines(copy.bytes, table));
  });
  it('opens its calendar link with the same words and the same ETag', async () => {
    const read = async (house: TestHouse) => {
      const feeds = house.app.get(FeedsService);
      return feeds.text(await house.app.get(FeedDoors).door(studio.slug, studio.feedToken));
    };
    expect(await read(to)).toEqual(await read(from));
  });
  it('is not put back over itself', async () => {
    await expect(restores().restore(await restores().check(copy.bytes))).rejects.toThrow(
      'A studio is here already',
    );
  });
});

it('a copy is kept as one file that only its owner may read, and no half one stays', async () => {
  const backup = from.app.get(BackupService);
  const kept = await backup.keep(studio.id);
  expect(await backup.kept(studio.id)).toEqual([kept]);
  expect((await readdir(backup.folder(studio.id))).every((name) => !name.endsWith('.part'))).toBe(true);
  expect((await restores().check(await backup.read(studio.id, kept.name))).manifest.studio.slug).toBe(
    studio.slug,
  );
  await expect(backup.read(studio.id, '../secret')).rejects.toThrow('not here any more');
});
