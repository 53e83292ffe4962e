// The book of plates in the database: looking up, correcting, fields of the back, series, lists for an archive.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { beginSeries, listForArchive } from '../../seed/archive.js';
import { bookQuery } from '../../src/plates/book.schemas.js';
import { BookService } from '../../src/plates/book.service.js';
import { HandOverService } from '../../src/plates/hand-over.service.js';
import { OwedService } from '../../src/plates/owed.service.js';
import { RecordService } from '../../src/plates/record.service.js';
import { SeriesService } from '../../src/plates/series.service.js';
import { ConsentsService } from '../../src/sittings/consents.service.js';
import { EndingsService } from '../../src/sittings/endings.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { writePlate } from '../support/plates-made.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let book: BookService;
let lists: HandOverService;
let sitting: string;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
  book = house.app.get(BookService);
  lists = house.app.get(HandOverService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `book-${++count}` });
  sitting = (
    await askForSitting(house, studio, {
      sitters: ['Ansel Brodrick', 'Perpetua Brodrick'],
      plates: [
        { plateSizeId: studio.sizes.whole.id, sitters: [0] },
        { plateSizeId: studio.sizes.whole.id, sitters: [0, 1] },
      ],
    })
  ).sittingId;
  await approve(house, studio, sitting, '2027-04-02T09:30');
  house.clock.set('2027-04-02T16:00:00Z');
});
afterAll(() => house.close());

const find = async (query: Record<string, unknown> = {}) =>
  (await book.find(studio.id, bookQuery.parse(query))).plates.map((one) => one.plate.number);
const plateIds = async () => {
  const sql = 'select plate_id from plate where studio_id = $1 and sitting_id = $2 order by position';
  const row = z.object({ plate_id: z.uuid() });
  const rows = await house.db.inStudio(studio.id, (tx) => tx.many(row, sql, [studio.id, sitting]));
  return rows.map((one) => one.plate_id);
};
const answer = async (name: string, purpose: string, said: string) => {
  const consents = house.app.get(ConsentsService);
  const by = { who: studio.owner, sittingId: sitting };
  const line = (await consents.lines(studio.id, by)).find(
    (one) => one.name === name && one.purpose === purpose,
  );
  const version = String(line?.wording.version);
  await consents.answer(studio.id, by, { sitter: line?.sitterId ?? '', purpose, version, answer: said });
};
const history = async (number: number) =>
  (await book.byNumber(studio.id, number)).history.map((one) => one.note);

describe('the book of plates', () => {
  it('is found by number, part of a name typed or asked for, day, and whether it is kept, a page at a time', async () => {
    await writePlate(house, studio, { number: 7, sittingId: sitting });
    await writePlate(house, studio, { number: 8, names: 'A 100%_er', day: '2026-11-21', keeper: false });
    await writePlate(house, studio, { number: 9, struck: true });
    expect(await find()).toEqual([9, 8, 7]);
    expect(await find({ find: '7' })).toEqual([7]);
    expect(await find({ find: 'PERPETUA' })).toEqual([7]);
    expect(await find({ find: '0%_' })).toEqual([8]);
    expect(await find({ find: '%' })).toEqual([8]);
    expect(await find({ day: '2026-11-21' })).toEqual([8]);
    expect(await find({ keeper: 'yes' })).toEqual([7]);
    expect(await find({ keeper: 'no', day: 'soon' })).toEqual([8]);
    for (let number = 10; number < 60; number++) await writePlate(house, studio, { number });
    const last = await book.find(studio.id, bookQuery.parse({ page: '2' }));
    expect([last.found, last.last, last.plates.length]).toEqual([53, 2, 3]);
  });

  it('knows who is on a plate: those it was asked for, or everybody of its sitting', async () => {
    const [alone = ''] = await plateIds();
    await writePlate(house, studio, { number: 1, sittingId: sitting, plateId: alone });
    await writePlate(house, studio, { number: 2, sittingId: sitting });
    const on = async (number: number) => (await book.byNumber(studio.id, number)).on.map((one) => one.name);
    expect(await on(1)).toEqual(['Ansel Brodrick']);
    expect(await on(2)).toEqual(['Ansel Brodrick', 'Perpetua Brodrick']);
    await expect(book.byNumber(studio.id, 3)).rejects.toMatchObject({ code: 'not_found' });
  });

  it('puts the name of whoever agreed on the back by itself, and any name that was typed', async () => {
    await writePlate(house, studio, { number: 1, sittingId: sitting });
    const names = async () =>
      (await book.byNumber(studio.id, 1)).record.find((one) => one.what === 'names')?.value;
    expect(await names()).toBeUndefined();
    await answer('Perpetua Brodrick', 'record', 'agree');
    expect(await names()).toBe('Perpetua Brodrick');
    await book.correct(studio.id, studio.owner, 1, { names: 'Pet  and\nAnsel' });
    expect(await names()).toBe('Pet and Ansel');
  });

  it('is corrected with what stood there before in its history, once', async () => {
    await writePlate(house, studio, { number: 1 });
    const { fields } = await house.app.get(RecordService).fields(studio.id);
    const remark = `field-${fields.find((one) => one.what === 'typed')?.id}`;
    await book.correct(studio.id, studio.assistant, 1, { names: 'Old Tam', [remark]: 'net maker' });
    await book.correct(studio.id, studio.assistant, 1, { names: 'Old Tam', [remark]: 'net maker' });
    await book.correct(studio.id, studio.assistant, 1, { names: 'Tam Orrell', [remark]: '' });
    expect(await history(1)).toEqual([
      'Names: “Old Tam”, before nothing. Remark: “net maker”, before nothing.',
      'Names: “Tam Orrell”, before “Old Tam”. Remark: nothing, before “net maker”.',
    ]);
    const long = book.correct(studio.id, studio.owner, 1, { names: '', [remark]: 'x'.repeat(301) });
    await expect(long).rejects.toMatchObject({ code: 'bad_input', fields: [{ field: remark }] });
    await writePlate(house, studio, { number: 2, struck: true });
    const struck = book.correct(studio.id, studio.owner, 2, { names: 'x' });
    await expect(struck).rejects.toMatchObject({ code: 'wrong_state' });
  });
});

describe('fields of the back', () => {
  it('are the usual ones until the owner adds, renames, moves or puts one away; what was typed stays', async () => {
    const records = house.app.get(RecordService);
    const labels = async () => (await records.fields(studio.id)).fields.map((one) => one.label);
    const usual = await labels();
    expect((await records.fields(studio.id)).usual).toBe(true);
    await records.save(studio.id, studio.owner, null, { label: 'Trade', what: 'typed' });
    const { fields } = await records.fields(studio.id);
    const trade = fields.find((one) => one.label === 'Trade')?.id ?? '';
    await records.move(studio.id, studio.owner, trade, { by: 'up' });
    await records.save(studio.id, studio.owner, trade, { label: 'Work', what: 'typed' });
    expect(await labels()).toEqual([...usual.slice(0, -1), 'Work', usual.at(-1)]);
    await records.remove(studio.id, studio.owner, fields[0]?.id ?? '');
    expect(await labels()).toEqual([...usual.slice(1, -1), 'Work', usual.at(-1)]);
    const gone = records.move(studio.id, studio.owner, fields[0]?.id ?? '', { by: 'up' });
    await expect(gone).rejects.toMatchObject({ code: 'not_found' });
  });
});

describe('a series', () => {
  it('counts its keepers towards its target, and knows the next number though one was struck', async () => {
    const all = house.app.get(SeriesService);
    const id = await all.save(studio.id, studio.owner, null, { name: 'Ropewalk', about: '', target: '40' });
    await writePlate(house, studio, { number: 1, series: { id, number: 1 } });
    await writePlate(house, studio, { number: 2, series: { id, number: 2 }, keeper: false });
    await writePlate(house, studio, { number: 3, series: { id, number: 3 }, struck: true });
    const { series } = await all.all(studio.id);
    expect(series).toMatchObject([{ name: 'Ropewalk', target: 40, keepers: 1, next: 4 }]);
    const same = all.save(studio.id, studio.owner, null, { name: 'Ropewalk', about: '', target: '' });
    await expect(same).rejects.toMatchObject({ fields: [{ field: 'name' }] });
  });
});

describe('a list for an archive', () => {
  const begin = () => lists.begin(studio.id, studio.owner, { takenBy: 'Saltmarsh Archive', note: '' });
  const one = (id: string) => lists.one(studio.id, id, bookQuery.parse({}));
  const add = (id: string, plates: string[], what = 'plate') =>
    lists.add(studio.id, studio.owner, id, { plates, what });

  it('takes only plates all of whose sitters agree; the others are told with the reason', async () => {
    const plate = await writePlate(house, studio, { number: 1, sittingId: sitting });
    await writePlate(house, studio, { number: 2, names: 'Somebody' });
    const test = await writePlate(house, studio, { number: 3 });
    const id = await begin();
    await answer('Ansel Brodrick', 'archive', 'agree');
    await answer('Perpetua Brodrick', 'archive', 'agree');
    await answer('Perpetua Brodrick', 'archive', 'withdraw');
    expect((await one(id)).offered.map((each) => each.may)).toEqual([
      { ok: true },
      { ok: false, reason: 'people not known' },
      { ok: false, reason: 'no consent', asked: [], takenBack: ['Perpetua Brodrick'] },
    ]);
    await expect(add(id, [test, plate])).rejects.toMatchObject({ fields: [{ field: 'plates' }] });
    expect((await one(id)).plates).toEqual([]);
    await answer('Perpetua Brodrick', 'archive', 'agree');
    await add(id, [test, plate]);
    expect((await one(id)).plates.map((each) => each.plate.number)).toEqual([1, 3]);
  });

  it('takes a plate once, its scan on any list, and nothing once it is given', async () => {
    const plate = await writePlate(house, studio, { number: 1 });
    const [first, second] = [await begin(), await begin()];
    const both = await Promise.allSettled([add(first, [plate]), add(second, [plate])]);
    expect(both.map((each) => each.status).sort()).toEqual(['fulfilled', 'rejected']);
    const other = (await one(first)).plates.length === 1 ? second : first;
    await add(other, [plate], 'scan');
    await expect(add(other, [plate], 'scan')).rejects.toMatchObject({ code: 'bad_input' });
    await lists.give(studio.id, studio.owner, other, { day: '2027-04-01' });
    await expect(lists.takeOff(studio.id, studio.owner, other, { plate })).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('is not given for a day to come, nor empty, nor with somebody who took their yes back; later it is told', async () => {
    const plate = await writePlate(house, studio, { number: 1, sittingId: sitting });
    const id = await begin();
    const give = (day = '2027-04-02') => lists.give(studio.id, studio.owner, id, { day });
    await expect(give()).rejects.toMatchObject({ code: 'wrong_state' });
    for (const name of ['Ansel Brodrick', 'Perpetua Brodrick']) await answer(name, 'archive', 'agree');
    await add(id, [plate]);
    await expect(give('2027-04-03')).rejects.toMatchObject({ code: 'bad_input' });
    await answer('Ansel Brodrick', 'archive', 'withdraw');
    await expect(give()).rejects.toMatchObject({ code: 'wrong_state' });
    await answer('Ansel Brodrick', 'archive', 'agree');
    await give();
    await answer('Ansel Brodrick', 'archive', 'withdraw');
    expect((await one(id)).plates[0]?.may).toMatchObject({ takenBack: ['Ansel Brodrick'] });
  });

  it('lets the plates of a sitting leave once all kept ones are given, and takes just that back the same day', async () => {
    await house.app.get(EndingsService).end(studio.id, studio.owner, sitting, { how: 'made' });
    for (const name of ['Ansel Brodrick', 'Perpetua Brodrick']) await answer(name, 'archive', 'agree');
    const [one, two] = [
      await writePlate(house, studio, { number: 1, sittingId: sitting }),
      await writePlate(house, studio, { number: 2, sittingId: sitting }),
    ];
    await writePlate(house, studio, { number: 3, sittingId: sitting, keeper: false });
    const owed = async () => (await house.app.get(OwedService).list(studio.id)).entries[0]?.owed.finishedAt;
    const [first, second] = [await begin(), await begin()];
    await add(first, [one]);
    await add(second, [two]);
    await lists.give(studio.id, studio.owner, first, { day: '2027-04-02' });
    expect(await owed()).toBeNull();
    house.clock.set('2027-04-02T17:00:00Z');
    await lists.give(studio.id, studio.owner, second, { day: '2027-04-02' });
    expect(String(await owed())).toBe('2027-04-02T17:00:00Z');
    await lists.takeBack(studio.id, studio.owner, first);
    expect(await owed()).not.toBeNull();
    await lists.takeBack(studio.id, studio.owner, second);
    expect(await owed()).toBeNull();
    await lists.give(studio.id, studio.owner, second, { day: '2027-04-02' });
    house.clock.set('2027-04-03T17:00:00Z');
    await expect(lists.takeBack(studio.id, studio.owner, second)).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('is made for the demo of the plates of the latest sitting, and not at all where there are none', async () => {
    const setting = { studioId: studio.id, owner: studio.owner as never };
    await beginSeries(house.app, setting);
    await listForArchive(house.app, setting);
    expect(await lists.all(studio.id)).toEqual([]);
    await writePlate(house, studio, { number: 1, sittingId: sitting, names: 'Ansel' });
    await listForArchive(house.app, setting);
    const [made] = await lists.all(studio.id);
    const shown = await one(made?.list.hand_over_id ?? '');
    expect(shown.plates.map(({ plate, may }) => [plate.number, may])).toEqual([[1, { ok: true }]]);
    expect((await book.byNumber(studio.id, 1)).record).toContainEqual({
      label: 'Trade',
      what: 'typed',
      value: 'Net mender',
    });
  });
});
