// SQL of wishes: what people ask to change that would change the plan. One a sitting; a later one takes its place.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import type { Wish } from './corrections.schemas.js';

const wishRow = z.object({ sitting_id: z.uuid(), words: z.string(), asked_at: instant });
const toWish = (row: z.output<typeof wishRow>): Wish => ({
  sittingId: row.sitting_id,
  words: row.words,
  askedAt: row.asked_at,
});

export class WishesStore {
  /** Those that nobody has answered, the oldest first. */
  async all(tx: Tx): Promise<Wish[]> {
    const sql =
      'select sitting_id, words, asked_at from plan_wish where studio_id = $1 order by asked_at, sitting_id';
    return (await tx.many(wishRow, sql, [tx.studioId])).map(toWish);
  }

  async of(tx: Tx, sittingId: string): Promise<Wish | null> {
    const sql = 'select sitting_id, words, asked_at from plan_wish where studio_id = $1 and sitting_id = $2';
    const row = await tx.maybe(wishRow, sql, [tx.studioId, sittingId]);
    return row && toWish(row);
  }

  async keep(tx: Tx, sittingId: string, words: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into plan_wish (studio_id, sitting_id, words, asked_at) values ($1, $2, $3, $4)
       on conflict (studio_id, sitting_id) do update set words = excluded.words, asked_at = excluded.asked_at`,
      [tx.studioId, sittingId, words, at],
    );
  }

  /** Takes a wish away as it was read. @returns whether it was still that one */
  async remove(tx: Tx, sittingId: string, askedAt: Temporal.Instant): Promise<boolean> {
    const sql = 'delete from plan_wish where studio_id = $1 and sitting_id = $2 and asked_at = $3';
    return (await tx.run(sql, [tx.studioId, sittingId, askedAt])) === 1;
  }
}
