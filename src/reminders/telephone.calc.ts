// Whom to telephone or write to by hand, from the letters that mail does not bring, or too late. One entry a sitting:
// what is to be said is the newest; what was not told before it goes with it. Pure: no words for people.
import { Temporal } from 'temporal-polyfill';
import { readInstant, readWall } from '../lib/stored-times.js';
import { wallToInstant } from '../lib/zoned-time.js';
import type { Contact } from '../people/people.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import {
  isAboutSitting,
  isReminder,
  type SittingKind,
  sittingLetter,
  type SittingLetter,
} from './letters.schemas.js';
import type { MailRow } from './mail.schemas.js';

/** Why mail does not do. */
export type Why = 'no e-mail' | 'mail refused' | 'too near';

export interface ToTell {
  view: SittingView;
  way: 'telephone' | 'letter';
  why: Why;
  /** To be done at once: an offer that runs out, a place that goes or comes soon. */
  now: boolean;
  /** Until when an offer is open that they have to answer; null where nothing is. */
  openUntil: Temporal.Instant | null;
  mail: MailRow;
  kind: SittingKind;
  about: SittingLetter;
  /** Letters not told before this one, the oldest first. */
  before: MailRow[];
}

/** A place so many days ahead, or less, is to be told of at once. Assumption. */
const NEAR_DAYS = 7;
/** An offer that runs out within so many hours is pressing. Assumption: one night lies between. */
const OFFER_HOURS = 48;

/**
 * In order: those to be told now, then by when it was written. Left out is what is out of date: offers that are
 * over, places that are past or went meanwhile, and what was only pressing once a later letter has gone.
 * @param newest the sequence of the newest letter about each sitting
 */
export function toTell(
  untold: readonly MailRow[],
  views: ReadonlyMap<string, SittingView>,
  newest: ReadonlyMap<string, number>,
  now: Temporal.Instant,
): ToTell[] {
  const bySitting = new Map<string, MailRow[]>();
  for (const mail of untold) {
    const view = views.get(mail.about_id);
    if (view && isStillSo(mail, view, newest.get(mail.about_id) ?? mail.sequence, now))
      bySitting.set(mail.about_id, [...(bySitting.get(mail.about_id) ?? []), mail]);
  }
  const entries = [...bySitting].flatMap(([id, mails]): ToTell[] => {
    const ordered = [...mails].sort(
      (a, b) => a.sequence - b.sequence || Temporal.Instant.compare(a.created_at, b.created_at),
    );
    const mail = ordered.at(-1);
    const view = views.get(id);
    if (!mail || !view || !isAboutSitting(mail.kind)) return [];
    const about = sittingLetter.parse(mail.snapshot);
    const openUntil = mail.kind === 'offered' && about.openUntil ? readInstant(about.openUntil) : null;
    return [
      {
        view,
        way: wayTo(view.contact),
        why: mail.by_hand !== '' ? 'no e-mail' : mail.state === 'parked' ? 'mail refused' : 'too near',
        now: mail.telephone_now || isNear(about, openUntil, now),
        openUntil,
        mail,
        kind: mail.kind,
        about,
        before: ordered.slice(0, -1),
      },
    ];
  });
  return entries.sort(
    (a, b) =>
      Number(b.now) - Number(a.now) ||
      Temporal.Instant.compare(a.mail.created_at, b.mail.created_at) ||
      (a.mail.mail_id < b.mail.mail_id ? -1 : 1),
  );
}

/** By letter only where there is no number to ring. */
export const wayTo = (contact: Pick<Contact, 'reachBy' | 'telephone' | 'postalAddress'>): ToTell['way'] =>
  contact.reachBy === 'letter' || (contact.telephone === '' && contact.postalAddress !== '')
    ? 'letter'
    : 'telephone';

function isStillSo(
  mail: MailRow,
  { sitting, place }: SittingView,
  newest: number,
  now: Temporal.Instant,
): boolean {
  if (mail.kind === 'confirmed' && sitting.state !== 'confirmed') return false;
  if (mail.kind === 'offered' && (sitting.state !== 'offered' || sitting.turns !== mail.sequence))
    return false;
  const about = sittingLetter.parse(mail.snapshot);
  if (mail.kind === 'offered' && about.openUntil && isPast(about.openUntil, now)) return false;
  if (isReminder(mail.kind) && (sitting.state !== 'confirmed' || sitting.turns !== mail.sequence))
    return false;
  const given = isReminder(mail.kind) || mail.kind === 'confirmed' || mail.kind === 'moved';
  if (given && about.place && isPast(about.place.endsAt, now) && (!place || isPast(place.endsAt, now)))
    return false;
  return mail.by_hand !== '' || mail.state === 'parked' || mail.sequence === newest;
}

/** What is stored is read by its digits. */
export const isPast = (at: string | Temporal.Instant, now: Temporal.Instant): boolean =>
  Temporal.Instant.compare(typeof at === 'string' ? readInstant(at) : at, now) <= 0;

/** Whether an offer is about to run out. */
export const isPressing = (openUntil: Temporal.Instant, now: Temporal.Instant): boolean =>
  Temporal.Instant.compare(openUntil, now.add({ hours: OFFER_HOURS })) <= 0;

/** Whether what begins then is ahead, and near. */
export const isSoon = (at: Temporal.Instant, now: Temporal.Instant): boolean =>
  !isPast(at, now) && Temporal.Instant.compare(at, now.add({ hours: 24 * NEAR_DAYS })) <= 0;

function isNear(about: SittingLetter, openUntil: Temporal.Instant | null, now: Temporal.Instant): boolean {
  if (openUntil) return isPressing(openUntil, now);
  const was =
    about.was && about.place ? wallToInstant(about.place.zone, readWall(about.was), 'earlier') : null;
  const starts = [
    ...(about.place ? [readInstant(about.place.startsAt)] : []),
    ...(was?.ok ? [was.instant] : []),
  ];
  return starts.some((at) => isSoon(at, now));
}
