// Whom to telephone or write to by hand about teaching, from the letters that mail does not bring, or too late; one entry
// a sign-up, as telephone.calc.ts has one a sitting. Pure: no words for people.
import { Temporal } from 'temporal-polyfill';
import { readInstant } from '../lib/stored-times.js';
import type { OwnView } from '../teaching/day-views.schemas.js';
import type { SignUpState } from '../teaching/states.calc.js';
import {
  isTeachingReminder,
  type LetterPlace,
  type TeachingLetter,
  teachingLetter,
} from './letters.schemas.js';
import type { MailRow } from './mail.schemas.js';
import { isPast, isPressing, isSoon, type ToTell, wayTo } from './telephone.calc.js';

export interface TeachingToTell
  extends Pick<ToTell, 'way' | 'why' | 'now' | 'openUntil' | 'mail' | 'before'> {
  view: OwnView;
  about: TeachingLetter;
}

/** Said of a sign-up only while it is in that state. */
const WHILE_IN: readonly string[] = ['signed', 'offered', 'waiting'];
/** Ended by them or by the studio's answer, as they know: how the day changes is nothing to them any more. */
const ENDED: readonly SignUpState[] = ['released', 'withdrawn', 'declined', 'lapsed'];

/**
 * In order: those to be told now, then by when it was written. Left out is what is out of date: offers that are over,
 * places that are past or went meanwhile, and what was only pressing once a later letter has gone.
 * @param newest the sequence of the newest letter about each sign-up
 */
export function teachingToTell(
  untold: readonly MailRow[],
  views: ReadonlyMap<string, OwnView>,
  newest: ReadonlyMap<string, number>,
  now: Temporal.Instant,
): TeachingToTell[] {
  const bySignUp = new Map<string, MailRow[]>();
  for (const mail of untold) {
    const view = views.get(mail.about_id);
    if (view && isStillSo(mail, view, newest.get(mail.about_id) ?? mail.sequence, now))
      bySignUp.set(mail.about_id, [...(bySignUp.get(mail.about_id) ?? []), mail]);
  }
  const entries = [...bySignUp].flatMap(([id, mails]): TeachingToTell[] => {
    const ordered = [...mails].sort(
      (a, b) => a.sequence - b.sequence || Temporal.Instant.compare(a.created_at, b.created_at),
    );
    const mail = ordered.at(-1);
    const view = views.get(id);
    if (!mail || !view) return [];
    const about = teachingLetter.parse(mail.snapshot);
    const until = about.change === 'offered' ? about.openUntil : null;
    const openUntil = until === null ? null : readInstant(until);
    return [
      {
        view,
        way: wayTo(view.contact),
        why: mail.by_hand !== '' ? 'no e-mail' : mail.state === 'parked' ? 'mail refused' : 'too near',
        now: mail.telephone_now || isNear(about.place, openUntil, now),
        openUntil,
        mail,
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

function isStillSo(mail: MailRow, { signUp, day }: OwnView, newest: number, now: Temporal.Instant): boolean {
  const { change, openUntil } = teachingLetter.parse(mail.snapshot);
  const reminds = isTeachingReminder(change);
  if (reminds && (signUp.state !== 'signed' || signUp.turns !== mail.sequence)) return false;
  if (wentMeanwhile(change, signUp.state)) return false;
  if (change === 'offered' && (signUp.turns !== mail.sequence || (openUntil && isPast(openUntil, now))))
    return false;
  const given = change === 'signed' || change === 'changed' || reminds;
  if (given && day && isPast(day.place.endsAt, now)) return false;
  return mail.by_hand !== '' || mail.state === 'parked' || mail.sequence === newest;
}

/** Whether there is no use in telling of a change any more; whoever is called off hears of a new day all the same. */
export const wentMeanwhile = (change: TeachingLetter['change'], state: SignUpState): boolean =>
  change === 'changed' ? ENDED.includes(state) : WHILE_IN.includes(change) && state !== change;

/** An offer about to run out, or a day that begins soon. */
export function isNear(
  place: Pick<LetterPlace, 'startsAt'> | null,
  openUntil: Temporal.Instant | null,
  now: Temporal.Instant,
): boolean {
  if (openUntil) return isPressing(openUntil, now);
  return place !== null && isSoon(readInstant(place.startsAt), now);
}
