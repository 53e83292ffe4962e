// The append-only record of who did what. Every act that changes something writes one line.
import { z } from 'zod';
import type { Clock } from '../clock.js';
import { instant } from './row.js';
import type { Tx } from './tx.js';

const lineRow = z.object({ at: instant, who: z.string(), event: z.string(), note: z.string() });
export type HistoryLine = z.output<typeof lineRow>;

export interface HistoryEntry {
  who: string;
  aboutKind: string;
  aboutId: string;
  event: string;
  note?: string;
}

export async function recordHistory(tx: Tx, clock: Clock, entry: HistoryEntry): Promise<void> {
  await tx.run(
    `insert into history (studio_id, at, who, about_kind, about_id, event, note) values ($1, $2, $3, $4, $5, $6, $7)`,
    [tx.studioId, clock.now(), entry.who, entry.aboutKind, entry.aboutId, entry.event, entry.note ?? ''],
  );
}

export async function historyOf(tx: Tx, aboutId: string): Promise<HistoryLine[]> {
  return tx.many(
    lineRow,
    'select at, who, event, note from history where studio_id = $1 and about_id = $2 order by history_id',
    [tx.studioId, aboutId],
  );
}

const pageRow = lineRow.extend({ history_id: z.bigint(), about_kind: z.string(), about_id: z.uuid() });
export type HistoryRow = z.output<typeof pageRow>;

/** What was done in a studio, the newest first. @param before the id of the line above; null for the newest */
export async function historyBefore(tx: Tx, before: bigint | null, count: number): Promise<HistoryRow[]> {
  return tx.many(
    pageRow,
    `select history_id, at, who, event, note, about_kind, about_id from history
     where studio_id = $1 and ($2::bigint is null or history_id < $2)
     order by history_id desc limit $3`,
    [tx.studioId, before, count],
  );
}

/** The newest line there is: whoever was entered up to here was not touched before it. */
export async function historyUpTo(tx: Tx): Promise<bigint> {
  const sql = 'select coalesce(max(history_id), 0) as last from history where studio_id = $1';
  return (await tx.one(z.object({ last: z.bigint() }), sql, [tx.studioId])).last;
}

/** Those of some ids about which something was done after a line. */
export async function touchedSince(tx: Tx, upTo: bigint, ids: string[]): Promise<Set<string>> {
  const rows = await tx.many(
    z.object({ about_id: z.uuid() }),
    `select distinct about_id from history where studio_id = $1 and history_id > $2 and about_id = any($3::uuid[])`,
    [tx.studioId, upTo, ids],
  );
  return new Set(rows.map((row) => row.about_id));
}
