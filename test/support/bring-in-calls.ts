// Something that was brought in, a draft that waits, and the reading methods of their store.
import { createHash } from 'node:crypto';
import type { Temporal } from 'temporal-polyfill';
import { BringInStore } from '../../src/desk/bring-in/bring-in.store.js';
import { firstChoices } from '../../src/desk/bring-in/reading.calc.js';
import { historyUpTo, touchedSince } from '../../src/platform/db/history.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { SittingsStore } from '../../src/sittings/sittings.store.js';
import { LotsStore } from '../../src/stock/lots.store.js';
import { BroughtStore } from '../../src/plates/brought.store.js';
import { MADE_ID } from './made.js';
import type { Belongings } from './store-calls.js';

const DRAFT = '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a61';
const BROUGHT = '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a62';
const SUM = createHash('sha256').update('a diary').digest();
const store = new BringInStore();

/** One line of it wants another look, and one date can be read both ways. */
const DIARY = [
  'Name,Contact,Asked on,Promised,Home,Note',
  'Ottoline Grebe,ottoline@example.org,3/4/2026,,Whitby,=1+1',
  'Barnaby Teal,,14/5/2026,2 April 2027,,',
  'Sunniva Pipit,01632 960111,14/5/2026,,Nowhere-upon-Sea,',
].join('\n');

/** @returns the draft's id */
export async function bringSomethingIn(tx: Tx, sittingId: string, now: Temporal.Instant): Promise<string> {
  const draft = {
    what: 'diary',
    source: DIARY,
    choices: firstChoices('diary', DIARY, 'day first'),
    guessed: true,
  } as const;
  await store.keepDraft(tx, { draft_id: DRAFT, ...draft }, now);
  const one = { id: BROUGHT, what: 'diary', at: now, who: 'Isaura Fenwick', sum: SUM, upTo: 0n } as const;
  await store.insert(tx, one, [{ line: 2, became_id: sittingId }]);
  return DRAFT;
}

export const BRING_IN_CALLS: Record<string, (tx: Tx, of: Belongings) => Promise<unknown>> = {
  'BringInStore.draft': (tx) => store.draft(tx, DRAFT, false),
  'BringInStore.drafts': (tx) => store.drafts(tx),
  'BringInStore.all': (tx) => store.all(tx),
  'BringInStore.locked': (tx) => store.locked(tx, BROUGHT),
  'BringInStore.bySum': (tx) => store.bySum(tx, SUM),
  'BringInStore.lines': (tx) => store.lines(tx, BROUGHT),
  'SittingsStore.spokenOf': async (tx, { sittingId }) => [
    ...(await new SittingsStore().spokenOf(tx, [sittingId])),
  ],
  'LotsStore.usedOf': async (tx, { lotIds }) => [...(await new LotsStore().usedOf(tx, lotIds))],
  'BroughtStore.taken': async (tx) => [...(await new BroughtStore().taken(tx, [1, 2, 3]))],
  'BroughtStore.usedOf': async (tx) => [...(await new BroughtStore().usedOf(tx, [MADE_ID], 0n))],
  historyUpTo: async (tx) => Number(await historyUpTo(tx)),
  touchedSince: async (tx, { sittingId }) => [...(await touchedSince(tx, 0n, [sittingId]))],
};
