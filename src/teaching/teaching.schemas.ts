// Templates, teaching days, sign-ups and students as they are kept.
import { z } from 'zod';
import { longText } from '../people/ways.schemas.js';
import { instant, plainDate } from '../platform/db/row.js';
import { type Course, course } from './course.schemas.js';
import { EXPERIENCES } from './estimate.calc.js';
import { SESSION_STATES, SIGN_UP_STATES } from './states.calc.js';

export const templateRow = z.object({ template_id: z.uuid(), course, archived: z.boolean() });
export interface Template {
  id: string;
  course: Course;
  archived: boolean;
}
export const toTemplate = (row: z.output<typeof templateRow>): Template => ({
  id: row.template_id,
  course: row.course,
  archived: row.archived,
});

export const sessionRow = z.object({
  session_id: z.uuid(),
  template_id: z.uuid(),
  course,
  state: z.enum(SESSION_STATES),
  occupancy_id: z.uuid(),
  places: z.number(),
  taken: z.number(),
  least: z.number(),
  decide_on: plainDate,
  private: z.boolean(),
  second_adult: z.string(),
  goes_ahead_at: instant.nullable(),
  made_at: instant,
  sequence: z.number(),
  revised_at: instant.nullable(),
  opened_at: instant.nullable(),
  freed_at: instant.nullable(),
});
type SessionRow = z.output<typeof sessionRow>;

/** A day of teaching. */
export interface Session {
  id: string;
  templateId: string;
  course: Course;
  state: SessionRow['state'];
  occupancyId: string;
  places: number;
  /** Students who have a place, or have one offered. */
  taken: number;
  least: number;
  decideOn: SessionRow['decide_on'];
  /** One-to-one teaching: on no public page. */
  private: boolean;
  secondAdult: string;
  /** When the owner decided that it is held, whoever comes; null where nobody did. */
  goesAheadAt: SessionRow['goes_ahead_at'];
  madeAt: SessionRow['made_at'];
  /** Of what calendars show of it and of who comes; the room's own counts besides. */
  sequence: number;
  revisedAt: SessionRow['made_at'];
  /** When it was open for the first time; null while only the owner has known it. */
  openedAt: SessionRow['opened_at'];
  /** When a place last came free otherwise than by an offer that was not taken. */
  freedAt: SessionRow['freed_at'];
}
export const toSession = (row: SessionRow): Session => ({
  id: row.session_id,
  templateId: row.template_id,
  course: row.course,
  state: row.state,
  occupancyId: row.occupancy_id,
  places: row.places,
  taken: row.taken,
  least: row.least,
  decideOn: row.decide_on,
  private: row.private,
  secondAdult: row.second_adult,
  goesAheadAt: row.goes_ahead_at,
  madeAt: row.made_at,
  sequence: row.sequence,
  revisedAt: row.revised_at ?? row.made_at,
  openedAt: row.opened_at,
  freedAt: row.freed_at,
});

/** Where undoing an act of the desk may lead. */
export const UNDO_STATES = ['requested', 'waiting', 'signed', 'withdrawn'] as const;
export const DEPOSITS = ['none', 'due', 'received'] as const;
export const signUpRow = z.object({
  sign_up_id: z.uuid(),
  template_id: z.uuid(),
  session_id: z.uuid().nullable(),
  contact_id: z.uuid(),
  state: z.enum(SIGN_UP_STATES),
  asked_at: instant,
  wanted_on: plainDate.nullable(),
  follows: z.uuid().nullable(),
  anything: z.string(),
  message: z.string(),
  deposit: z.enum(DEPOSITS),
  deposit_at: instant.nullable(),
  offers_unanswered: z.number(),
  turns: z.number(),
  revised_at: instant.nullable(),
  firm_at: instant.nullable(),
  undo_to: z.enum(UNDO_STATES).nullable(),
  undo_turn: z.number().nullable(),
  undone: z.array(z.number()),
});
type SignUpRow = z.output<typeof signUpRow>;

/** One or several students who come together, and how far it has come. */
export interface SignUp {
  id: string;
  templateId: string;
  /** Null while one-to-one teaching is only asked for. */
  sessionId: string | null;
  contactId: string;
  state: SignUpRow['state'];
  askedAt: SignUpRow['asked_at'];
  wantedOn: SignUpRow['wanted_on'];
  follows: string | null;
  anything: string;
  message: string;
  deposit: SignUpRow['deposit'];
  depositAt: SignUpRow['deposit_at'];
  offersUnanswered: number;
  turns: number;
  /** When it last took a turn. */
  revisedAt: SignUpRow['asked_at'];
  /** When it had a place for the first time; null while calendars have not known it. */
  firmAt: SignUpRow['firm_at'];
  /** Where undoing leads, while nothing happened since the desk's act; null where there is nothing to undo. */
  undoTo: SignUpRow['undo_to'];
  /** Turns that were undone: nobody is told of them. */
  undone: number[];
}
export const toSignUp = (row: SignUpRow): SignUp => ({
  id: row.sign_up_id,
  templateId: row.template_id,
  sessionId: row.session_id,
  contactId: row.contact_id,
  state: row.state,
  askedAt: row.asked_at,
  wantedOn: row.wanted_on,
  follows: row.follows,
  anything: row.anything,
  message: row.message,
  deposit: row.deposit,
  depositAt: row.deposit_at,
  offersUnanswered: row.offers_unanswered,
  turns: row.turns,
  revisedAt: row.revised_at ?? row.asked_at,
  firmAt: row.firm_at,
  undoTo: row.undo_turn === row.turns ? row.undo_to : null,
  undone: row.undone,
});

export const studentRow = z.object({
  student_id: z.uuid(),
  sign_up_id: z.uuid(),
  name: z.string(),
  experience: z.enum(EXPERIENCES),
  plate_size_id: z.uuid().nullable(),
  brings: z.string(),
  gear: z.record(z.string(), z.string()),
  access: z.string(),
  emergency_name: z.string(),
  emergency_telephone: z.string(),
  safety_version: z.number().nullable(),
  safety_at: instant.nullable(),
});
type StudentRow = z.output<typeof studentRow>;

export interface Student {
  id: string;
  signUpId: string;
  name: string;
  experience: StudentRow['experience'];
  /** Another size than the day's plates. */
  plateSizeId: string | null;
  /** A camera of their own, say. */
  brings: string;
  /** Sizes by the name of the thing. */
  gear: Record<string, string>;
  access: string;
  emergency: { name: string; telephone: string };
  safetyVersion: number | null;
  safetyAt: StudentRow['safety_at'];
}
export const toStudent = (row: StudentRow): Student => ({
  id: row.student_id,
  signUpId: row.sign_up_id,
  name: row.name,
  experience: row.experience,
  plateSizeId: row.plate_size_id,
  brings: row.brings,
  gear: row.gear,
  access: row.access,
  emergency: { name: row.emergency_name, telephone: row.emergency_telephone },
  safetyVersion: row.safety_version,
  safetyAt: row.safety_at,
});

/** A word to who asked, and to everybody of a day that is called off. */
export const declineForm = z.object({
  message: longText(2000).pipe(z.string().min(1, 'Please say a word to them.')),
});
export const callOffForm = z.object({ message: longText(2000) });
export const safetyForm = z.object({
  wording: longText(6000).pipe(z.string().min(1, 'Please write the wording.')),
});
