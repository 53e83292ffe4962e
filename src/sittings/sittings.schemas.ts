// A sitting: who asked, who sits on which plate, which days suit, and how far it has come.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Contact, Sitter } from '../people/people.schemas.js';
import { instant, plainDate } from '../platform/db/row.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { Kind } from '../room/rules.schemas.js';
import type { JourneyGlance } from '../travel/journey-glance.calc.js';
import { type SittingState, STATES } from './states.calc.js';

export const sittingRow = z.object({
  sitting_id: z.uuid(),
  contact_id: z.uuid(),
  kind_id: z.uuid().nullable(),
  state: z.enum(STATES),
  asked_at: instant,
  decided_at: instant.nullable(),
  any_day_from: plainDate.nullable(),
  any_day_until: plainDate.nullable(),
  days: z.array(plainDate),
  hopes: z.string(),
  anything: z.string(),
  message: z.string(),
  occupancy_id: z.uuid().nullable(),
  turns: z.number(),
  return_owed: z.boolean(),
  return_of: z.uuid().nullable(),
  offers_unanswered: z.number(),
  priority_reason: z.string(),
  hardship_reason: z.string(),
  notice_days: z.number().nullable(),
  access: z.string(),
  brings: z.string(),
  minor: z.boolean(),
  guardian_name: z.string(),
  guardian_relation: z.string(),
  guardian_reach: z.string(),
});
type Row = z.output<typeof sittingRow>;

type Day = z.output<typeof plainDate>;

/** The days that suit: any open day from ... until ..., or just these. */
export type SuitingDays = { kind: 'any'; from: Day; until: Day } | { kind: 'these'; days: Day[] };

export interface Sitting {
  id: string;
  contactId: string;
  /** The kind of sitting; null for one asked before the studio named its kinds. */
  kindId: string | null;
  state: SittingState;
  askedAt: Row['asked_at'];
  /** When its state last changed: of a confirmed one, when they got the yes, or were moved. Null for one just asked for. */
  decidedAt: Row['decided_at'];
  suits: SuitingDays;
  hopes: string;
  anything: string;
  message: string;
  /** The place it has: offered, confirmed, or the one it had when it ended. */
  occupancyId: string | null;
  /** How often its state has changed. */
  turns: number;
  /** A place is owed to them without fault of theirs; on the list they come first. */
  returnOwed: boolean;
  /** The sitting in whose stead this one was asked for. */
  returnOf: string | null;
  /** Offers in a row that ran out without an answer. */
  offersUnanswered: number;
  marks: Marks;
  details: Details;
}

/** What helps them here, what they bring, and who answers for somebody under 18. Texts; '' for nothing. */
export interface Details {
  access: string;
  brings: string;
  /** Somebody who sits is under 18. */
  minor: boolean;
  guardian: Guardian | null;
}

export interface Guardian {
  name: string;
  /** "mother", "grandfather"; '' where it is not said. */
  relation: string;
  /** A telephone number or an address. */
  reach: string;
}

/** What the owner notes for the waiting list. */
export interface Marks {
  /** Reasons; '' for none. */
  priority: string;
  hardship: string;
  /** Days of notice they said they need; null: as the rule says for their distance. */
  noticeDays: number | null;
}

export const NO_MARKS: Marks = { priority: '', hardship: '', noticeDays: null };

export function toSitting(row: Row): Sitting {
  const suits: SuitingDays =
    row.any_day_from && row.any_day_until
      ? { kind: 'any', from: row.any_day_from, until: row.any_day_until }
      : { kind: 'these', days: row.days };
  return {
    id: row.sitting_id,
    contactId: row.contact_id,
    kindId: row.kind_id,
    state: row.state,
    askedAt: row.asked_at,
    decidedAt: row.decided_at,
    suits,
    hopes: row.hopes,
    anything: row.anything,
    message: row.message,
    occupancyId: row.occupancy_id,
    turns: row.turns,
    returnOwed: row.return_owed,
    returnOf: row.return_of,
    offersUnanswered: row.offers_unanswered,
    marks: { priority: row.priority_reason, hardship: row.hardship_reason, noticeDays: row.notice_days },
    details: {
      access: row.access,
      brings: row.brings,
      minor: row.minor,
      guardian:
        row.guardian_name === ''
          ? null
          : { name: row.guardian_name, relation: row.guardian_relation, reach: row.guardian_reach },
    },
  };
}

export const plateRow = z.object({
  plate_id: z.uuid(),
  sitting_id: z.uuid(),
  plate_size_id: z.uuid(),
  size_name: z.string(),
  sitter_ids: z.array(z.uuid()),
});

/** One plate to be made, and who is on it. */
export interface Plate {
  id: string;
  plateSizeId: string;
  sitterIds: string[];
}

export interface NamedPlate extends Plate {
  sizeName: string;
}

/** Names of the people on a plate, in the order they were named. */
export function namesOn(plate: Plate, sitters: Sitter[]): string[] {
  return sitters.filter((one) => plate.sitterIds.includes(one.id)).map((one) => one.name);
}

/** Whether a day is among those that suit. */
export function suitsOn(suits: SuitingDays, date: Day): boolean {
  if (suits.kind === 'these') return suits.days.some((day) => day.equals(date));
  return (
    Temporal.PlainDate.compare(suits.from, date) <= 0 && Temporal.PlainDate.compare(date, suits.until) <= 0
  );
}

/** A sitting with everything about it. */
export interface SittingView {
  sitting: Sitting;
  contact: Contact;
  kind: Kind | null;
  sitters: Sitter[];
  plates: (NamedPlate & { names: string[] })[];
  place: Occupancy | null;
  /** Null when the home place is not known. */
  journey: JourneyGlance | null;
}
