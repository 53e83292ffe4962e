// The reading methods of the stores of a person's data. The catalogue is nobody's rows.
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { ErasureStore } from '../../src/privacy/erasure.store.js';
import { KeepingStore } from '../../src/privacy/keeping.store.js';
import { PrivacyStore } from '../../src/privacy/privacy.store.js';

type Call = (tx: Tx, of: { contactId: string; sittingId: string }) => Promise<unknown>;

const store = new PrivacyStore();
const erasing = new ErasureStore();
const keeping = new KeepingStore();
const LATE = Temporal.Instant.from('2099-01-01T00:00Z');
const or = (count: number) => (count > 0 ? [count] : []);

/** Somebody of whom nothing is kept any more, and rules by which nobody goes. */
export async function eraseSomebody(tx: Tx): Promise<void> {
  await erasing.note(
    tx,
    new SystemRandom().id(),
    Temporal.Instant.from('2026-11-20T18:00Z'),
    'a rule of keeping',
  );
  const never = { unansweredDays: null, refusedDays: null, madeMonths: null, lettersDays: null };
  await keeping.save(tx, never);
}

export const PRIVACY_CALLS: Record<string, Call> = {
  'PrivacyStore.columns': async (tx, { contactId }) =>
    (await store.columns(tx)).length > 100 ? store.rows(tx, 'contact', ['name'], [contactId]) : [],
  'PrivacyStore.lock': (tx, { contactId }) => store.lock(tx, contactId),
  'PrivacyStore.contactOf': (tx, { sittingId }) => store.contactOf(tx, sittingId),
  'PrivacyStore.ids': (tx, { contactId }) => store.ids(tx, contactId),
  'PrivacyStore.needles': (tx, { contactId }) => store.needles(tx, contactId),
  'PrivacyStore.rows': (tx, { contactId }) => store.rows(tx, 'contact', ['name'], [contactId]),
  'PrivacyStore.count': async (tx, { contactId }) => or(await store.count(tx, 'contact', [contactId])),
  'PrivacyStore.standing': async (tx, { contactId }) =>
    or(await store.standing(tx, contactId, Temporal.Instant.from('2026-11-25T10:00Z'))),
  'ErasureStore.erased': (tx) => erasing.erased(tx),
  'PrivacyStore.present': (tx, { contactId }) => store.present(tx, [contactId]),
  'ErasureStore.messageIds': async (tx) => {
    await tx.run(`update mail set snapshot = '{}' where studio_id = $1`, [tx.studioId]);
    return erasing.messageIds(tx);
  },
  'PrivacyStore.asked': async (tx, { contactId }) => {
    await store.askToBeErased(tx, contactId, LATE);
    return store.asked(tx);
  },
  'KeepingStore.rules': (tx) => keeping.rules(tx),
  'KeepingStore.asked': (tx) => keeping.asked(tx),
  'KeepingStore.oldLetters': async (tx) => {
    await tx.run(`update mail set state = 'sent', by_hand = '' where studio_id = $1`, [tx.studioId]);
    return or(await keeping.oldLetters(tx, LATE));
  },
};
