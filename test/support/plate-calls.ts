// The reading methods of the stores of plates, called with a plate that stands on a list for an archive.
import { z } from 'zod';
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { bookQuery } from '../../src/plates/book.schemas.js';
import { BookStore } from '../../src/plates/book.store.js';
import { HandOverStore } from '../../src/plates/hand-over.store.js';
import { USUAL_SHEET } from '../../src/plates/labels.calc.js';
import { labelQuery } from '../../src/plates/labels.schemas.js';
import { LabelsStore } from '../../src/plates/labels.store.js';
import { USUAL_FIELDS } from '../../src/plates/record.calc.js';
import { RecordStore } from '../../src/plates/record.store.js';
import { SeriesStore } from '../../src/plates/series.store.js';
import { ConsentsStore } from '../../src/sittings/consents.store.js';
import type { TestStudio } from './studio.js';

const PLATE = '00000000-0000-4000-8000-00000000f101';
const LIST = '00000000-0000-4000-8000-00000000f102';
const SERIES = '00000000-0000-4000-8000-00000000f103';
const NUMBER = 4711;

/** A plate of a series with something on its back, on a list for an archive; a sheet for labels. */
export async function recordSomething(tx: Tx, studio: TestStudio, sittingId: string): Promise<void> {
  const at = Temporal.Instant.from('2026-11-20T18:00Z');
  const series = { series_id: SERIES, name: 'Lamplighters', about: '', target: 12, archived: false };
  await new SeriesStore().save(tx, series);
  await tx.run(
    `insert into plate_made (studio_id, made_id, number, day, sitting_id, plate_size_id, keeper, series_id, series_number,
       typed_at, who) values ($1, $2, $3, date '2026-11-20', $4, $5, true, $6, 1, $7, 'Isaura Fenwick')`,
    [tx.studioId, PLATE, NUMBER, sittingId, studio.sizes.whole.id, SERIES, at],
  );
  const records = new RecordStore();
  for (const field of USUAL_FIELDS) await records.saveField(tx, field);
  await records.setEntry(tx, PLATE, USUAL_FIELDS.at(-1)?.id ?? '', 'Cracked corner');
  await new LabelsStore().saveSheet(tx, USUAL_SHEET);
  const lists = new HandOverStore();
  await lists.insert(tx, { hand_over_id: LIST, taken_by: 'Saltmarsh Archive', note: '', made_at: at });
  await lists.add(tx, LIST, [PLATE], 'plate');
  const consents = new ConsentsStore();
  const row = z.object({ contact_id: z.uuid(), sitter_id: z.uuid() });
  const sql = `select contact_id, sitter_id from sitter join sitting using (studio_id, contact_id)
    where studio_id = $1 and sitting_id = $2`;
  const agreed = {
    purpose: 'archive',
    version: 1,
    givenAt: at,
    givenHow: 'told',
    givenBy: 'Isaura',
  } as const;
  await consents.keep(tx, { ...agreed, words: 'To an archive.' }, at, 'standard');
  for (const { contact_id, sitter_id: sitterId } of await tx.many(row, sql, [tx.studioId, sittingId]))
    await consents.give(tx, contact_id, { ...agreed, id: new SystemRandom().id(), sitterId });
}

type Call = (tx: Tx, of: { contactId: string; sittingId: string }) => Promise<unknown>;

export const PLATE_CALLS: Record<string, Call> = {
  'BookStore.find': (tx) => new BookStore().find(tx, bookQuery.parse({}), { most: 9, from: 0 }),
  'BookStore.count': (tx) => new BookStore().count(tx, bookQuery.parse({ find: `${NUMBER}` })),
  'BookStore.byNumber': (tx) => new BookStore().byNumber(tx, NUMBER),
  'BookStore.byIds': (tx) => new BookStore().byIds(tx, [PLATE]),
  'BookStore.ofSittings': (tx, { sittingId }) => new BookStore().ofSittings(tx, [sittingId]),
  'BookStore.people': (tx) => new BookStore().people(tx, [PLATE]),
  'BookStore.days': (tx) => new BookStore().days(tx, 9),
  'BookStore.lock': (tx) => new BookStore().lock(tx, [PLATE]),
  'RecordStore.fields': (tx) => new RecordStore().fields(tx),
  'RecordStore.entries': (tx) => new RecordStore().entries(tx, [PLATE]),
  'LabelsStore.sheet': (tx) => new LabelsStore().sheet(tx),
  'LabelsStore.wanted': (tx) => new LabelsStore().wanted(tx, labelQuery.parse({ plate: `${NUMBER}` })),
  'SeriesStore.all': (tx) => new SeriesStore().all(tx),
  'SeriesStore.coming': async (tx, { sittingId }) => {
    await tx.run(`update sitting_kind set keeps_plate = 'series' where studio_id = $1`, [tx.studioId]);
    await tx.run(
      `update sitting set kind_id = (select kind_id from sitting_kind where studio_id = $1 limit 1)
       where studio_id = $1 and sitting_id = $2`,
      [tx.studioId, sittingId],
    );
    return (await new SeriesStore().coming(tx)).size;
  },
  'HandOverStore.all': (tx) => new HandOverStore().all(tx),
  'HandOverStore.byId': (tx) => new HandOverStore().byId(tx, LIST),
  'HandOverStore.locked': (tx) => new HandOverStore().locked(tx, LIST),
  'HandOverStore.onList': (tx) => new HandOverStore().onList(tx, LIST),
  'HandOverStore.ofPlates': (tx) => new HandOverStore().ofPlates(tx, [PLATE]),
  'HandOverStore.counts': async (tx) => (await new HandOverStore().counts(tx)).size,
  'ConsentsStore.said': async (tx, { contactId }) => {
    const sitter = 'select sitter_id from sitter where studio_id = $1 and contact_id = $2';
    const rows = await tx.many(z.object({ sitter_id: z.uuid() }), sitter, [tx.studioId, contactId]);
    const ids = rows.map((row) => row.sitter_id);
    return new ConsentsStore().said(tx, ids);
  },
};
