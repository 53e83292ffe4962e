// SQL of gift vouchers.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { toVoucher, type Voucher, voucherRow } from './vouchers.schemas.js';

const COLUMNS = `voucher_id, number, buyer, buyer_reach, for_whom, worth, valid_until, surprise, told_at, sitting_id,
  used_on`;

export class VouchersStore {
  /** The newest first. */
  async all(tx: Tx): Promise<Voucher[]> {
    const sql = `select ${COLUMNS} from voucher where studio_id = $1 order by made_at desc, voucher_id`;
    return (await tx.many(voucherRow, sql, [tx.studioId])).map(toVoucher);
  }

  /** A voucher, locked. */
  async locked(tx: Tx, id: string): Promise<Voucher | null> {
    const sql = `select ${COLUMNS} from voucher where studio_id = $1 and voucher_id = $2 for no key update`;
    const row = await tx.maybe(voucherRow, sql, [tx.studioId, id]);
    return row && toVoucher(row);
  }

  /** The voucher of a number, locked. */
  async lockedByNumber(tx: Tx, number: string): Promise<Voucher | null> {
    const sql = `select ${COLUMNS} from voucher where studio_id = $1 and number = $2 for no key update`;
    const row = await tx.maybe(voucherRow, sql, [tx.studioId, number]);
    return row && toVoucher(row);
  }

  /** The sittings among some about which nothing is to be told yet; their vouchers stay as they are until the end of `tx`. */
  async heldAmong(tx: Tx, sittingIds: string[]): Promise<string[]> {
    const rows = await tx.many(
      z.object({ sitting_id: z.uuid() }),
      `select sitting_id from voucher
       where studio_id = $1 and sitting_id = any($2::uuid[]) and surprise and told_at is null
       order by voucher_id for share`,
      [tx.studioId, sittingIds],
    );
    return [...new Set(rows.map((row) => row.sitting_id))];
  }

  /** @returns whether it was new and its number free */
  async add(tx: Tx, one: Voucher, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into voucher (studio_id, voucher_id, number, buyer, buyer_reach, for_whom, worth, valid_until, surprise,
         made_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) on conflict do nothing`,
      [
        tx.studioId,
        one.id,
        one.number,
        one.buyer,
        one.buyerReach,
        one.forWhom,
        one.worth,
        one.validUntil,
        one.surprise,
        at,
      ],
    );
    return added === 1;
  }

  async change(tx: Tx, one: Voucher): Promise<void> {
    await tx.run(
      `update voucher set number = $3, buyer = $4, buyer_reach = $5, for_whom = $6, worth = $7, valid_until = $8,
         surprise = $9, told_at = $10, sitting_id = $11, used_on = $12
       where studio_id = $1 and voucher_id = $2`,
      [
        tx.studioId,
        one.id,
        one.number,
        one.buyer,
        one.buyerReach,
        one.forWhom,
        one.worth,
        one.validUntil,
        one.surprise,
        one.toldAt,
        one.used?.sittingId ?? null,
        one.used?.on ?? null,
      ],
    );
  }
}
