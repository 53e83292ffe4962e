// Silver baths where something was a slip: a line of today that was taken back counts nowhere, and a retired bath is
// not made suspect.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { BathLedgerService } from '../../src/stock/bath-ledger.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { enterBath, putAside, writeDown } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let assistant: Visitor;
let baths: string;
let number = 0;
const DAY = '2026-12-04';

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  const slug = `bath-slips-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  baths = `/s/${slug}/desk/shelf/baths`;
  assistant = await signedIn(house, studio, 'assistant');
});

const page = async (path: string) => wordsOf((await assistant.get(`${baths}${path}`)).html);

it('counts a line of today that was taken back neither as poured today nor on the day of a fault', async () => {
  const { sittingId } = await askForSitting(house, studio, { suits: { kind: 'these', days: [DAY] } });
  const [start = ''] = await openStarts(house, studio, { from: DAY, until: DAY });
  await approve(house, studio, sittingId, start);
  const id = await enterBath(house, studio, { strength: '71', leastStrength: '71' });
  house.clock.set(`${DAY}T08:00:00Z`);
  const poured = { do: 'poured', day: DAY, plates: '1', plateSizeId: studio.sizes.whole.id };
  const line = await writeDown(house, studio, id, poured);
  const ledger = house.app.get(BathLedgerService);
  await ledger.takeBack(studio.id, studio.assistant, id, line);
  expect(await page(`/${id}`)).toContain('Top up by Friday 4 December: 38 g');
  expect(await page('')).toMatch(/Friday 4 December Tank A 1 /);
  const fault = await putAside(house, studio, `bath:${id}`);
  expect(await page(`/off/${fault}`)).not.toMatch(/went through it/);
  await writeDown(house, studio, id, poured);
  expect(await page(`/off/${fault}`)).toContain('one plate went through it');
});

it('leaves a retired bath retired when something is off with it, and says so beside the field', async () => {
  const id = await enterBath(house, studio);
  const key = crypto.randomUUID();
  const off = async (formKey: string) => {
    await assistant.get(`${baths}/off`);
    return assistant.post(`${baths}/off`, { _key: formKey, what: `bath:${id}`, seen: 'fog' });
  };
  expect((await off(key)).status).toBe(303);
  const retired = { do: 'state', state: 'retired', day: '2026-11-25' };
  const ledger = house.app.get(BathLedgerService);
  await ledger.enter(studio.id, studio.owner, id, crypto.randomUUID(), retired);
  const refused = await off(crypto.randomUUID());
  expect(refused.status).toBe(422);
  expect(errorAt(refused.html, 'what')).toBe('This bath is retired: it is aside already.');
  expect(await page(`/${id}`)).toContain('retired since Wednesday 25 November');
  expect((await page('')).match(/fog Tank A/g)).toHaveLength(1);
  expect((await off(key)).status).toBe(303); // the first form, sent again
});

it('gives back the crystals of a topping up that is taken back, once, and only what came from their bottle', async () => {
  const stock = house.app.get(StockService);
  const lotId = await house.db.inStudio(studio.id, async (tx) => {
    const bought = { leadDays: 14, ripenDays: null, lifeDays: null, plateSizeId: null };
    const item = await stock.enterItem(tx, {
      ...{ name: 'Silver nitrate', kind: 'chemical', unit: 'mg', substance: 'silver nitrate' },
      ...bought,
    });
    const usableFrom = Temporal.PlainDate.from('2026-01-01');
    const crystals = { itemId: item.id, label: 'Crystals A', usableFrom, usableUntil: null };
    return stock.receive(tx, crystals, 25_500n);
  });
  const bottle = async () => {
    const { html } = await assistant.get(`${baths.replace('/baths', '/bottles')}/${lotId}`);
    return wordsOf(html);
  };
  const id = await enterBath(house, studio, { lotId });
  const topUp = (more: Record<string, string>) =>
    writeDown(house, studio, id, {
      do: 'topped up',
      day: '2026-11-25',
      crystals: '25.5',
      volume: '',
      ...more,
    });
  const [all, elsewhere] = [await topUp({ fromLot: 'yes' }), await topUp({})]; // the first empties the bottle
  expect(await bottle()).toContain('0 mg gone');
  const takeBack = async (line: string) => {
    const { html } = await assistant.postAndFollow(`${baths}/${id}/take-back`, { line });
    return wordsOf(html);
  };
  expect(await takeBack(elsewhere)).toContain(
    'If crystals came from a bottle for it, please count that bottle.',
  );
  expect(await bottle()).toContain('0 mg gone');
  expect(await takeBack(all)).toContain(
    'The line is taken back, and its crystals stand in their bottle again.',
  );
  expect(await bottle()).toMatch(
    /counted \+25\.5 g 25\.5 g Odhran Pike: A topping up of Tank A was taken back/,
  );
  expect((await assistant.post(`${baths}/${id}/take-back`, { line: all })).status).toBe(409);
});
