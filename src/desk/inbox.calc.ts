// The order of the desk's front page: what is decided today, what is done this week, in one fixed order of kinds, and
// among one kind what is due first. Pure: it words nothing and decides nothing.
import { Temporal } from 'temporal-polyfill';
import type { OutsideCalendar } from '../outside/outside.schemas.js';
import type { MailRow } from '../reminders/mail.schemas.js';
import type { TeachingToTell } from '../reminders/teaching-calls.calc.js';
import type { ToTell } from '../reminders/telephone.calc.js';
import type { TouchedReason } from '../room/preview.calc.js';
import type { FreedForWho } from '../sittings/list.schemas.js';
import type { Wish } from '../sittings/corrections.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { DueTask } from '../stock/due.calc.js';
import type { Task } from '../stock/preparation.calc.js';
import type { OwnView, TeachingToDecide, ToOffer } from '../teaching/day-views.schemas.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { dueWithin, nextTasks, WEEK_DAYS } from './inbox-work.calc.js';

/** A confirmed sitting, or an open offer, that wants another day, and why. */
export interface ToMove {
  view: SittingView;
  reason: TouchedReason | 'clash';
}

/** Somebody who asks to be erased. */
export interface ToErase {
  contactId: string;
  name: string;
  askedAt: Temporal.Instant;
}

/** Everything that may want something of the desk. The assistant's are `due` and `tasks` only. */
export interface InboxFacts {
  now: Temporal.Instant;
  today: Temporal.PlainDate;
  telephone: ToTell[];
  offers: { view: SittingView; offer: Offer }[];
  /** Places that came free and that somebody who waits could be asked for. */
  freed: FreedForWho[];
  /** Those that wait for an answer. */
  requests: SittingView[];
  /** What people ask to change of the plan, the oldest first. */
  wishes: { view: SittingView; wish: Wish }[];
  /** Who asks to be erased. */
  erasures: ToErase[];
  toMove: ToMove[];
  /** Of teaching: whom to telephone, and what waits for the owner. */
  teachingCalls: TeachingToTell[];
  teaching: TeachingToDecide;
  /** Past sittings of which nobody told how they ended. */
  untold: SittingView[];
  /** On the list for a place owed to them. */
  owed: SittingView[];
  due: DueTask[];
  /** Letters that mail could not bring to the studio itself. */
  parked: MailRow[];
  /** Outside calendars in use that could not be read the last time. */
  unread: OutsideCalendar[];
  tasks: Task[];
}

export type Line =
  | { kind: 'telephone'; one: ToTell }
  | { kind: 'offer'; one: { view: SittingView; offer: Offer } }
  | { kind: 'freed'; one: FreedForWho }
  | { kind: 'request'; one: SittingView }
  | { kind: 'wish'; one: { view: SittingView; wish: Wish } }
  | { kind: 'erase'; one: ToErase }
  | { kind: 'move'; one: ToMove }
  | TeachingLine
  | { kind: 'ending'; one: SittingView }
  | { kind: 'owed'; one: SittingView }
  | { kind: 'due'; one: DueTask }
  | { kind: 'parked'; one: MailRow }
  | { kind: 'unread'; one: OutsideCalendar }
  | { kind: 'task'; one: Task };
/** Of teaching. */
export type TeachingLine =
  | { kind: 'teaching-call'; one: TeachingToTell }
  | { kind: 'teaching-asked'; one: OwnView }
  | { kind: 'teaching-offer'; one: ToOffer }
  | { kind: 'teaching-move'; one: TeachingToDecide['toMove'][number] }
  | { kind: 'teaching-due'; one: TeachingToDecide['due'][number] };
export type LineKind = Line['kind'];
export const isOfTeaching = (line: Line): line is TeachingLine => line.kind.startsWith('teaching-');

/** The order of the kinds, in each part of the page. */
export const KINDS: readonly LineKind[] = [
  'telephone',
  'teaching-call',
  'offer',
  'freed',
  'request',
  'teaching-asked',
  'teaching-offer',
  'wish',
  'erase',
  'teaching-due',
  'move',
  'teaching-move',
  'ending',
  'owed',
  'due',
  'parked',
  'unread',
  'task',
];

/** The lines of one kind: the first few, and how many there are in all. */
export interface Group {
  kind: LineKind;
  first: Line[];
  rest: Line[];
}

export interface Inbox {
  /** Decide today. */
  today: Group[];
  /** Do this week. */
  week: Group[];
}

/** So many lines of one kind stand on the page; the others one tap away. */
export const LINES_SHOWN = 3;
/** An offer that runs out within so many hours is told today. Assumption: one night lies between. */
const OFFER_HOURS = 48;

interface Sorted {
  line: Line;
  today: boolean;
  /** Smaller first. */
  by: number;
  /** Tells two alike apart, so that the order is always the same. */
  key: string;
}

export function inboxOf(facts: InboxFacts): Inbox {
  const all = [...people(facts), ...teaching(facts), ...work(facts)];
  return { today: groups(all.filter((one) => one.today)), week: groups(all.filter((one) => !one.today)) };
}

function groups(all: Sorted[]): Group[] {
  return KINDS.flatMap((kind) => {
    const lines = all
      .filter(({ line }) => line.kind === kind)
      .sort((a, b) => a.by - b.by || (a.key < b.key ? -1 : 1))
      .map(({ line }) => line);
    return lines.length === 0
      ? []
      : [{ kind, first: lines.slice(0, LINES_SHOWN), rest: lines.slice(LINES_SHOWN) }];
  });
}

function people({
  now,
  telephone,
  offers,
  freed,
  requests,
  wishes,
  erasures,
  toMove,
  untold,
  owed,
}: InboxFacts): Sorted[] {
  const soon = now.add({ hours: OFFER_HOURS }).epochMilliseconds;
  const rung = new Set(telephone.map((one) => one.view.sitting.id)); // their offer is told with the number to ring
  const start = ({ place }: SittingView) => place?.startsAt.epochMilliseconds ?? Number.MAX_SAFE_INTEGER;
  return [
    // already in their order
    ...telephone.map((one, at) => ({
      line: { kind: 'telephone' as const, one },
      today: one.now,
      by: at,
      key: one.mail.mail_id,
    })),
    ...offers
      .map((one) => ({ one, until: one.offer.expiresAt.epochMilliseconds }))
      .filter(
        ({ one, until }) => until > now.epochMilliseconds && until <= soon && !rung.has(one.offer.forId),
      )
      .map(({ one, until }) => ({
        line: { kind: 'offer' as const, one },
        today: true,
        by: until,
        key: one.offer.id,
      })),
    ...freed.map((one, at) => ({
      line: { kind: 'freed' as const, one },
      today: !one.byRule, // there is nothing to decide
      by: at, // already in their order
      key: one.wallStart.toString(),
    })),
    ...requests.map((one) => ({
      line: { kind: 'request' as const, one },
      today: true,
      by: one.sitting.askedAt.epochMilliseconds,
      key: one.sitting.id,
    })),
    ...wishes.map((one) => ({
      line: { kind: 'wish' as const, one },
      today: true,
      by: one.wish.askedAt.epochMilliseconds,
      key: one.wish.sittingId,
    })),
    ...erasures.map((one) => ({
      line: { kind: 'erase' as const, one },
      today: true,
      by: one.askedAt.epochMilliseconds,
      key: one.contactId,
    })),
    ...toMove.map((one) => ({
      line: { kind: 'move' as const, one },
      today: true,
      by: start(one.view),
      key: one.view.sitting.id,
    })),
    ...untold.map((one) => ({
      line: { kind: 'ending' as const, one },
      today: true,
      by: start(one),
      key: one.sitting.id,
    })),
    ...owed.map((one) => ({
      line: { kind: 'owed' as const, one },
      today: true,
      by: one.sitting.askedAt.epochMilliseconds,
      key: one.sitting.id,
    })),
  ];
}

/** Who learns: to be told, to be answered, to be offered places, to be moved; and whether a day is held. */
function teaching({ today, teachingCalls, teaching: { asked, toOffer, toMove, due } }: InboxFacts): Sorted[] {
  const ofSignUp = ({ signUp }: OwnView) => ({ by: signUp.askedAt.epochMilliseconds, key: signUp.id });
  return [
    // already in their order
    ...teachingCalls.map((one, at) => ({
      line: { kind: 'teaching-call' as const, one },
      today: one.now,
      by: at,
      key: one.mail.mail_id,
    })),
    ...asked.map((one) => ({
      line: { kind: 'teaching-asked' as const, one },
      today: true,
      ...ofSignUp(one),
    })),
    ...toOffer.map((one) => ({
      line: { kind: 'teaching-offer' as const, one },
      today: !one.byRule, // there is nothing to decide
      ...ofSignUp(one),
    })),
    ...due.map((one) => ({
      line: { kind: 'teaching-due' as const, one },
      today: Temporal.PlainDate.compare(one.session.decideOn, today) <= 0,
      by: today.until(one.session.decideOn).days,
      key: one.session.id,
    })),
    ...toMove.map((one) => ({
      line: { kind: 'teaching-move' as const, one },
      today: true,
      by: one.day.place.startsAt.epochMilliseconds,
      key: one.day.session.id,
    })),
  ];
}

/** What is late, for today, or cannot be had stands among what is decided today. */
function work({ today, due, parked, unread, tasks }: InboxFacts): Sorted[] {
  const inDays = (day: Temporal.PlainDate) => today.until(day).days;
  return [
    ...dueWithin(due, today).map((one) => ({
      line: { kind: 'due' as const, one },
      today: one.alarm === true || inDays(one.by) <= 0,
      by: inDays(one.by),
      key: one.key,
    })),
    ...parked.map((one) => ({
      line: { kind: 'parked' as const, one },
      today: false,
      by: one.created_at.epochMilliseconds,
      key: one.mail_id,
    })),
    ...unread.map((one) => ({
      line: { kind: 'unread' as const, one },
      today: false,
      by: one.readAt.epochMilliseconds,
      key: one.id,
    })),
    ...nextTasks(tasks, today)
      .filter(({ day }) => inDays(day) <= WEEK_DAYS)
      .map((one) => ({
        line: { kind: 'task' as const, one },
        today: inDays(one.day) <= 0,
        by: inDays(one.day),
        key: `${one.from} ${one.rule.id}`,
      })),
  ];
}
