// SQL of preparation: rules, ticks (only ever added to), moves, what is noted of a day, and what a day takes.
import type { Temporal } from 'temporal-polyfill';
import type { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import {
  type DayTakes,
  dayMaterialRow,
  dayTestsRow,
  type Move,
  moveRow,
  type Rule,
  ruleRow,
  type StudioDay,
  studioDayRow,
  type Tick,
  tickRow,
  toRule,
  toStudioDay,
} from './preparation.schemas.js';

type Day = Temporal.PlainDate;

export class PreparationStore {
  /** Those put away included; none where the studio goes by the usual rules. */
  async rules(tx: Tx): Promise<Rule[]> {
    const sql = 'select * from preparation_rule where studio_id = $1 order by position, rule_id';
    return (await tx.many(ruleRow, sql, [tx.studioId])).map(toRule);
  }

  /** The last word on each task of the days from one to another. */
  async ticks(tx: Tx, from: Day, until: Day): Promise<Tick[]> {
    const rows = await tx.many(
      tickRow,
      `select distinct on (day, rule_id) day, rule_id, done, who from preparation_tick
       where studio_id = $1 and day between $2 and $3 order by day, rule_id, seq desc`,
      [tx.studioId, from, until],
    );
    return rows.map((row) => ({ day: row.day, ruleId: row.rule_id, done: row.done, who: row.who }));
  }

  async moves(tx: Tx, from: Day, until: Day): Promise<Move[]> {
    const rows = await tx.many(
      moveRow,
      `select day, rule_id, to_day from preparation_move where studio_id = $1 and day between $2 and $3
       order by day, rule_id`,
      [tx.studioId, from, until],
    );
    return rows.map((row) => ({ day: row.day, ruleId: row.rule_id, toDay: row.to_day }));
  }

  async days(tx: Tx, from: Day, until: Day): Promise<StudioDay[]> {
    const sql = 'select * from studio_day where studio_id = $1 and day between $2 and $3 order by day';
    return (await tx.many(studioDayRow, sql, [tx.studioId, from, until])).map(toStudioDay);
  }

  /** Days from one on that have set aside what they take besides their places, or had it typed in. */
  async provided(tx: Tx, from: Day): Promise<Day[]> {
    const rows = await tx.many(
      studioDayRow.pick({ day: true }),
      `select day from studio_day d where studio_id = $1 and day >= $2 and (tests_typed or exists (
         select from reservation r where r.studio_id = d.studio_id and r.held_for = d.day_id))`,
      [tx.studioId, from],
    );
    return rows.map(({ day }) => day);
  }

  /** Makes the day's row if there is none. */
  async makeDay(tx: Tx, day: Day, id: string): Promise<void> {
    await tx.run(
      'insert into studio_day (studio_id, day, day_id) values ($1, $2, $3) on conflict (studio_id, day) do nothing',
      [tx.studioId, day, id],
    );
  }

  /** The day's row, locked until the transaction ends. */
  async lockDay(tx: Tx, day: Day): Promise<StudioDay> {
    const sql = 'select * from studio_day where studio_id = $1 and day = $2 for no key update';
    return toStudioDay(await tx.one(studioDayRow, sql, [tx.studioId, day]));
  }

  async takes(tx: Tx): Promise<DayTakes> {
    const tests = await this.tests(tx);
    const materials = await this.materials(tx);
    return { testPlates: tests?.plates ?? 0, testSizeId: tests?.plate_size_id ?? null, materials };
  }

  async tests(tx: Tx): Promise<z.output<typeof dayTestsRow> | null> {
    return tx.maybe(dayTestsRow, 'select * from day_tests where studio_id = $1', [tx.studioId]);
  }

  async materials(tx: Tx): Promise<DayTakes['materials']> {
    const rows = await tx.many(
      dayMaterialRow,
      'select item_id, quantity from day_material where studio_id = $1 order by item_id',
      [tx.studioId],
    );
    return rows.map((row) => ({ itemId: row.item_id, quantity: row.quantity }));
  }

  async saveRule(tx: Tx, rule: Rule): Promise<void> {
    await tx.run(
      `insert into preparation_rule (studio_id, rule_id, position, what, for_day, days_before, minutes, minutes_each,
         darkroom, not_with, condition, amount, note, archived)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)
       on conflict (studio_id, rule_id) do update set position = $3, what = $4, for_day = $5, days_before = $6,
         minutes = $7, minutes_each = $8, darkroom = $9, not_with = $10, condition = $11, amount = $12, note = $13,
         archived = $14`,
      [
        tx.studioId,
        rule.id,
        rule.position,
        rule.what,
        rule.forDay,
        rule.daysBefore,
        rule.minutes,
        rule.minutesEach,
        rule.darkroom,
        rule.notWith,
        rule.condition,
        rule.amount,
        rule.note,
        rule.archived,
      ],
    );
  }

  async addTick(tx: Tx, id: string, tick: Tick, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into preparation_tick (studio_id, tick_id, day, rule_id, done, who, at)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, id, tick.day, tick.ruleId, tick.done, tick.who, at],
    );
  }

  async saveMove(tx: Tx, move: Move, who: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into preparation_move (studio_id, day, rule_id, to_day, who, at) values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, day, rule_id) do update set to_day = $4, who = $5, at = $6`,
      [tx.studioId, move.day, move.ruleId, move.toDay, who, at],
    );
  }

  /** Lets the rule find the day again. */
  async dropMove(tx: Tx, day: Day, ruleId: string): Promise<void> {
    const sql = 'delete from preparation_move where studio_id = $1 and day = $2 and rule_id = $3';
    await tx.run(sql, [tx.studioId, day, ruleId]);
  }

  async setTestsTyped(tx: Tx, day: Day, typed: boolean): Promise<void> {
    const sql = 'update studio_day set tests_typed = $3 where studio_id = $1 and day = $2';
    await tx.run(sql, [tx.studioId, day, typed]);
  }

  async noteDay(
    tx: Tx,
    { day, roomTemperature, humidity, note }: Omit<StudioDay, 'id' | 'testsTyped'>,
  ): Promise<void> {
    await tx.run(
      `update studio_day set room_temperature = $3, humidity = $4, note = $5 where studio_id = $1 and day = $2`,
      [tx.studioId, day, roomTemperature, humidity, note],
    );
  }

  async saveTakes(tx: Tx, takes: DayTakes): Promise<void> {
    await tx.run(
      `insert into day_tests (studio_id, plates, plate_size_id) values ($1, $2, $3)
       on conflict (studio_id) do update set plates = $2, plate_size_id = $3`,
      [tx.studioId, takes.testPlates, takes.testSizeId],
    );
    await tx.run('delete from day_material where studio_id = $1', [tx.studioId]);
    await tx.run(
      `insert into day_material (studio_id, item_id, quantity)
       select $1, item, quantity from unnest($2::uuid[], $3::bigint[]) as m (item, quantity)`,
      [
        tx.studioId,
        takes.materials.map((one) => one.itemId),
        takes.materials.map((one) => one.quantity.toString()),
      ],
    );
  }
}
