// What is owed after a day, for tests: a step of the studio's own, with other days for a kind of sitting.
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { USUAL_STEPS } from '../../src/plates/owed-steps.calc.js';
import { OwedStore } from '../../src/plates/owed.store.js';
import type { TestHouse } from './house.js';

/** A kind of sitting. @returns its id */
export async function enterKind(tx: Tx, name: string): Promise<string> {
  const id = new SystemRandom().id();
  await tx.run(
    `insert into sitting_kind (studio_id, kind_id, position, name, offered, plates, keeps_plate)
     values ($1, $2, 1, $3, 'owner', 1, 'studio')`,
    [tx.studioId, id, name],
  );
  return id;
}

/** The usual steps as the studio's own, one with other days for a kind, and the first ticked for a sitting. */
export async function oweSomething(house: TestHouse, tx: Tx, sittingId: string): Promise<void> {
  const store = new OwedStore();
  const kindId = await enterKind(tx, 'Test');
  for (const step of USUAL_STEPS) await store.saveStep(tx, { ...step, byKind: new Map([[kindId, 3]]) });
  const stepId = USUAL_STEPS[0]?.id ?? '';
  await store.tick(tx, { sittingId, stepId, at: house.clock.now(), who: 'Isaura Fenwick' });
}
