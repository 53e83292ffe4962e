// A stretch of time that takes the room, with what a calendar needs to follow it.
import { z } from 'zod';
import { instant, plainDateTime } from '../platform/db/row.js';

export const occupancyRow = z.object({
  occupancy_id: z.uuid(),
  resource: z.enum(['room', 'darkroom', 'owner', 'helper']),
  kind: z.enum(['sitting', 'teaching', 'closure']),
  held_for: z.uuid(),
  holds: z.boolean(),
  tentative: z.boolean(),
  zone: z.string(),
  wall_start: plainDateTime,
  wall_end: plainDateTime,
  starts_at: instant,
  ends_at: instant,
  busy_until: instant,
  title: z.string(),
  plates: z.number(),
  kind_id: z.uuid().nullable(),
  uid: z.uuid(),
  sequence: z.number(),
  revised_at: instant,
  created_at: instant,
});
type Row = z.output<typeof occupancyRow>;

export interface Occupancy {
  id: string;
  resource: Row['resource'];
  kind: Row['kind'];
  /** The sitting, teaching day or closure it is for. */
  heldFor: string;
  /** False once given back or called off: then it only tells calendars so. */
  holds: boolean;
  /** Held by an offer that nobody has accepted; stays so when it was not taken. */
  tentative: boolean;
  zone: string;
  wallStart: Row['wall_start'];
  wallEnd: Row['wall_end'];
  startsAt: Row['starts_at'];
  endsAt: Row['ends_at'];
  /** The end of the room's time, change-over included. */
  busyUntil: Row['busy_until'];
  title: string;
  /** Plates of a sitting, which a day's limit counts; 0 for what is none. */
  plates: number;
  /** The kind of sitting, whose year is counted; null for none. */
  kindId: string | null;
  uid: string;
  sequence: number;
  revisedAt: Row['revised_at'];
  createdAt: Row['created_at'];
}

export const toOccupancy = (row: Row): Occupancy => ({
  id: row.occupancy_id,
  resource: row.resource,
  kind: row.kind,
  heldFor: row.held_for,
  holds: row.holds,
  tentative: row.tentative,
  zone: row.zone,
  wallStart: row.wall_start,
  wallEnd: row.wall_end,
  startsAt: row.starts_at,
  endsAt: row.ends_at,
  busyUntil: row.busy_until,
  title: row.title,
  plates: row.plates,
  kindId: row.kind_id,
  uid: row.uid,
  sequence: row.sequence,
  revisedAt: row.revised_at,
  createdAt: row.created_at,
});
