// SQL of series: plates that belong together, numbered by themselves.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type Series, seriesRow } from './series.schemas.js';

const count = z.object({ state: z.string(), n: z.number() });

export class SeriesStore {
  /** Those put away last. Struck plates do not count, but keep their number. */
  async all(tx: Tx): Promise<Series[]> {
    return tx.many(
      seriesRow,
      `select s.series_id, s.name, s.about, s.target, s.archived,
         count(p.made_id) filter (where p.keeper and p.struck_at is null)::int as keepers,
         coalesce(max(p.series_number), 0) + 1 as next
       from series s left join plate_made p on p.studio_id = s.studio_id and p.series_id = s.series_id
       where s.studio_id = $1 group by s.series_id, s.name, s.about, s.target, s.archived
       order by s.archived, s.name, s.series_id`,
      [tx.studioId],
    );
  }

  async save(
    tx: Tx,
    one: Pick<Series, 'series_id' | 'name' | 'about' | 'target' | 'archived'>,
  ): Promise<void> {
    await tx.run(
      `insert into series (studio_id, series_id, name, about, target, archived) values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, series_id) do update set name = $3, about = $4, target = $5, archived = $6`,
      [tx.studioId, one.series_id, one.name, one.about, one.target, one.archived],
    );
  }

  /** How many sittings whose plates go to a series are waiting, offered and confirmed. */
  async coming(tx: Tx): Promise<Map<string, number>> {
    const rows = await tx.many(
      count,
      `select t.state, count(*)::int as n from sitting t
       join sitting_kind k on k.studio_id = t.studio_id and k.kind_id = t.kind_id
       where t.studio_id = $1 and k.keeps_plate = 'series' and t.state in ('requested', 'waiting', 'offered', 'confirmed')
       group by t.state order by t.state`,
      [tx.studioId],
    );
    return new Map(rows.map((row) => [row.state, row.n]));
  }
}
