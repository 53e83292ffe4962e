// What asking for a sitting needs of gift vouchers, which stand to the right of it: the vouchers themselves provide it
// (vouchers.module.ts), so that a number given with a request is bound in the same transaction.
import type { Tx } from '../platform/db/tx.js';

export abstract class VoucherBook {
  /** Why a number cannot be used, as a sentence; null where it can. The voucher stays as it is until the end of `tx`. */
  abstract problemOf(tx: Tx, number: string): Promise<string | null>;

  /**
   * Uses a voucher on a request that was just entered.
   * @param by `who` is told in the record; `knows`: whoever gave the number is told of the sitting, so it is no surprise
   * @throws AppError bad_input at `voucher`
   */
  abstract bind(
    tx: Tx,
    number: string,
    sittingId: string,
    by: { who: string; knows: boolean },
  ): Promise<void>;
}
