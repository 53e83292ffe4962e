// SQL of plates made, their running numbers, what each took of which bottle, and the lines of baths that tell of a day.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type Made, madeRow, toMade } from './made.schemas.js';

type Day = Temporal.PlainDate;
const nextRow = z.object({ next: z.number() });
export interface Took {
  madeId: string;
  lotId: string;
  quantity: bigint;
}

export class MadeStore {
  /** All that were typed in for a day in the order of their numbers, the struck ones too. */
  async ofDay(tx: Tx, day: Day): Promise<Made[]> {
    const sql = 'select * from plate_made where studio_id = $1 and day = $2 order by number';
    return (await tx.many(madeRow, sql, [tx.studioId, day])).map(toMade);
  }

  /** Some plates, whatever their day. */
  async byIds(tx: Tx, ids: string[]): Promise<Made[]> {
    const sql = 'select * from plate_made where studio_id = $1 and made_id = any($2::uuid[]) order by number';
    return (await tx.many(madeRow, sql, [tx.studioId, ids])).map(toMade);
  }

  /** Of some days, as "2027-04-02", those of which plates of sitters count. */
  async typedOf(tx: Tx, days: string[]): Promise<Day[]> {
    const rows = await tx.many(
      madeRow.pick({ day: true }),
      `select distinct day from plate_made where studio_id = $1 and day = any($2::date[]) and struck_at is null
         and sitting_id is not null order by day`,
      [tx.studioId, days],
    );
    return rows.map((row) => row.day);
  }

  /** The number that the next plate gets, or null as long as nobody said where the book begins. */
  async next(tx: Tx): Promise<number | null> {
    const row = await tx.maybe(nextRow, 'select next from plate_numbers where studio_id = $1', [tx.studioId]);
    return row?.next ?? null;
  }

  /** The same, held against everybody else who types in until the transaction ends. */
  async lockNext(tx: Tx): Promise<number | null> {
    const sql = 'select next from plate_numbers where studio_id = $1 for no key update';
    const row = await tx.maybe(nextRow, sql, [tx.studioId]);
    return row?.next ?? null;
  }

  /** Begins the book, where nobody else did in the meantime. */
  async begin(tx: Tx, first: number): Promise<void> {
    const sql =
      'insert into plate_numbers (studio_id, next) values ($1, $2) on conflict (studio_id) do nothing';
    await tx.run(sql, [tx.studioId, first]);
  }

  async setNext(tx: Tx, next: number): Promise<void> {
    await tx.run('update plate_numbers set next = $2 where studio_id = $1', [tx.studioId, next]);
  }

  /** The greatest number in a series, 0 where there is none; whoever asks holds the running numbers. */
  async lastOfSeries(tx: Tx, seriesId: string): Promise<number> {
    const sql = `select coalesce(max(series_number), 0) as last from plate_made
      where studio_id = $1 and series_id = $2`;
    return (await tx.one(z.object({ last: z.number() }), sql, [tx.studioId, seriesId])).last;
  }

  async insert(tx: Tx, one: Made, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into plate_made (studio_id, made_id, number, day, sitting_id, plate_id, plate_size_id, keeper, seconds, sky,
         lot_id, bath_id, result, note, names, series_id, series_number, typed_at, who)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)`,
      [
        tx.studioId,
        one.id,
        one.number,
        one.day,
        one.sittingId,
        one.plateId,
        one.plateSizeId,
        one.keeper,
        one.seconds,
        one.sky,
        one.lotId,
        one.bathId,
        one.result,
        one.note,
        one.names,
        one.seriesId,
        one.seriesNumber,
        at,
        one.who,
      ],
    );
  }

  /** Corrects what is said of a plate; its number, its day and whom it was made for stay. */
  async correct(tx: Tx, one: Made): Promise<void> {
    await tx.run(
      `update plate_made set plate_id = $3, plate_size_id = $4, keeper = $5, seconds = $6, sky = $7, lot_id = $8,
         bath_id = $9, result = $10, note = $11, names = $12, series_id = $13, series_number = $14
       where studio_id = $1 and made_id = $2`,
      [
        tx.studioId,
        one.id,
        one.plateId,
        one.plateSizeId,
        one.keeper,
        one.seconds,
        one.sky,
        one.lotId,
        one.bathId,
        one.result,
        one.note,
        one.names,
        one.seriesId,
        one.seriesNumber,
      ],
    );
  }

  async strike(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    const sql = 'update plate_made set struck_at = $3 where studio_id = $1 and made_id = $2';
    await tx.run(sql, [tx.studioId, id, at]);
  }

  /** What some plates took of which lot. */
  async took(tx: Tx, madeIds: string[]): Promise<Took[]> {
    const rows = await tx.many(
      z.object({ made_id: z.uuid(), lot_id: z.uuid(), quantity: z.bigint() }),
      `select made_id, lot_id, quantity from plate_took where studio_id = $1 and made_id = any($2::uuid[])
       order by made_id, lot_id`,
      [tx.studioId, madeIds],
    );
    return rows.map((row) => ({ madeId: row.made_id, lotId: row.lot_id, quantity: row.quantity }));
  }

  /** Writes what some plates took, in the place of what was written of them. */
  async setTook(tx: Tx, madeIds: string[], took: Took[]): Promise<void> {
    const sql = 'delete from plate_took where studio_id = $1 and made_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, madeIds]);
    await tx.run(
      `insert into plate_took (studio_id, made_id, lot_id, quantity)
       select $1, * from unnest($2::uuid[], $3::uuid[], $4::bigint[])`,
      [
        tx.studioId,
        took.map((one) => one.madeId),
        took.map((one) => one.lotId),
        took.map((one) => one.quantity),
      ],
    );
  }

  /** The line of each bath's ledger that tells of a day's typed plates. */
  async poured(tx: Tx, day: Day): Promise<{ bathId: string; eventId: string }[]> {
    const rows = await tx.many(
      z.object({ bath_id: z.uuid(), event_id: z.uuid() }),
      'select bath_id, event_id from day_poured where studio_id = $1 and day = $2 order by bath_id',
      [tx.studioId, day],
    );
    return rows.map((row) => ({ bathId: row.bath_id, eventId: row.event_id }));
  }

  /** Notes which line tells of a day; null: none does any more. */
  async setPoured(tx: Tx, day: Day, bathId: string, eventId: string | null): Promise<void> {
    const of = [tx.studioId, day, bathId];
    await tx.run('delete from day_poured where studio_id = $1 and day = $2 and bath_id = $3', of);
    if (eventId === null) return;
    const sql = 'insert into day_poured (studio_id, day, bath_id, event_id) values ($1, $2, $3, $4)';
    await tx.run(sql, [...of, eventId]);
  }
}
