// SQL of templates, teaching days and the wording of safety.
import { z } from 'zod';
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import type { SafetyWording } from './safety.calc.js';
import type { SessionState } from './states.calc.js';
import {
  type Session,
  sessionRow,
  type Template,
  templateRow,
  toSession,
  toTemplate,
} from './teaching.schemas.js';

export class SessionsStore {
  async saveTemplate(tx: Tx, one: Template, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into teaching_template (studio_id, template_id, course, archived, made_at) values ($1, $2, $3, $4, $5)
       on conflict (studio_id, template_id) do update set course = excluded.course, archived = excluded.archived`,
      [tx.studioId, one.id, JSON.stringify(one.course), one.archived, at],
    );
  }

  /** @param lock whoever changes one at the same moment waits */
  async templates(tx: Tx, lock = false): Promise<Template[]> {
    const rows = await tx.many(
      templateRow,
      `select * from teaching_template where studio_id = $1 order by made_at, template_id ${lock ? 'for update' : ''}`,
      [tx.studioId],
    );
    return rows.map(toTemplate);
  }

  async insert(tx: Tx, one: Session, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into teaching_session (studio_id, session_id, template_id, course, state, occupancy_id, places, taken,
         least, decide_on, private, second_adult, made_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
      [
        tx.studioId,
        one.id,
        one.templateId,
        JSON.stringify(one.course),
        one.state,
        one.occupancyId,
        one.places,
        one.taken,
        one.least,
        one.decideOn,
        one.private,
        one.secondAdult,
        at,
      ],
    );
  }

  /** What the owner may change of a day; not its state, and not what is taken. */
  async save(tx: Tx, one: Session): Promise<void> {
    await tx.run(
      `update teaching_session set course = $3, places = $4, least = $5, decide_on = $6, second_adult = $7
       where studio_id = $1 and session_id = $2`,
      [tx.studioId, one.id, JSON.stringify(one.course), one.places, one.least, one.decideOn, one.secondAdult],
    );
  }

  /** The day, or null; with `lock` nobody else signs up, leaves or changes it until the transaction ends. */
  async byId(tx: Tx, id: string, lock: boolean): Promise<Session | null> {
    const sql = `select * from teaching_session where studio_id = $1 and session_id = $2 ${lock ? 'for no key update' : ''}`;
    const row = await tx.maybe(sessionRow, sql, [tx.studioId, id]);
    return row && toSession(row);
  }

  /** Locks some days in the order of their ids. */
  async lockAll(tx: Tx, ids: string[]): Promise<void> {
    await tx.run(
      `select from teaching_session where studio_id = $1 and session_id = any($2::uuid[])
       order by session_id for no key update`,
      [tx.studioId, ids],
    );
  }

  /** The days in some states, those of long ago left out; in the order of time. */
  async inStates(tx: Tx, states: SessionState[], endsAfter: Temporal.Instant): Promise<Session[]> {
    const rows = await tx.many(
      sessionRow,
      `select s.* from teaching_session s join occupancy o on o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id
       where s.studio_id = $1 and s.state = any($2::text[]) and o.ends_at > $3 order by o.starts_at, s.session_id`,
      [tx.studioId, states, endsAfter],
    );
    return rows.map(toSession);
  }

  /** Days that begin after an instant, that are to be decided by a day, and are not; the first to decide first. */
  async undecided(tx: Tx, by: Temporal.PlainDate, after: Temporal.Instant): Promise<Session[]> {
    const rows = await tx.many(
      sessionRow,
      `select s.* from teaching_session s join occupancy o on o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id
       where s.studio_id = $1 and s.state in ('open', 'full') and not s.private and s.goes_ahead_at is null
         and s.decide_on <= $2 and o.starts_at > $3 order by s.decide_on, s.session_id`,
      [tx.studioId, by, after],
    );
    return rows.map(toSession);
  }

  /** Some days by their ids. */
  async byIds(tx: Tx, ids: string[]): Promise<Session[]> {
    const sql = 'select * from teaching_session where studio_id = $1 and session_id = any($2::uuid[])';
    return (await tx.many(sessionRow, sql, [tx.studioId, ids])).map(toSession);
  }

  /** The days that anybody may know, or knew before they were called off no earlier than an instant. */
  async published(
    tx: Tx,
    from: Temporal.Instant,
    until: Temporal.Instant,
    cancelledSince: Temporal.Instant,
  ): Promise<Session[]> {
    const rows = await tx.many(
      sessionRow,
      `select s.* from teaching_session s
         join occupancy o on o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id
       where s.studio_id = $1 and not s.private and s.opened_at is not null and o.ends_at > $2 and o.starts_at < $3
         and (s.state in ('open', 'full', 'run') or s.revised_at >= $4)
       order by o.starts_at, s.session_id`,
      [tx.studioId, from, until, cancelledSince],
    );
    return rows.map(toSession);
  }

  async setGoesAhead(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    const sql = 'update teaching_session set goes_ahead_at = $3 where studio_id = $1 and session_id = $2';
    await tx.run(sql, [tx.studioId, id, at]);
  }

  async setCourse(
    tx: Tx,
    id: string,
    { course, secondAdult }: Pick<Session, 'course' | 'secondAdult'>,
  ): Promise<void> {
    await tx.run(
      'update teaching_session set course = $3, second_adult = $4 where studio_id = $1 and session_id = $2',
      [tx.studioId, id, JSON.stringify(course), secondAdult],
    );
  }

  /** Something that calendars show of a day has changed. */
  async revise(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update teaching_session set sequence = sequence + 1, revised_at = $3
       where studio_id = $1 and session_id = $2`,
      [tx.studioId, id, at],
    );
  }

  /** It is open at an instant; of several the first stays. */
  async setOpened(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      'update teaching_session set opened_at = coalesce(opened_at, $3) where studio_id = $1 and session_id = $2',
      [tx.studioId, id, at],
    );
  }

  async setFreed(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    await tx.run('update teaching_session set freed_at = $3 where studio_id = $1 and session_id = $2', [
      tx.studioId,
      id,
      at,
    ]);
  }

  async setState(tx: Tx, id: string, state: SessionState): Promise<void> {
    await tx.run('update teaching_session set state = $3 where studio_id = $1 and session_id = $2', [
      tx.studioId,
      id,
      state,
    ]);
  }

  /** Takes so many places, or gives them back (below 0); false where there are not so many. */
  async seat(tx: Tx, id: string, students: number): Promise<boolean> {
    const seated = await tx.run(
      `update teaching_session set taken = taken + $3
       where studio_id = $1 and session_id = $2 and taken + $3 between 0 and places`,
      [tx.studioId, id, students],
    );
    return seated === 1;
  }

  async wordings(tx: Tx): Promise<SafetyWording[]> {
    return tx.many(
      z.object({ version: z.number(), wording: z.string() }),
      'select version, wording from safety_wording where studio_id = $1 order by version',
      [tx.studioId],
    );
  }

  async insertWording(tx: Tx, one: SafetyWording, who: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      'insert into safety_wording (studio_id, version, wording, made_at, who) values ($1, $2, $3, $4, $5)',
      [tx.studioId, one.version, one.wording, at, who],
    );
  }
}
