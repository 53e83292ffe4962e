// Who is asked next for places of a day that are free. Pure.
import { Temporal } from 'temporal-polyfill';
import type { Offer } from '../waiting/offers.schemas.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

type Day = Pick<Session, 'places' | 'taken' | 'freedAt'>;

/** The first who waits, whom the places suffice, and who did not let them pass; null for nobody. */
export function firstInLine(
  session: Day,
  waiting: readonly SignUp[],
  students: readonly Student[],
  newest: ReadonlyMap<string, Offer>,
): SignUp | null {
  const left = session.places - session.taken;
  const suffices = (id: string) => students.filter((one) => one.signUpId === id).length <= left;
  return waiting.find(({ id }) => suffices(id) && !letPass(newest.get(id), session)) ?? null;
}

/** They said no since a place last came free, or did not answer: the same is not offered to them again. */
const letPass = (offer: Offer | undefined, { freedAt }: Day): boolean =>
  (offer?.answer === 'refused' || offer?.answer === 'lapsed') &&
  (freedAt === null || offer.answeredAt === null || Temporal.Instant.compare(offer.answeredAt, freedAt) >= 0);
