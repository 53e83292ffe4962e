// SQL of re-deriving instants: the places ahead, and writing what changed.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type Occupancy, occupancyRow, toOccupancy } from './occupancy.schemas.js';
import { OCCUPANCY_COLUMNS } from './room.store.js';

export class RederiveStore {
  /** All that holds a room and is not over: places that start after an instant, closures that end after it. */
  async ahead(tx: Tx, from: Temporal.Instant): Promise<Occupancy[]> {
    const rows = await tx.many(
      occupancyRow,
      `select ${OCCUPANCY_COLUMNS} from occupancy where studio_id = $1 and holds
         and case kind when 'closure' then ends_at > $2 else starts_at > $2 end
       order by occupancy_id for no key update`,
      [tx.studioId, from],
    );
    return rows.map(toOccupancy);
  }

  /** Lets go of the room for a moment, so that places that pass each other do not seem to clash. */
  async letGo(tx: Tx, ids: string[]): Promise<void> {
    await tx.run(
      'update occupancy set holds = false where studio_id = $1 and occupancy_id = any($2::uuid[])',
      [tx.studioId, ids],
    );
  }

  async write(tx: Tx, place: Occupancy, holds: boolean, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update occupancy set starts_at = $3, ends_at = $4, wall_end = $5, during = tstzrange($3, $6), holds = $7,
         sequence = sequence + 1, revised_at = $8
       where studio_id = $1 and occupancy_id = $2`,
      [tx.studioId, place.id, place.startsAt, place.endsAt, place.wallEnd, place.busyUntil, holds, at],
    );
  }
}
