// Formulas in the database: taken from the library with what they are mixed of, changed by further versions, and
// what is mixed by them follows.
import { STARTER_FORMULAS } from '../../src/chemistry/starter-formulas.calc.js';
import { FormulaViews } from '../../src/stock/formula-views.service.js';
import { formValues } from '../../src/stock/formulas.calc.js';
import { FormulasService } from '../../src/stock/formulas.service.js';
import { PouringService } from '../../src/stock/pouring.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let number = 0;
const formulas = () => house.app.get(FormulasService);
const views = () => house.app.get(FormulaViews);
const items = () => house.db.inStudio(studio.id, (tx) => house.app.get(StockService).items(tx));
const itemOf = async (substance: string) => (await items()).filter((item) => item.substance === substance);
const take = async (input: Record<string, unknown>, key?: string) =>
  formulas().take(studio.id, studio.owner, input, key);
const own = (changed: Record<string, unknown> = {}) => ({
  name: 'House developer',
  kind: 'developer',
  'ingredient-1': 'Distilled water',
  'amount-1': '1 l',
  'ingredient-2': 'iron sulfate (ferrous sulfate, heptahydrate)',
  'amount-2': '3 drachms',
  ripenDays: '1',
  lifeDays: '30',
  method: 'Dissolve.\nFilter.',
  ...changed,
});
const problemsOf = (act: Promise<unknown>) =>
  act.then(
    () => [],
    (error) => error.fields.map((one: { field: string }) => one.field),
  );

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `studio-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
});

describe('a formula of the library', () => {
  it('comes with its lines as printed, and the chemicals that were not kept are entered once', async () => {
    const [first, second] = ['collodion-estabrooke-p29', 'collodion-wilson-131'];
    const { formulaId } = await take({ starterKey: first, itemId: studio.items.collodion.id });
    const { current, formula } = await views().one(studio.id, formulaId);
    expect(formula).toMatchObject({ own: false, starterKey: first, currentVersion: 1 });
    const iodide = current.lines.find((line) => line.substance === 'ammonium iodide');
    expect(iodide).toMatchObject({ quantity: 3_888n, unit: 'mg', asWritten: '60 gr' });
    await take({ starterKey: second });
    const [ether, ...more] = await itemOf('diethyl ether');
    expect(more).toEqual([]);
    expect(ether).toMatchObject({ kind: 'chemical', unit: 'uL', noPost: true, openedLifeDays: 365 });
    const [bromide] = await itemOf('cadmium bromide, anhydrous');
    expect(bromide?.hCodes).toEqual([]); // known from memory only: the supplier's sheet says
    expect(ether?.hCodes).toContain('EUH019');
  });

  it('gives its days to the item that is mixed by it, or to a new one', async () => {
    await take({ starterKey: 'developer-towler-1', itemId: studio.items.developer.id });
    const all = await items();
    const developer = all.find((item) => item.id === studio.items.developer.id);
    expect(developer).toMatchObject({ ripenDays: 0, lifeDays: 60 });
    await take({ starterKey: 'varnish-sandarac' });
    expect((await items()).find((item) => item.name === 'Sandarac varnish' && item.formulaId)).toMatchObject({
      kind: 'varnish',
      lifeDays: 365,
    });
  });

  it('is kept for study without touching what is mixed, and tells what it is set instead of', async () => {
    const itemId = studio.items.collodion.id;
    const first = await take({ starterKey: 'collodion-estabrooke-p29', itemId });
    expect(first.instead).toBeNull();
    const count = (await items()).filter(({ kind }) => kind === 'collodion').length;
    await take({ starterKey: 'collodion-wilson-131', itemId: 'study' });
    const collodions = (await items()).filter(({ kind }) => kind === 'collodion');
    expect(collodions).toHaveLength(count);
    expect(collodions.find(({ id }) => id === itemId)?.formulaId).toBe(first.formulaId);
    const other = STARTER_FORMULAS.filter((one) => one.kind === 'collodion')
      .map(({ key }) => key)
      .find((key) => !['collodion-estabrooke-p29', 'collodion-wilson-131'].includes(key));
    expect(await take({ starterKey: other, itemId })).toMatchObject({ instead: first.formulaId });
  });

  it('is reckoned for a bottle of tetrahydrate with as much bromide', async () => {
    const { formulaId } = await take({ starterKey: 'collodion-estabrooke-p29', bromide: 'tetrahydrate' });
    const { current } = await views().one(studio.id, formulaId);
    const line = current.lines.find((one) => one.substance?.startsWith('cadmium bromide'));
    expect(line?.substance).toBe('cadmium bromide, tetrahydrate');
    expect(Number(line?.quantity) / 1296).toBeCloseTo(344.28 / 272.22, 2); // 20 grains of anhydrous are 1296 mg
    expect(line?.asWritten).toBe('20 gr');
    expect(current.note).not.toContain('weigh 26 % more'); // it would be added twice
    expect(current.note).toContain('reckoned for tetrahydrate');
  });

  it('is taken once: the same form twice, and a second time on purpose', async () => {
    const input = { starterKey: 'fixer-hypo-20-percent', itemId: studio.items.fixer.id };
    const key = '11111111-1111-4111-8111-111111111111';
    expect(await take(input, key)).toEqual(await take(input, key));
    await expect(take(input)).rejects.toMatchObject({ code: 'wrong_state' });
    expect((await views().list(studio.id)).formulas).toHaveLength(1);
  });

  it('is not set for glass, nor for what is not there', async () => {
    const starterKey = 'fixer-hypo-20-percent';
    expect(await problemsOf(take({ starterKey, itemId: studio.items.wholeGlass.id }))).toEqual(['itemId']);
    await expect(take({ starterKey: 'philtre' })).rejects.toMatchObject({ code: 'not_found' });
    expect((await views().list(studio.id)).formulas).toEqual([]);
  });
});

describe('a formula of the owner', () => {
  it('keeps amounts as typed beside the metric ones', async () => {
    const { formulaId } = await formulas().create(studio.id, studio.owner, own());
    const { current } = await views().one(studio.id, formulaId);
    expect(current).toMatchObject({
      batch: 1_000_000n,
      ripenDays: 1,
      lifeDays: 30,
      method: ['Dissolve.', 'Filter.'],
    });
    expect(current.lines[1]).toMatchObject({
      quantity: 11_664n,
      asWritten: '3 drachms',
      substance: 'ferrous sulfate heptahydrate',
    });
  });

  it('is refused with a sentence at each field that is wrong', async () => {
    const wrong = own({
      name: '',
      'amount-1': '1 oz',
      'amount-2': '',
      'ingredient-3': '',
      'amount-3': '3 g',
    });
    const fields = await problemsOf(formulas().create(studio.id, studio.owner, wrong));
    expect(fields.sort()).toEqual(['amount-1', 'amount-2', 'ingredient-3', 'name']);
    const bare = own({ 'ingredient-1': 'Cadmium bromide', 'amount-1': '3 g' });
    expect(await problemsOf(formulas().create(studio.id, studio.owner, bare))).toEqual(['ingredient-1']);
  });

  // Without the guard both were kept: a developer is acid by its kind, whatever it is mixed of.
  it.each([
    ['an acid beside it', { kind: 'fixer', 'ingredient-2': 'Citric acid', 'amount-2': '1 g' }],
    ['the acid of a developer', {}],
  ])('with cyanide and %s is never kept', async (_, changed) => {
    const deadly = own({ 'ingredient-3': 'Potassium cyanide', 'amount-3': '5 g', ...changed });
    expect(await problemsOf(formulas().create(studio.id, studio.owner, deadly))).toEqual(['ingredient-3']);
    expect((await views().list(studio.id)).formulas).toEqual([]);
  });

  it('changed is a further version; the old one stays as it was, and what is mixed by it keeps as the new one', async () => {
    const { formulaId } = await formulas().create(studio.id, studio.owner, own());
    await formulas().setItems(studio.id, studio.owner, formulaId, [studio.items.developer.id]);
    const changed = own({ basedOn: '1', 'amount-1': '2 l', lifeDays: '14' });
    await formulas().change(studio.id, studio.owner, formulaId, changed);
    const { versions, items: mixed } = await views().one(studio.id, formulaId);
    expect(versions.map((one) => [one.version, one.batch, one.lifeDays])).toEqual([
      [2, 2_000_000n, 14],
      [1, 1_000_000n, 30],
    ]);
    expect(mixed.find((item) => item.formulaId === formulaId)?.lifeDays).toBe(14);
  });

  it('saved as it was makes no version, and changed elsewhere keeps its batch as it was written', async () => {
    const { formulaId } = await formulas().create(studio.id, studio.owner, own({ batch: '4 US fl oz' }));
    const { formula, current } = await views().one(studio.id, formulaId);
    const form = { ...formValues(formula, current), basedOn: '1' };
    const sent = { ...form, method: 'Dissolve.\r\nFilter.' };
    expect(await formulas().change(studio.id, studio.owner, formulaId, sent)).toEqual({ changed: false });
    expect((await views().one(studio.id, formulaId)).versions).toHaveLength(1);
    const changed = { ...sent, lifeDays: '14' };
    expect(await formulas().change(studio.id, studio.owner, formulaId, changed)).toEqual({ changed: true });
    const after = (await views().one(studio.id, formulaId)).current;
    expect(after).toMatchObject({ version: 2, batch: current.batch, batchAsWritten: '4 US fl oz' });
  });

  it('changed by two people at once is changed by the first', async () => {
    const { formulaId } = await formulas().create(studio.id, studio.owner, own());
    const change = () =>
      formulas().change(studio.id, studio.owner, formulaId, own({ basedOn: '1', lifeDays: '14' }));
    const both = await Promise.allSettled([change(), change()]);
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect((await views().one(studio.id, formulaId)).versions).toHaveLength(2);
  });

  it('is put away only when nothing is mixed by it', async () => {
    const { formulaId } = await formulas().create(studio.id, studio.owner, own());
    await formulas().setItems(studio.id, studio.owner, formulaId, [studio.items.developer.id]);
    const away = () => formulas().archive(studio.id, studio.owner, formulaId, true);
    await expect(away()).rejects.toMatchObject({ code: 'wrong_state' });
    await formulas().setItems(studio.id, studio.owner, formulaId, []);
    await away();
    expect((await views().one(studio.id, formulaId)).formula.archived).toBe(true);
  });
});

describe('on the bench', () => {
  it('a batch is scaled, taken from the bottles that are there, and what is missing is told', async () => {
    const { formulaId } = await take({ starterKey: 'fixer-hypo-20-percent', itemId: studio.items.fixer.id });
    const [hypo] = await itemOf('sodium thiosulfate pentahydrate');
    const usableFrom = house.clock.now().toZonedDateTimeISO('UTC').toPlainDate().subtract({ days: 1 });
    const bottle = { itemId: hypo?.id ?? '', label: 'Jar', usableFrom, usableUntil: null };
    const lotId = await house.db.inStudio(studio.id, (tx) =>
      house.app.get(StockService).receive(tx, bottle, 300_000n),
    );
    const { lines, batch } = await views().bench(studio.id, formulaId, 2_500_000n);
    expect(batch).toBe(2_500_000n);
    const [crystals, water] = lines;
    expect(crystals).toMatchObject({ quantity: 500_000n, missing: 200_000n });
    expect(crystals?.from.map((one) => [one.lot.id, one.quantity])).toEqual([[lotId, 300_000n]]);
    expect(water).toMatchObject({ quantity: 2_500_000n, missing: 2_500_000n, from: [] });

    const mixed = {
      itemId: '',
      formulaId,
      quantity: '1.5 l',
      label: '',
      note: '',
      from: [{ lotId, quantity: '300 g' }],
    };
    const made = await house.app.get(PouringService).mixBatch(studio.id, studio.owner, mixed);
    const after = await house.db.inStudio(studio.id, (tx) => house.app.get(StockService).lots(tx));
    expect(after.find((lot) => lot.id === made.lotId)?.onHand).toBe(1_500_000n);
    expect(after.find((lot) => lot.id === lotId)).toBeUndefined(); // all of it is gone
  });

  it('the cyanide fixer is set against the developer that stands on the shelf', async () => {
    const { formulaId } = await take({ starterKey: 'fixer-cyanide-schriever' });
    const [first] = (await views().bench(studio.id, formulaId, null)).cautions;
    expect(first?.rule).toMatchObject({ one: 'cyanide', other: 'acid' });
    expect(first?.others).toEqual(['Iron developer']);
  });
});
