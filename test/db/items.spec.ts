// The things kept on a shelf: which of two a sitting is reckoned with, and two people who change one at once.
import type { Tx } from '../../src/platform/db/tx.js';
import { FormulasService } from '../../src/stock/formulas.service.js';
import { ItemsService } from '../../src/stock/items.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { gate, untilSomebodyWaits } from '../support/two-sessions.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

const inStudio = <T>(act: (tx: Tx) => Promise<T>) => house.db.inStudio(studio.id, act);
const usual = async () =>
  (await inStudio((tx) => house.app.get(StockService).items(tx)))
    .filter((one) => one.kind === 'fixer' && one.usual)
    .map((one) => one.name);
const edit = (itemId: string, changes: Record<string, string>) =>
  house.app.get(ItemsService).editItem(studio.id, studio.owner, itemId, { ripenDays: '0', ...changes });

test('a second fixer, though first by name, is set aside for nobody until the owner makes it the usual', async () => {
  const hypo = studio.items.fixer;
  expect(await usual()).toEqual([hypo.name]);
  const { itemId } = await house.app.get(ItemsService).addItem(studio.id, studio.owner, {
    name: 'A cyanide fixer',
    kind: 'fixer',
    unit: 'uL',
    ripenDays: '0',
  });
  expect(await usual()).toEqual([hypo.name]);
  const setAside = async (start: string) => {
    const { sittingId } = await askForSitting(house, studio);
    await approve(house, studio, sittingId, start);
    const held = await inStudio((tx) => house.app.get(StockService).setAside(tx, sittingId));
    return held.filter(({ item }) => item.kind === 'fixer').map(({ item }) => item.name);
  };
  expect(await setAside('2027-04-02T09:30')).toEqual([hypo.name]);
  await edit(itemId, { name: 'A cyanide fixer', usual: 'yes' });
  expect(await usual()).toEqual(['A cyanide fixer']);
  expect(await setAside('2027-04-09T09:30')).toEqual(['A cyanide fixer']);
});

test('the usual one that is put away leaves its turn to another', async () => {
  const [name] = await usual();
  const items = await inStudio((tx) => house.app.get(StockService).items(tx));
  const away = items.find((one) => one.name === name);
  await edit(away?.id ?? '', { name: name ?? '', archived: 'yes' });
  expect(await usual()).toEqual([]);
  await edit(studio.items.fixer.id, { name: studio.items.fixer.name, usual: 'yes' });
  expect(await usual()).toEqual([studio.items.fixer.name]);
});

test('a formula chosen while the settings of its item are saved is not lost', async () => {
  const { collodion } = studio.items;
  const library = { starterKey: 'collodion-cooley', itemId: 'study' };
  const { formulaId } = await house.app.get(FormulasService).take(studio.id, studio.owner, library);
  const mixing = gate();
  const chosen = house.db.inStudio(studio.id, async (tx) => {
    await tx.run('update item set formula_id = $2 where item_id = $1', [collodion.id, formulaId]);
    await mixing.opened;
  });
  const saved = edit(collodion.id, { name: 'Collodion of the house', ripenDays: '7', heel: '30 ml' });
  await untilSomebodyWaits(house);
  mixing.open();
  await Promise.all([chosen, saved]);
  const items = await inStudio((tx) => house.app.get(StockService).items(tx));
  expect(items.find(({ id }) => id === collodion.id)).toMatchObject({ formulaId, heel: 30_000n });
});
