// SQL of the lists of plates that go to an archive.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { HandedAs } from './hand-over.calc.js';
import { type Handed, type HandOver, handedRow, handOverRow } from './hand-over.schemas.js';

const LIST =
  'select hand_over_id, taken_by, note, made_at, given_on, noted_at from hand_over where studio_id = $1';
const HANDED = `select h.hand_over_id, h.made_id, h.what, o.taken_by, o.given_on from hand_over_plate h
  join hand_over o on o.studio_id = h.studio_id and o.hand_over_id = h.hand_over_id
  join plate_made m on m.studio_id = h.studio_id and m.made_id = h.made_id where h.studio_id = $1`;

export class HandOverStore {
  /** The newest first. */
  all(tx: Tx): Promise<HandOver[]> {
    return tx.many(handOverRow, `${LIST} order by made_at desc, hand_over_id`, [tx.studioId]);
  }

  byId(tx: Tx, id: string): Promise<HandOver | null> {
    return tx.maybe(handOverRow, `${LIST} and hand_over_id = $2`, [tx.studioId, id]);
  }

  /** Takes a list for a change until the transaction ends; null where there is none. */
  locked(tx: Tx, id: string): Promise<HandOver | null> {
    return tx.maybe(handOverRow, `${LIST} and hand_over_id = $2 for no key update`, [tx.studioId, id]);
  }

  async insert(tx: Tx, one: Pick<HandOver, 'hand_over_id' | 'taken_by' | 'note' | 'made_at'>): Promise<void> {
    await tx.run(
      'insert into hand_over (studio_id, hand_over_id, taken_by, note, made_at) values ($1, $2, $3, $4, $5)',
      [tx.studioId, one.hand_over_id, one.taken_by, one.note, one.made_at],
    );
  }

  async setGiven(
    tx: Tx,
    id: string,
    given: { on: Temporal.PlainDate; notedAt: Temporal.Instant } | null,
  ): Promise<void> {
    await tx.run(
      'update hand_over set given_on = $3, noted_at = $4 where studio_id = $1 and hand_over_id = $2',
      [tx.studioId, id, given?.on ?? null, given?.notedAt ?? null],
    );
  }

  /** What stands on a list, in the order of the plates' numbers. */
  onList(tx: Tx, id: string): Promise<Handed[]> {
    return tx.many(handedRow, `${HANDED} and h.hand_over_id = $2 order by m.number`, [tx.studioId, id]);
  }

  /** The lists on which some plates stand, the oldest first. */
  ofPlates(tx: Tx, madeIds: string[]): Promise<Handed[]> {
    const sql = `${HANDED} and h.made_id = any($2::uuid[]) order by o.made_at, o.hand_over_id, m.number`;
    return tx.many(handedRow, sql, [tx.studioId, madeIds]);
  }

  async counts(tx: Tx): Promise<Map<string, number>> {
    const rows = await tx.many(
      z.object({ hand_over_id: z.uuid(), plates: z.number() }),
      `select hand_over_id, count(*)::int as plates from hand_over_plate where studio_id = $1 group by hand_over_id`,
      [tx.studioId],
    );
    return new Map(rows.map((row) => [row.hand_over_id, row.plates]));
  }

  async add(tx: Tx, id: string, madeIds: readonly string[], as: HandedAs): Promise<void> {
    await tx.run(
      `insert into hand_over_plate (studio_id, hand_over_id, made_id, what)
       select $1, $2, m, $4 from unnest($3::uuid[]) as m`,
      [tx.studioId, id, madeIds, as],
    );
  }

  /** @returns whether it stood there */
  async takeOff(tx: Tx, id: string, madeId: string): Promise<boolean> {
    const sql = 'delete from hand_over_plate where studio_id = $1 and hand_over_id = $2 and made_id = $3';
    return (await tx.run(sql, [tx.studioId, id, madeId])) === 1;
  }
}
