// Plans the reminders of each place, plans them anew when the place or the rules change, and writes each when it is due,
// if it still holds then. Each ends in one way: written as a letter, which goes by mail or by hand, or dropped with a reason.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import type { Contact } from '../people/people.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { OwnView } from '../teaching/day-views.schemas.js';
import { TeachingViews } from '../teaching/views.service.js';
import { comingOf } from './coming.calc.js';
import { isToStudents } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import {
  type DropReason,
  type PlannedReminder,
  planReminders,
  stillDue,
  tellsOf,
} from './reminder-plan.calc.js';
import {
  DEFAULT_REMINDER_RULES,
  FOR_DAYS,
  type ForDay,
  type ReminderKind,
  type ReminderRule,
} from './reminder-rules.schemas.js';
import { ofRow, RemindedService } from './reminded.service.js';
import { type Of, type ReminderRow, RemindersStore } from './reminders.store.js';

export interface Messages<View> {
  view: View;
  reminders: ReminderRow[];
  /** Every letter to them or to the studio about it, the oldest first. */
  letters: MailRow[];
  would: PlannedReminder[] | null;
}

@Injectable()
export class Reminding {
  private readonly store = new RemindersStore();
  private readonly mails = new MailStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly views: SittingViews,
    private readonly teaching: TeachingViews,
    private readonly calendar: TeachingCalendar,
    private readonly reminded: RemindedService,
  ) {}

  /** The studio's rules; for days of which it never saved any, those every studio begins with. */
  async rules(tx: Tx): Promise<ReminderRule[]> {
    const saved = await this.store.rules(tx);
    return FOR_DAYS.flatMap((day) => {
      const of = (rules: readonly ReminderRule[]) => rules.filter(({ forDay }) => forDay === day);
      return of(saved).length > 0 ? of(saved) : of(DEFAULT_REMINDER_RULES);
    });
  }

  /** What a sitting's contact was and is reminded of; for one without a place what they would be, from now, for a day. */
  messages(
    studioId: string,
    sittingId: string,
    wall: Temporal.PlainDateTime | null,
  ): Promise<Messages<SittingView>> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.views.byId(tx, studio, sittingId);
      const would = wall && (await this.would(tx, studio, view.contact, 'sitting', wall));
      return { view, ...(await this.told(tx, { sittingId })), would };
    });
  }

  /** The same of a sign-up: before they have a place what they would be sent for the day they wait for, or ask for. */
  signUpMessages(studioId: string, signUpId: string): Promise<Messages<OwnView>> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.teaching.known(tx, signUpId);
      const asked = view.signUp.wantedOn?.toPlainDateTime({ hour: 12 }) ?? null;
      const wall = view.day?.place.wallStart ?? asked;
      const before = ['requested', 'waiting', 'offered'].includes(view.signUp.state);
      const would = before && wall ? await this.would(tx, studio, view.contact, 'teaching', wall) : null;
      return { view, ...(await this.told(tx, { signUpId })), would };
    });
  }

  private async told(tx: Tx, of: Of): Promise<Pick<Messages<never>, 'reminders' | 'letters'>> {
    const id = 'sittingId' in of ? of.sittingId : of.signUpId;
    return { reminders: await this.store.of(tx, of), letters: await this.mails.about(tx, id) };
  }

  private async would(
    tx: Tx,
    studio: Studio,
    contact: Contact,
    forDay: ForDay,
    wallStart: Temporal.PlainDateTime,
  ): Promise<PlannedReminder[]> {
    const place = { zone: studio.zone, wallStart };
    const coming = comingOf(contact, studio, null);
    return planReminders(await this.rules(tx), { forDay, place, since: this.clock.now(), coming });
  }

  /** Plans what a sitting's contact is reminded of, as its place stands now. May come twice. */
  replan(tx: Tx, sittingId: string): Promise<void> {
    return this.plan(tx, { sittingId });
  }

  /** Takes the reminders of sittings away, as if they had never been planned. */
  async forget(tx: Tx, sittingIds: string[]): Promise<void> {
    await this.store.remove(tx, sittingIds);
  }

  /** Those of some sittings about which a letter was written. */
  async toldOf(tx: Tx, sittingIds: string[]): Promise<Set<string>> {
    return new Set((await this.mails.newest(tx, sittingIds)).keys());
  }

  /** The same for whoever signed up for a day of teaching. */
  replanSignUp(tx: Tx, signUpId: string): Promise<void> {
    return this.plan(tx, { signUpId });
  }

  /** The same for all that a contact comes for. */
  async replanAllOf(tx: Tx, contactId: string): Promise<void> {
    for (const sittingId of await this.views.idsOf(tx, contactId)) await this.plan(tx, { sittingId });
    for (const { signUp } of await this.calendar.ofContact(tx, contactId))
      await this.plan(tx, { signUpId: signUp.id });
  }

  /** The same for everybody who has a place. @returns for how many */
  async replanAll(tx: Tx): Promise<number> {
    const studio = await this.studios.load(tx);
    const sittings = await this.views.inStates(tx, studio, ['confirmed'], this.clock.now());
    const signUps = await this.calendar.coming(tx, this.clock.now());
    for (const { sitting } of sittings) await this.plan(tx, { sittingId: sitting.id });
    for (const signUpId of signUps) await this.plan(tx, { signUpId });
    return sittings.length + signUps.length;
  }

  private async plan(tx: Tx, of: Of): Promise<void> {
    const { turns, facts } = await this.reminded.load(tx, of);
    const now = this.clock.now();
    const earlier = (await this.store.of(tx, of)).filter((one) => one.state === 'planned');
    const gone = earlier.filter((one) => !facts || one.turn !== turns).map((one) => one.reminder_id);
    await this.store.drop(tx, gone, facts ? 'moved' : 'given up', now);
    if (!facts) return;
    const planned = planReminders(await this.rules(tx), facts);
    const all = planned.map(({ kind, at: dueAt, skip }) => {
      return { id: this.random.id(), of, turn: turns, kind, dueAt, skip };
    });
    const entered = await this.store.plan(tx, all, now);
    const kept = all.filter(({ id }) => entered.has(id));
    await Promise.all(kept.map(({ id, dueAt }) => this.see(tx, id, dueAt)));
    const wanted = new Set<string>(planned.map((one) => one.kind));
    const left = earlier.filter((one) => one.turn === turns && !wanted.has(one.kind));
    const ids = left.map((one) => one.reminder_id);
    await this.store.drop(tx, ids, 'not by the rules now', now);
  }

  /** Writes a reminder that is due, unless it is of no use any more. May come twice. */
  async due(tx: Tx, reminderId: string): Promise<void> {
    const reminder = await this.store.lock(tx, reminderId);
    if (reminder?.state !== 'planned') return;
    const { contact, turns, facts, write } = await this.reminded.load(tx, ofRow(reminder));
    const drop = (why: DropReason) => this.store.drop(tx, [reminderId], why, this.clock.now());
    if (!facts) return drop('given up');
    if (turns !== reminder.turn) return drop('moved');
    const still = stillDue({ kind: reminder.kind, at: reminder.due_at }, facts, this.clock.now());
    if ('waitUntil' in still) return this.see(tx, reminderId, still.waitUntil);
    if (!still.send) return drop(still.drop);
    if (contact.remindersStoppedAt) return drop('stopped by them');
    const mailId = await write(reminder.kind, tellsOf(await this.rules(tx), reminder.kind, facts));
    if (mailId === null) return drop('given up');
    await this.store.written(tx, reminderId, mailId, this.clock.now());
  }

  /** When a reminder in the outbox may go: however late its attempt is, neither at night nor once it is of no use. */
  async mayGo(tx: Tx, mail: MailRow): Promise<'now' | 'never' | Temporal.Instant> {
    const of = isToStudents(mail.kind) ? { signUpId: mail.about_id } : { sittingId: mail.about_id };
    const { facts, turns, contact } = await this.reminded.load(tx, of);
    if (!facts || turns !== mail.sequence || contact.remindersStoppedAt) return 'never';
    const kind = mail.kind.replace(/^(teaching )?reminder: /, '') as ReminderKind;
    const still = stillDue({ kind, at: mail.created_at }, facts, this.clock.now());
    if ('waitUntil' in still) return still.waitUntil;
    return still.send ? 'now' : 'never';
  }

  /** Every reminder a sitting ever had, the earliest first. */
  ofSitting(tx: Tx, sittingId: string): Promise<ReminderRow[]> {
    return this.store.of(tx, { sittingId });
  }

  /** The same of a sign-up. */
  ofSignUp(tx: Tx, signUpId: string): Promise<ReminderRow[]> {
    return this.store.of(tx, { signUpId });
  }

  private async see(tx: Tx, reminderId: string, runAt: Temporal.Instant): Promise<void> {
    await this.jobs.enqueue(tx, 'reminder.due', { reminderId }, { key: reminderId, runAt });
  }
}
