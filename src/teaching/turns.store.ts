// SQL of kept turns.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type Turns, toTurns, turnsRow } from './turns.schemas.js';

export class TurnsStore {
  /** The turns of a day, or null; with `lock` nobody else changes them until the transaction ends. */
  async kept(tx: Tx, sessionId: string, lock: boolean): Promise<Turns | null> {
    const row = await tx.maybe(
      turnsRow,
      `select * from teaching_turns where studio_id = $1 and session_id = $2 ${lock ? 'for no key update' : ''}`,
      [tx.studioId, sessionId],
    );
    return row && toTurns(row);
  }

  /** Keeps turns in the place of those there were. */
  async keep(
    tx: Tx,
    { sessionId, basis, bench, rota, told }: Pick<Turns, 'sessionId' | 'basis' | 'bench' | 'rota' | 'told'>,
    at: Temporal.Instant,
  ): Promise<void> {
    await tx.run(
      `insert into teaching_turns (studio_id, session_id, basis, bench, rota, meanwhile, revision, kept_at, changed_at)
       values ($1, $2, $3, $4, $5, $6, 1, $7, $7)
       on conflict (studio_id, session_id) do update set basis = excluded.basis, bench = excluded.bench,
         rota = excluded.rota, meanwhile = excluded.meanwhile, revision = teaching_turns.revision + 1,
         kept_at = excluded.kept_at, changed_at = excluded.changed_at`,
      [tx.studioId, sessionId, basis, JSON.stringify(bench), JSON.stringify(rota), JSON.stringify(told), at],
    );
  }

  /** The rest of the day laid anew. Whoever calls holds the lock of `kept`. */
  async change(
    tx: Tx,
    { sessionId, rota, told }: Pick<Turns, 'sessionId' | 'rota' | 'told'>,
    at: Temporal.Instant,
  ): Promise<void> {
    await tx.run(
      `update teaching_turns set rota = $3, meanwhile = $4, revision = revision + 1, changed_at = $5
       where studio_id = $1 and session_id = $2`,
      [tx.studioId, sessionId, JSON.stringify(rota), JSON.stringify(told), at],
    );
  }
}
