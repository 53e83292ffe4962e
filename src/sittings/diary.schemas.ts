// Somebody of the studio's old diary: what was written of them there, checked already.
import type { Temporal } from 'temporal-polyfill';
import type { Contact } from '../people/people.schemas.js';

export interface DiaryLine
  extends Pick<Contact, 'name' | 'reachBy' | 'email' | 'telephone' | 'postalAddress'> {
  askedOn: Temporal.PlainDate;
  /** The day they were promised, with the hour where one was written; null: they wait. */
  promised: { day: Temporal.PlainDate; time: Temporal.PlainTime | null } | null;
  sitters: number;
  plates: number;
  plateSizeId: string;
  /** GeoNames id; null where it is not known. */
  homeId: number | null;
  note: string;
}
