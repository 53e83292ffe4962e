// Teaching days and sign-ups as they are told: with the place in the room, and with who comes.
import type { Contact } from '../people/people.schemas.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { TouchedReason } from '../room/preview.calc.js';
import type { Offer } from '../waiting/offers.schemas.js';
import type { Mode } from '../waiting/rules.schemas.js';
import type { Course } from './course.schemas.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

export interface DayView {
  session: Session;
  place: Occupancy;
}

export interface SignUpView {
  signUp: SignUp;
  contact: Contact;
  students: Student[];
}

/** A teaching day with those who come, or may yet. */
export interface DayWithPeople {
  session: Session;
  signUps: SignUpView[];
}

/** One day of somebody who has, or had, a place. */
export interface OwnDay extends DayView {
  signUp: SignUp;
  students: Student[];
}

/** A sign-up with the day it is for. */
export interface OwnView extends SignUpView {
  course: Course;
  day: DayView | null;
  /** The offer that can be answered now. */
  offer: Offer | null;
}

/** Somebody who waits and for whom there are places now. */
export interface ToOffer extends OwnView {
  mode: Mode;
  /** The rule offers them by itself, and may not have come to it yet. */
  byRule: boolean;
}

export interface TeachingToDecide {
  /** One-to-one teaching asked for, the oldest first. */
  asked: OwnView[];
  /** The first on the list of a day, for whom there are places. */
  toOffer: ToOffer[];
  /** Days that lie under a closure, without the owner, or lost the room; the next first. */
  toMove: { day: DayView; reason: TouchedReason | 'clash' }[];
  /** Days of which it is soon to be said whether they are held; the first to decide first. */
  due: DecisionDue[];
}

/** A day that is to be decided, and whether its least number has been reached. */
export interface DecisionDue extends DayView {
  enough: boolean;
}
