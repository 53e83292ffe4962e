// After any forty acts at the shelf what is on hand is the sum of the movements, what is set aside is the sum of
// the reservations, nothing is below nothing, and no bottle is set aside outside its days. Here on the pure core,
// 500 runs; on the database in test/db/shelf-conservation.spec.ts.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type ItemFacts, replanItem } from '../../src/stock/replan.calc.js';
import { ALL_ACTS, type Ran, steps } from '../support/shelf-acts.js';
import { ShelfCore } from '../support/shelf-core.js';

async function run(numRuns: number, replan = replanItem): Promise<Ran> {
  const ran: Ran = { done: new Map() };
  const property = fc.asyncProperty(steps, (acts) =>
    fc.asyncModelRun(() => ({ model: ran, real: new ShelfCore(replan) }), acts),
  );
  await fc.assert(property, { numRuns, endOnFailure: true });
  return ran;
}

/** What the first violation was, or that there was none. */
const caught = (replan: typeof replanItem) =>
  run(3000, replan).then(
    () => 'nothing',
    (error: Error) => (error.cause as Error).message.replace(/^[^:]*: /, ''),
  );

describe('the pure core of the shelf', () => {
  it('keeps account of all in any forty acts, five hundred times', async () => {
    const { done } = await run(500);
    expect(ALL_ACTS.filter((act) => (done.get(act) ?? 0) < 20)).toEqual([]);
  }, 60_000);

  it('is caught planning with bottles that are not good', async () => {
    const good = (lots: ItemFacts['lots']) => lots.map((lot) => ({ ...lot, state: 'good' as const }));
    expect(
      await caught((facts, entered) => replanItem({ ...facts, lots: good(facts.lots) }, entered)),
    ).toContain('is set aside and not good');
  });

  it('is caught planning with bottles past their days', async () => {
    const lasting = (lots: ItemFacts['lots']) => lots.map((lot) => ({ ...lot, usableUntil: null }));
    expect(
      await caught((facts, entered) => replanItem({ ...facts, lots: lasting(facts.lots) }, entered)),
    ).toContain('is set aside outside its days');
  });

  it('is caught forgetting what days past still hold', async () => {
    expect(await caught((facts, entered) => replanItem({ ...facts, past: new Map() }, entered))).toContain(
      'is below nothing',
    );
  });

  it('is caught leaving what is planned as it was when a bottle changes', async () => {
    expect(
      await caught((facts, entered) =>
        entered?.length ? replanItem(facts, entered) : { changes: [], worse: [] },
      ),
    ).toMatch(/below nothing|not good|outside its days/);
  });
});
