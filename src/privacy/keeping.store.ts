// SQL of the rules of keeping: the rules, what everybody asked for, and letters that are old enough to be blanked.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { type Keeping, keepingRow } from './privacy.schemas.js';

const askedRow = z.object({
  contact_id: z.uuid(),
  name: z.string(),
  how: z.enum(['open', 'unanswered', 'refused', 'made']),
  since: instant,
});
const mailId = z.object({ about_id: z.uuid() });

/** Sent, told or dropped, before $2, and not blanked yet. */
const OLD_LETTER = `studio_id = $1 and coalesce(told_at, sent_at, created_at) <= $2 and snapshot <> '{}'
  and state in ('sent', 'dropped') and (by_hand = '' or told_at is not null)`;

export class KeepingStore {
  async rules(tx: Tx): Promise<Keeping | null> {
    const sql =
      'select unanswered_days, refused_days, made_months, letters_days from keeping where studio_id = $1';
    const row = await tx.maybe(keepingRow, sql, [tx.studioId]);
    return (
      row && {
        unansweredDays: row.unanswered_days,
        refusedDays: row.refused_days,
        madeMonths: row.made_months,
        lettersDays: row.letters_days,
      }
    );
  }

  async save(tx: Tx, rules: Keeping): Promise<void> {
    await tx.run(
      `insert into keeping (studio_id, unanswered_days, refused_days, made_months, letters_days)
       values ($1, $2, $3, $4, $5)
       on conflict (studio_id) do update set unanswered_days = $2, refused_days = $3, made_months = $4, letters_days = $5`,
      [tx.studioId, rules.unansweredDays, rules.refusedDays, rules.madeMonths, rules.lettersDays],
    );
  }

  /** Of everybody who is not erased, each thing they asked for and how it stands. */
  asked(tx: Tx): Promise<z.output<typeof askedRow>[]> {
    return tx.many(
      askedRow,
      `select c.contact_id, c.name, a.how, a.since from contact c join lateral (
         select case when s.return_owed or s.state in ('waiting', 'offered', 'confirmed') then 'open'
             when s.state = 'requested' then 'unanswered'
             when s.state in ('made', 'came_no_plate', 'did_not_come') then 'made' else 'refused' end as how,
           greatest(case when s.state in ('made', 'came_no_plate', 'did_not_come') then o.ends_at end,
             coalesce(s.decided_at, s.asked_at)) as since
         from sitting s left join occupancy o on o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id
         where s.studio_id = c.studio_id and s.contact_id = c.contact_id
         union all
         select case when u.state in ('waiting', 'offered', 'signed') then 'open'
             when u.state = 'requested' then 'unanswered'
             when u.state in ('attended', 'did_not_come') then 'made' else 'refused' end,
           greatest(case when u.state in ('attended', 'did_not_come') then o.ends_at end,
             coalesce(u.decided_at, u.asked_at))
         from sign_up u left join teaching_session e on e.studio_id = u.studio_id and e.session_id = u.session_id
           left join occupancy o on o.studio_id = e.studio_id and o.occupancy_id = e.occupancy_id
         where u.studio_id = c.studio_id and u.contact_id = c.contact_id) a on true
       where c.studio_id = $1 and c.erased_at is null order by c.contact_id`,
      [tx.studioId],
    );
  }

  async oldLetters(tx: Tx, until: Temporal.Instant): Promise<number> {
    return (await tx.many(mailId, `select about_id from mail where ${OLD_LETTER}`, [tx.studioId, until]))
      .length;
  }

  /** Blanks old letters; that they went, and when, stays. */
  async blankLetters(tx: Tx, until: Temporal.Instant): Promise<void> {
    await tx.run(
      `update mail set snapshot = '{}', recipient = 'erased ' || mail_id, recipient_name = '', last_error = '', by_hand = '',
         telephone_now = false, told_at = null, told_by = '' where ${OLD_LETTER}`,
      [tx.studioId, until],
    );
  }
}
