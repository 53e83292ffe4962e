// The life of a sitting as one table: state x event -> state. What is not in the table cannot happen.
// It knows no clock: whether an offer has run out, or an hour has come, is for the acts to say.

export const STATES = [
  /** Asked for; the studio has not answered. */
  'requested',
  /** On the waiting list. */
  'waiting',
  /** A place is held until the offer runs out. */
  'offered',
  'confirmed',
  /** Endings of a sitting whose day has come. */
  'made',
  'came_no_plate',
  'did_not_come',
  /** Endings before a day. */
  'declined',
  'withdrawn',
  /** Too many offers ran out without an answer; reopened by the contact or the studio. */
  'lapsed',
  /** A confirmed place given back by the contact. */
  'released',
  /** A confirmed place called off by the studio; it waits again or ends here. */
  'called_off',
] as const;
export type SittingState = (typeof STATES)[number];

export const EVENTS = [
  /** The studio's: puts a request on the list, offers a place, gives one, says no. */
  'wait',
  'offer',
  'approve',
  'decline',
  /** The contact's answers to an offer; the studio may note one told by telephone. */
  'accept',
  'refuse',
  /** The clock's: an offer ran out; so many did that no more are made. */
  'lapse',
  'run_out',
  'reopen',
  /** The contact's: gives up before a place is confirmed, or after; wants another day but stays on the list. */
  'withdraw',
  'release',
  'ask_another_day',
  /** The studio's: calls a place off, gives another in its stead, or lets them come later. */
  'call_off',
  'move',
  'delay',
  /** How it ended. */
  'end_made',
  'end_no_plate',
  'end_missed',
  /** An ending that was a slip, taken back the same day. */
  'undo_ending',
] as const;
export type SittingEvent = (typeof EVENTS)[number];

const TABLE: Record<SittingState, Partial<Record<SittingEvent, SittingState>>> = {
  requested: {
    wait: 'waiting',
    offer: 'offered',
    approve: 'confirmed',
    decline: 'declined',
    withdraw: 'withdrawn',
  },
  waiting: { offer: 'offered', approve: 'confirmed', decline: 'declined', withdraw: 'withdrawn' },
  offered: {
    accept: 'confirmed',
    refuse: 'waiting',
    lapse: 'waiting',
    run_out: 'lapsed',
    ask_another_day: 'waiting',
    withdraw: 'withdrawn',
    call_off: 'waiting',
  },
  confirmed: {
    release: 'released',
    ask_another_day: 'waiting',
    call_off: 'called_off',
    move: 'confirmed',
    delay: 'confirmed',
    end_made: 'made',
    end_no_plate: 'came_no_plate',
    end_missed: 'did_not_come',
  },
  made: { undo_ending: 'confirmed' },
  came_no_plate: { undo_ending: 'confirmed' },
  did_not_come: { undo_ending: 'confirmed' },
  declined: {},
  withdrawn: {},
  lapsed: { reopen: 'waiting', withdraw: 'withdrawn' },
  released: {},
  called_off: { wait: 'waiting' },
};

/** The state after an event, or null when that event cannot happen in that state. */
export function next(state: SittingState, event: SittingEvent): SittingState | null {
  return TABLE[state][event] ?? null;
}

/** Whether a sitting in this state has the room: a live offer, or a place. */
export function hasPlace(state: SittingState): boolean {
  return state === 'offered' || state === 'confirmed';
}

/** The event by which a contact gives a sitting up in a state, or null when there is nothing to give up. */
export function givingUp(state: SittingState): 'withdraw' | 'release' | null {
  if (next(state, 'withdraw')) return 'withdraw';
  if (next(state, 'release')) return 'release';
  return null;
}
