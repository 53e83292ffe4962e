// Slips at the shelf that the numbers themselves allow: each is told in plain words, and nothing is done by it.
import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { PlanningStore } from '../../src/stock/planning.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
const SHELF = '/s/sandpiper-loft/desk/shelf';

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { slug: 'sandpiper-loft' });
  owner = await signedIn(house, studio, 'owner');
}, 60_000);
afterAll(() => house.close());

describe('what would run out before it is ripe', () => {
  it('is refused at the field, and where it was entered so long ago no batch of it is noted', async () => {
    const { collodion } = studio.items;
    const url = `${SHELF}/items/${collodion.id}`;
    for (const lifeDays of ['3', '7']) {
      const sent = { ...fieldsOf((await owner.get(url)).html, url), ripenDays: '7', lifeDays };
      const answer = await owner.post(url, sent);
      expect(answer.status).toBe(422);
      expect(errorAt(answer.html, 'lifeDays')).toMatch(/^It has to keep longer than it ripens/);
    }
    await house.db.inStudio(studio.id, (tx) =>
      tx.run('update item set ripen_days = 7, life_days = 3 where item_id = $1', [collodion.id]),
    );
    const api = '/api/v1/s/sandpiper-loft';
    const payload = { email: studio.assistant.email, password: PASSWORD };
    const session = await house.app.inject({ method: 'POST', url: `${api}/sessions`, payload });
    const authorization = `Bearer ${(session.json() as { token: string }).token}`;
    const from = [{ lotId: studio.lots.developer, quantity: '10 ml' }];
    const answer = await house.app.inject({
      method: 'POST',
      url: `${api}/shelf/batches`,
      payload: { itemId: collodion.id, quantity: '1 l', from },
      headers: { authorization },
    });
    expect([answer.statusCode, (answer.json() as { detail: string }).detail]).toEqual([
      409,
      expect.stringContaining('would run out before it is ripe: it ripens for 7 days and keeps for 3 days'),
    ]);
  });
});

describe('a bottle older than hundreds that are gone', () => {
  it('stands on the page of what it is all the same', async () => {
    const { fixer } = studio.items;
    await house.db.inStudio(studio.id, (tx) =>
      tx.run(
        `insert into lot (studio_id, lot_id, item_id, label, usable_from, on_hand, state)
         select $1, gen_random_uuid(), $2, 'Emptied ' || n, date '2026-11-20', 0, 'gone' from generate_series(1, 201) n`,
        [studio.id, fixer.id],
      ),
    );
    const url = `${SHELF}/bottles/${studio.lots.fixer}`;
    const { html } = await owner.get(`${SHELF}/items/${fixer.id}`);
    expect(html).toContain(url);
    expect(wordsOf(html)).not.toContain('Usable now 0 mL');
    expect(wordsOf(html)).toContain('200 that are gone');
  });
});

describe('the page of what is kept', () => {
  it('looks ahead once, however much it shows of it', async () => {
    const looks = jest.spyOn(PlanningStore.prototype, 'facts');
    const { status } = await owner.get(`${SHELF}/items/${studio.items.developer.id}`);
    const times = looks.mock.calls.length;
    looks.mockRestore();
    expect([status, times]).toEqual([200, 1]);
  });
});

describe('a count far from what the book says', () => {
  const counted = async (quantity: string, reason = '') => {
    const url = `${SHELF}/bottles/${studio.lots.varnish}`;
    const form = fieldsOf((await owner.get(url)).html, `${url}/count`);
    const sent = { ...form, 'count-quantity': quantity, 'count-quantity-in': 'ml', 'count-reason': reason };
    return owner.post(`${url}/count`, sent);
  };

  it('asks for a word about it beside its field, and takes a small difference without', async () => {
    const book = await house.db.inStudio(studio.id, async (tx) => {
      await tx.run('update lot set on_hand = 500000 where lot_id = $1', [studio.lots.varnish]);
      return 500;
    });
    for (const far of [book * 0.5, book * 1.11, 0]) {
      const answer = await counted(String(far));
      expect([far, answer.status]).toEqual([far, 422]);
      expect(errorAt(answer.html, 'count-reason')).toBe(
        'By the book 500 mL should be in it. Please say in a word why it is other, or count again.',
      );
      expect(answer.html).toContain(`value="${far}"`);
    }
    expect((await counted('451')).status).toBe(303);
    expect((await counted('200', 'a leak')).status).toBe(303);
  });
});
