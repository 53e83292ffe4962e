// SQL of the outside calendars. What blocks is read by the room with its rules (room/rules.store.ts).
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import type { Choice, Elsewhere } from './blocking.calc.js';
import { type CalendarRow, calendarRow } from './outside.schemas.js';

const COLUMNS = `calendar_id, name, sealed_address, host, state, blocks, margin_minutes, etag, last_modified, copy,
  entries, free, busy, blocking, created_at, read_at, next_at, failures, failure`;

/** What a good reading changes. */
export type Read = Pick<
  CalendarRow,
  'etag' | 'last_modified' | 'copy' | 'entries' | 'free' | 'busy' | 'blocking' | 'read_at' | 'next_at'
>;

export class OutsideStore {
  all(tx: Tx): Promise<CalendarRow[]> {
    const sql = `select ${COLUMNS} from outside_calendar where studio_id = $1 order by created_at, calendar_id`;
    return tx.many(calendarRow, sql, [tx.studioId]);
  }

  byId(tx: Tx, id: string): Promise<CalendarRow | null> {
    const sql = `select ${COLUMNS} from outside_calendar where studio_id = $1 and calendar_id = $2`;
    return tx.maybe(calendarRow, sql, [tx.studioId, id]);
  }

  /** The same, kept from others until the transaction ends. */
  locked(tx: Tx, id: string): Promise<CalendarRow | null> {
    const sql = `select ${COLUMNS} from outside_calendar where studio_id = $1 and calendar_id = $2 for update`;
    return tx.maybe(calendarRow, sql, [tx.studioId, id]);
  }

  /** Those in use that could not be read the last time. */
  failing(tx: Tx): Promise<CalendarRow[]> {
    const sql = `select ${COLUMNS} from outside_calendar
      where studio_id = $1 and state = 'on' and failures > 0 order by created_at, calendar_id`;
    return tx.many(calendarRow, sql, [tx.studioId]);
  }

  /** When the next of those in use is to be read; null when none is. */
  async nextAt(tx: Tx): Promise<Temporal.Instant | null> {
    const row = await tx.one(
      z.object({ next_at: instant.nullable() }),
      `select min(next_at) as next_at from outside_calendar where studio_id = $1 and state = 'on'`,
      [tx.studioId],
    );
    return row.next_at;
  }

  async insert(tx: Tx, row: CalendarRow): Promise<void> {
    await tx.run(
      `insert into outside_calendar (studio_id, ${COLUMNS})
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20)`,
      [
        tx.studioId,
        row.calendar_id,
        row.name,
        row.sealed_address,
        row.host,
        row.state,
        row.blocks,
        row.margin_minutes,
        row.etag,
        row.last_modified,
        row.copy,
        row.entries,
        row.free,
        JSON.stringify(row.busy),
        flat(row.blocking),
        row.created_at,
        row.read_at,
        row.next_at,
        row.failures,
        row.failure,
      ],
    );
  }

  async saveRead(tx: Tx, id: string, read: Read): Promise<void> {
    await tx.run(
      `update outside_calendar set etag = $3, last_modified = $4, copy = $5, entries = $6, free = $7, busy = $8,
         blocking = $9, read_at = $10, next_at = $11, failures = 0, failure = ''
       where studio_id = $1 and calendar_id = $2`,
      [
        tx.studioId,
        id,
        read.etag,
        read.last_modified,
        read.copy,
        read.entries,
        read.free,
        JSON.stringify(read.busy),
        flat(read.blocking),
        read.read_at,
        read.next_at,
      ],
    );
  }

  /** What it blocks stays as it was. */
  async saveFailure(tx: Tx, id: string, failure: string, nextAt: Temporal.Instant): Promise<void> {
    await tx.run(
      `update outside_calendar set failures = failures + 1, failure = $3, next_at = $4
       where studio_id = $1 and calendar_id = $2`,
      [tx.studioId, id, failure, nextAt],
    );
  }

  async saveChoice(
    tx: Tx,
    id: string,
    state: 'on' | 'paused',
    choice: Choice,
    blocking: Elsewhere[],
  ): Promise<void> {
    await tx.run(
      `update outside_calendar set state = $3, blocks = $4, margin_minutes = $5, blocking = $6
       where studio_id = $1 and calendar_id = $2`,
      [tx.studioId, id, state, choice.blocks, choice.marginMinutes, flat(blocking)],
    );
  }

  async remove(tx: Tx, id: string): Promise<void> {
    await tx.run('delete from outside_calendar where studio_id = $1 and calendar_id = $2', [tx.studioId, id]);
  }
}

const flat = (all: Elsewhere[]) => all.flatMap(({ from, until }) => [from, until]);
