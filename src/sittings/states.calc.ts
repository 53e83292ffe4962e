// The life of a sitting as one table: state x event -> state. What is not in the table cannot happen.

export const STATES = ['requested', 'confirmed', 'declined', 'withdrawn', 'released', 'called_off'] as const;
export type SittingState = (typeof STATES)[number];

/** approve, decline and call_off are the studio's; withdraw (before a place is given) and release (after) the contact's. */
export const EVENTS = ['approve', 'decline', 'withdraw', 'release', 'call_off'] as const;
export type SittingEvent = (typeof EVENTS)[number];

const TABLE: Record<SittingState, Partial<Record<SittingEvent, SittingState>>> = {
  requested: { approve: 'confirmed', decline: 'declined', withdraw: 'withdrawn' },
  confirmed: { release: 'released', call_off: 'called_off' },
  declined: {},
  withdrawn: {},
  released: {},
  called_off: {},
};

/** The state after an event, or null when that event cannot happen in that state. */
export function next(state: SittingState, event: SittingEvent): SittingState | null {
  return TABLE[state][event] ?? null;
}

/** The event by which a contact gives a sitting up in a state, or null when there is nothing to give up. */
export function givingUp(state: SittingState): 'withdraw' | 'release' | null {
  if (next(state, 'withdraw')) return 'withdraw';
  if (next(state, 'release')) return 'release';
  return null;
}
