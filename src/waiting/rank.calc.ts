// The order of the waiting list, with the reason for each position as data. Whoever is owed a return place comes
// first; then points by the studio's rule; equal points go by the date of asking, and then by number.
import { Temporal } from 'temporal-polyfill';
import type { Points } from './rules.schemas.js';

export interface Waiter {
  id: string;
  /** The date of asking counts from here, through every offer and every day called off. */
  askedAt: Temporal.Instant;
  returnOwed: boolean;
  /** Of the studio's days ahead, the part that suits them, 0 to 1. */
  daysThatSuit: number;
  /** Days of notice they need, and the longest that anybody needs by the studio's rule. */
  noticeDays: number;
  longestNoticeDays: number;
  series: boolean;
  /** The owner's reasons; '' for none. */
  priority: string;
  hardship: string;
}

export type Reason =
  | { what: 'return owed' }
  | { what: 'asked'; days: number; points: number }
  | { what: 'flexible'; share: number; points: number }
  | { what: 'far'; noticeDays: number; points: number }
  | { what: 'series'; points: number }
  | { what: 'priority'; because: string; points: number }
  | { what: 'hardship'; because: string; points: number };

export interface Ranked {
  id: string;
  /** From 1. */
  position: number;
  /** With two decimals at most; what is shown is what is compared. */
  points: number;
  reasons: Reason[];
  /** What puts it before the one that follows; null for the last. */
  before: 'return owed' | 'points' | 'asked first' | 'number' | null;
}

const DAY_MS = 86_400_000;
const DAYS_A_YEAR = 365;

/** The waiters in order at an instant. Whoever asked later than that has waited no day. */
export function rank(waiters: readonly Waiter[], points: Points, at: Temporal.Instant): Ranked[] {
  const scored = waiters.map((one) => {
    const reasons = reasonsOf(one, points, at);
    const sum = reasons.reduce((all, reason) => all + ('points' in reason ? reason.points : 0), 0);
    return { one, reasons, points: hundredths(sum) };
  });
  scored.sort((a, b) => signOf(whyBefore(a, b)));
  return scored.map(({ one, reasons, points: sum }, place) => {
    const following = scored[place + 1];
    return {
      id: one.id,
      position: place + 1,
      points: sum,
      reasons,
      before: following ? whyBefore({ one, points: sum }, following).why : null,
    };
  });
}

type Scored = { one: Waiter; points: number };

/** What decides between two, and for whom: below 0 for the first. */
function whyBefore(a: Scored, b: Scored): { why: NonNullable<Ranked['before']>; sign: number } {
  if (a.one.returnOwed !== b.one.returnOwed) return { why: 'return owed', sign: a.one.returnOwed ? -1 : 1 };
  if (a.points !== b.points) return { why: 'points', sign: b.points - a.points };
  const asked = Temporal.Instant.compare(a.one.askedAt, b.one.askedAt);
  if (asked !== 0) return { why: 'asked first', sign: asked };
  return { why: 'number', sign: a.one.id < b.one.id ? -1 : a.one.id > b.one.id ? 1 : 0 };
}
const signOf = ({ sign }: { sign: number }) => sign;

function reasonsOf(one: Waiter, points: Points, at: Temporal.Instant): Reason[] {
  const waited = at.epochMilliseconds - one.askedAt.epochMilliseconds;
  const days = Math.max(0, Math.floor(waited / DAY_MS));
  const far = one.longestNoticeDays > 0 ? within(one.noticeDays / one.longestNoticeDays) : 0;
  const share = within(one.daysThatSuit);
  const all: Reason[] = [
    { what: 'asked', days, points: hundredths((points.asked * days) / DAYS_A_YEAR) },
    { what: 'flexible', share, points: hundredths(points.flexible * share) },
    { what: 'far', noticeDays: one.noticeDays, points: hundredths(points.far * far) },
    { what: 'series', points: one.series ? points.series : 0 },
    { what: 'priority', because: one.priority, points: one.priority === '' ? 0 : points.priority },
    { what: 'hardship', because: one.hardship, points: one.hardship === '' ? 0 : points.hardship },
  ];
  const counting = all.filter(
    (reason) => reason.what === 'asked' || ('points' in reason && reason.points > 0),
  );
  return one.returnOwed ? [{ what: 'return owed' }, ...counting] : counting;
}

const within = (share: number) => Math.min(1, Math.max(0, share));
const hundredths = (value: number) => Math.round(value * 100) / 100;
