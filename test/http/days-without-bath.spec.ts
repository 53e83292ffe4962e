// A studio day that no silver bath takes, wherever its owner looks: front page, sitting, request, preparation, baths.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { BathLedgerService } from '../../src/stock/bath-ledger.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { enterBath, putAside } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let sitting: string;
let request: string;
let number = 0;
const DAY = '2026-12-04';
const OTHER = '2026-12-11';
const RETIRED = 'every bath is retired';

beforeAll(async () => {
  house = await openTestHouse(); // Wednesday 25 November 2026
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `no-bath-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  owner = await signedIn(house, studio, 'owner');
  const ask = async (day: string) =>
    (await askForSitting(house, studio, { suits: { kind: 'these', days: [day] } })).sittingId;
  sitting = await ask(DAY);
  const [start = ''] = await openStarts(house, studio, { from: DAY, until: DAY });
  await approve(house, studio, sitting, start);
  request = await ask(OTHER);
});

const page = async (path: string) => wordsOf((await owner.get(`/s/${studio.slug}/desk${path}`)).html);
const pages = async () => ({
  front: await page(''),
  sitting: await page(`/requests/${sitting}`),
  request: await page(`/requests/${request}`),
  prepare: await page('/prepare'),
  baths: await page('/shelf/baths'),
});
async function retire(bathId: string) {
  const line = { do: 'state', state: 'retired', day: '2026-11-25' };
  const { ledger, key } = { ledger: house.app.get(BathLedgerService), key: crypto.randomUUID() };
  await ledger.enter(studio.id, studio.owner, bathId, key, line);
}

it('is told on every page once all baths are retired, and no more when one works', async () => {
  for (const name of ['Tank A', 'Tank B']) await retire(await enterBath(house, studio, { name }));
  const { front, sitting: confirmed, request: asked, prepare, baths } = await pages();
  expect(front).toMatch(
    /The shelf, today .*No bath for Friday 4 December 2026 not ready ?\. As things stand every bath is retired/,
  );
  expect(front).toMatch(
    /Who comes next .*Confirmed sittings, the next first .*Linnea Harrow .*every bath is retired/,
  );
  expect(front).not.toContain('the shelf wants nothing');
  expect(confirmed).toMatch(/From the shelf .*Silver bath .*every bath is retired/);
  expect(asked).toMatch(/Friday 11 December .*every bath is retired/);
  expect(prepare).toMatch(/No bath for Friday 4 December 2026 ?\. As things stand every bath is retired/);
  expect(baths).toContain('Friday 4 December none: every bath is retired');
  expect(baths).not.toContain('Top up not needed');
  await enterBath(house, studio, { name: 'Tank C' });
  for (const text of Object.values(await pages())) expect(text).not.toContain(RETIRED);
});

it('is told with its reason where a bath is only put aside', async () => {
  await putAside(house, studio, `bath:${await enterBath(house, studio)}`);
  for (const text of Object.values(await pages()))
    expect(text).toContain('no bath large enough works that day');
});

it('is nothing to tell where no bath was ever entered, but on the page of the baths', async () => {
  const { baths, ...others } = await pages();
  expect(baths).toContain('none: no bath was ever entered');
  for (const text of Object.values(others)) expect(text).not.toMatch(/no bath|silver bath for|No bath for/i);
});
