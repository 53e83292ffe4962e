// All plates, the back of one, series and lists for an archive, through the doors of owner and assistant.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { writePlate } from '../support/plates-made.js';
import { readCsv } from '../support/csv-reader.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let plates: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  plates = `/s/${studio.slug}/desk/plates`;
  const { sittingId } = await askForSitting(house, studio, { name: 'Corin Ashby' });
  await approve(house, studio, sittingId, '2027-04-02T09:30');
  await writePlate(house, studio, { number: 41, sittingId });
  await writePlate(house, studio, { number: 42, struck: true });
  await writePlate(house, studio, { number: 43 });
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
});
afterAll(() => house.close());

test('the assistant finds a plate by part of a name, and all that is known of it', async () => {
  const { html } = await assistant.get(`${plates}?find=ashb`);
  expect(wordsOf(html)).toContain('One plate.');
  expect(html).toContain(`href="${plates}/41"`);
  const words = wordsOf((await assistant.get(`${plates}/41`)).html);
  expect(words).toContain('Corin Ashby (no yes to an archive is known)');
  expect(words).toContain('bright overcast');
  expect(words).toContain('For an archive on no list');
  expect(words).toContain('they have not agreed that the name is kept with the plate');
  expect(wordsOf((await assistant.get(`${plates}/42`)).html)).toContain('typed in by mistake');
  expect((await assistant.get(`${plates}/44`)).status).toBe(404);
  expect((await assistant.get(`${plates}/041`)).status).toBe(404);
});

test('what stands on the back is corrected, a mistake beside its field keeps all that was typed', async () => {
  const { html } = await assistant.get(`${plates}/41`);
  const known = fieldsOf(html, `${plates}/41/record`);
  const field = Object.keys(known).find((one) => one.startsWith('field-')) ?? '';
  const long = 'x'.repeat(301);
  const wrong = await assistant.post(`${plates}/41/record`, { ...known, names: 'Corin', [field]: long });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, field)).toBe('Please keep this under 300 characters.');
  expect(fieldsOf(wrong.html, `${plates}/41/record`)).toMatchObject({ names: 'Corin', [field]: long });
  const saved = await assistant.postAndFollow(`${plates}/41/record`, { ...known, names: '<b>Corin</b>' });
  expect(wordsOf(saved.html)).toContain('Name <b>Corin</b>');
  expect(wordsOf(saved.html)).toContain('Names: “<b>Corin</b>”, before nothing.');
});

test('the owner adds a line to the back and moves it up', async () => {
  await owner.get(`${plates}/fields?form=new`);
  const wrong = await owner.post(`${plates}/fields/new`, { label: '', what: '' });
  expect(errorAt(wrong.html, 'label')).toBe('Please name the field.');
  const added = await owner.postAndFollow(`${plates}/fields/new`, { label: 'Trade', what: 'typed' });
  expect(wordsOf(added.html)).not.toContain('our assumption');
  const id = [...added.html.matchAll(/form=([0-9a-f-]{36})#form/g)].at(-1)?.[1];
  const moved = await owner.postAndFollow(`${plates}/fields/${id}/move`, { by: 'up' });
  expect(wordsOf(moved.html)).toMatch(/Trade Tells something typed.*Remark Tells something typed/);
});

test('a series is begun, told with its progress, and put away', async () => {
  await owner.get(`${plates}/series?form=new`);
  const sent = { name: 'Ropewalk', about: 'Those who twist rope.', target: 'many' };
  const wrong = await owner.post(`${plates}/series/new`, sent);
  expect(errorAt(wrong.html, 'target')).toBe('Please give a number of plates, 1 to 100000, or nothing.');
  const { html } = await owner.postAndFollow(`${plates}/series/new`, { ...sent, target: '40' });
  const words = wordsOf(html);
  expect(words).toContain('So far 0 of 40 plates Next number 1');
  expect(words).toContain('No sitting for a series waits for a place; none has a place');
  const id = /series\/([0-9a-f-]{36})"/.exec(html)?.[1] ?? '';
  await owner.get(`${plates}/series/${id}`);
  const away = await owner.postAndFollow(`${plates}/series/${id}`, { ...sent, target: '', archived: 'yes' });
  expect(wordsOf(away.html)).toContain('Put away (1)');
});

test('a list for an archive shows why a plate may not go, is given on a day, and is read as a table', async () => {
  await owner.get(`${plates}/hand-over`);
  const wrong = await owner.post(`${plates}/hand-over/new`, { takenBy: '', note: 'First part' });
  expect(errorAt(wrong.html, 'takenBy')).toBe('Please say who takes them.');
  const sent = { takenBy: 'Saltmarsh Archive', note: '' };
  const begun = await owner.post(`${plates}/hand-over/new`, sent);
  const list = begun.location.replace(/\?.*/, '');
  const { html } = await owner.get(list);
  expect(wordsOf(html)).toContain('no yes to an archive is known of Corin Ashby');
  const none = await owner.post(`${list}/add`, {});
  expect(errorAt(none.html, 'plates')).toBe('Please choose at least one plate.');
  const free = /name="plates" value="([^"]+)"/.exec(html)?.[1] ?? '';
  const added = await owner.postAndFollow(`${list}/add`, { plates: free, what: 'plate' });
  expect(wordsOf(added.html)).toContain('They stand on the list.');
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update plate_size set name = '=1+1, "whole"' where studio_id = $1`, [studio.id]),
  );
  const table = await owner.get(`${list}/list.csv`);
  expect(table.header('content-type')).toBe('text/csv; charset=utf-8; header=present');
  expect(table.bytes.subarray(0, 3)).toEqual(Buffer.from([0xef, 0xbb, 0xbf]));
  expect(readCsv(table.bytes.toString('utf8').slice(1))).toEqual([
    ['plate', 'given as', 'day', 'names', 'series', 'series number', 'size'],
    ['43', 'plate', '2026-11-20', '', '', '', `'=1+1, "whole"`],
  ]);
  const day = { 'day-day': '1', 'day-month': '1', 'day-year': '2099' };
  expect(errorAt((await owner.post(`${list}/give`, day)).html, 'day')).toBe('This day is still to come.');
  const today = { 'day-day': '25', 'day-month': 'November', 'day-year': '2026' };
  const given = await owner.postAndFollow(`${list}/give`, today);
  expect(wordsOf(given.html)).toContain('Given on Wednesday 25 November 2026, one plate on it.');
  const late = await owner.post(`${list}/off`, { plate: free });
  expect(late.status).toBe(409);
  expect(wordsOf(late.html)).toContain('This list is given; it is changed no more.');
  expect(wordsOf((await owner.postAndFollow(`${list}/take-back`)).html)).toContain(
    'They count as not given.',
  );
});

test('the sheet of labels is set in millimetres, and does not go past the paper', async () => {
  const { html } = await owner.get(`${plates}/labels`);
  const known = fieldsOf(html, `${plates}/labels/sheet`);
  expect(known).toMatchObject({ paper: 'A4', width: '60', height: '40', across: '3' });
  const wide = await owner.post(`${plates}/labels/sheet`, { ...known, across: '4' });
  expect(errorAt(wide.html, 'across')).toBe('So many of this width are wider than the paper.');
  const saved = await owner.postAndFollow(`${plates}/labels/sheet`, { ...known, width: '60,5' });
  expect(wordsOf(saved.html)).toContain('3 across, each 60.5 by 40 mm, on A4.');
  const printed = await owner.get(`${plates}/labels/print?plate=41&plate=42&plate=43`);
  expect([...printed.html.matchAll(/class="label"/g)]).toHaveLength(2);
  expect(printed.html).toContain('&lt;b>Corin&lt;/b>');
});
