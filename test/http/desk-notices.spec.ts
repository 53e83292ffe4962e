// What the page of a request says was done: only what was, for whom it was, and only as long as it is so.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let number = 0;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `notices-${++number}`;
  studio = await foundTestStudio(house, {
    slug,
    email: `desk@${slug}.example`,
    shelf: { collodion: 20_000n },
  });
  owner = await signedIn(house, studio, 'owner');
  desk = `/s/${slug}/desk`;
});

const DAYS = { from: '2027-03-05', until: '2027-03-20' };
const starts = () => openStarts(house, studio, DAYS);

it('a place given to who has no e-mail is told as one they have yet to be told of, and no longer than it is theirs', async () => {
  const telephone = { reachBy: 'telephone', telephone: '01947 555 010', email: '' } as const;
  const { sittingId } = await askForSitting(house, studio, telephone);
  const url = `${desk}/requests/${sittingId}`;
  const [start = ''] = await starts();
  await owner.get(url);
  const given = await owner.postAndFollow(`${url}/approve`, { start });
  expect(wordsOf(given.html)).toMatch(
    /The place is given\. .*They have no e-mail and nobody has told them yet; they stand on your list to telephone/,
  );
  const declined = wordsOf((await owner.get(`${url}?done=declined`)).html);
  expect(declined).not.toContain('Declined');
});

it('a bottle that gives only a part, or would be missing elsewhere, or a choice taken back, is told as such', async () => {
  const { collodion } = studio.items;
  const shelf = house.app.get(ShelfService);
  const small = { itemId: collodion.id, quantity: '1 ml', label: 'A few drops' };
  const { lotId } = await shelf.receive(studio.id, studio.owner, small);
  const { sittingId } = await askForSitting(house, studio);
  const [first = ''] = await starts();
  await approve(house, studio, sittingId, first);
  const url = `${desk}/requests/${sittingId}`;
  const choice = { itemId: collodion.id, neededOn: first.slice(0, 10), class: 'any' };
  const told = async (said: Record<string, string>) =>
    wordsOf((await owner.postAndFollow(`${url}/bottle`, said)).html);
  await owner.get(url);
  const part = await told({ ...choice, lotId });
  expect(part).toContain('That bottle gives what it can; the rest is from others, as below.');
  expect(part).not.toContain('It is set aside from that bottle.');
  expect(await told({ ...choice, lotId: '' })).toContain(
    'Your choice is taken back; the rule has chosen as below.',
  );
  expect(await told({ ...choice, neededOn: '2027-12-24', lotId })).toContain(
    'Nothing is set aside of it for them any more; nothing is changed.',
  );
});
