// What a person wants to read of a backup without this program: people, sittings, the shelf, plates, as tables.
import { z } from 'zod';
import { csv } from '../lib/csv.js';
import type { Tx } from '../platform/db/tx.js';

/** File name, heads, and a query with one text column for each. */
const SHEETS: { file: string; heads: string[]; sql: string }[] = [
  {
    file: 'people.csv',
    heads: ['name', 'reached by', 'e-mail', 'telephone', 'address', 'home', 'sitters'],
    sql: `select c.name, c.reach_by, c.email, c.telephone, c.postal_address, c.home_name,
            coalesce((select string_agg(s.name, '; ' order by s.name) from sitter s
                      where s.studio_id = c.studio_id and s.contact_id = c.contact_id), '')
          from contact c where c.studio_id = $1 order by c.name, c.contact_id`,
  },
  {
    file: 'sittings.csv',
    heads: [
      'contact',
      'state',
      'asked at',
      'day and hour at the studio',
      'until',
      'days that suit',
      'hopes',
      'anything we should know',
    ],
    sql: `select c.name, s.state, to_char(s.asked_at, 'YYYY-MM-DD"T"HH24:MI:SS"Z"'),
            coalesce(to_char(o.wall_start, 'YYYY-MM-DD HH24:MI'), ''), coalesce(to_char(o.wall_end, 'HH24:MI'), ''),
            coalesce(s.any_day_from || ' to ' || s.any_day_until, array_to_string(s.days, '; ')), s.hopes, s.anything
          from sitting s join contact c on c.studio_id = s.studio_id and c.contact_id = s.contact_id
          left join occupancy o on o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id
          where s.studio_id = $1 order by s.asked_at, s.sitting_id`,
  },
  {
    file: 'shelf.csv',
    heads: ['item', 'bottle, batch or box', 'unit', 'on hand', 'usable from', 'usable until', 'state'],
    sql: `select i.name, l.label, i.unit, l.on_hand::text, l.usable_from::text, coalesce(l.usable_until::text, ''), l.state
          from lot l join item i on i.studio_id = l.studio_id and i.item_id = l.item_id
          where l.studio_id = $1 order by i.name, l.usable_from, l.lot_id`,
  },
  {
    file: 'plates.csv',
    heads: ['number', 'day', 'size', 'kept', 'seconds', 'sky', 'names', 'result', 'note', 'typed by mistake'],
    sql: `select p.number::text, p.day::text, z.name, case when p.keeper then 'yes' else 'no' end, coalesce(p.seconds::text, ''),
            coalesce(p.sky, ''), p.names, p.result, p.note, case when p.struck_at is null then '' else 'yes' end
          from plate_made p join plate_size z on z.studio_id = p.studio_id and z.plate_size_id = p.plate_size_id
          where p.studio_id = $1 order by p.number`,
  },
];

export class ReadableStore {
  /** Each sheet by its file name. */
  async sheets(tx: Tx): Promise<Map<string, string>> {
    const sheets = new Map<string, string>();
    for (const { file, heads, sql } of SHEETS) {
      const cells = heads.map((_, at) => `c${at}`);
      const rows = await tx.many(
        z.object({ cells: z.array(z.string()) }),
        `select array[${cells.map((one) => `${one}::text`).join(', ')}] as cells from (${sql}) as t(${cells.join(', ')})`,
        [tx.studioId],
      );
      sheets.set(
        file,
        csv(
          heads,
          rows.map((row) => row.cells),
        ),
      );
    }
    return sheets;
  }
}
