// An outside calendar that could not be read the last time, and the reading methods of its store.
import { Temporal } from 'temporal-polyfill';
import { OutsideStore } from '../../src/outside/outside.store.js';
import type { Tx } from '../../src/platform/db/tx.js';

const ID = '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a51';
const store = new OutsideStore();

/** Has one entry over the winter, and blocks nothing. @returns its id */
export async function failOutside(tx: Tx, now: Temporal.Instant): Promise<string> {
  const at = (day: string) => Temporal.Instant.from(`${day}T09:00Z`).epochMilliseconds;
  await store.insert(tx, {
    calendar_id: ID,
    name: 'School holidays',
    sealed_address: Buffer.from('sealed'),
    host: 'calendar.example',
    state: 'on',
    blocks: 'nothing',
    margin_minutes: 0,
    etag: '',
    last_modified: '',
    copy: '',
    entries: 2,
    free: 1,
    busy: [{ title: 'Inset day', from: at('2026-12-01'), until: at('2027-03-20'), wholeDays: false }],
    blocking: [],
    created_at: now,
    read_at: now,
    next_at: now.add({ hours: 2 }),
    failures: 1,
    failure: 'gone',
  });
  return ID;
}

export const OUTSIDE_CALLS: Record<string, (tx: Tx) => Promise<unknown>> = {
  'OutsideStore.all': (tx) => store.all(tx),
  'OutsideStore.byId': (tx) => store.byId(tx, ID),
  'OutsideStore.locked': (tx) => store.locked(tx, ID),
  'OutsideStore.failing': (tx) => store.failing(tx),
  'OutsideStore.nextAt': (tx) => store.nextAt(tx),
};
