// Copies through the owner's doors.
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RestoreService } from '../../src/backup/restore.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let folder: string;
let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let copies: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'plateday-copies-'));
  house = await openTestHouse({ now: '2026-11-26T10:00:00Z', env: { PLATEDAY_HOME: folder } });
  studio = await foundTestStudio(house);
  copies = `/s/${studio.slug}/desk/settings/copies`;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(async () => {
  await house.close();
  await rm(folder, { recursive: true, force: true });
});

test('the owner makes a copy with one tap, and takes the file away', async () => {
  expect(wordsOf((await owner.get(copies)).html)).toContain('No copy has been made yet.');
  const made = await owner.postAndFollow(copies, {});
  expect(wordsOf(made.html)).toContain('The copy is made. ');
  expect(wordsOf(made.html)).toContain('The newest copy was made on Thursday 26 November 2026.');
  const name = /copies\/([a-z0-9-]+T\d{6}Z\.tar\.gz)"/i.exec(made.html)?.[1] ?? '';
  const file = await owner.get(`${copies}/${name}`);
  expect(file.status).toBe(200);
  expect(file.header('content-disposition')).toBe(`attachment; filename="${name}"`);
  expect(file.header('cache-control')).toBe('no-store');
  const checked = await house.app.get(RestoreService).check(file.bytes);
  expect(checked.manifest.studio.slug).toBe(studio.slug);
});

test('no other file of the machine is given out', async () => {
  for (const name of ['..%2f..%2fsecret', 'secret', '%2e%2e%2fsecret', 'x-2026-11-26T100000Z.tar.gz'])
    expect((await owner.get(`${copies}/${name}`)).status).toBe(404);
});
