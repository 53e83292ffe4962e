// The doors of the shelf, as a person at the shelf and as a program: what is typed is kept, what is wrong stands
// beside its field, and the same form sent twice counts once.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ReceiptsService } from '../../src/stock/receipts.service.js';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, summaryOf, wordsOf } from '../support/page-forms.js';
import {
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  PASSWORD,
  type TestStudio,
} from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
const SHELF = '/s/sandpiper-loft/desk/shelf';

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { slug: 'sandpiper-loft' });
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
}, 60_000);
afterAll(() => house.close());

/** What the form of a page would send as it stands, with some answers changed. */
async function form(who: Visitor, url: string, action: string, answers: Record<string, string> = {}) {
  return { ...fieldsOf((await who.get(url)).html, action), ...answers };
}
const bottle = (id: string) => `${SHELF}/bottles/${id}`;

/** The fields of each form on a bottle's page are named by its act. */
async function act(who: Visitor, id: string, name: string, answers: Record<string, string> = {}) {
  const named = Object.entries(answers).map(([field, value]) => [`${name}-${field}`, value]);
  const url = `${bottle(id)}/${name}`;
  return who.post(url, await form(who, bottle(id), url, Object.fromEntries(named) as Record<string, string>));
}

describe('something that has come', () => {
  it('is put on the shelf with a number typed on number keys, and its bottle is shown', async () => {
    const from = `${SHELF}/receive?item=${studio.items.collodion.id}`;
    const sent = await form(assistant, from, `${SHELF}/receive`, { quantity: '750', label: 'June, second' });
    const page = await assistant.postAndFollow(`${SHELF}/receive`, sent);
    expect(wordsOf(page.html)).toMatch(
      /It is on the shelf\. June, second .* 750 mL until .* What it is Iodised collodion/,
    );
    expect(wordsOf(page.html)).toContain('added +750 mL 750 mL Odhran Pike');
    const again = await assistant.postAndFollow(`${SHELF}/receive`, sent);
    expect(wordsOf(again.html)).toContain('added +750 mL 750 mL Odhran Pike');
    const all = wordsOf((await assistant.get(`${SHELF}?kind=collodion`)).html);
    expect(all.match(/June, second 750 mL/g)).toHaveLength(1);
  });

  it('when it was ordered is put there with one tap, once', async () => {
    const order = { itemId: studio.items.halfGlass.id, quantity: '15' };
    const { receiptId } = await house.app.get(ReceiptsService).order(studio.id, studio.owner, order);
    const url = `${SHELF}/receive/${receiptId}`;
    const before = await assistant.get(`${SHELF}/receive`);
    expect(wordsOf(before.html)).toContain(
      'Clear glass, half plate 15 sheets expected on Wednesday 16 December 2026',
    );
    const sent = fieldsOf(before.html, url);
    const first = await assistant.post(url, sent);
    expect((await assistant.post(url, sent)).location).toBe(first.location);
    expect(wordsOf((await assistant.get(first.location)).html)).toContain('added +15 sheets 15 sheets');
    expect((await assistant.post(url, {})).status).toBe(409);
    expect((await assistant.get(`${SHELF}/receive`)).html).not.toContain(url);
  });

  it('is asked for what is missing, and what was typed stands there still', async () => {
    const sent = await form(owner, `${SHELF}/receive`, `${SHELF}/receive`, {
      quantity: '12 parsecs',
      label: 'Kept label',
      'usableUntil-day': '40',
      'usableUntil-month': 'May',
      'usableUntil-year': '2027',
    });
    const answer = await owner.post(`${SHELF}/receive`, sent);
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'itemId')).toBe('Please choose what it is.');
    expect(errorAt(answer.html, 'usableUntil')).toMatch(/Please give the date/);
    expect(fieldsOf(answer.html, `${SHELF}/receive`)).toMatchObject({
      label: 'Kept label',
      quantity: '12 parsecs',
    });
    const chosen = await owner.post(`${SHELF}/receive`, {
      ...sent,
      itemId: studio.items.fixer.id,
      'usableUntil-day': '20',
    });
    expect(errorAt(chosen.html, 'quantity')).toBe('Please write how much with its unit, like 250 ml.');
    expect(summaryOf(chosen.html)).toHaveLength(1);
  });
});

describe('a bottle', () => {
  it('is counted, taken from and opened, each with a line in its ledger', async () => {
    const { developer } = studio.lots;
    expect((await act(assistant, developer, 'count', { quantity: '900', reason: 'a leak' })).status).toBe(
      303,
    );
    expect(
      (await act(assistant, developer, 'take', { quantity: '100 ml', reason: 'a test plate' })).status,
    ).toBe(303);
    expect((await act(assistant, developer, 'open')).status).toBe(303);
    const page = wordsOf((await assistant.get(bottle(developer))).html);
    expect(page).toContain('taken −100 mL 800 mL Odhran Pike: a test plate');
    expect(page).toMatch(/counted [+−][\d.]+ m?L 900 mL Odhran Pike: a leak/);
    expect(page).toContain('Opened Wednesday 25 November 2026');
    const refused = await owner.post(`${bottle(developer)}/open`, {});
    expect(refused.status).toBe(409);
    expect(wordsOf(refused.html)).toContain('It was opened before.');
  });

  it('gives no more than is in it, and the amount stays in the box', async () => {
    const answer = await act(owner, studio.lots.fixer, 'take', { quantity: '9000000' });
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'take-quantity')).toBe(
      'There is not so much in it. If there is, please count it first.',
    );
    expect(fieldsOf(answer.html, `${bottle(studio.lots.fixer)}/take`)['take-quantity']).toBe('9000000');
  });

  it('that is suspect gives nothing until it is found good', async () => {
    const { varnish } = studio.lots;
    expect((await act(owner, varnish, 'suspect', { note: '' })).status).toBe(422);
    expect((await act(owner, varnish, 'suspect', { note: 'cloudy' })).status).toBe(303);
    const shelf = wordsOf((await owner.get(`${SHELF}?kind=varnish`)).html);
    expect(shelf).toMatch(/Usable now 0 mL .*one that cannot be used .* cloudy suspect/);
    expect((await act(owner, varnish, 'good')).status).toBe(303);
    expect(wordsOf((await owner.get(`${SHELF}?kind=varnish`)).html)).not.toContain('cannot be used');
  });

  it('is poured off, blended and thinned, and the new bottle tells where it came from', async () => {
    const { collodion, varnish } = studio.lots;
    const off = await act(owner, collodion, 'decant', { quantity: '20', label: 'Clear top' });
    const clear = await owner.get(off.location);
    expect(wordsOf(clear.html)).toMatch(/Poured off into this bottle\. Clear top .* 20 mL until/);
    const topId = /bottles\/([0-9a-f-]+)/.exec(off.location)?.[1] ?? '';
    const parts = { [`part-${topId}`]: '5', [`part-${collodion}`]: '10', label: 'Blend' };
    const blend = await owner.get((await act(owner, topId, 'blend', parts)).location);
    expect(wordsOf(blend.html)).toMatch(/Blend .* 15 mL until/);
    expect(wordsOf(blend.html)).toContain(
      'In it is some of: Clear top , 5 mL First Iodised collodion , 10 mL',
    );
    const short = await act(owner, topId, 'blend', { [`part-${topId}`]: '5', label: 'One only' });
    expect(errorAt(short.html, `blend-part-${topId}`)).toBe('Please say how much of at least two bottles.');
    const much = { [`part-${topId}`]: '5', [`part-${collodion}`]: '90 l', label: 'Too much' };
    const tooMuch = await act(owner, topId, 'blend', much);
    expect(errorAt(tooMuch.html, `blend-part-${collodion}`)).toMatch(/There is not so much in it/);
    const byWeight = await act(owner, collodion, 'decant', { quantity: '5 g', label: 'Weighed' });
    expect(errorAt(byWeight.html, 'decant-quantity')).not.toBe('');
    const thin = { quantity: '2', solventLotId: varnish, reason: 'too thick' };
    expect((await act(owner, topId, 'thin', thin)).status).toBe(303);
    expect(wordsOf((await owner.get(bottle(topId))).html)).toContain('17 mL');
  });

  it('is thrown away once, and is gone then', async () => {
    const made = await owner.post(
      `${SHELF}/receive`,
      await form(owner, `${SHELF}/receive?item=${studio.items.fixer.id}`, `${SHELF}/receive`, {
        quantity: '30',
      }),
    );
    const id = /bottles\/([0-9a-f-]+)/.exec(made.location)?.[1] ?? '';
    const sent = await form(owner, bottle(id), `${bottle(id)}/discard`, { 'discard-reason': 'spilt' });
    expect((await owner.post(`${bottle(id)}/discard`, sent)).status).toBe(303);
    expect((await owner.post(`${bottle(id)}/discard`, sent)).status).toBe(303);
    const page = wordsOf((await owner.get(bottle(id))).html);
    expect(page.match(/thrown away −30 mL 0 mL/g)).toHaveLength(1);
    expect(page).toContain('gone');
    expect((await owner.post(`${bottle(id)}/discard`, { reason: '' })).status).toBe(409);
  });

  it('that is not known, or an act there is none of, is not found', async () => {
    const nobody = '00000000-0000-4000-8000-000000000009';
    expect((await owner.get(bottle(nobody))).status).toBe(404);
    expect((await owner.get(bottle('nothing'))).status).toBe(404);
    expect((await owner.post(`${bottle(studio.lots.fixer)}/drink`, {})).status).toBe(404);
  });
});

describe('the bottle that a sitting’s need is set aside from', () => {
  it('is told on its page, and another is chosen with one tap', async () => {
    const bottle = { itemId: studio.items.collodion.id, quantity: '500 ml', label: 'Another bottle' };
    await house.app.get(ShelfService).receive(studio.id, studio.owner, bottle);
    const { sittingId } = await askForSitting(house, studio);
    const [start = ''] = await openStarts(house, studio, { from: '2027-03-01', until: '2027-03-20' });
    await approve(house, studio, sittingId, start);
    const url = `/s/sandpiper-loft/desk/requests/${sittingId}`;
    const before = await owner.get(url);
    expect(wordsOf(before.html)).toMatch(/Iodised collodion [\d.]+ mL \S.* for Iodised collodion/);
    const all = await house.db.inStudio(studio.id, (tx) =>
      house.app.get(StockService).setAside(tx, sittingId),
    );
    const held = all.find((one) => one.item.kind === 'collodion');
    const other = held?.couldGive.find(({ lotId }) => lotId !== held.lotId);
    const choice = {
      itemId: held?.item.id ?? '',
      neededOn: held?.neededOn.toString() ?? '',
      class: 'any',
      lotId: other?.lotId ?? '',
    };
    const chosen = await owner.postAndFollow(`${url}/bottle`, choice);
    expect(wordsOf(chosen.html)).toContain('It is set aside from that bottle.');
    expect(wordsOf(chosen.html)).toContain(`${other?.label}, as you chose`);
    expect(wordsOf(chosen.html)).toContain('let the rule choose');
    const wrong = await owner.postAndFollow(`${url}/bottle`, { ...choice, lotId: studio.lots.fixer });
    expect(wordsOf(wrong.html)).toContain('That bottle cannot give it that day; nothing is changed.');
    expect(wordsOf(wrong.html)).toContain(`${other?.label}, as you chose`);
    const nothing = { ...choice, lotId: '00000000-0000-4000-8000-000000000009' };
    expect((await owner.post(`${url}/bottle`, nothing)).location).toContain('done=no-bottle');
    const back = await owner.postAndFollow(`${url}/bottle`, { ...choice, lotId: '' });
    expect(wordsOf(back.html)).not.toContain('as you chose');
    expect(wordsOf(back.html)).toContain('Isaura Fenwick chose a bottle for it');
  });

  it('is a fresh one where a child sits', async () => {
    const { sittingId } = await askForSitting(house, studio, { bands: ['under 8'] });
    const [start = ''] = await openStarts(house, studio, { from: '2027-03-01', until: '2027-03-20' });
    await approve(house, studio, sittingId, start);
    const page = wordsOf((await owner.get(`/s/sandpiper-loft/desk/requests/${sittingId}`)).html);
    expect(page).toContain('Iodised collodion (a fresh one)');
    expect(page).not.toContain('Iron developer (a fresh one)');
  });
});

describe('what is kept, and from whom', () => {
  it('is entered by the owner, with every wrong answer beside its field', async () => {
    const url = `${SHELF}/items/new`;
    const wrong = {
      kind: 'chemical',
      unit: 'sheet',
      leadDays: 'soon',
      hCodes: 'H225 poison',
      heel: '3 miles',
    };
    const answer = await owner.post(url, await form(owner, url, url, wrong));
    for (const [field, words] of [
      ['name', 'Please give it a name.'],
      ['leadDays', 'Please give whole days, 0 to 730, or nothing.'],
      ['hCodes', 'Codes are like H225 H319, with spaces between.'],
    ] as const)
      expect(errorAt(answer.html, field)).toBe(words);
    const sheets = await owner.post(
      url,
      await form(owner, url, url, { kind: 'chemical', unit: 'sheet', name: 'x', heel: '3 miles' }),
    );
    expect(errorAt(sheets.html, 'unit')).toBe('Only glass is counted in sheets; please choose pieces.');
    expect(errorAt(sheets.html, 'heel')).toBe('Please write a number of sheets, like 12.');
    const supplier = await form(owner, `${SHELF}/suppliers`, `${SHELF}/suppliers/new`, {
      'new-name': 'Glasshouse',
      'new-leadDays': '9',
    });
    expect(wordsOf((await owner.postAndFollow(`${SHELF}/suppliers/new`, supplier)).html)).toContain(
      'Glasshouse',
    );
    const good = {
      kind: 'chemical',
      unit: 'uL',
      name: 'Ether',
      hCodes: 'h224, EUH019',
      openedLifeDays: '365',
      packQuantity: '1 l',
    };
    const page = await owner.postAndFollow(url, await form(owner, url, url, good));
    expect(wordsOf(page.html)).toContain(
      'On your label: H224 Extremely flammable liquid and vapour; EUH019 May form explosive peroxides.',
    );
    expect(wordsOf(page.html)).toContain('Pack 1 L, at least 1');
  });

  it('begins a size of plate the studio has not had, told apart from others of its name', async () => {
    const url = `${SHELF}/items/new`;
    const half = { kind: 'glass', unit: 'sheet', name: 'Black glass, half', plateSizeId: 'half-american' };
    const first = await owner.post(url, await form(owner, url, url, half));
    expect(first.status).toBe(303);
    const again = { ...half, name: 'Clear glass, half', surface: 'clear glass' };
    expect((await owner.post(url, await form(owner, url, url, again))).status).toBe(303);
    const sizes = await house.db.inStudio(studio.id, (tx) => house.app.get(StockService).plateSizes(tx));
    const halves = sizes.filter(({ name }) => name.startsWith('Half plate'));
    expect(halves.map(({ widthMm, heightMm }) => [widthMm, heightMm])).toContainEqual([107.95, 139.7]);
    expect(halves.filter(({ widthMm }) => widthMm === 107.95)).toHaveLength(1);
    const none = await owner.post(url, await form(owner, url, url, { ...half, plateSizeId: 'half' }));
    expect(errorAt(none.html, 'plateSizeId')).toBe('Please choose a plate size.');
  });

  it('is changed by the owner, and what is set aside is planned by it at once', async () => {
    const { collodion } = studio.items;
    const place = '00000000-0000-4000-8000-000000000001';
    const today = await house.db.inStudio(studio.id, async (tx) => {
      const stock = house.app.get(StockService);
      const day = house.clock.now().toZonedDateTimeISO('UTC').toPlainDate().add({ days: 20 });
      await stock.reserve(
        tx,
        place,
        [{ itemId: collodion.id, quantity: 5_000n }],
        day,
        day.subtract({ days: 20 }),
      );
      return stock.setAside(tx, place);
    });
    expect(today.every((one) => one.lotId !== null)).toBe(true);
    const url = `${SHELF}/items/${collodion.id}`;
    const page = await owner.postAndFollow(url, await form(owner, url, url, { heel: '900000' }));
    expect(wordsOf(page.html)).toContain('Saved, and what is set aside of it is planned anew.');
    expect(wordsOf(page.html)).toMatch(/Usable now 0 mL .*Still to be mixed for given places: [\d.]+ mL/);
    expect(fieldsOf(page.html, url).heel).toBe('900000');
  });
});

describe('a program', () => {
  const api = '/api/v1/s/sandpiper-loft/shelf';
  const ask = async (method: 'GET' | 'POST', url: string, payload?: object, headers: object = {}) => {
    const session = await house.app.inject({
      method: 'POST',
      url: '/api/v1/s/sandpiper-loft/sessions',
      payload: { email: studio.assistant.email, password: PASSWORD },
    });
    const authorization = `Bearer ${(session.json() as { token: string }).token}`;
    return house.app.inject({
      method,
      url,
      ...(payload && { payload }),
      headers: { authorization, ...headers },
    });
  };

  it('receives, counts, mixes and throws away; the same key twice counts once', async () => {
    const key = { 'idempotency-key': 'the same key of a program' };
    const body = { itemId: studio.items.fixer.id, quantity: '2 l', label: 'By the program' };
    const first = await ask('POST', `${api}/bottles`, body, key);
    expect(first.statusCode).toBe(201);
    const { bottleId } = first.json() as { bottleId: string };
    expect((await ask('POST', `${api}/bottles`, body, key)).json()).toEqual({ bottleId });
    const count = await ask('POST', `${api}/bottles/${bottleId}/count`, {
      quantity: '1.5 l',
      reason: 'a drip',
    });
    expect(count.statusCode).toBe(204);
    const from = [{ lotId: bottleId, quantity: '500 ml' }];
    const mix = { itemId: studio.items.developer.id, quantity: '1 l', from };
    const batch = await ask('POST', `${api}/batches`, mix);
    const shelf = (await ask('GET', api)).json() as { id: string; bottles: { id: string }[] }[];
    const found = shelf
      .flatMap((item) => item.bottles)
      .filter(({ id }) => [bottleId, batch.json().bottleId].includes(id));
    expect(found.map((one) => ('onHand' in one ? one.onHand : null)).sort()).toEqual([1_000_000, 1_000_000]);
    expect((await ask('POST', `${api}/bottles/${bottleId}/discard`, { reason: '' })).statusCode).toBe(204);
    expect((await ask('POST', `${api}/bottles/${bottleId}/discard`, { reason: '' })).statusCode).toBe(409);
  });

  it('is told of every wrong field', async () => {
    const answer = await ask('POST', `${api}/batches`, {
      itemId: 'x',
      quantity: '1 l',
      from: [{ lotId: 'y', quantity: 3 }],
    });
    expect(answer.statusCode).toBe(422);
    const { errors } = answer.json() as { errors: { pointer: string }[] };
    expect(errors.map(({ pointer }) => pointer)).toEqual(
      expect.arrayContaining(['/itemId', '/from/0/lotId', '/from/0/quantity']),
    );
  });

  it.each([
    ['a weight of what is measured by volume', '/from/1/quantity', { quantity: '3 g' }],
    ['more than is in the bottle', '/from/1/quantity', { quantity: '900 l' }],
    ['a bottle that has run out', '/from/1/lotId', { usableFrom: '2027-01-01', usableUntil: '2027-01-02' }],
  ])(
    'is told of %s at the bottle',
    async (_title, pointer, { quantity = '10 ml', ...days }: Record<string, string>) => {
      const bottle = async (more: object) => {
        const body = { itemId: studio.items.fixer.id, quantity: '1 l', ...more };
        return ((await ask('POST', `${api}/bottles`, body)).json() as { bottleId: string }).bottleId;
      };
      const from = [
        { lotId: await bottle({}), quantity: '10 ml' },
        { lotId: await bottle(days), quantity },
      ];
      const answer = await ask('POST', `${api}/batches`, {
        itemId: studio.items.developer.id,
        quantity: '20 ml',
        from,
      });
      expect(answer.json()).toMatchObject({ code: 'bad_input', errors: [{ pointer }] });
    },
  );
});
