// SQL of sign-ups and students.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { SignUpState } from './states.calc.js';
import { type SignUp, signUpRow, type Student, studentRow, toSignUp, toStudent } from './teaching.schemas.js';

/** What changes with the state of a sign-up. */
export interface SignUpChange {
  at: Temporal.Instant;
  sessionId?: string;
  message?: string;
  offersUnanswered?: number;
}

export class SignUpsStore {
  async insert(tx: Tx, one: SignUp, students: Student[]): Promise<void> {
    await tx.run(
      `insert into sign_up (studio_id, sign_up_id, template_id, session_id, contact_id, state, asked_at, wanted_on,
         follows, anything)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [
        tx.studioId,
        one.id,
        one.templateId,
        one.sessionId,
        one.contactId,
        one.state,
        one.askedAt,
        one.wantedOn,
        one.follows,
        one.anything,
      ],
    );
    for (const [position, student] of students.entries())
      await tx.run(
        `insert into student (studio_id, student_id, sign_up_id, position, name, experience, plate_size_id, brings)
         values ($1, $2, $3, $4, $5, $6, $7, $8)`,
        [
          tx.studioId,
          student.id,
          one.id,
          position,
          student.name,
          student.experience,
          student.plateSizeId,
          student.brings,
        ],
      );
  }

  async byId(tx: Tx, id: string): Promise<SignUp | null> {
    const sql = 'select * from sign_up where studio_id = $1 and sign_up_id = $2';
    const row = await tx.maybe(signUpRow, sql, [tx.studioId, id]);
    return row && toSignUp(row);
  }

  async byIds(tx: Tx, ids: string[]): Promise<SignUp[]> {
    const sql = 'select * from sign_up where studio_id = $1 and sign_up_id = any($2::uuid[])';
    return (await tx.many(signUpRow, sql, [tx.studioId, ids])).map(toSignUp);
  }

  /** All of some days, those who asked first first. */
  async ofSessions(tx: Tx, sessionIds: string[]): Promise<SignUp[]> {
    const rows = await tx.many(
      signUpRow,
      `select * from sign_up where studio_id = $1 and session_id = any($2::uuid[]) order by asked_at, sign_up_id`,
      [tx.studioId, sessionIds],
    );
    return rows.map(toSignUp);
  }

  /** Those of one contact that have, or had, a place. */
  async firmOf(tx: Tx, contactId: string): Promise<SignUp[]> {
    const rows = await tx.many(
      signUpRow,
      `select * from sign_up where studio_id = $1 and contact_id = $2 and firm_at is not null
       order by asked_at, sign_up_id`,
      [tx.studioId, contactId],
    );
    return rows.map(toSignUp);
  }

  /** One-to-one teaching that is asked for and not answered. */
  async requested(tx: Tx): Promise<SignUp[]> {
    const rows = await tx.many(
      signUpRow,
      `select * from sign_up where studio_id = $1 and state = 'requested' order by asked_at, sign_up_id`,
      [tx.studioId],
    );
    return rows.map(toSignUp);
  }

  /** The students of some sign-ups, in the order they were named. */
  async students(tx: Tx, signUpIds: string[]): Promise<Student[]> {
    const rows = await tx.many(
      studentRow,
      `select * from student where studio_id = $1 and sign_up_id = any($2::uuid[]) order by sign_up_id, position`,
      [tx.studioId, signUpIds],
    );
    return rows.map(toStudent);
  }

  /**
   * Moves a sign-up from one state to the next and counts the turn; null when it was no longer in the first.
   * @returns the turns it has taken with this one
   */
  async setState(
    tx: Tx,
    id: string,
    from: SignUpState,
    to: SignUpState,
    change: SignUpChange,
  ): Promise<number | null> {
    const row = await tx.maybe(
      z.object({ turns: z.number() }),
      `update sign_up set state = $4, decided_at = $5, message = coalesce($6, message), turns = turns + 1, revised_at = $5,
         session_id = coalesce($7, session_id), offers_unanswered = coalesce($8, offers_unanswered)
       where studio_id = $1 and sign_up_id = $2 and state = $3 returning turns`,
      [
        tx.studioId,
        id,
        from,
        to,
        change.at,
        change.message ?? null,
        change.sessionId ?? null,
        change.offersUnanswered ?? null,
      ],
    );
    return row?.turns ?? null;
  }

  /** Counts a turn that changes no state: something about the day was changed. @returns the turns with this one */
  async countTurn(tx: Tx, id: string, at: Temporal.Instant): Promise<number> {
    const row = await tx.one(
      z.object({ turns: z.number() }),
      `update sign_up set turns = turns + 1, revised_at = $3 where studio_id = $1 and sign_up_id = $2
       returning turns`,
      [tx.studioId, id, at],
    );
    return row.turns;
  }

  /** A sign-up has a place from an instant on; of several the first stays. */
  async setFirm(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      'update sign_up set firm_at = coalesce(firm_at, $3) where studio_id = $1 and sign_up_id = $2',
      [tx.studioId, id, at],
    );
  }

  /** The turn that a sign-up has just taken can be undone, back to a state. */
  async setUndo(tx: Tx, id: string, to: NonNullable<SignUp['undoTo']>): Promise<void> {
    await tx.run(
      'update sign_up set undo_to = $3, undo_turn = turns where studio_id = $1 and sign_up_id = $2',
      [tx.studioId, id, to],
    );
  }

  /** Undoes the last turn, if it is that of an act of the desk; a place that was never theirs is in no calendar. */
  async undo(tx: Tx, id: string, at: Temporal.Instant, neverFirm: boolean): Promise<boolean> {
    const undone = await tx.run(
      `update sign_up set state = undo_to, undone = undone || turns, turns = turns + 1, revised_at = $3,
         decided_at = $3, message = '', undo_to = null, undo_turn = null,
         firm_at = case when $4 then null else firm_at end
       where studio_id = $1 and sign_up_id = $2 and undo_turn = turns`,
      [tx.studioId, id, at, neverFirm],
    );
    return undone === 1;
  }

  /** Whether a turn was undone; it cannot be undone meanwhile. */
  async isUndone(tx: Tx, id: string, turn: number): Promise<boolean> {
    const row = await tx.maybe(
      z.object({ is_undone: z.boolean() }),
      `select $3 = any(undone) as is_undone from sign_up where studio_id = $1 and sign_up_id = $2
       for no key update`,
      [tx.studioId, id, turn],
    );
    return row?.is_undone === true;
  }

  /** Of no day, and the desk can undo what it did last. */
  async undoableWithoutDay(tx: Tx, since: Temporal.Instant): Promise<SignUp[]> {
    const rows = await tx.many(
      signUpRow,
      `select * from sign_up where studio_id = $1 and session_id is null and undo_turn = turns and revised_at >= $2
       order by revised_at desc, sign_up_id`,
      [tx.studioId, since],
    );
    return rows.map(toSignUp);
  }

  async setDeposit(tx: Tx, id: string, deposit: SignUp['deposit'], at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update sign_up set deposit = $3, deposit_at = $4 where studio_id = $1 and sign_up_id = $2`,
      [tx.studioId, id, deposit, deposit === 'none' ? null : at],
    );
  }

  async saveDetails(tx: Tx, one: Student): Promise<void> {
    await tx.run(
      `update student set gear = $3, access = $4, emergency_name = $5, emergency_telephone = $6,
         safety_version = $7, safety_at = $8 where studio_id = $1 and student_id = $2`,
      [
        tx.studioId,
        one.id,
        JSON.stringify(one.gear),
        one.access,
        one.emergency.name,
        one.emergency.telephone,
        one.safetyVersion,
        one.safetyAt,
      ],
    );
  }

  /** Whom to ring in an emergency is known no longer than the day. */
  async eraseEmergency(tx: Tx, sessionId: string): Promise<void> {
    await tx.run(
      `update student s set emergency_name = '', emergency_telephone = '' from sign_up u
       where s.studio_id = $1 and u.studio_id = $1 and u.sign_up_id = s.sign_up_id and u.session_id = $2`,
      [tx.studioId, sessionId],
    );
  }
}
