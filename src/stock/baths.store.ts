// SQL of silver baths, their ledgers and the fault log. Ledgers are only ever added to.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import {
  type Bath,
  type BathEvent,
  bathRow,
  type DaySheets,
  daySheetsRow,
  eventRow,
  type Fault,
  faultRow,
  toBath,
  toEvent,
  toFault,
} from './baths.schemas.js';

export class BathsStore {
  /** By name; those retired last. */
  async baths(tx: Tx): Promise<Bath[]> {
    const sql = `select * from bath where studio_id = $1 order by (state = 'retired'), name, bath_id`;
    return (await tx.many(bathRow, sql, [tx.studioId])).map(toBath);
  }

  /** The bath, or null; locked until the transaction ends. */
  async locked(tx: Tx, id: string): Promise<Bath | null> {
    const sql = 'select * from bath where studio_id = $1 and bath_id = $2 for no key update';
    const row = await tx.maybe(bathRow, sql, [tx.studioId, id]);
    return row && toBath(row);
  }

  /** The ledgers of some baths, each in the order in which things happened. */
  async events(tx: Tx, bathIds: string[]): Promise<BathEvent[]> {
    const rows = await tx.many(
      eventRow,
      `select * from bath_event where studio_id = $1 and bath_id = any($2::uuid[]) order by bath_id, day, seq`,
      [tx.studioId, bathIds],
    );
    return rows.map(toEvent);
  }

  async event(tx: Tx, id: string): Promise<BathEvent | null> {
    const row = await tx.maybe(eventRow, 'select * from bath_event where studio_id = $1 and event_id = $2', [
      tx.studioId,
      id,
    ]);
    return row && toEvent(row);
  }

  /** Sheets set aside for each day from one on, by size, spare tries included. */
  async sheetsAhead(tx: Tx, from: Temporal.PlainDate): Promise<DaySheets[]> {
    const rows = await tx.many(
      daySheetsRow,
      `select r.needed_on as day, i.plate_size_id, sum(r.quantity)::bigint as sheets
       from reservation r join item i on i.studio_id = r.studio_id and i.item_id = r.item_id
       where r.studio_id = $1 and r.needed_on >= $2 and i.plate_size_id is not null
       group by r.needed_on, i.plate_size_id order by 1, 2`,
      [tx.studioId, from],
    );
    return rows.map((row) => ({ day: row.day, plateSizeId: row.plate_size_id, sheets: row.sheets }));
  }

  /** The latest first, at most so many; of one bath, or all. */
  async faults(tx: Tx, most: number, bathId: string | null = null): Promise<Fault[]> {
    const rows = await tx.many(
      faultRow,
      `select * from fault where studio_id = $1 and ($3::uuid is null or bath_id = $3)
       order by day desc, at desc, fault_id limit $2`,
      [tx.studioId, most, bathId],
    );
    return rows.map(toFault);
  }

  /** What was seen on one day, in the order in which it was written down. */
  async faultsOn(tx: Tx, day: Temporal.PlainDate): Promise<(Fault & { at: Temporal.Instant })[]> {
    const rows = await tx.many(
      faultRow.extend({ at: instant }),
      'select * from fault where studio_id = $1 and day = $2 order by at, fault_id',
      [tx.studioId, day],
    );
    return rows.map(({ at, ...row }) => ({ ...toFault(row), at }));
  }

  async fault(tx: Tx, id: string): Promise<Fault | null> {
    const sql = 'select * from fault where studio_id = $1 and fault_id = $2';
    const row = await tx.maybe(faultRow, sql, [tx.studioId, id]);
    return row && toFault(row);
  }

  /** For whom something was set aside from a bottle when the act of this entry put it aside. */
  async heldFromBottle(tx: Tx, faultId: string, lotId: string): Promise<string[]> {
    const rows = await tx.many(
      z.object({ held_for: z.uuid() }),
      `select distinct m.held_for from movement m
       where m.studio_id = $1 and m.lot_id = $3 and m.kind = 'released' and m.held_for is not null
         and m.batch_id = (
           select r.batch_id from movement r join fault f on f.studio_id = r.studio_id and f.fault_id = $2
           where r.studio_id = $1 and r.lot_id = $3 and r.kind = 'released'
             and r.at >= f.at and r.at < f.at + interval '1 minute' order by r.seq limit 1)`,
      [tx.studioId, faultId, lotId],
    );
    return rows.map((row) => row.held_for);
  }

  /** Enters a bath, or changes all that its owner may change of it; its state is changed by setState. */
  async save(tx: Tx, bath: Bath): Promise<void> {
    await tx.run(
      `insert into bath (studio_id, bath_id, name, tank, plate_size_id, volume, least_volume, target_strength,
         least_strength, care_after_plates, lot_id, state, state_since, state_until, note)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)
       on conflict (studio_id, bath_id) do update set name = $3, tank = $4, plate_size_id = $5, volume = $6,
         least_volume = $7, target_strength = $8, least_strength = $9, care_after_plates = $10, lot_id = $11, note = $15`,
      [
        tx.studioId,
        bath.id,
        bath.name,
        bath.tank,
        bath.plateSizeId,
        bath.volume,
        bath.leastVolume,
        bath.targetStrength,
        bath.leastStrength,
        bath.careAfterPlates,
        bath.lotId,
        bath.state,
        bath.stateSince,
        bath.stateUntil,
        bath.note,
      ],
    );
  }

  async setState(
    tx: Tx,
    id: string,
    { state, stateSince, stateUntil }: Pick<Bath, 'state' | 'stateSince' | 'stateUntil'>,
  ): Promise<void> {
    await tx.run(
      `update bath set state = $3, state_since = $4, state_until = $5 where studio_id = $1 and bath_id = $2`,
      [tx.studioId, id, state, stateSince, stateUntil],
    );
  }

  /** @returns false when a line of this id is there already: the same form, sent twice */
  async addEvent(tx: Tx, one: BathEvent, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into bath_event (studio_id, event_id, bath_id, day, kind, method, density, temperature, strength, volume,
         crystals, area, plates, ph, state, until, takes_back, note, who, at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20)
       on conflict (studio_id, event_id) do nothing`,
      [
        tx.studioId,
        one.id,
        one.bathId,
        one.day,
        one.kind,
        one.method,
        one.density,
        one.temperature,
        one.strength,
        one.volume,
        one.crystals,
        one.area,
        one.plates,
        one.ph,
        one.state,
        one.until,
        one.takesBack,
        one.note,
        one.who,
        at,
      ],
    );
    return added === 1;
  }

  /** @returns false when this line is there already */
  async addFault(tx: Tx, one: Fault, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into fault (studio_id, fault_id, day, bath_id, lot_id, seen, note, changed, helped, who, at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) on conflict (studio_id, fault_id) do nothing`,
      [
        tx.studioId,
        one.id,
        one.day,
        one.bathId,
        one.lotId,
        one.seen,
        one.note,
        one.changed,
        one.helped,
        one.who,
        at,
      ],
    );
    return added === 1;
  }

  /** @returns whether there is such a line */
  async settleFault(tx: Tx, id: string, said: Pick<Fault, 'changed' | 'helped'>): Promise<boolean> {
    const sql = 'update fault set changed = $3, helped = $4 where studio_id = $1 and fault_id = $2';
    return (await tx.run(sql, [tx.studioId, id, said.changed, said.helped])) === 1;
  }
}
