// SQL of studios and their addresses.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Clock } from '../platform/clock.js';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import {
  type LightAndBooking,
  type NewStudio,
  type Profile,
  type Studio,
  studioRow,
  toStudio,
} from './studios.schemas.js';

export class StudiosStore {
  async load(tx: Tx): Promise<Studio> {
    const row = await tx.one(
      studioRow,
      `select s.*, d.slug from studio s join studio_directory d on d.studio_id = s.studio_id and d.is_current
       where s.studio_id = $1`,
      [tx.studioId],
    );
    return toStudio(row);
  }

  async insert(tx: Tx, studio: NewStudio, clock: Clock): Promise<void> {
    await tx.run(
      `insert into studio (studio_id, name, welcome, address, email, telephone, zone, latitude, longitude,
         window_kind, light_floor_degrees, reference_seconds, reference_altitude_degrees, exposure_cap_seconds,
         horizon_months, least_notice_days, reserve_quantity, created_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18)`,
      [
        studio.id,
        studio.name,
        studio.welcome,
        studio.address,
        studio.email,
        studio.telephone,
        studio.zone,
        studio.lat,
        studio.lon,
        studio.windowKind,
        studio.lightFloorDegrees,
        studio.referenceSeconds,
        studio.referenceAltitudeDegrees,
        studio.exposureCapSeconds,
        studio.horizonMonths,
        studio.leastNoticeDays,
        studio.reserveQuantity,
        clock.now(),
      ],
    );
    await tx.run('insert into studio_directory (slug, studio_id, is_current) values ($1, $2, true)', [
      studio.slug,
      studio.id,
    ]);
  }

  /** Whether there is no studio yet; whoever asks at the same moment waits until this transaction is over. */
  async isFirst(tx: Tx): Promise<boolean> {
    await tx.run(`select pg_advisory_xact_lock(hashtextextended('plateday: the first studio', 0))`);
    const row = await tx.one(
      z.object({ first: z.boolean() }),
      'select not exists (select 1 from studio_directory) as first',
    );
    return row.first;
  }

  async lock(tx: Tx): Promise<void> {
    await tx.run('select from studio where studio_id = $1 for update', [tx.studioId]);
  }

  async saveProfile(tx: Tx, values: Profile): Promise<void> {
    await tx.run(
      `update studio set name = $2, welcome = $3, address = $4, email = $5, telephone = $6 where studio_id = $1`,
      [tx.studioId, values.name, values.welcome, values.address, values.email, values.telephone],
    );
  }

  async saveLightAndBooking(tx: Tx, values: LightAndBooking): Promise<void> {
    await tx.run(
      `update studio set window_kind = $2, light_floor_degrees = $3, reference_seconds = $4,
         reference_altitude_degrees = $5, exposure_cap_seconds = $6, horizon_months = $7, least_notice_days = $8
       where studio_id = $1`,
      [
        tx.studioId,
        values.windowKind,
        values.lightFloorDegrees,
        values.referenceSeconds,
        values.referenceAltitudeDegrees,
        values.exposureCapSeconds,
        values.horizonMonths,
        values.leastNoticeDays,
      ],
    );
  }

  /**
   * Raises the revision that calendar feeds watch; the last statement of an act that shows there. Calendars tell time
   * in whole seconds, so each revision has a second of its own, also where acts are committed in another order than
   * they were begun.
   */
  async raiseCalendarCounter(tx: Tx, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update studio set calendar_counter = calendar_counter + 1,
         calendar_raised_at = greatest($2, date_trunc('second', calendar_raised_at) + interval '1 second')
       where studio_id = $1`,
      [tx.studioId, at],
    );
  }

  /** When the counter rose last; when the studio was founded, before it ever did. */
  async calendarRaisedAt(tx: Tx): Promise<Temporal.Instant> {
    const row = await tx.one(
      z.object({ at: instant }),
      'select coalesce(calendar_raised_at, created_at) as at from studio where studio_id = $1',
      [tx.studioId],
    );
    return row.at;
  }
}
