// When the owner's letter about the day ahead goes, and putting it in the outbox: one a day, however often it is tried.
// What it tells is gathered at the desk.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { dueAt, isNews, nextDay, standsNow } from './day-letter.calc.js';
import {
  DEFAULT_DAY_LETTER,
  type DayLetter,
  dayLetterForm,
  type DayLetterRule,
} from './day-letter.schemas.js';
import { DayLetterStore } from './day-letter.store.js';
import { Posting } from './posting.service.js';

@Injectable()
export class DayLetters {
  private readonly store = new DayLetterStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly posting: Posting,
  ) {}

  async rule(tx: Tx): Promise<DayLetterRule> {
    return (await this.store.rule(tx)) ?? DEFAULT_DAY_LETTER;
  }

  /** Saves what was typed, and sees to the next letter by it. @throws AppError bad_input */
  async saveRule(
    studioId: string,
    who: { name: string },
    sent: unknown,
    check: (rule: DayLetterRule) => void = () => {},
  ): Promise<void> {
    const { hour, off } = readInput(dayLetterForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'day letter');
      check(await this.rule(tx));
      await this.store.save(tx, { hour, on: !off });
      const about = { aboutKind: 'day letter', aboutId: tx.studioId, event: 'change' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note: off ? 'off' : `at ${hour}` });
      await this.planNext(tx, await this.studios.load(tx));
    });
  }

  /** Puts the next letter's job on the queue, under its date: of several the last counts. */
  async planNext(tx: Tx, { zone }: Studio): Promise<void> {
    const rule = await this.rule(tx);
    if (!rule.on) return;
    const day = nextDay(rule, zone, this.clock.now());
    const at = { key: day.toString(), runAt: dueAt(rule, zone, day) };
    await this.jobs.enqueue(tx, 'day.letter', { day: day.toString() }, at);
  }

  /** Whether the letter of a date is to be written now, by the rule as it is now. */
  async stands(tx: Tx, { zone }: Studio, day: Temporal.PlainDate): Promise<ReturnType<typeof standsNow>> {
    return standsNow(await this.rule(tx), zone, day, this.clock.now());
  }

  /** Puts the letter in the outbox where there is anything to tell. A second one of a day is none. */
  async post(tx: Tx, studio: Studio, told: DayLetter): Promise<void> {
    if (!isNews(told)) return;
    const sequence = Number(told.day.replaceAll('-', ''));
    await this.posting.post(tx, tx.studioId, sequence, 'owner: day', studio, told);
  }
}
