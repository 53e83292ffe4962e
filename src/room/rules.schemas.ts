// By what the room opens: the rhythm, who is there, kinds of sitting, closures, how long people hold still.
// All of it comes in one row of JSON, so that openings need two or three statements whatever the range.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Elsewhere } from '../outside/blocking.calc.js';
import { stretches } from '../outside/outside.schemas.js';
import { type Attendance, HELPER_NEVER, OWNER_ALWAYS } from './attendance.calc.js';
import { DEFAULT_POSE_LIMITS, type PoseLimits } from './pose.calc.js';

/** The weekly rhythm on one weekday, in force over a stretch of dates; over one date it is an extra day. */
export interface Rhythm {
  id: string;
  /** 1 = Monday ... 7 = Sunday. */
  weekday: number;
  /** Wall times at which a sitting may start, minutes after midnight. */
  starts: number[];
  firstPlateMinutes: number;
  furtherPlateMinutes: number;
  furtherSitterMinutes: number;
  changeoverMinutes: number;
  /** Wall times in which no sitting runs: minutes after midnight, in pairs of from and until. */
  breaks: number[];
  /** Sittings of a day without and with a helper. */
  mostSittings: number;
  mostSittingsWithHelper: number;
  mostPlates: number;
  /** So many of the day's last places are kept off the public pages until so many days before. */
  heldBack: number;
  heldBackDays: number;
  effectiveFrom: Temporal.PlainDate;
  effectiveUntil: Temporal.PlainDate | null;
}

/** Common practice, no source; the owner changes what does not fit. Starts, weekday and dates are the studio's. */
export const RHYTHM_DEFAULTS = {
  firstPlateMinutes: 75,
  furtherPlateMinutes: 25,
  furtherSitterMinutes: 10,
  changeoverMinutes: 30,
  breaks: [] as number[],
  mostSittings: 4,
  mostSittingsWithHelper: 6,
  mostPlates: 10,
  heldBack: 1,
  heldBackDays: 14,
};

export const OFFERED = ['public', 'owner', 'not any more'] as const;
export const KEEPS_PLATE = ['sitter', 'studio', 'series'] as const;

/** A kind of sitting. Fee and deposit are notes. */
export interface Kind {
  id: string;
  position: number;
  name: string;
  offered: (typeof OFFERED)[number];
  /** Minutes of a sitting with one plate; null: as the rhythm says. */
  firstPlateMinutes: number | null;
  /** Plates that are usual. */
  plates: number;
  fee: string;
  deposit: string;
  keepsPlate: (typeof KEEPS_PLATE)[number];
  /** The weekdays it is kept to; empty: every day of the rhythm. */
  weekdays: number[];
  /** Confirmed sittings in a calendar year at most; null: any number. */
  yearlyQuota: number | null;
}

/** A stretch of wall time in which the room is closed; whole days run from midnight to midnight. */
export interface Closure {
  id: string;
  title: string;
  wallFrom: Temporal.PlainDateTime;
  wallUntil: Temporal.PlainDateTime;
}

export interface RoomRules {
  rhythms: Rhythm[];
  owner: Attendance;
  helper: Attendance;
  kinds: Kind[];
  closures: Closure[];
  limits: PoseLimits;
  /** When the owner is elsewhere, by each of the outside calendars in use. */
  elsewhere: { calendarId: string; times: Elsewhere[] }[];
}

const date = z.string().transform((text) => Temporal.PlainDate.from(text));
const wall = z.string().transform((text) => Temporal.PlainDateTime.from(text));

const rhythmJson = z
  .object({
    rhythm_id: z.uuid(),
    weekday: z.number(),
    starts: z.array(z.number()),
    first_plate_minutes: z.number(),
    further_plate_minutes: z.number(),
    further_sitter_minutes: z.number(),
    changeover_minutes: z.number(),
    breaks: z.array(z.number()),
    most_sittings: z.number(),
    most_sittings_with_helper: z.number().nullable(),
    most_plates: z.number(),
    held_back: z.number(),
    held_back_days: z.number(),
    effective_from: date,
    effective_until: date.nullable(),
  })
  .transform(
    (row): Rhythm => ({
      id: row.rhythm_id,
      weekday: row.weekday,
      starts: row.starts,
      firstPlateMinutes: row.first_plate_minutes,
      furtherPlateMinutes: row.further_plate_minutes,
      furtherSitterMinutes: row.further_sitter_minutes,
      changeoverMinutes: row.changeover_minutes,
      breaks: row.breaks,
      mostSittings: row.most_sittings,
      mostSittingsWithHelper: row.most_sittings_with_helper ?? row.most_sittings,
      mostPlates: row.most_plates,
      heldBack: row.held_back,
      heldBackDays: row.held_back_days,
      effectiveFrom: row.effective_from,
      effectiveUntil: row.effective_until,
    }),
  );

const kindJson = z
  .object({
    kind_id: z.uuid(),
    position: z.number(),
    name: z.string(),
    offered: z.enum(OFFERED),
    first_plate_minutes: z.number().nullable(),
    plates: z.number(),
    fee: z.string(),
    deposit: z.string(),
    keeps_plate: z.enum(KEEPS_PLATE),
    weekdays: z.array(z.number()),
    yearly_quota: z.number().nullable(),
  })
  .transform(
    (row): Kind => ({
      id: row.kind_id,
      position: row.position,
      name: row.name,
      offered: row.offered,
      firstPlateMinutes: row.first_plate_minutes,
      plates: row.plates,
      fee: row.fee,
      deposit: row.deposit,
      keepsPlate: row.keeps_plate,
      weekdays: row.weekdays,
      yearlyQuota: row.yearly_quota,
    }),
  );

const attendanceJson = z.object({
  who: z.enum(['owner', 'helper']),
  weekdays: z.array(z.number()),
  also: z.array(z.string()),
  away: z.array(z.string()),
});

const limitsJson = z.object({
  under_8: z.number(),
  from_8_to_14: z.number(),
  adult: z.number(),
  head_rest: z.number(),
  group_of_3: z.number(),
});

const closureJson = z
  .object({ closure_id: z.uuid(), title: z.string(), wall_from: wall, wall_until: wall })
  .transform(
    (row): Closure => ({
      id: row.closure_id,
      title: row.title,
      wallFrom: row.wall_from,
      wallUntil: row.wall_until,
    }),
  );

const elsewhereJson = z
  .object({ calendar_id: z.uuid(), blocking: stretches })
  .transform((row) => ({ calendarId: row.calendar_id, times: row.blocking }));

export const rulesRow = z.object({
  elsewhere: z.array(elsewhereJson),
  rhythms: z.array(rhythmJson),
  attendance: z.array(attendanceJson),
  kinds: z.array(kindJson),
  closures: z.array(closureJson),
  limits: z.array(limitsJson),
});

export function toRules(row: z.output<typeof rulesRow>): RoomRules {
  const daysOf = (who: 'owner' | 'helper') => {
    const found = row.attendance.find((one) => one.who === who);
    return found && { weekdays: found.weekdays, also: found.also, away: found.away };
  };
  const [limits] = row.limits;
  return {
    rhythms: row.rhythms,
    owner: daysOf('owner') ?? OWNER_ALWAYS,
    helper: daysOf('helper') ?? HELPER_NEVER,
    kinds: row.kinds,
    closures: row.closures,
    elsewhere: row.elsewhere,
    limits: limits
      ? {
          under8: limits.under_8,
          from8To14: limits.from_8_to_14,
          adult: limits.adult,
          headRest: limits.head_rest,
          groupOf3: limits.group_of_3,
        }
      : DEFAULT_POSE_LIMITS,
  };
}
