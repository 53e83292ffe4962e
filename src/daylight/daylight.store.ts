// SQL of the exposure notes.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { noteRow, toNote, type WrittenNote } from './notes.schemas.js';

export class DaylightStore {
  /** The latest notes first, at most so many. */
  async notes(tx: Tx, most: number): Promise<WrittenNote[]> {
    const rows = await tx.many(
      noteRow,
      'select * from exposure_note where studio_id = $1 order by wall_at desc, note_id limit $2',
      [tx.studioId, most],
    );
    return rows.map(toNote);
  }

  async byId(tx: Tx, id: string): Promise<WrittenNote | null> {
    const row = await tx.maybe(noteRow, 'select * from exposure_note where studio_id = $1 and note_id = $2', [
      tx.studioId,
      id,
    ]);
    return row && toNote(row);
  }

  async byIds(tx: Tx, ids: string[]): Promise<WrittenNote[]> {
    const sql = `select * from exposure_note where studio_id = $1 and note_id = any($2::uuid[])
      order by wall_at, note_id`;
    return (await tx.many(noteRow, sql, [tx.studioId, ids])).map(toNote);
  }

  /** A name written before that differs in nothing but the size of its letters, the latest first; or null. */
  async writtenAs(tx: Tx, what: 'lens' | 'framing' | 'bottle', typed: string): Promise<string | null> {
    const row = await tx.maybe(
      z.object({ name: z.string() }),
      `select ${what} as name from exposure_note where studio_id = $1 and lower(${what}) = lower($2)
       order by wall_at desc, note_id limit 1`,
      [tx.studioId, typed],
    );
    return row?.name ?? null;
  }

  /** @returns false when a note of this id is there already: the same form, sent twice */
  async insert(tx: Tx, note: WrittenNote, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into exposure_note (studio_id, note_id, zone, wall_at, seconds, weather, lens, f_number, framing,
         magnification, bottle, verdict, created_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) on conflict do nothing`,
      [
        tx.studioId,
        note.id,
        note.zone,
        note.wallAt,
        note.seconds,
        note.weather,
        note.lens,
        note.fNumber,
        note.framing,
        note.magnification,
        note.bottle,
        note.verdict,
        at,
      ],
    );
    return added > 0;
  }

  /** @returns whether there was such a note */
  async remove(tx: Tx, id: string): Promise<boolean> {
    return (
      (await tx.run('delete from exposure_note where studio_id = $1 and note_id = $2', [tx.studioId, id])) > 0
    );
  }
}
