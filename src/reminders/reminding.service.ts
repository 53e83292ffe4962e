// Plans the reminders of each place, plans them anew when the place or the rules change, and writes each when it is due,
// if it still holds then. Each ends in one way: written as a letter, which goes by mail or by hand, or dropped with a reason.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Spot } from '../travel/journey.calc.js';
import { comingOf } from './coming.calc.js';
import { passOn, sittingSnapshot } from './letter-facts.calc.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Posting } from './posting.service.js';
import {
  type DropReason,
  type PlannedReminder,
  planReminders,
  type ReminderFacts,
  stillDue,
} from './reminder-plan.calc.js';
import {
  DEFAULT_REMINDER_RULES,
  MOST_RULES,
  reminderForm,
  type ReminderRule,
} from './reminder-rules.schemas.js';
import { type ReminderRow, RemindersStore } from './reminders.store.js';

type Who = { name: string };

export interface Messages {
  view: SittingView;
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
    private readonly links: LinksService,
    private readonly views: SittingViews,
    private readonly posting: Posting,
  ) {}

  /** The studio's rules; those every studio begins with where it never saved any. */
  async rules(tx: Tx): Promise<ReminderRule[]> {
    const saved = await this.store.rules(tx);
    return saved.length > 0 ? saved : [...DEFAULT_REMINDER_RULES];
  }

  /** Saves the rules and plans anew for everybody who has reminders to come. @returns for how many sittings */
  saveRules(studioId: string, who: Who, rules: readonly ReminderRule[]): Promise<number> {
    return this.db.inStudio(studioId, (tx) => this.takeRules(tx, who, rules));
  }

  /**
   * Adds a rule from what was typed, or changes one.
   * @returns for how many sittings is planned anew
   * @throws AppError bad_input; not_found for a rule that is none
   */
  saveRule(studioId: string, who: Who, id: string | null, sent: unknown): Promise<number> {
    const { off, leastKm, leastLeadDays, ...typed } = readInput(reminderForm, sent);
    const more = { on: !off, leastKm: leastKm ?? 0, leastLeadDays: leastLeadDays ?? 0 };
    const rule = { ...typed, ...more, id: id ?? this.random.id() };
    return this.db.inStudio(studioId, async (tx) => {
      const rules = await this.rules(tx);
      if (id !== null && !rules.some((one) => one.id === id)) throw new AppError('not_found');
      const others = rules.filter((one) => one.id !== rule.id);
      if (others.length >= MOST_RULES)
        throw new AppError('bad_input', 'There are too many reminders already.');
      return this.takeRules(tx, who, [...others, rule]);
    });
  }

  /** Takes a rule away; the last one stays. @throws AppError not_found, wrong_state for the last */
  removeRule(studioId: string, who: Who, id: string): Promise<number> {
    return this.db.inStudio(studioId, async (tx) => {
      const rules = await this.rules(tx);
      const others = rules.filter((one) => one.id !== id);
      if (others.length === rules.length) throw new AppError('not_found');
      if (others.length === 0)
        throw new AppError('wrong_state', 'This is the last reminder. Switch it off instead.');
      return this.takeRules(tx, who, others);
    });
  }

  /** The rules, for the page. */
  rulesOf(studioId: string): Promise<ReminderRule[]> {
    return this.db.inStudio(studioId, (tx) => this.rules(tx));
  }

  /** What a sitting's contact was and is reminded of; for one without a place what they would be, from now, for a day. */
  messages(studioId: string, sittingId: string, wall: Temporal.PlainDateTime | null): Promise<Messages> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.views.byId(tx, studio, sittingId);
      const reminders = await this.store.ofSitting(tx, sittingId);
      const letters = await this.mails.about(tx, sittingId);
      const facts = wall && {
        place: { zone: studio.zone, wallStart: wall },
        since: this.clock.now(),
        coming: comingOf(view, studio, null),
      };
      return { view, reminders, letters, would: facts && planReminders(await this.rules(tx), facts) };
    });
  }

  private async takeRules(tx: Tx, who: Who, rules: readonly ReminderRule[]): Promise<number> {
    await this.store.replaceRules(tx, rules);
    const about = { aboutKind: 'reminder rules', aboutId: tx.studioId, event: 'change' };
    await recordHistory(tx, this.clock, { who: who.name, ...about, note: `${rules.length} rules` });
    const studio = await this.studios.load(tx);
    const coming = await this.views.inStates(tx, studio, ['confirmed'], this.clock.now());
    for (const { sitting } of coming) await this.replan(tx, sitting.id);
    return coming.length;
  }

  /** Plans what a sitting's contact is reminded of, as its place stands now. May come twice. */
  async replan(tx: Tx, sittingId: string): Promise<void> {
    const studio = await this.studios.load(tx);
    const view = await this.views.byId(tx, studio, sittingId);
    const { turns } = view.sitting;
    const now = this.clock.now();
    const facts = factsOf(view, studio);
    const earlier = (await this.store.ofSitting(tx, sittingId)).filter((one) => one.state === 'planned');
    const gone = earlier.filter((one) => !facts || one.turn !== turns).map((one) => one.reminder_id);
    await this.store.drop(tx, gone, facts ? 'moved' : 'given up', now);
    if (!facts) return;
    const planned = planReminders(await this.rules(tx), facts);
    for (const { kind, at, skip } of planned) {
      const one = { id: this.random.id(), sittingId, turn: turns, kind, dueAt: at };
      if (skip) await this.store.skip(tx, one, skip, now);
      else if (await this.store.plan(tx, one)) await this.see(tx, one.id, at);
    }
    const wanted = new Set<string>(planned.map((one) => one.kind));
    const left = earlier.filter((one) => one.turn === turns && !wanted.has(one.kind));
    await this.store.drop(
      tx,
      left.map((one) => one.reminder_id),
      'not by the rules now',
      now,
    );
  }

  /** Writes a reminder that is due, unless it is of no use any more. May come twice. */
  async due(tx: Tx, reminderId: string): Promise<void> {
    const reminder = await this.store.lock(tx, reminderId);
    if (reminder?.state !== 'planned') return;
    const studio = await this.studios.load(tx);
    const view = await this.views.byId(tx, studio, reminder.sitting_id);
    const facts = factsOf(view, studio);
    const drop = (why: DropReason) => this.store.drop(tx, [reminderId], why, this.clock.now());
    if (!facts) return drop('given up');
    if (view.sitting.turns !== reminder.turn) return drop('moved');
    const still = stillDue({ kind: reminder.kind, at: reminder.due_at }, facts, this.clock.now());
    if ('waitUntil' in still) return this.see(tx, reminderId, still.waitUntil);
    if (!still.send) return drop(still.drop);
    await this.write(tx, studio, view, facts, reminder);
  }

  /** Every reminder a sitting ever had, the earliest first. */
  ofSitting(tx: Tx, sittingId: string): Promise<ReminderRow[]> {
    return this.store.ofSitting(tx, sittingId);
  }

  private async write(
    tx: Tx,
    studio: Studio,
    view: SittingView,
    facts: ReminderFacts,
    { reminder_id: id, sitting_id: sittingId, turn, kind }: ReminderRow,
  ): Promise<void> {
    const link = await this.links.find(tx, 'place', sittingId);
    if (!link) return this.store.drop(tx, [id], 'given up', this.clock.now());
    const { reachBy } = view.contact;
    const snapshot = {
      ...sittingSnapshot(studio, view, link.id, reachBy === 'email' ? '' : passOn(view)),
      leaveBy: facts.coming?.leaveBy?.toString() ?? null,
      homeZone: facts.coming?.zone ?? null,
    };
    const to = reachBy === 'email' ? view.contact : studio;
    const hand = { byHand: reachBy === 'email' ? ('' as const) : reachBy, telephoneNow: false };
    const mailId = await this.posting.post(tx, sittingId, turn, `reminder: ${kind}`, to, snapshot, hand);
    if (mailId) await this.store.written(tx, id, mailId, this.clock.now());
  }

  private async see(tx: Tx, reminderId: string, runAt: Temporal.Instant): Promise<void> {
    await this.jobs.enqueue(tx, 'reminder.due', { reminderId }, { key: reminderId, runAt });
  }
}

/** Null where there is nothing to remind of: no confirmed place. */
export function factsOf(view: SittingView, studio: Spot): ReminderFacts | null {
  const { sitting, place } = view;
  if (sitting.state !== 'confirmed' || !place?.holds) return null;
  return { place, since: place.revisedAt, coming: comingOf(view, studio, place) };
}
