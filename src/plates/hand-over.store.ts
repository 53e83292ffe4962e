// SQL of the lists of plates that go to an archive, with who of each plate agrees to it.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type HandOver, type Handed, handedRow, handOverRow } from './hand-over.schemas.js';

/** A plate with the sitters on it who have no yes to the archive that holds; of a plate of nobody, none. */
const WITH_MISSING = `p.made_id, p.number, p.day, z.name as size,
    coalesce(nullif(p.names, ''), (select string_agg(distinct q.name, ', ') from on_plate q where q.made_id = p.made_id), '') as names,
    coalesce(s.name || ', ' || p.series_number, '') as series,
    array(select distinct q.name from on_plate q where q.made_id = p.made_id and not exists (
      select from consent y where y.studio_id = p.studio_id and y.sitter_id = q.sitter_id
        and y.purpose = 'archive' and y.withdrawn_at is null) order by q.name) as missing`;
/** Who is on a plate: those it was made for, or all of the sitting where that is not known. */
const ON_PLATE = `with on_plate as (
    select p.made_id, r.sitter_id, r.name from plate_made p
    join plate w on w.studio_id = p.studio_id and w.sitting_id = p.sitting_id and (p.plate_id is null or w.plate_id = p.plate_id)
    join plate_sitter ps on ps.studio_id = w.studio_id and ps.plate_id = w.plate_id
    join sitter r on r.studio_id = ps.studio_id and r.sitter_id = ps.sitter_id
    where p.studio_id = $1)`;
const JOINS = `join plate_size z on z.studio_id = p.studio_id and z.plate_size_id = p.plate_size_id
  left join series s on s.studio_id = p.studio_id and s.series_id = p.series_id`;

export class HandOverStore {
  /** The newest first. */
  async all(tx: Tx): Promise<HandOver[]> {
    return tx.many(
      handOverRow,
      `select h.hand_over_id, h.taken_by, h.note, h.made_at, h.given_on, count(p.made_id)::int as plates
       from hand_over h left join hand_over_plate p on p.studio_id = h.studio_id and p.hand_over_id = h.hand_over_id
       where h.studio_id = $1 group by h.hand_over_id, h.taken_by, h.note, h.made_at, h.given_on
       order by h.made_at desc, h.hand_over_id`,
      [tx.studioId],
    );
  }

  /** Takes a list for a change until the transaction ends; null where there is none. */
  async lock(tx: Tx, id: string): Promise<Omit<HandOver, 'plates'> | null> {
    return tx.maybe(
      handOverRow.omit({ plates: true }),
      `select hand_over_id, taken_by, note, made_at, given_on from hand_over
       where studio_id = $1 and hand_over_id = $2 for no key update`,
      [tx.studioId, id],
    );
  }

  async insert(tx: Tx, one: Omit<HandOver, 'plates' | 'given_on'>): Promise<void> {
    await tx.run(
      'insert into hand_over (studio_id, hand_over_id, taken_by, note, made_at) values ($1, $2, $3, $4, $5)',
      [tx.studioId, one.hand_over_id, one.taken_by, one.note, one.made_at],
    );
  }

  async setGiven(tx: Tx, id: string, day: Temporal.PlainDate | null): Promise<void> {
    await tx.run('update hand_over set given_on = $3 where studio_id = $1 and hand_over_id = $2', [
      tx.studioId,
      id,
      day,
    ]);
  }

  /** The plates on a list, by number. */
  plates(tx: Tx, id: string): Promise<Handed[]> {
    return tx.many(
      handedRow,
      `${ON_PLATE} select ${WITH_MISSING}, h.what from hand_over_plate h
       join plate_made p on p.studio_id = h.studio_id and p.made_id = h.made_id ${JOINS}
       where h.studio_id = $1 and h.hand_over_id = $2 order by p.number`,
      [tx.studioId, id],
    );
  }

  /** Kept plates that stand on no list yet, by number; with why some may not. */
  free(tx: Tx): Promise<Handed[]> {
    return tx.many(
      handedRow,
      `${ON_PLATE} select ${WITH_MISSING}, 'plate' as what from plate_made p ${JOINS}
       where p.studio_id = $1 and p.keeper and p.struck_at is null and not exists (
         select from hand_over_plate h where h.studio_id = p.studio_id and h.made_id = p.made_id)
       order by p.number`,
      [tx.studioId],
    );
  }

  async add(tx: Tx, id: string, madeIds: readonly string[], what: Handed['what']): Promise<void> {
    await tx.run(
      `insert into hand_over_plate (studio_id, hand_over_id, made_id, what)
       select $1, $2, m, $4 from unnest($3::uuid[]) as m on conflict do nothing`,
      [tx.studioId, id, madeIds, what],
    );
  }

  /** @returns whether it stood there */
  async takeOff(tx: Tx, id: string, madeId: string): Promise<boolean> {
    const gone = await tx.run(
      'delete from hand_over_plate where studio_id = $1 and hand_over_id = $2 and made_id = $3',
      [tx.studioId, id, madeId],
    );
    return gone === 1;
  }
}
