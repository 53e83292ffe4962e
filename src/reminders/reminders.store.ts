// SQL of the rules of reminders, and of what became of each reminder.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
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
}

/** sitting_id, sign_up_id. */
const idsOf = (of: Of): [string | null, string | null] =>
  'sittingId' in of ? [of.sittingId, null] : [null, of.signUpId];

export class RemindersStore {
  async rules(tx: Tx): Promise<ReminderRule[]> {
    const rows = await tx.many(
      reminderRuleRow,
      'select * from reminder_rule where studio_id = $1 order by days desc, hour, rule_id',
      [tx.studioId],
    );
    return rows.map(toReminderRule);
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
  async of(tx: Tx, of: Of): Promise<ReminderRow[]> {
    const [column, id] =
      'sittingId' in of ? (['sitting_id', of.sittingId] as const) : (['sign_up_id', of.signUpId] as const);
    return tx.many(
      reminderRow,
      `select * from reminder where studio_id = $1 and ${column} = $2 order by turn, due_at, reminder_id`,
      [tx.studioId, id],
    );
  }

  async lock(tx: Tx, id: string): Promise<ReminderRow | null> {
    return tx.maybe(
      reminderRow,
      'select * from reminder where studio_id = $1 and reminder_id = $2 for no key update',
      [tx.studioId, id],
    );
  }

  /**
   * Plans a reminder, or plans it anew under the new id, so that a job for the old one finds nothing.
   * @returns false where it was written already
   */
  async plan(tx: Tx, one: NewReminder): Promise<boolean> {
    const planned = await tx.run(
      `insert into reminder (studio_id, reminder_id, sitting_id, sign_up_id, turn, kind, due_at, state)
       values ($1, $2, $3, $4, $5, $6, $7, 'planned')
       on conflict on constraint reminder_once do update
         set reminder_id = excluded.reminder_id, due_at = excluded.due_at, state = 'planned', reason = '', ended_at = null
         where reminder.state <> 'written'`,
      [tx.studioId, one.id, ...idsOf(one.of), one.turn, one.kind, one.dueAt],
    );
    return planned === 1;
  }

  /** Notes that a reminder is not sent, and why; one that was written stays so. */
  async skip(tx: Tx, one: NewReminder, reason: DropReason, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into reminder (studio_id, reminder_id, sitting_id, sign_up_id, turn, kind, due_at, state, reason, ended_at)
       values ($1, $2, $3, $4, $5, $6, $7, 'dropped', $8, $9)
       on conflict on constraint reminder_once do update
         set due_at = excluded.due_at, state = 'dropped', reason = excluded.reason, ended_at = excluded.ended_at
         where reminder.state = 'planned'`,
      [tx.studioId, one.id, ...idsOf(one.of), one.turn, one.kind, one.dueAt, reason, at],
    );
  }

  async written(tx: Tx, id: string, mailId: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update reminder set state = 'written', mail_id = $3, ended_at = $4
       where studio_id = $1 and reminder_id = $2 and state = 'planned'`,
      [tx.studioId, id, mailId, at],
    );
  }

  async drop(tx: Tx, ids: readonly string[], reason: DropReason, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update reminder set state = 'dropped', reason = $3, ended_at = $4
       where studio_id = $1 and reminder_id = any($2::uuid[]) and state = 'planned'`,
      [tx.studioId, ids, reason, at],
    );
  }
}
