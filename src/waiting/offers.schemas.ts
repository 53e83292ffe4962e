// An offer of a place: whom it is for, until when it is open, what became of it.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';

const ANSWERS = ['accepted', 'refused', 'lapsed', 'another day', 'withdrawn', 'called off'] as const;
export type OfferAnswer = (typeof ANSWERS)[number];

export const offerRow = z.object({
  offer_id: z.uuid(),
  for_id: z.uuid(),
  occupancy_id: z.uuid().nullable(),
  made_at: instant,
  expires_at: instant,
  by_telephone: z.boolean(),
  who: z.string(),
  answer: z.enum(ANSWERS).nullable(),
  answered_at: instant.nullable(),
  answered_by: z.string(),
});
type Row = z.output<typeof offerRow>;

export interface Offer {
  id: string;
  /** The sitting it is made for. */
  forId: string;
  occupancyId: string | null;
  madeAt: Row['made_at'];
  /** Open before this instant and not at it. */
  expiresAt: Row['expires_at'];
  /** So near that they are to be told by telephone. */
  byTelephone: boolean;
  who: string;
  /** Null while nobody has answered and it has not lapsed. */
  answer: OfferAnswer | null;
  answeredAt: Row['answered_at'];
  answeredBy: string;
}

/** A place that came free, and when it did. */
export interface Freed {
  wallStart: Temporal.PlainDateTime;
  freedAt: Temporal.Instant;
}

export const toOffer = (row: Row): Offer => ({
  id: row.offer_id,
  forId: row.for_id,
  occupancyId: row.occupancy_id,
  madeAt: row.made_at,
  expiresAt: row.expires_at,
  byTelephone: row.by_telephone,
  who: row.who,
  answer: row.answer,
  answeredAt: row.answered_at,
  answeredBy: row.answered_by,
});
