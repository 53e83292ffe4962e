// SQL of the rules of reminders, and of what became of each reminder.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import type { DropReason } from './reminder-plan.calc.js';
import {
  REMINDER_KINDS,
  type ReminderKind,
  type ReminderRule,
  reminderRuleRow,
  toReminderRule,
} from './reminder-rules.schemas.js';

const reminderRow = z.object({
  reminder_id: z.uuid(),
  sitting_id: z.uuid().nullable(),
  sign_up_id: z.uuid().nullable(),
  turn: z.number(),
  kind: z.enum(REMINDER_KINDS),
  due_at: instant,
  state: z.enum(['planned', 'written', 'dropped']),
  reason: z.string(),
  mail_id: z.uuid().nullable(),
  ended_at: instant.nullable(),
});
export type ReminderRow = z.output<typeof reminderRow>;

/** What a reminder is of: a sitting, or a sign-up for a day of teaching. */
export type Of = { sittingId: string } | { signUpId: string };

export interface NewReminder {
  id: string;
  of: Of;
  turn: number;
  kind: ReminderKind;
  dueAt: Temporal.Instant;
  /** Why it is not sent; null for one that is. */
  skip: DropReason | null;
}

interface Plan {
  all: NewReminder[];
  at: Temporal.Instant;
}
interface Written {
  id: string;
  mailId: string;
  at: Temporal.Instant;
}

/** sitting_id, sign_up_id. */
const idsOf = (of: Of): [string | null, string | null] =>
  'sittingId' in of ? [of.sittingId, null] : [null, of.signUpId];

export class RemindersStore {
  private readonly ruled = new TogetherIn<void, ReminderRule[]>(
    async (tx, all) => {
      const rows = await tx.many(
        reminderRuleRow,
        'select * from reminder_rule where studio_id = $1 order by days desc, hour, rule_id',
        [tx.studioId],
      );
      const rules = rows.map(toReminderRule);
      return all.map(() => rules);
    },
    () => '',
  );
  private readonly found = new TogetherIn<Of, ReminderRow[]>(async (tx, all) => {
    const ids = all.map(idsOf);
    const rows = await tx.many(
      reminderRow,
      `select * from reminder where studio_id = $1 and (sitting_id = any($2::uuid[]) or sign_up_id = any($3::uuid[]))
       order by turn, due_at, reminder_id`,
      [tx.studioId, ids.flatMap(([id]) => id ?? []), ids.flatMap(([, id]) => id ?? [])],
    );
    return ids.map(([sittingId, signUpId]) =>
      rows.filter((row) => row.sitting_id === sittingId && row.sign_up_id === signUpId),
    );
  });
  private readonly locked = new TogetherIn<string, ReminderRow | null>(async (tx, ids) => {
    const rows = await tx.many(
      reminderRow,
      `select * from reminder where studio_id = $1 and reminder_id = any($2::uuid[])
       order by reminder_id for no key update`,
      [tx.studioId, ids],
    );
    return ids.map((id) => rows.find((row) => row.reminder_id === id) ?? null);
  });
  private readonly planned = new TogetherIn<Plan, Set<string>>(async (tx, plans) => {
    const all = plans.flatMap(({ all: ones, at }) => ones.map((one) => ({ ...one, at })));
    const rows = await tx.many(
      z.object({ reminder_id: z.uuid() }),
      `with entered as (
         insert into reminder (studio_id, reminder_id, sitting_id, sign_up_id, turn, kind, due_at, state, reason, ended_at)
         select $1, id, sitting_id, sign_up_id, turn, kind, due_at, case skip when '' then 'planned' else 'dropped' end,
           skip, case skip when '' then null else at end
         from unnest($2::uuid[], $3::uuid[], $4::uuid[], $5::int[], $6::text[], $7::timestamptz[], $8::text[], $9::timestamptz[])
           as one (id, sitting_id, sign_up_id, turn, kind, due_at, skip, at)
         on conflict on constraint reminder_once do update
           set reminder_id = case excluded.state when 'planned' then excluded.reminder_id else reminder.reminder_id end,
             due_at = excluded.due_at, state = excluded.state, reason = excluded.reason, ended_at = excluded.ended_at
           where reminder.state = 'planned' or (excluded.state = 'planned' and reminder.state = 'dropped')
         returning reminder_id, state)
       select reminder_id from entered where state = 'planned'`,
      [
        tx.studioId,
        all.map((one) => one.id),
        all.map((one) => idsOf(one.of)[0]),
        all.map((one) => idsOf(one.of)[1]),
        all.map((one) => one.turn),
        all.map((one) => one.kind),
        all.map((one) => one.dueAt),
        all.map((one) => one.skip ?? ''),
        all.map((one) => one.at),
      ],
    );
    const planned = new Set(rows.map((row) => row.reminder_id));
    return plans.map(() => planned);
  });
  private readonly writes = new TogetherIn<Written, void>(async (tx, all) => {
    await tx.run(
      `update reminder r set state = 'written', mail_id = w.mail_id, ended_at = w.at
       from unnest($2::uuid[], $3::uuid[], $4::timestamptz[]) as w (id, mail_id, at)
       where r.studio_id = $1 and r.reminder_id = w.id and r.state = 'planned'`,
      [tx.studioId, all.map((one) => one.id), all.map((one) => one.mailId), all.map((one) => one.at)],
    );
    return all.map(() => undefined);
  });

  rules(tx: Tx): Promise<ReminderRule[]> {
    return this.ruled.ask(tx);
  }

  /** Takes the reminders of some sittings away, as if they had never been planned. */
  async remove(tx: Tx, sittingIds: string[]): Promise<void> {
    const sql = 'delete from reminder where studio_id = $1 and sitting_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, sittingIds]);
  }

  /** Puts these rules in the place of those there are. */
  async replaceRules(tx: Tx, rules: readonly ReminderRule[]): Promise<void> {
    await tx.run('delete from reminder_rule where studio_id = $1', [tx.studioId]);
    for (const one of rules)
      await tx.run(
        `insert into reminder_rule (studio_id, rule_id, kind, days, hour, for_whom, least_km, least_lead_days, is_on,
           for_day, tells)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
        [
          tx.studioId,
          one.id,
          one.kind,
          one.days,
          one.hour,
          one.forWhom,
          one.leastKm,
          one.leastLeadDays,
          one.on,
          one.forDay,
          [...new Set(one.tells)],
        ],
      );
  }

  /** All reminders of a sitting or sign-up, of every place it had, the earliest first. */
  of(tx: Tx, of: Of): Promise<ReminderRow[]> {
    return this.found.ask(tx, of);
  }

  lock(tx: Tx, id: string): Promise<ReminderRow | null> {
    return this.locked.ask(tx, id);
  }

  /**
   * Plans reminders, each anew under its new id where it was planned before, so that a job for the old one finds nothing;
   * of those with a reason it notes that they are not sent, and why. What was written already stays so.
   * @returns the ids of those planned
   */
  async plan(tx: Tx, all: NewReminder[], at: Temporal.Instant): Promise<Set<string>> {
    return all.length === 0 ? new Set() : this.planned.ask(tx, { all, at });
  }

  written(tx: Tx, id: string, mailId: string, at: Temporal.Instant): Promise<void> {
    return this.writes.ask(tx, { id, mailId, at });
  }

  async drop(tx: Tx, ids: readonly string[], reason: DropReason, at: Temporal.Instant): Promise<void> {
    if (ids.length === 0) return;
    await tx.run(
      `update reminder set state = 'dropped', reason = $3, ended_at = $4
       where studio_id = $1 and reminder_id = any($2::uuid[]) and state = 'planned'`,
      [tx.studioId, ids, reason, at],
    );
  }
}
