// Who is asked next for a place that came free: the first on the list whom it suits and who can still come.
// Everybody before them is told apart by the reason why they are not asked.
import type { Expiry } from './expiry.calc.js';

/** What one on the list has to do with the place. */
export interface Candidate {
  id: string;
  /** The day is among those they asked for. */
  suits: boolean;
  /** As many plates and people, of that kind, could be given the place now. */
  fits: boolean;
  /** They said no to this very place, or let it pass. */
  hadIt: boolean;
  expiry: Expiry;
}

export type NotAsked =
  | 'said no to it'
  | 'day does not suit'
  | 'does not fit'
  | 'notice too long'
  | 'no time to answer';

export interface PassOn {
  /** Those who could be asked, the next first. */
  order: string[];
  notAsked: { id: string; why: NotAsked }[];
}

/** `ranked` in the order of the list. */
export function passOn(ranked: readonly Candidate[]): PassOn {
  const order: string[] = [];
  const notAsked: PassOn['notAsked'] = [];
  for (const one of ranked) {
    const why = whyNot(one);
    if (why === null) order.push(one.id);
    else notAsked.push({ id: one.id, why });
  }
  return { order, notAsked };
}

function whyNot({ suits, fits, hadIt, expiry }: Candidate): NotAsked | null {
  if (hadIt) return 'said no to it';
  if (!suits) return 'day does not suit';
  if (!expiry.ok) return expiry.reason;
  return fits ? null : 'does not fit';
}
