// Preparation of studio and teaching days: the list of what must be done and when, its ticks, moves and rules.
// What the days are is the room's to say; how many sheets, the shelf's.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { isThere } from '../room/attendance.calc.js';
import { isWhole } from '../outside/blocking.calc.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import type { RoomRules } from '../room/rules.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { BathsStore } from './baths.store.js';
import { type DayAhead, type Task, tasksOf } from './preparation.calc.js';
import { USUAL_RULES } from './preparation-rules.calc.js';
import { dayForm, moveForm, ruleForm, tickForm } from './preparation-forms.schemas.js';
import type { Rule, StudioDay } from './preparation.schemas.js';
import { PreparationStore } from './preparation.store.js';
import type { PlateSize } from './stock.schemas.js';
import { StockService } from './stock.service.js';

/**
 * The days that are prepared together, around today: always the same, since the work of one day gives way to that of
 * another. The past is there for what was not done.
 */
const DAYS_BACK = 30;
const MONTHS_AHEAD = 24;

export interface Preparation {
  studio: Studio;
  today: Temporal.PlainDate;
  tasks: Task[];
  sizes: PlateSize[];
  /** What is written down of days. */
  days: StudioDay[];
  ahead: DayAhead[];
}

@Injectable()
export class PreparationService {
  private readonly store = new PreparationStore();
  private readonly baths = new BathsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
  ) {}

  list(studioId: string): Promise<Preparation> {
    return this.db.inStudio(studioId, async (tx) => this.around(tx, await this.studios.load(tx)));
  }

  /** All tasks of the days around a date; today's, if none is given. */
  async around(tx: Tx, studio: Studio, today = this.room.today(studio)): Promise<Preparation> {
    const [from, until] = [today.subtract({ days: DAYS_BACK }), today.add({ months: MONTHS_AHEAD })];
    const days = await this.store.days(tx, from, until);
    const ahead = await this.daysAhead(tx, studio, { from, until }, days);
    const facts = {
      rules: await this.rulesIn(tx),
      moves: await this.store.moves(tx, from, until),
      ticks: await this.store.ticks(tx, from, until),
      worksOn: worksOn(await this.room.rules(tx), studio.zone),
      south: studio.lat < 0,
    };
    const sizes = await this.stock.plateSizes(tx);
    return { studio, today, tasks: tasksOf(ahead, facts), sizes, days, ahead };
  }

  rules(studioId: string): Promise<Rule[]> {
    return this.db.inStudio(studioId, async (tx) => (await this.rulesIn(tx)).filter((one) => !one.archived));
  }

  /** Ticks a task, or takes the tick back. @throws AppError not_found for a task that no rule knows */
  tick(studioId: string, who: { name: string }, input: unknown): Promise<void> {
    const { day, rule, done } = readInput(tickForm, input);
    return this.act(studioId, who, rule, done ? 'tick' : 'untick', day.toString(), async (tx) => {
      const tick = { day, ruleId: rule, done, who: who.name };
      await this.store.addTick(tx, this.random.id(), tick, this.clock.now());
    });
  }

  /** Puts a task on another day, or lets its rule find one again. @throws AppError bad_input, not_found */
  move(studioId: string, who: { name: string }, input: unknown): Promise<void> {
    const { day, rule, to } = readInput(moveForm, input);
    if (to && Temporal.PlainDate.compare(to, day) > 0)
      throw new AppError('bad_input', undefined, [
        { field: 'to', message: 'This is after the day it is for.' },
      ]);
    return this.act(studioId, who, rule, 'move', `${day} to ${to ?? 'its own day'}`, async (tx) => {
      const today = this.room.today(await this.studios.load(tx));
      if (to && Temporal.PlainDate.compare(to, today) < 0)
        throw new AppError('bad_input', undefined, [{ field: 'to', message: 'This day is past.' }]);
      if (to) await this.store.saveMove(tx, { day, ruleId: rule, toDay: to }, who.name, this.clock.now());
      else await this.store.dropMove(tx, day, rule);
    });
  }

  /** Adds a rule, or changes one. @throws AppError bad_input, not_found */
  saveRule(
    studioId: string,
    who: { name: string },
    ruleId: string | null,
    input: unknown,
    check: (rule: Rule) => void = () => {},
  ): Promise<void> {
    const said = readInput(ruleForm, input);
    if (said.notWith !== null && said.notWith === ruleId)
      throw new AppError('bad_input', undefined, [
        { field: 'notWith', message: 'A rule cannot keep out of its own way.' },
      ]);
    const id = ruleId ?? this.random.id();
    return this.act(studioId, who, ruleId, 'rule', said.what, async (tx, rules) => {
      const before = rules.find((one) => one.id === id);
      if (before) check(before);
      if (said.notWith !== null && !rules.some((one) => one.id === said.notWith && !one.archived))
        throw new AppError('bad_input', undefined, [
          { field: 'notWith', message: 'Please choose one of the rules.' },
        ]);
      const position = before?.position ?? Math.max(0, ...rules.map((one) => one.position)) + 1;
      await this.store.saveRule(tx, { ...said, id, position, archived: false });
    });
  }

  /** Puts a rule away: nothing is prepared by it any more. @throws AppError not_found */
  removeRule(studioId: string, who: { name: string }, ruleId: string): Promise<void> {
    return this.act(studioId, who, ruleId, 'no rule', '', async (tx, rules) => {
      for (const one of rules)
        if (one.id === ruleId) await this.store.saveRule(tx, { ...one, archived: true });
        else if (one.notWith === ruleId) await this.store.saveRule(tx, { ...one, notWith: null });
    });
  }

  /** Writes down how warm and damp the room is on a day. @throws AppError bad_input */
  noteDay(
    studioId: string,
    who: { name: string },
    input: unknown,
    check: (day: StudioDay | undefined) => void = () => {},
  ): Promise<void> {
    const said = readInput(dayForm, input);
    return this.act(studioId, who, null, 'day', said.day.toString(), async (tx) => {
      const [known] = await this.store.days(tx, said.day, said.day);
      check(known);
      await this.store.makeDay(tx, said.day, this.random.id());
      await this.store.noteDay(tx, said);
    });
  }

  /** One act on the rules: the usual ones become the studio's own first. */
  private act(
    studioId: string,
    who: { name: string },
    ruleId: string | null,
    event: string,
    note: string,
    change: (tx: Tx, rules: Rule[]) => Promise<void>,
  ): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'preparation');
      const rules = await this.store.rules(tx);
      const known = rules.length > 0 ? rules : [...USUAL_RULES];
      if (rules.length === 0) for (const rule of known) await this.store.saveRule(tx, rule);
      if (ruleId !== null && !known.some((one) => one.id === ruleId && !one.archived))
        throw new AppError('not_found', 'This task is not known here any more.');
      await change(tx, known);
      const about = { aboutKind: 'preparation', aboutId: ruleId ?? studioId, event, note };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  private async rulesIn(tx: Tx): Promise<readonly Rule[]> {
    const own = await this.store.rules(tx);
    return own.length > 0 ? own : USUAL_RULES;
  }

  private async daysAhead(
    tx: Tx,
    studio: Studio,
    { from, until }: { from: Temporal.PlainDate; until: Temporal.PlainDate },
    noted: StudioDay[],
  ): Promise<DayAhead[]> {
    const end = dayBounds(studio.zone, until).end;
    const taking = await this.room.between(tx, dayBounds(studio.zone, from).start, end, end);
    const sheets = await this.baths.sheetsAhead(tx, from);
    return daysOf(taking).map((day) => ({
      ...day,
      sheets: sheets.filter((one) => one.day.equals(day.date)),
      roomTemperature: noted.find((one) => one.day.equals(day.date))?.roomTemperature ?? null,
    }));
  }
}

/** The days on which somebody sits or learns, each with its first hour. A day of both is a teaching day. */
function daysOf(taking: Occupancy[]): Pick<DayAhead, 'date' | 'kind' | 'begins'>[] {
  const days = new Map<string, Pick<DayAhead, 'date' | 'kind' | 'begins'>>();
  for (const one of taking) {
    if (!one.holds || one.resource !== 'room' || one.kind === 'closure') continue;
    const date = one.wallStart.toPlainDate();
    const known = days.get(date.toString());
    const begins = one.wallStart.toPlainTime();
    const first = known && Temporal.PlainTime.compare(known.begins, begins) <= 0 ? known.begins : begins;
    const kind = one.kind === 'teaching' || known?.kind === 'teaching' ? 'teaching' : 'studio';
    days.set(date.toString(), { date, kind, begins: first });
  }
  return [...days.values()];
}

/** Whether the owner is there on a date, and neither a closure nor what an outside calendar says covers it whole. */
function worksOn(
  { owner, closures, elsewhere }: RoomRules,
  zone: string,
): (date: Temporal.PlainDate) => boolean {
  return (date) => {
    if (!isThere(owner, date) || elsewhere.some(({ times }) => isWhole(times, zone, date))) return false;
    const [from, until] = [date.toPlainDateTime(), date.add({ days: 1 }).toPlainDateTime()];
    const { compare } = Temporal.PlainDateTime;
    return !closures.some((one) => compare(one.wallFrom, from) <= 0 && compare(one.wallUntil, until) >= 0);
  };
}
