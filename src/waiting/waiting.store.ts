// SQL of offers and of the rule of the waiting list.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant, plainDateTime } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { type Freed, type Offer, type OfferAnswer, offerRow, toOffer } from './offers.schemas.js';
import { toWaitingRules, type WaitingRules, waitingRulesRow } from './rules.schemas.js';
import type { Experience } from './wait.calc.js';

export class WaitingStore {
  /** The studio's own rule, or null where it goes by the defaults. */
  async rules(tx: Tx): Promise<WaitingRules | null> {
    const row = await tx.maybe(waitingRulesRow, 'select * from waiting_rules where studio_id = $1', [
      tx.studioId,
    ]);
    return row && toWaitingRules(row);
  }

  async saveRules(tx: Tx, { mode, points, mostUnanswered, life, notice }: WaitingRules): Promise<void> {
    await tx.run(
      `insert into waiting_rules (studio_id, mode, points_asked, points_flexible, points_far, points_series,
         points_priority, points_hardship, most_unanswered, far_weeks, far_days, near_weeks, middle_days,
         telephone_days, ends_at_hour, notice_near, notice_day, notice_night, notice_flight)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)
       on conflict (studio_id) do update set mode = excluded.mode, points_asked = excluded.points_asked,
         points_flexible = excluded.points_flexible, points_far = excluded.points_far,
         points_series = excluded.points_series, points_priority = excluded.points_priority,
         points_hardship = excluded.points_hardship, most_unanswered = excluded.most_unanswered,
         far_weeks = excluded.far_weeks, far_days = excluded.far_days, near_weeks = excluded.near_weeks,
         middle_days = excluded.middle_days, telephone_days = excluded.telephone_days,
         ends_at_hour = excluded.ends_at_hour, notice_near = excluded.notice_near,
         notice_day = excluded.notice_day, notice_night = excluded.notice_night,
         notice_flight = excluded.notice_flight`,
      [
        tx.studioId,
        mode,
        points.asked,
        points.flexible,
        points.far,
        points.series,
        points.priority,
        points.hardship,
        mostUnanswered,
        life.farWeeks,
        life.farDays,
        life.nearWeeks,
        life.middleDays,
        life.telephoneDays,
        life.endsAtHour,
        notice.near,
        notice.day,
        notice.night,
        notice.flight,
      ],
    );
  }

  /** Enters an offer; false when another is open for the same. */
  async insert(tx: Tx, offer: Offer): Promise<boolean> {
    const made = await tx.run(
      `insert into offer (studio_id, offer_id, for_id, occupancy_id, made_at, expires_at, by_telephone, who)
       values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict (studio_id, for_id) where answer is null do nothing`,
      [
        tx.studioId,
        offer.id,
        offer.forId,
        offer.occupancyId,
        offer.madeAt,
        offer.expiresAt,
        offer.byTelephone,
        offer.who,
      ],
    );
    return made === 1;
  }

  async byId(tx: Tx, id: string): Promise<Offer | null> {
    const sql = 'select * from offer where studio_id = $1 and offer_id = $2';
    const row = await tx.maybe(offerRow, sql, [tx.studioId, id]);
    return row && toOffer(row);
  }

  /** Of each the newest. */
  async newest(tx: Tx, forIds: string[]): Promise<Offer[]> {
    const rows = await tx.many(
      offerRow,
      `select distinct on (for_id) * from offer where studio_id = $1 and for_id = any($2::uuid[])
       order by for_id, made_at desc, answered_at desc nulls first`,
      [tx.studioId, forIds],
    );
    return rows.map(toOffer);
  }

  /** Offers without an answer, run out or not, the first to run out first; of all, or for some. */
  async unanswered(tx: Tx, forIds: string[] | null = null): Promise<Offer[]> {
    const rows = await tx.many(
      offerRow,
      `select * from offer where studio_id = $1 and answer is null and ($2::uuid[] is null or for_id = any($2))
       order by expires_at, offer_id`,
      [tx.studioId, forIds],
    );
    return rows.map(toOffer);
  }

  /** Offers that ran out by an instant and were not answered. */
  async expired(tx: Tx, by: Temporal.Instant): Promise<Offer[]> {
    const rows = await tx.many(
      offerRow,
      `select * from offer where studio_id = $1 and answer is null and expires_at <= $2
       order by for_id`,
      [tx.studioId, by],
    );
    return rows.map(toOffer);
  }

  /** Settles an open offer; false when it was settled before. */
  async settle(tx: Tx, id: string, answer: OfferAnswer, at: Temporal.Instant, by: string): Promise<boolean> {
    const settled = await tx.run(
      `update offer set answer = $3, answered_at = $4, answered_by = $5
       where studio_id = $1 and offer_id = $2 and answer is null`,
      [tx.studioId, id, answer, at, by],
    );
    return settled === 1;
  }

  /** Who gave back a place that starts after an instant, or did not take an offer of one: by them, in epoch ms. */
  async passedOver(tx: Tx, after: Temporal.Instant): Promise<Map<string, Set<number>>> {
    const rows = await tx.many(
      z.object({ held_for: z.uuid(), starts_at: instant }),
      `select distinct held_for, starts_at from occupancy
       where studio_id = $1 and kind = 'sitting' and given_back and starts_at > $2`,
      [tx.studioId, after],
    );
    const found = new Map<string, Set<number>>();
    for (const { held_for: id, starts_at: at } of rows)
      found.set(id, (found.get(id) ?? new Set()).add(at.epochMilliseconds));
    return found;
  }

  /** What became of offers and places since an instant. */
  async experience(tx: Tx, since: Temporal.Instant): Promise<Experience> {
    const row = await tx.one(
      z.object({ answered: z.bigint(), accepted: z.bigint(), given: z.bigint(), back: z.bigint() }),
      `select
         (select count(*) from offer where studio_id = $1 and answered_at >= $2
            and answer in ('accepted', 'refused', 'lapsed', 'another day')) as answered,
         (select count(*) from offer where studio_id = $1 and answered_at >= $2 and answer = 'accepted') as accepted,
         (select count(*) from occupancy where studio_id = $1 and kind = 'sitting' and not tentative
            and created_at >= $2) as given,
         (select count(*) from occupancy where studio_id = $1 and kind = 'sitting' and not tentative
            and created_at >= $2 and given_back) as back`,
      [tx.studioId, since],
    );
    return {
      offersAnswered: Number(row.answered),
      offersAccepted: Number(row.accepted),
      placesGiven: Number(row.given),
      placesGivenBack: Number(row.back),
    };
  }

  /** Places to come that were given back or not taken, and whose time nothing holds now. */
  async freed(tx: Tx, from: Temporal.Instant, since: Temporal.Instant): Promise<Freed[]> {
    const rows = await tx.many(
      z.object({ wall_start: plainDateTime, freed_at: instant }),
      `select o.wall_start, max(o.revised_at) as freed_at from occupancy o
       where o.studio_id = $1 and o.kind = 'sitting' and o.given_back and o.starts_at > $2 and o.revised_at >= $3
         and not exists (select from occupancy h where h.studio_id = o.studio_id and h.resource = o.resource
           and h.holds and h.during && tstzrange(o.starts_at, o.ends_at))
       group by o.wall_start order by o.wall_start`,
      [tx.studioId, from, since],
    );
    return rows.map((row) => ({ wallStart: row.wall_start, freedAt: row.freed_at }));
  }
}
