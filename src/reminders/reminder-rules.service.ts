// The owner's rules of reminders: each change plans anew for everybody who has reminders to come.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { type ForDay, MOST_RULES, reminderForm, type ReminderRule } from './reminder-rules.schemas.js';
import { RemindersStore } from './reminders.store.js';
import { Reminding } from './reminding.service.js';

type Who = { name: string };

@Injectable()
export class ReminderRulesService {
  private readonly store = new RemindersStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly reminding: Reminding,
  ) {}

  /** The rules, for the page. */
  rulesOf(studioId: string): Promise<ReminderRule[]> {
    return this.db.inStudio(studioId, (tx) => this.reminding.rules(tx));
  }

  /** Saves the rules and plans anew for everybody who has reminders to come. @returns for how many places */
  saveRules(studioId: string, who: Who, rules: readonly ReminderRule[]): Promise<number> {
    return this.db.inStudio(studioId, (tx) => this.take(tx, who, rules));
  }

  /**
   * Changes a rule by what was typed, or adds one for a kind of day.
   * @param which the rule's id, or for which days a further one is
   * @returns for how many places is planned anew
   * @throws AppError bad_input; not_found for a rule that is none
   */
  saveRule(
    studioId: string,
    who: Who,
    which: { id: string } | { forDay: ForDay },
    sent: unknown,
    check: (rule: ReminderRule) => void = () => {},
  ): Promise<number> {
    const { off, leastKm, leastLeadDays, ...typed } = readInput(reminderForm, sent);
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'reminder rules');
      const rules = await this.reminding.rules(tx);
      const before = 'id' in which ? rules.find((one) => one.id === which.id) : undefined;
      const forDay = 'id' in which ? before?.forDay : which.forDay;
      if (!forDay) throw new AppError('not_found');
      if (before) check(before);
      const rule: ReminderRule = {
        ...typed,
        forDay,
        id: 'id' in which ? which.id : this.random.id(),
        tells: forDay === 'teaching' ? typed.tells : [],
        on: !off,
        leastKm: leastKm ?? 0,
        leastLeadDays: leastLeadDays ?? 0,
      };
      const others = rules.filter((one) => one.id !== rule.id);
      if (others.filter((one) => one.forDay === forDay).length >= MOST_RULES)
        throw new AppError('bad_input', 'There are too many reminders already.');
      return this.take(tx, who, [...others, rule]);
    });
  }

  /** Takes a rule away; the last one of its days stays. @throws AppError not_found, wrong_state for the last */
  removeRule(studioId: string, who: Who, id: string): Promise<number> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'reminder rules');
      const rules = await this.reminding.rules(tx);
      const gone = rules.find((one) => one.id === id);
      const others = rules.filter((one) => one.id !== id);
      if (!gone) throw new AppError('not_found');
      if (!others.some(({ forDay }) => forDay === gone.forDay))
        throw new AppError('wrong_state', 'This is the last reminder. Switch it off instead.');
      return this.take(tx, who, others);
    });
  }

  private async take(tx: Tx, who: Who, rules: readonly ReminderRule[]): Promise<number> {
    await this.store.replaceRules(tx, rules);
    const about = { aboutKind: 'reminder rules', aboutId: tx.studioId, event: 'change' };
    await recordHistory(tx, this.clock, { who: who.name, ...about, note: `${rules.length} rules` });
    return this.reminding.replanAll(tx);
  }
}
