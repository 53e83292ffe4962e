// SQL of what teaching days came to.
import type { Temporal } from 'temporal-polyfill';
import type { Used } from '../chemistry/learning.calc.js';
import type { Tx } from '../platform/db/tx.js';
import {
  attendanceRow,
  type ClassRecord,
  classUseRow,
  type HeldBottle,
  heldRow,
  madeRow,
  recordRow,
  usedOfItemRow,
  usedRow,
} from './after.schemas.js';

export class AfterStore {
  async of(tx: Tx, sessionId: string): Promise<ClassRecord | null> {
    const sql = 'select * from class_record where studio_id = $1 and session_id = $2';
    return (await whole(tx, sql, sessionId))[0] ?? null;
  }

  /** Of all classes of one day. */
  async onDay(tx: Tx, day: Temporal.PlainDate): Promise<ClassRecord[]> {
    const sql = 'select * from class_record where studio_id = $1 and day = $2 order by session_id';
    return whole(tx, sql, day);
  }

  /** Writes a day down, or what is told of it now instead; what was set aside and used stays as it was. */
  async save(tx: Tx, one: ClassRecord): Promise<void> {
    await tx.run(
      `insert into class_record (studio_id, session_id, day, moves_stock, note, written_at)
       values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, session_id) do update set note = excluded.note`,
      [tx.studioId, one.sessionId, one.day, one.movesStock, one.note, one.writtenAt],
    );
    const of = [tx.studioId, one.sessionId];
    for (const table of ['class_tries', 'class_use', 'class_attendance'])
      await tx.run(`delete from ${table} where studio_id = $1 and session_id = $2`, of);
    for (const { maker, plateSizeId, tries, keepers } of one.plates)
      await tx.run(
        `insert into class_tries (studio_id, session_id, maker, plate_size_id, tries, keepers)
         values ($1, $2, $3, $4, $5, $6)`,
        [...of, maker, plateSizeId, tries, keepers],
      );
    for (const [what, quantity] of Object.entries(one.used))
      await tx.run('insert into class_use (studio_id, session_id, what, quantity) values ($1, $2, $3, $4)', [
        ...of,
        what,
        quantity,
      ]);
    for (const [studentId, how] of one.attendance)
      await tx.run(
        'insert into class_attendance (studio_id, session_id, student_id, how) values ($1, $2, $3, $4)',
        [...of, studentId, how],
      );
  }

  /** With all that belongs to it. */
  async remove(tx: Tx, sessionId: string): Promise<void> {
    await tx.run('delete from class_record where studio_id = $1 and session_id = $2', [
      tx.studioId,
      sessionId,
    ]);
  }

  async insertHeld(tx: Tx, sessionId: string, held: readonly HeldBottle[]): Promise<void> {
    await tx.run(
      `insert into class_held (studio_id, session_id, holder, lot_id, quantity)
       select $1, $2, holder, lot, sum(quantity) from unnest($3::uuid[], $4::uuid[], $5::bigint[]) as h (holder, lot, quantity)
       group by holder, lot`,
      [
        tx.studioId,
        sessionId,
        held.map(({ holder }) => holder),
        held.map(({ lotId }) => lotId),
        held.map(({ quantity }) => quantity),
      ],
    );
  }

  async held(tx: Tx, sessionId: string): Promise<HeldBottle[]> {
    const rows = await tx.many(
      heldRow,
      'select holder, lot_id, quantity from class_held where studio_id = $1 and session_id = $2 order by lot_id, holder',
      [tx.studioId, sessionId],
    );
    return rows.map((row) => ({ holder: row.holder, lotId: row.lot_id, quantity: row.quantity }));
  }

  /** What was used of each item, in the order of their names. */
  async usedOfItems(tx: Tx, sessionId: string): Promise<{ itemId: string; quantity: bigint }[]> {
    const rows = await tx.many(
      usedOfItemRow,
      `select item_id, sum(class_used.quantity)::bigint as quantity
       from class_used join lot using (studio_id, lot_id) join item using (studio_id, item_id)
       where studio_id = $1 and session_id = $2 group by item_id, item.name order by item.name, item_id`,
      [tx.studioId, sessionId],
    );
    return rows.map((row) => ({ itemId: row.item_id, quantity: row.quantity }));
  }

  async used(tx: Tx, sessionId: string): Promise<{ lotId: string; quantity: bigint }[]> {
    const rows = await tx.many(
      usedRow,
      'select lot_id, quantity from class_used where studio_id = $1 and session_id = $2 order by lot_id',
      [tx.studioId, sessionId],
    );
    return rows.map((row) => ({ lotId: row.lot_id, quantity: row.quantity }));
  }

  async setUsed(tx: Tx, sessionId: string, used: { lotId: string; quantity: bigint }[]): Promise<void> {
    await tx.run('delete from class_used where studio_id = $1 and session_id = $2', [tx.studioId, sessionId]);
    await tx.run(
      `insert into class_used (studio_id, session_id, lot_id, quantity)
       select $1, $2, lot, quantity from unnest($3::uuid[], $4::bigint[]) as u (lot, quantity)`,
      [tx.studioId, sessionId, used.map(({ lotId }) => lotId), used.map(({ quantity }) => quantity)],
    );
  }
}

async function whole(tx: Tx, sql: string, by: unknown): Promise<ClassRecord[]> {
  const heads = await tx.many(recordRow, sql, [tx.studioId, by]);
  const ids = [tx.studioId, heads.map((one) => one.session_id)];
  const of = (table: string, order: string) =>
    `select * from ${table} where studio_id = $1 and session_id = any($2::uuid[]) order by ${order}`;
  const made = await tx.many(madeRow, of('class_tries', 'maker, plate_size_id'), ids);
  const use = await tx.many(classUseRow, of('class_use', 'what'), ids);
  const came = await tx.many(attendanceRow, of('class_attendance', 'student_id'), ids);
  return heads.map((head) => ({
    sessionId: head.session_id,
    day: head.day,
    movesStock: head.moves_stock,
    note: head.note,
    writtenAt: head.written_at,
    plates: made
      .filter((row) => row.session_id === head.session_id)
      .map((row) => ({
        maker: row.maker,
        plateSizeId: row.plate_size_id,
        tries: row.tries,
        keepers: row.keepers,
      })),
    used: Object.fromEntries(
      use.filter((row) => row.session_id === head.session_id).map(({ what, quantity }) => [what, quantity]),
    ) as Partial<Record<Used, bigint>>,
    attendance: new Map(
      came.filter((row) => row.session_id === head.session_id).map((row) => [row.student_id, row.how]),
    ),
  }));
}
