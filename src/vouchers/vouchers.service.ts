// Gift vouchers: writing them down, using one on a request, and surprises: until the owner says so, no message about
// the sitting goes to whoever sits (reminders asks here). No money is reckoned or taken.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { dayInWords } from '../lib/words.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { VoucherBook } from '../sittings/voucher-book.service.js';
import type { SittingState } from '../sittings/states.calc.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { useForm, type Voucher, voucherForm } from './vouchers.schemas.js';
import { VouchersStore } from './vouchers.store.js';

type Who = { name: string };

/** A voucher is used on a request while it is answered, or on a place before its ending is told. */
export const USABLE_ON: SittingState[] = ['requested', 'waiting', 'offered', 'confirmed'];

/** A sitting in such a state uses its voucher up no more: it may be given with another request. Assumption. */
const FREE_AGAIN: SittingState[] = ['declined', 'withdrawn', 'released', 'called_off'];

export interface VoucherList {
  today: Temporal.PlainDate;
  vouchers: Voucher[];
  /** The requests that vouchers were used on, by id. */
  usedOn: Map<string, SittingView>;
  /** Those that one can be used on, the oldest first. */
  requests: SittingView[];
  /** What a further voucher may be numbered. */
  nextNumber: string;
}

@Injectable()
export class VouchersService implements VoucherBook {
  private readonly store = new VouchersStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
  ) {}

  list(studioId: string): Promise<VoucherList> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const vouchers = await this.store.all(tx);
      const ids = vouchers.flatMap(({ used }) => used?.sittingId ?? []);
      const used = await this.views.byIds(tx, studio, ids);
      return {
        today: this.room.today(studio),
        vouchers,
        usedOn: new Map(used.map((view) => [view.sitting.id, view])),
        requests: await this.views.inStates(tx, studio, USABLE_ON),
        nextNumber: nextNumber(vouchers),
      };
    });
  }

  /**
   * Of some sittings those about which nothing may be told to whoever sits: a voucher used on them is a surprise
   * that is not over. Until the end of `tx` nobody ends it.
   */
  async heldAmong(tx: Tx, sittingIds: string[]): Promise<Set<string>> {
    return new Set(sittingIds.length > 0 ? await this.store.heldAmong(tx, sittingIds) : []);
  }

  /** Writes a voucher down, or changes one. @param id null for a new one @throws AppError bad_input, not_found */
  async save(
    studioId: string,
    who: Who,
    id: string | null,
    input: unknown,
    check: (voucher: Voucher) => void = () => {},
  ): Promise<void> {
    const said = readInput(voucherForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const other = await this.store.lockedByNumber(tx, said.number);
      if (other && other.id !== id) throw taken();
      if (id === null) {
        const fresh = { ...said, id: this.random.id(), toldAt: null, used: null };
        if (!(await this.store.add(tx, fresh, this.clock.now()))) throw taken();
        return this.record(tx, who, fresh, 'voucher');
      }
      const known = await this.known(tx, id);
      check(known);
      const changed = { ...known, ...said, toldAt: said.surprise ? known.toldAt : null };
      await this.store.change(tx, changed);
      if (known.surprise && !said.surprise) await this.over(tx, known);
      await this.record(tx, who, changed, 'voucher_changed');
    });
  }

  /**
   * Uses a voucher on a request, by its number; of one that no request uses up any more the surprise begins anew.
   * @throws AppError bad_input for an unknown or used number, or one that has run out and is not honoured all the same
   */
  async use(studioId: string, who: Who, input: unknown): Promise<void> {
    const said = readInput(useForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const voucher = await this.store.lockedByNumber(tx, said.number);
      if (!voucher) throw wrong('number', 'No voucher has this number.');
      if (voucher.used && !(await this.isFreeAgain(tx, studio, voucher.used)))
        throw wrong('number', `This voucher was used already, on ${dayInWords(voucher.used.on)}.`);
      const today = this.room.today(studio);
      if (hasRunOut(voucher, today) && !said.anyway)
        throw wrong('anyway', 'This voucher has run out. Please tick here to honour it all the same.');
      const [view] = await this.views.byIds(tx, studio, [said.request]);
      if (!view || !USABLE_ON.includes(view.sitting.state))
        throw wrong('request', 'Please choose one of the requests.');
      if (voucher.used) await this.record(tx, who, voucher, 'voucher_back', voucher.used.sittingId);
      const toldAt = voucher.used ? null : voucher.toldAt;
      await this.store.change(tx, { ...voucher, toldAt, used: { sittingId: said.request, on: today } });
      await this.record(tx, who, voucher, 'voucher_used', said.request);
    });
  }

  async problemOf(tx: Tx, number: string): Promise<string | null> {
    const found = await this.usable(tx, number);
    return typeof found === 'string' ? found : null;
  }

  async bind(
    tx: Tx,
    number: string,
    sittingId: string,
    { who, knows }: { who: string; knows: boolean },
  ): Promise<void> {
    const found = await this.usable(tx, number);
    if (typeof found === 'string') throw wrong('voucher', found);
    if (found.used) await this.record(tx, { name: who }, found, 'voucher_back', found.used.sittingId);
    const toldAt = found.surprise && knows ? (found.toldAt ?? this.clock.now()) : null;
    const on = this.room.today(await this.studios.load(tx));
    await this.store.change(tx, { ...found, toldAt, used: { sittingId, on } });
    await this.record(tx, { name: who }, found, 'voucher_used', sittingId);
  }

  /** The voucher of a number, locked; or why it cannot be given with a request. */
  private async usable(tx: Tx, number: string): Promise<Voucher | string> {
    const voucher = await this.store.lockedByNumber(tx, number);
    if (!voucher) return 'No voucher has this number. Please look at it again, or leave this empty.';
    const studio = await this.studios.load(tx);
    if (voucher.used && !(await this.isFreeAgain(tx, studio, voucher.used)))
      return 'This voucher was used already.';
    if (voucher.validUntil && hasRunOut(voucher, this.room.today(studio)))
      return `This voucher was valid until ${dayInWords(voucher.validUntil)}. Please leave this empty and tell us about it: the studio may honour it all the same.`;
    return voucher;
  }

  /** Whether the request that a voucher was used on uses it up no more. */
  private async isFreeAgain(tx: Tx, studio: Studio, used: NonNullable<Voucher['used']>): Promise<boolean> {
    const [view] = await this.views.byIds(tx, studio, [used.sittingId]);
    return view !== undefined && FREE_AGAIN.includes(view.sitting.state);
  }

  /** Takes the use of a voucher back; a surprise is over with it. @throws AppError not_found, wrong_state */
  async takeBack(studioId: string, who: Who, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const voucher = await this.known(tx, id);
      if (!voucher.used) throw new AppError('wrong_state', 'This voucher is not used.');
      await this.store.change(tx, { ...voucher, toldAt: null, used: null });
      await this.over(tx, voucher);
      await this.record(tx, who, voucher, 'voucher_back', voucher.used.sittingId);
    });
  }

  /** They may know now: what was held back goes, the newest letter of it. @throws AppError not_found, wrong_state */
  async tell(studioId: string, who: Who, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const voucher = await this.known(tx, id);
      if (!voucher.surprise || voucher.toldAt)
        throw new AppError('wrong_state', 'Nothing is held back for this voucher any more.');
      await this.store.change(tx, { ...voucher, toldAt: this.clock.now() });
      await this.over(tx, voucher);
      await this.record(tx, who, voucher, 'surprise_over', voucher.used?.sittingId);
    });
  }

  private async over(tx: Tx, { used }: Voucher): Promise<void> {
    if (used)
      await this.jobs.enqueue(tx, 'surprise.over', { sittingId: used.sittingId }, { key: used.sittingId });
  }

  private async known(tx: Tx, id: string): Promise<Voucher> {
    const voucher = await this.store.locked(tx, id);
    if (!voucher) throw new AppError('not_found', 'This voucher is not known here.');
    return voucher;
  }

  /** In the record of the request it is used on, if there is one. */
  private record(
    tx: Tx,
    who: Who,
    { id, number }: Voucher,
    event: string,
    sittingId?: string,
  ): Promise<void> {
    const about = sittingId
      ? { aboutKind: 'sitting', aboutId: sittingId }
      : { aboutKind: 'voucher', aboutId: id };
    return recordHistory(tx, this.clock, { who: who.name, ...about, event, note: `No. ${number}` });
  }
}

/** The day after the last on which it counts has come. */
export const hasRunOut = ({ validUntil }: Voucher, today: Temporal.PlainDate): boolean =>
  validUntil !== null && validUntil.until(today).days > 0;

/** One more than the highest plain number there is. */
function nextNumber(vouchers: Voucher[]): string {
  const numbers = vouchers.flatMap(({ number }) => (/^\d{1,9}$/.test(number) ? [Number(number)] : []));
  return String(Math.max(0, ...numbers) + 1);
}

const wrong = (field: string, message: string) => new AppError('bad_input', undefined, [{ field, message }]);
const taken = () => wrong('number', 'Another voucher has this number.');
