// What is typed into the forms of a bath: amounts with their units as at the shelf, readings as the glass shows them,
// never more than the tank holds, and bottles of silver nitrate only.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { BATH, enterBath } from '../support/prepared.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
const BATHS = '/s/bath-amounts/desk/shelf/baths';
const TODAY = { 'day-day': '25', 'day-month': 'November', 'day-year': '2026' };

beforeAll(async () => {
  house = await openTestHouse(); // Wednesday 25 November 2026
  studio = await foundTestStudio(house, { slug: 'bath-amounts', email: 'desk@bath-amounts.example' });
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const keyOf = (html: string) => /name="_key" value="([^"]+)"/.exec(html)?.[1] ?? '';
const page = async (id: string) => wordsOf((await owner.get(`${BATHS}/${id}`)).html);
async function enter(id: string, said: Record<string, string>) {
  const { html } = await owner.get(`${BATHS}/${id}?do=note`);
  return owner.post(`${BATHS}/${id}/enter`, { _key: keyOf(html), ...TODAY, ...said });
}
async function enterNew(said: Record<string, string>) {
  const { html } = await owner.get(BATHS);
  return owner.post(BATHS, { ...BATH, plateSizeId: studio.sizes.whole.id, ...said, _key: keyOf(html) });
}

it('reads an amount of a new bath with or without its unit', async () => {
  const said = { name: 'Litres', volume: '2.1 L', leastVolume: '1500 ml', inIt: '2' };
  expect((await enterNew({ ...said, inIt: '2 litres' })).status).toBe(303);
  expect(wordsOf((await owner.get(BATHS)).html)).toContain('about 2 L of 2.1 L; not below 1.5 L');
  const weighed = await enterNew({ ...said, volume: '2 kg' });
  expect(errorAt(weighed.html, 'volume')).toBe('Please give millilitres, such as 2000.');
  const unclear = await enterNew({ ...said, volume: '2,100' });
  expect(errorAt(unclear.html, 'volume')).toMatch(/two ways/);
});

it('refuses more than the tank holds, in plain words, and writes nothing', async () => {
  const more = 'This is more than the 2 L it holds when full.';
  expect(errorAt((await enterNew({ inIt: '2001' })).html, 'inIt')).toBe(more);
  const id = await enterBath(house, studio, { name: 'Full' });
  const measured = {
    do: 'measured',
    method: 'hydrometer',
    density: '1.07',
    temperature: '20',
    volume: '3 L',
  };
  expect(errorAt((await enter(id, measured)).html, 'volume')).toBe(more);
  const topped = { do: 'topped up', crystals: '', volume: '2.5 L' };
  expect(errorAt((await enter(id, topped)).html, 'volume')).toBe(more);
  expect(await page(id)).not.toMatch(/measured:|topped up:/);
  expect((await enter(id, { ...measured, volume: '2 L' })).status).toBe(303);
});

it('reads what was added with its units', async () => {
  const id = await enterBath(house, studio, { name: 'Topped' });
  expect((await enter(id, { do: 'topped up', crystals: '30 g', volume: '0.2 L' })).status).toBe(303);
  expect(await page(id)).toContain('topped up: 30 g of crystals, 200 mL of water');
  const ounces = await enter(id, { do: 'topped up', crystals: '1 oz', volume: '' });
  expect(errorAt(ounces.html, 'crystals')).toMatch(/Which ounce/);
});

it('reads a hydrometer that shows 1070 as 1.070', async () => {
  const id = await enterBath(house, studio, { name: 'Floated' });
  const reading = { do: 'measured', method: 'hydrometer', density: '1070', temperature: '20', volume: '' };
  expect((await enter(id, reading)).status).toBe(303);
  expect(await page(id)).toContain('by hydrometer, 1.07 at 20 °C');
  expect(errorAt((await enter(id, { ...reading, density: '107' })).html, 'density')).toMatch(
    /such as 1\.075/,
  );
});

it('offers bottles of silver nitrate only, and takes no other', async () => {
  const receive = (name: string) =>
    house.db.inStudio(studio.id, async (tx) => {
      const stock = house.app.get(StockService);
      const days = { leadDays: 21, ripenDays: null, lifeDays: null };
      const item = await stock.enterItem(tx, {
        name,
        kind: 'chemical',
        unit: 'mg',
        plateSizeId: null,
        ...days,
      });
      const from = { usableFrom: Temporal.PlainDate.from('2026-01-01'), usableUntil: null };
      return stock.receive(tx, { itemId: item.id, label: `${name}, first`, ...from }, 100_000n);
    });
  const [silver, iodide] = [await receive('Silver nitrate'), await receive('Cadmium iodide')];
  const { html } = await owner.get(BATHS);
  expect(html).toContain(`<option value="${silver}"`);
  expect(html).not.toContain(`<option value="${iodide}"`);
  expect(errorAt((await enterNew({ lotId: iodide })).html, 'lotId')).toBe(
    'Please choose a bottle of crystals.',
  );
  expect((await enterNew({ name: 'Of silver', lotId: silver })).status).toBe(303);
});
