// A stretch of time that takes the room, with what a calendar needs to follow it.
import { z } from 'zod';
import { instant, plainDate, plainDateTime } from '../platform/db/row.js';

export const occupancyRow = z.object({
  occupancy_id: z.uuid(),
  resource: z.enum(['room', 'darkroom', 'owner', 'helper']),
  kind: z.enum(['sitting', 'teaching', 'closure']),
  held_for: z.uuid(),
  holds: z.boolean(),
  zone: z.string(),
  wall_start: plainDateTime,
  wall_end: plainDateTime,
  starts_at: instant,
  ends_at: instant,
  busy_until: instant,
  title: z.string(),
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
  zone: string;
  wallStart: Row['wall_start'];
  wallEnd: Row['wall_end'];
  startsAt: Row['starts_at'];
  endsAt: Row['ends_at'];
  /** The end of the room's time, change-over included. */
  busyUntil: Row['busy_until'];
  title: string;
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
  zone: row.zone,
  wallStart: row.wall_start,
  wallEnd: row.wall_end,
  startsAt: row.starts_at,
  endsAt: row.ends_at,
  busyUntil: row.busy_until,
  title: row.title,
  uid: row.uid,
  sequence: row.sequence,
  revisedAt: row.revised_at,
  createdAt: row.created_at,
});

export const rhythmRow = z.object({
  rhythm_id: z.uuid(),
  weekday: z.number(),
  starts: z.array(z.number()),
  first_plate_minutes: z.number(),
  further_plate_minutes: z.number(),
  changeover_minutes: z.number(),
  most_sittings: z.number(),
  effective_from: plainDate,
  effective_until: plainDate.nullable(),
});

/** The weekly rhythm on one weekday, in force over a stretch of dates. Times are minutes. */
export interface Rhythm {
  id: string;
  /** 1 = Monday ... 7 = Sunday. */
  weekday: number;
  /** Wall times at which a sitting may start, minutes after midnight. */
  starts: number[];
  firstPlateMinutes: number;
  furtherPlateMinutes: number;
  changeoverMinutes: number;
  mostSittings: number;
  effectiveFrom: z.output<typeof plainDate>;
  effectiveUntil: z.output<typeof plainDate> | null;
}

export const toRhythm = (row: z.output<typeof rhythmRow>): Rhythm => ({
  id: row.rhythm_id,
  weekday: row.weekday,
  starts: row.starts,
  firstPlateMinutes: row.first_plate_minutes,
  furtherPlateMinutes: row.further_plate_minutes,
  changeoverMinutes: row.changeover_minutes,
  mostSittings: row.most_sittings,
  effectiveFrom: row.effective_from,
  effectiveUntil: row.effective_until,
});
