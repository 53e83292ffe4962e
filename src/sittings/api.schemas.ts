// The JSON shapes of the sittings API, and how our own facts become them. Times carry the studio's offset.
import { z } from 'zod';
import { withOffset } from '../lib/zoned-time.js';
import { remindersAnswer } from '../people/letters-to-come.schemas.js';
import { openToPublic } from '../room/openings.calc.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { longText } from './request.schemas.js';
import type { SittingView } from './sittings.schemas.js';
import { STATES } from './states.calc.js';

export const openingsQuery = z.object({
  plates: z.coerce.number().int().min(1).max(6).default(1),
  sitters: z.coerce.number().int().min(1).max(12).default(1),
  /** The studio's usual kind of sitting, where none is named. */
  kind: z.uuid().optional(),
});

const seconds = z.object({ from: z.number(), to: z.number() });

export const openingsAnswer = z.object({
  zone: z.string(),
  days: z.array(
    z.object({
      date: z.iso.date(),
      places: z.array(
        z.object({
          start: z.string(),
          end: z.string(),
          holdStillSeconds: z.object({ clear: seconds, dull: seconds }),
        }),
      ),
    }),
  ),
});

export const requestAnswer = z.object({ sittingId: z.uuid(), page: z.string() });

export const sittingAnswer = z.object({
  id: z.uuid(),
  state: z.enum(STATES),
  askedAt: z.string(),
  contact: z.string(),
  kind: z.string().nullable(),
  sitters: z.array(z.string()),
  plates: z.array(z.object({ size: z.string(), sitters: z.array(z.string()) })),
  place: z.object({ start: z.string(), end: z.string(), zone: z.string() }).nullable(),
  /** Until when the place is offered; null when nothing is offered, or it is confirmed. */
  offerOpenUntil: z.string().nullable(),
  message: z.string(),
});

/** To whoever has the link of it. */
export const ownSittingAnswer = sittingAnswer.extend({ reminders: remindersAnswer });

export const approveBody = z.object({
  start: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/, 'Please give the start as 2027-05-14T10:00, studio time.'),
});
export const declineBody = z.object({ message: longText(2000) });

export function toOpenings(zone: string, days: DayOfPlaces[]): z.output<typeof openingsAnswer> {
  return {
    zone,
    days: days.flatMap((day) => {
      const places = day.openings.flatMap((one) => {
        if (!openToPublic(one) || !one.startsAt || !one.endsAt || !one.holdStill) return [];
        return [
          {
            start: withOffset(zone, one.startsAt),
            end: withOffset(zone, one.endsAt),
            holdStillSeconds: one.holdStill,
          },
        ];
      });
      return places.length > 0 ? [{ date: day.date.toString(), places }] : [];
    }),
  };
}

export function toSittingAnswer(
  view: SittingView,
  offer: Offer | null = null,
): z.output<typeof sittingAnswer> {
  const { sitting, place } = view;
  return {
    id: sitting.id,
    state: sitting.state,
    askedAt: sitting.askedAt.toString(),
    contact: view.contact.name,
    kind: view.kind?.name ?? null,
    sitters: view.sitters.map((one) => one.name),
    plates: view.plates.map((plate) => ({ size: plate.sizeName, sitters: plate.names })),
    place: place && {
      start: withOffset(place.zone, place.startsAt),
      end: withOffset(place.zone, place.endsAt),
      zone: place.zone,
    },
    offerOpenUntil: offer && place && withOffset(place.zone, offer.expiresAt),
    message: sitting.message,
  };
}
