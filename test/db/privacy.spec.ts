// A person in whom every tagged column holds a planted word: all of it in their file, none of it left once they are
// erased, in no table, letter or line of the log, nor in an older copy that is put back; and the books as true as before.
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { BackupService } from '../../src/backup/backup.service.js';
import { RestoreService } from '../../src/backup/restore.service.js';
import { TablesStore } from '../../src/backup/tables.store.js';
import { FeedDoors } from '../../src/calendar/feed-doors.service.js';
import { FeedsService } from '../../src/calendar/feeds.service.js';
import { FileMailer } from '../../src/platform/mailer.js';
import { ErasureService } from '../../src/privacy/erasure.service.js';
import { ExportService } from '../../src/privacy/export.service.js';
import { personFile } from '../../src/privacy/privacy.schemas.js';
import { PrivacyStore } from '../../src/privacy/privacy.store.js';
import { ROWS_ABOUT, ROWS_NAMING, type TaggedColumn, tagOf, untagged } from '../../src/privacy/tags.calc.js';
import { fillStudio } from '../support/full-studio.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import type { Belongings } from '../support/store-calls.js';

const MARK = 'planted in';
const OTHER = 'of somebody else';
/** Before the studio's sittings, and after them all. */
const [BEFORE, AFTER] = ['2026-11-25T10:00:00Z', '2027-06-01T10:00:00Z'];

let home: string;
let house: TestHouse;
let elsewhere: TestHouse;
let studio: TestStudio;
let own: Belongings;
let superuser: pg.Client;
let columns: TaggedColumn[];
let copy: Buffer;
let planted: string[];
let asCopied: Awaited<ReturnType<typeof books>>;

beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'plateday-privacy-'));
  house = await openTestHouse({ now: BEFORE, env: { PLATEDAY_HOME: home } });
  elsewhere = await openTestHouse({ now: BEFORE, env: { PLATEDAY_HOME: home } });
  studio = await foundTestStudio(house);
  own = await fillStudio(house, studio);
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
  columns = await house.db.inStudio(studio.id, (tx) => new PrivacyStore().columns(tx));
  await askForSitting(house, studio, { name: `Bea ${OTHER}`, hopes: `Hopes ${OTHER}` });
  await house.work();
  planted = await plant();
  asCopied = await books(house);
  copy = (await house.app.get(BackupService).archive(studio.id)).bytes;
}, 60_000);
afterAll(async () => {
  await superuser.end();
  await Promise.all([house.close(), elsewhere.close()]);
  await rm(home, { recursive: true, force: true });
});

const idsOf = () => house.db.inStudio(studio.id, (tx) => new PrivacyStore().ids(tx, own.contactId));
const markOf = ({ table, column }: Pick<TaggedColumn, 'table' | 'column'>) => `${MARK} ${table}.${column}.`;
const isPersonal = ({ comment }: TaggedColumn) => tagOf(comment)?.of === 'person';

/** Puts a word of its own into every column that may hold one. @returns the words */
async function plant(): Promise<string[]> {
  // who sat is who learns: one person with everything
  const learner = 'update sign_up set contact_id = $1 where sign_up_id = $2';
  await superuser.query(learner, [own.contactId, own.learning.signUpId]);
  await superuser.query(
    `insert into sitting_act (studio_id, act_id, sitting_id, event, turns, before, at, who)
     values ($1, gen_random_uuid(), $2, 'mark', 1, '{}', now(), 'Isaura')`,
    [studio.id, own.sittingId],
  );
  await superuser.query(
    `insert into request_draft (studio_id, draft_id, token_hash, answers, saved_at)
     values ($1, gen_random_uuid(), decode(repeat('00', 32), 'hex'), $2, now())`,
    [studio.id, JSON.stringify({ email: markOf({ table: 'contact', column: 'email' }) })],
  );
  await superuser.query(
    `insert into idempotency (studio_id, key, act, fingerprint, answer, created_at)
     values ($1, 'a key of theirs', 'ask', 'x', $2, now())`,
    [studio.id, JSON.stringify({ sittingId: own.sittingId, said: `${MARK} idempotency.answer.` })],
  );
  // a plate made before, of nobody who sat here, with their name on it
  await superuser.query(
    `insert into plate_made (studio_id, made_id, number, day, plate_size_id, keeper, names, typed_at, who)
     values ($1, gen_random_uuid(), 999, '2019-05-03', $2, true, $3, now(), 'Isaura')`,
    [studio.id, studio.sizes.whole.id, `With ${markOf({ table: 'contact', column: 'name' })}`],
  );
  await superuser.query(`select set_config('app.erasing', 'yes', false)`);
  await superuser.query(
    `insert into mail (studio_id, mail_id, about_id, sequence, kind, recipient, snapshot, state, message_id, created_at)
     values ($1, gen_random_uuid(), $1, 0, 'owner: asked', 'the studio', $2, 'sent', '<to-the-studio@localhost>', now())`,
    [studio.id, JSON.stringify({ today: [{ who: markOf({ table: 'contact', column: 'name' }) }] })],
  );
  await superuser.query(`update mail set recipient = recipient || mail_id, state = 'sent'`);
  const words: string[] = [];
  for (const one of columns.filter((column) => isPersonal(column) || column.comment === 'words')) {
    const { table, column, type, comment } = one;
    const mark = markOf(one);
    const [value, where] =
      type === 'jsonb'
        ? [JSON.stringify({ said: mark, email: markOf({ table: 'contact', column: 'email' }) }), '']
        : comment === 'words'
          ? [`About ${markOf({ table: 'contact', column: 'name' })} here`, '']
          : table in ROWS_NAMING // found by what stands in it
            ? [`${mark} ${markOf({ table: 'contact', column: 'email' })}`, '']
            : [mark, ''];
    const about = ROWS_ABOUT[table];
    const mine = about && comment !== 'words' ? ` and ${about} = any($2::uuid[])` : where;
    const ids = await idsOf();
    try {
      const { rowCount } = await superuser.query(
        `update ${table} set ${column} = $1 where $2::uuid[] is not null${mine}`,
        [value, ids],
      );
      if (comment !== 'words' && (rowCount ?? 0) > 0) words.push(mark);
      if (isPersonal(one) && rowCount === 0) throw new Error(`Nothing to plant in ${table}.${column}`);
    } catch (error) {
      // one of a few words, or a figure: no word of anybody's can stand there
      if (!['23514', '22P02', '42804'].includes((error as { code?: string }).code ?? '')) throw error;
    }
  }
  return words;
}

/** Everything that stands in a database, jobs too, a line for each row. */
async function dump(of: TestHouse): Promise<string[]> {
  const client = new pg.Client({ connectionString: of.database.adminUrl });
  await client.connect();
  try {
    const tables = await client.query<{ name: string }>(
      `select format('%I.%I', n.nspname, c.relname) as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
       where c.relkind = 'r' and n.nspname in ('public', 'plateday_queue', 'graphile_worker')`,
    );
    const lines: string[] = [];
    for (const { name } of tables.rows)
      for (const { line } of (
        await client.query<{ line: string }>(`select to_jsonb(t)::text as line from ${name} t`)
      ).rows)
        lines.push(`${name}: ${line}`);
    return lines;
  } finally {
    await client.end();
  }
}
const linesWith = async (of: TestHouse, word: string) =>
  (await dump(of)).filter((line) => line.includes(word));

/** What the books come to: shelf, plates and numbers, places, rows of each table. */
async function books(of: TestHouse) {
  const tables = new TablesStore();
  return of.db.inStudio(studio.id, async (tx) => {
    const shelf = await tables.shelf(tx);
    const counts: Record<string, number> = {};
    for (const table of await tables.tables(tx)) counts[table.name] = (await tables.dump(tx, table)).length;
    const occupancies = (await tables.dump(tx, { name: 'occupancy', key: 'occupancy_id' })).map((line) => {
      const { title: _title, ...row } = JSON.parse(line);
      return row;
    });
    const plates = (await tables.dump(tx, { name: 'plate_made', key: 'made_id' })).map((line) => {
      const { made_id, number, day, sitting_id, keeper, series_number } = JSON.parse(line);
      return { made_id, number, day, sitting_id, keeper, series_number };
    });
    const moved = (await tables.dump(tx, { name: 'movement', key: 'seq' })).map((line) => {
      const { reason: _reason, ...row } = JSON.parse(line);
      return row;
    });
    return { shelf, counts, occupancies, plates, moved };
  });
}

describe('the tags of the schema', () => {
  it('say of every column that can hold words whose it is', () => {
    expect(untagged(columns)).toEqual([]);
    expect(columns.filter(isPersonal).length).toBeGreaterThan(50);
  });
  it.each([
    ['alter table sitter add nickname text', ['sitter.nickname has no tag']],
    ['alter table plate add facts jsonb', ['plate.facts has no tag']],
    ['alter table student add marks varchar(20)[]', ['student.marks has no tag']],
    [`comment on column contact.name is 'personal'`, ['contact.name has no tag']],
    [
      `comment on column supplier.name is 'personal: erased'`,
      ['supplier.name is personal, and the rows about a person are not known'],
    ],
  ])('are missed after: %s', async (change, faults) => {
    await superuser.query('begin');
    await superuser.query(change);
    const tx = { many: async (_row: unknown, sql: string) => (await superuser.query(sql)).rows };
    const found = await new PrivacyStore().columns(tx as never);
    await superuser.query('rollback');
    expect(untagged(found)).toEqual(faults);
  });
});

describe('a person’s file', () => {
  it('has every word that was planted in a column of theirs, and none of anybody else', async () => {
    const file = await house.app.get(ExportService).file(studio.id, { contactId: own.contactId });
    const text = JSON.stringify(personFile.parse(file));
    const ofAnother = columns.filter(({ comment }) => comment.endsWith('of another')).map(markOf);
    expect(planted.length).toBeGreaterThan(35);
    expect(planted.filter((word) => !text.includes(word)).sort()).toEqual(ofAnother.sort());
    expect(text).not.toContain(OTHER);
    expect(text).not.toMatch(/hash|token|studio_id|link_id/);
    expect(file.parts.consent?.every((row) => typeof row.wording === 'string')).toBe(true);
    for (const { table, column } of columns.filter(isPersonal))
      if (!ofAnother.includes(markOf({ table, column })))
        expect([table, file.parts[table]?.some((row) => column in row)]).toEqual([table, true]);
  });
});

describe('a person erased', () => {
  let before: Awaited<ReturnType<typeof books>>;
  let others: number;
  let logged: string;

  beforeAll(async () => {
    const files = new FileMailer(join(home, 'mail'));
    house.mail.forget = (ids) => files.forget(ids);
    const { rows } = await superuser.query<{ message_id: string; about_id: string }>(
      'select message_id, about_id from mail',
    );
    const ids = await idsOf();
    for (const { message_id: messageId, about_id } of rows) {
      const text = ids.includes(about_id) ? `${MARK} a letter` : OTHER;
      const party = { name: 'Somebody', address: 'somebody@post.example' };
      await files.send({ from: party, to: party, subject: text, text, html: text, messageId });
    }
    others = (await linesWith(house, OTHER)).length;
  });

  it('is refused while a place of theirs lies ahead, and nothing is touched', async () => {
    await expect(house.app.get(ErasureService).erase(studio.id, studio.owner, own.contactId)).rejects.toThrow(
      'A place of theirs lies ahead',
    );
    expect((await linesWith(house, MARK)).length).toBeGreaterThan(20);
  });

  it('leaves no planted word in any table, letter or log', async () => {
    house.clock.set(AFTER);
    await house.work();
    await superuser.query(`update mail set state = 'waiting'`);
    before = await books(house);
    const spies = [jest.spyOn(process.stdout, 'write'), jest.spyOn(process.stderr, 'write')];
    await house.app.get(ErasureService).erase(studio.id, studio.owner, own.contactId);
    await house.work();
    logged = spies.flatMap((spy) => spy.mock.calls.map(String)).join('');
    for (const spy of spies) spy.mockRestore();
    expect(await linesWith(house, MARK)).toEqual([]);
    expect(logged).not.toContain(MARK);
    const letters = await readdir(join(home, 'mail'));
    expect(letters.length).toBeGreaterThan(0);
    const { rows } = await superuser.query<{ message_id: string }>(
      `select message_id from mail where snapshot = '{}'`,
    );
    expect(rows.length).toBeGreaterThan(0);
    for (const { message_id: id } of rows)
      expect(letters).not.toContain(`${id.replace(/[^A-Za-z0-9.-]+/g, '-').replace(/^-|-$/g, '')}.eml`);
  });

  it('leaves stock, places, plates and their numbers as they were, and everybody else too', async () => {
    const after = await books(house);
    const { counts, ...rest } = after;
    const { counts: counted, ...kept } = before;
    expect(rest).toEqual(kept);
    const gone = ['sitting_act', 'plan_wish', 'record_entry', 'request_draft', 'bring_in_draft'];
    for (const [table, rows] of Object.entries(counted)) {
      if (gone.includes(table)) expect([table, (counts[table] ?? 0) < rows]).toEqual([table, true]);
      else if (['history', 'erasure', 'mail'].includes(table))
        expect(counts[table]).toBeGreaterThanOrEqual(rows);
      else expect([table, counts[table]]).toEqual([table, rows]);
    }
    expect((await linesWith(house, OTHER)).length).toBeGreaterThanOrEqual(others);
  });

  it('ends their links, and stays once in the log however often it is asked for', async () => {
    const live = await superuser.query(
      'select from link where subject_id = any($1::uuid[]) and revoked_at is null',
      [await idsOf()],
    );
    expect(live.rowCount).toBe(0);
    await house.app.get(ErasureService).erase(studio.id, studio.owner, own.contactId);
    const log = await superuser.query(`select contact_id, who from erasure where who <> 'a rule of keeping'`);
    expect(log.rows).toEqual([{ contact_id: own.contactId, who: studio.owner.name }]);
  });

  it('is in the studio’s calendar without a name', async () => {
    house.clock.set(BEFORE);
    const feeds = house.app.get(FeedsService);
    const text = JSON.stringify(
      await feeds.text(await house.app.get(FeedDoors).door(studio.slug, own.feedToken)),
    );
    house.clock.set(AFTER);
    expect(text).toContain('BEGIN:VEVENT');
    expect(text).not.toContain(MARK);
  });

  it('cannot be changed back: history and ledger take no other change', async () => {
    for (const sql of [
      `update history set note = 'x'`,
      `update movement set reason = 'x'`,
      `update bath_event set note = 'x'`,
    ])
      await expect(house.db.inStudio(studio.id, (tx) => tx.run(sql))).rejects.toMatchObject({
        driverError: { code: '42501' },
      });
  });

  it('does not come back with a copy that was made before', async () => {
    const restores = elsewhere.app.get(RestoreService);
    const checked = await restores.check(copy);
    expect([...checked.entries.values()].some((part) => part.toString().includes(MARK))).toBe(true);
    await restores.restore(checked);
    expect(await linesWith(elsewhere, MARK)).toEqual([]);
    expect((await linesWith(elsewhere, OTHER)).length).toBeGreaterThan(0);
    const again = await books(elsewhere);
    expect(again.shelf).toEqual(asCopied.shelf);
    expect(again.occupancies).toEqual(asCopied.occupancies);
    expect(again.plates).toEqual(asCopied.plates);
    const later = await restores.check((await elsewhere.app.get(BackupService).archive(studio.id)).bytes);
    expect(String(later.entries.get('tables/erasure.jsonl'))).toContain(own.contactId);
  });
});
