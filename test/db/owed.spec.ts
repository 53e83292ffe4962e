// What is owed after a day, in the database: from the ending of a sitting until its plates have left the studio.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { OwedService } from '../../src/plates/owed.service.js';
import { EndingsService } from '../../src/sittings/endings.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { enterKind } from '../support/owed.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let owed: OwedService;
let sitting: string;
let number = 0;

beforeAll(async () => {
  house = await openTestHouse();
  owed = house.app.get(OwedService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `owed-${++number}` });
  sitting = (await askForSitting(house, studio)).sittingId;
  await approve(house, studio, sitting, '2027-04-02T09:30');
  house.clock.set('2027-04-02T10:00:00Z');
});
afterAll(() => house.close());

const end = () => house.app.get(EndingsService).end(studio.id, studio.owner, sitting, { how: 'made' });
const list = async () => (await owed.list(studio.id)).entries.map((one) => one.owed);
const counts = () =>
  house.db.inStudio(studio.id, async (tx) => owed.counts(tx, await house.app.get(StudiosService).load(tx)));
const stepNamed = async (what: RegExp) => {
  const found = (await owed.steps(studio.id)).steps.find((one) => what.test(one.what));
  if (!found) throw new Error(`No step is ${what}.`);
  return found;
};
const tick = async (what: RegExp, done = 'yes') =>
  owed.tick(studio.id, studio.assistant, sitting, { step: (await stepNamed(what)).id, done });

describe('what is owed for a sitting', () => {
  it('begins when it was made, and not before', async () => {
    expect(await list()).toEqual([]);
    await expect(tick(/scan/i)).rejects.toMatchObject({ code: 'wrong_state' });
    await end();
    const [one] = await list();
    expect(one?.steps.map((each) => each.due.toString())).toEqual([
      '2027-04-03',
      '2027-04-06',
      '2027-04-07',
      '2027-04-11',
      '2027-04-12',
    ]);
    expect(await counts()).toEqual({ sittings: 1, lateSittings: 0, steps: 5, late: 0 });
    await house.app.get(EndingsService).undo(studio.id, studio.owner, sitting);
    expect(await list()).toEqual([]);
  });

  it('is ticked and taken back, twice as well as once, with who did it, and is late by the studio’s own day', async () => {
    await end();
    await tick(/scan/i);
    await tick(/scan/i);
    expect((await list())[0]?.steps[0]?.done).toMatchObject({ who: 'Odhran Pike' });
    await tick(/scan/i, 'no');
    await tick(/scan/i, 'no');
    expect((await list())[0]?.steps[0]?.done).toBeNull();
    house.clock.set('2027-04-03T22:30:00Z'); // 23:30 in London: not late yet
    expect((await counts()).late).toBe(0);
    house.clock.set('2027-04-03T23:30:00Z'); // the 4th, 00:30
    expect(await counts()).toEqual({ sittings: 1, lateSittings: 1, steps: 5, late: 1 });
  });

  it('is over when the plates leave; that can be seen and taken back for a week', async () => {
    await end();
    await tick(/post/i);
    expect((await counts()).sittings).toBe(0);
    expect((await list())[0]?.finishedAt).not.toBeNull();
    await tick(/post/i, 'no');
    expect((await counts()).sittings).toBe(1);
    await tick(/post/i);
    house.clock.forward({ hours: 24 * 8 });
    expect(await list()).toEqual([]);
  });
});

describe('the owner’s steps', () => {
  it('keep the ticks that were made by the usual ones, and go by their own days from then on', async () => {
    await end();
    await tick(/scan/i);
    const varnish = await stepNamed(/varnish/i);
    await owed.saveStep(studio.id, studio.owner, varnish.id, { what: 'Varnish with sandarac', days: '20' });
    const [one] = await list();
    expect(one?.steps.map((each) => `${each.step.what} ${each.due}`)).toContain(
      'Varnish with sandarac 2027-04-22',
    );
    expect(one?.steps[0]?.done).not.toBeNull();
  });

  it('go by other days for a kind of sitting, or not at all', async () => {
    const kind = await house.db.inStudio(studio.id, async (tx) => {
      const id = await enterKind(tx, 'Series');
      await tx.run('update sitting set kind_id = $2 where studio_id = $1 and sitting_id = $3', [
        tx.studioId,
        id,
        sitting,
      ]);
      return id;
    });
    await end();
    const scan = await stepNamed(/scan/i);
    await owed.saveStep(studio.id, studio.owner, scan.id, {
      what: 'Scan',
      days: '1',
      [`days-${kind}`]: '45',
    });
    const pack = await stepNamed(/pack/i);
    await owed.saveStep(studio.id, studio.owner, pack.id, { what: 'Pack', days: '9', notFor: kind });
    const words = (await list())[0]?.steps.map((each) => `${each.step.what} ${each.due}`);
    expect(words).toContain('Scan 2027-05-17');
    expect(words?.some((each) => each.startsWith('Pack'))).toBe(false);
    const wrong = { what: 'Scan', days: '1', [`days-${kind}`]: 'soon' };
    await expect(owed.saveStep(studio.id, studio.owner, scan.id, wrong)).rejects.toMatchObject({
      fields: [{ field: `days-${kind}` }],
    });
  });

  it('always let plates leave, are asked for in full, and are put away for good', async () => {
    const post = await stepNamed(/post/i);
    await expect(
      owed.saveStep(studio.id, studio.owner, post.id, { what: 'Post', days: '10' }),
    ).rejects.toMatchObject({ fields: [{ field: 'leaves' }] });
    await expect(owed.removeStep(studio.id, studio.owner, post.id)).rejects.toMatchObject({
      code: 'wrong_state',
    });
    await expect(
      owed.saveStep(studio.id, studio.owner, null, { what: '', days: '1.5' }),
    ).rejects.toMatchObject({
      fields: [{ field: 'what' }, { field: 'days' }],
    });
    await owed.saveStep(studio.id, studio.owner, null, { what: 'To the archive', days: '30', leaves: 'yes' });
    await owed.removeStep(studio.id, studio.owner, post.id);
    expect((await owed.steps(studio.id)).steps.map((one) => one.what).at(-1)).toBe('To the archive');
    await expect(owed.removeStep(studio.id, studio.owner, post.id)).rejects.toMatchObject({
      code: 'not_found',
    });
  });
});
