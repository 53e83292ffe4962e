// The life of a teaching day and of a sign-up, each as one table: state x event -> state. What is not in the table
// cannot happen. They know no clock.

export const SESSION_STATES = ['draft', 'open', 'full', 'run', 'called_off'] as const;
export type SessionState = (typeof SESSION_STATES)[number];
export type SessionEvent =
  /** The owner's: people may sign up; nobody may yet, again; the day was held; it is not held. */
  | 'open'
  | 'close'
  | 'end'
  | 'call_off'
  /** That it was held was a slip. */
  | 'undo_end'
  /** The last place was taken; one came free. */
  | 'fill'
  | 'free';

const SESSIONS: Record<SessionState, Partial<Record<SessionEvent, SessionState>>> = {
  draft: { open: 'open', call_off: 'called_off' },
  open: { close: 'draft', fill: 'full', end: 'run', call_off: 'called_off' },
  full: { free: 'open', end: 'run', call_off: 'called_off' },
  run: { undo_end: 'open' },
  called_off: {},
};

export const SIGN_UP_STATES = [
  /** One-to-one teaching is asked for; the studio has not answered. */
  'requested',
  /** The day is full: on its waiting list. */
  'waiting',
  /** Places are held until the offer runs out. */
  'offered',
  'signed',
  'attended',
  'did_not_come',
  'declined',
  'withdrawn',
  /** Too many offers ran out without an answer. */
  'lapsed',
  /** Places given back by who had them. */
  'released',
  /** The day is not held. */
  'called_off',
] as const;
export type SignUpState = (typeof SIGN_UP_STATES)[number];
export type SignUpEvent =
  /** The studio's. */
  | 'approve'
  | 'decline'
  | 'offer'
  | 'call_off'
  | 'end_attended'
  | 'end_missed'
  /** What was said of who came is taken back. */
  | 'undo_end'
  /** Theirs. */
  | 'accept'
  | 'refuse'
  | 'withdraw'
  | 'release'
  /** The clock's: an offer ran out; so many did that no more are made. */
  | 'lapse'
  | 'run_out';

const SIGN_UPS: Record<SignUpState, Partial<Record<SignUpEvent, SignUpState>>> = {
  requested: { approve: 'signed', decline: 'declined', withdraw: 'withdrawn' },
  waiting: { offer: 'offered', decline: 'declined', withdraw: 'withdrawn', call_off: 'called_off' },
  offered: {
    accept: 'signed',
    refuse: 'waiting',
    lapse: 'waiting',
    run_out: 'lapsed',
    withdraw: 'withdrawn',
    call_off: 'called_off',
  },
  signed: {
    release: 'released',
    call_off: 'called_off',
    end_attended: 'attended',
    end_missed: 'did_not_come',
  },
  attended: { end_missed: 'did_not_come', undo_end: 'signed' },
  did_not_come: { end_attended: 'attended', undo_end: 'signed' },
  declined: {},
  withdrawn: {},
  lapsed: {},
  released: {},
  called_off: {},
};

/** The state of a teaching day after an event, or null when that event cannot happen in that state. */
export const nextOfSession = (state: SessionState, event: SessionEvent): SessionState | null =>
  SESSIONS[state][event] ?? null;

/** The state of a sign-up after an event, or null when that event cannot happen in that state. */
export const nextOfSignUp = (state: SignUpState, event: SignUpEvent): SignUpState | null =>
  SIGN_UPS[state][event] ?? null;

/** Whether a sign-up in this state has places, and stock set aside. */
export const hasPlaces = (state: SignUpState): boolean => state === 'offered' || state === 'signed';

/** Whether a sign-up in this state counts for its day: it has places, or was there when the day was held. */
export const isAmong = (state: SignUpState): boolean => hasPlaces(state) || state === 'attended';

/** Whether somebody has a firm place, or had one when the day came: only then a deposit can be due. */
export const mayOweDeposit = (state: SignUpState): boolean =>
  state === 'signed' || state === 'attended' || state === 'did_not_come';

/** The event by which somebody leaves in a state, or null when there is nothing to leave. */
export function leaving(state: SignUpState): 'withdraw' | 'release' | null {
  if (nextOfSignUp(state, 'withdraw')) return 'withdraw';
  return nextOfSignUp(state, 'release') ? 'release' : null;
}

/** Whether a day is held, or may be yet. */
export const stands = (state: SessionState): boolean => state !== 'called_off' && state !== 'run';
