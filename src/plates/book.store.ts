// SQL of the book of plates: reading it, who is on each plate, and the names that stand on its back.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type BookPlate, type BookQuery, bookRow, toBookPlate } from './book.schemas.js';

const PLATE = `select m.made_id, m.number, m.day, m.sitting_id, z.name as size, m.keeper, m.seconds, m.sky, m.lot_id,
    l.label as bottle, m.bath_id, b.name as bath, m.result, m.note, m.names, m.series_id, r.name as series,
    m.series_number, m.who, m.typed_at, m.struck_at
  from plate_made m
  join plate_size z on z.studio_id = m.studio_id and z.plate_size_id = m.plate_size_id
  left join lot l on l.studio_id = m.studio_id and l.lot_id = m.lot_id
  left join bath b on b.studio_id = m.studio_id and b.bath_id = m.bath_id
  left join series r on r.studio_id = m.studio_id and r.series_id = m.series_id`;

/** Those on plate m: of the plate asked for, or, where that is not known, everybody of its sitting. */
const ON_PLATE = `from plate p
  join plate_sitter ps on ps.studio_id = p.studio_id and ps.plate_id = p.plate_id
  join sitter s on s.studio_id = ps.studio_id and s.sitter_id = ps.sitter_id
  where p.studio_id = m.studio_id and p.sitting_id = m.sitting_id and (m.plate_id is null or p.plate_id = m.plate_id)`;

/** $2 is a number or null, $3 part of a name, $4 a day, $5 a series, $6 whether kept. */
const FOUND = `m.studio_id = $1
  and ($3 = '' or m.number = $2 or m.names ilike $3 or exists (select ${ON_PLATE} and s.name ilike $3))
  and ($4::date is null or m.day = $4) and ($5::uuid is null or m.series_id = $5)
  and ($6::boolean is null or (m.keeper = $6 and m.struck_at is null))`;

type Wanted = Omit<BookQuery, 'page'>;

const valuesOf = (tx: Tx, { find, day, series, keeper }: Wanted) => [
  tx.studioId,
  /^\d{1,8}$/.test(find) ? Number(find) : null,
  find === '' ? '' : `%${find.replace(/[\\%_]/g, '\\$&')}%`,
  day,
  series,
  keeper === null ? null : keeper === 'yes',
];

export class BookStore {
  /** Plates that are looked for, the newest first. */
  async find(tx: Tx, wanted: Wanted, { most, from }: { most: number; from: number }): Promise<BookPlate[]> {
    const rows = await tx.many(bookRow, `${PLATE} where ${FOUND} order by m.number desc limit $7 offset $8`, [
      ...valuesOf(tx, wanted),
      most,
      from,
    ]);
    return rows.map(toBookPlate);
  }

  async count(tx: Tx, wanted: Wanted): Promise<number> {
    const sql = `select count(*)::int as found from plate_made m where ${FOUND}`;
    return (await tx.one(z.object({ found: z.number() }), sql, valuesOf(tx, wanted))).found;
  }

  async byNumber(tx: Tx, number: number): Promise<BookPlate | null> {
    const row = await tx.maybe(bookRow, `${PLATE} where m.studio_id = $1 and m.number = $2`, [
      tx.studioId,
      number,
    ]);
    return row && toBookPlate(row);
  }

  /** In the order of their numbers. */
  async byIds(tx: Tx, ids: string[]): Promise<BookPlate[]> {
    const sql = `${PLATE} where m.studio_id = $1 and m.made_id = any($2::uuid[]) order by m.number`;
    return (await tx.many(bookRow, sql, [tx.studioId, ids])).map(toBookPlate);
  }

  /** All plates of a sitting, in the order of their numbers. */
  async ofSittings(tx: Tx, sittingIds: string[]): Promise<BookPlate[]> {
    const sql = `${PLATE} where m.studio_id = $1 and m.sitting_id = any($2::uuid[]) order by m.number`;
    return (await tx.many(bookRow, sql, [tx.studioId, sittingIds])).map(toBookPlate);
  }

  /** Who is on each of some plates, in the order they were named. */
  async people(tx: Tx, ids: string[]): Promise<{ madeId: string; sitterId: string; name: string }[]> {
    const rows = await tx.many(
      z.object({ made_id: z.uuid(), sitter_id: z.uuid(), name: z.string() }),
      `select m.made_id, o.sitter_id, o.name from plate_made m
       cross join lateral (select distinct s.sitter_id, s.name, s.position ${ON_PLATE}) o
       where m.studio_id = $1 and m.made_id = any($2::uuid[]) order by m.number, o.position, o.sitter_id`,
      [tx.studioId, ids],
    );
    return rows.map((row) => ({ madeId: row.made_id, sitterId: row.sitter_id, name: row.name }));
  }

  /** Days of which plates stand in the book, the latest first. */
  async days(tx: Tx, most: number): Promise<Temporal.PlainDate[]> {
    const rows = await tx.many(
      bookRow.pick({ day: true }),
      'select distinct day from plate_made where studio_id = $1 and struck_at is null order by day desc limit $2',
      [tx.studioId, most],
    );
    return rows.map((row) => row.day);
  }

  /** Holds some plates until the transaction ends. @returns how many there are */
  async lock(tx: Tx, ids: string[]): Promise<number> {
    const sql = `select made_id from plate_made where studio_id = $1 and made_id = any($2::uuid[])
      order by made_id for no key update`;
    return (await tx.many(z.object({ made_id: z.uuid() }), sql, [tx.studioId, ids])).length;
  }

  /** Writes the names as the sitter wants them. @returns whether it was something else before */
  async rename(tx: Tx, id: string, names: string): Promise<boolean> {
    const sql = `update plate_made set names = $3 where studio_id = $1 and made_id = $2 and names <> $3`;
    return (await tx.run(sql, [tx.studioId, id, names])) === 1;
  }
}
