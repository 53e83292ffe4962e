// Two transactions step by step: the first acts and keeps its transaction open, the second acts and has to
// wait, the first commits. What PostgreSQL's own isolation tests do, in a few lines.
import pg from 'pg';
import type { Tx } from '../../src/platform/db/tx.js';
import type { TestHouse } from './house.js';

export type Act = (tx: Tx) => Promise<unknown>;

/** How both ended, the first first. The second began when the first had acted and not yet committed. */
export async function firstAndSecond(
  house: TestHouse,
  studioId: string,
  first: Act,
  second: Act,
): Promise<[PromiseSettledResult<unknown>, PromiseSettledResult<unknown>]> {
  const acted = gate();
  const mayCommit = gate();
  const one = house.db.inStudio(studioId, async (tx) => {
    await first(tx);
    acted.open();
    await mayCommit.opened;
  });
  await Promise.race([acted.opened, one]);
  const two = house.db.inStudio(studioId, second);
  const outcome = Promise.allSettled([one, two]);
  await untilItWaits(house, two);
  mayCommit.open();
  return outcome;
}

/** A promise that is kept when somebody says so. */
export function gate(): { opened: Promise<void>; open: () => void } {
  let open = () => {};
  const opened = new Promise<void>((done) => {
    open = done;
  });
  return { opened, open };
}

/** Until a session of this database waits for a lock, or the second act has ended without waiting. */
async function untilItWaits(house: TestHouse, second: Promise<unknown>): Promise<void> {
  const state = { ended: false };
  const end = () => {
    state.ended = true;
  };
  second.then(end, end);
  const watch = new pg.Client({ connectionString: house.database.url });
  await watch.connect();
  try {
    while (!state.ended) {
      const { rows } = await watch.query(
        `select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`,
      );
      if (rows.length > 0) return;
      await new Promise((done) => setTimeout(done, 5));
    }
  } finally {
    await watch.end();
  }
}

/** Until a session of this database waits for a lock. */
export const untilSomebodyWaits = (house: TestHouse): Promise<void> =>
  untilItWaits(house, new Promise<never>(() => {}));
