// Formulas through their doors: taken from the library, written with mistakes, changed, on the bench, mixed.
import { FormulasService } from '../../src/stock/formulas.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let formulas: string;
let number = 0;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `studio-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  owner = await signedIn(house, studio, 'owner');
  formulas = `/s/${slug}/desk/shelf/formulas`;
});

const textOf = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&nbsp;|\u00a0/g, ' ')
    .replace(/\s+/g, ' ');
const take = (starterKey: string, itemId: string) =>
  house.app.get(FormulasService).take(studio.id, studio.owner, { starterKey, itemId });
/** A bottle of the chemical of a substance, usable since yesterday. */
async function bottle(substance: string, quantity: bigint, change = {}): Promise<string> {
  return house.db.inStudio(studio.id, async (tx) => {
    const stock = house.app.get(StockService);
    const item = (await stock.items(tx)).find((one) => one.substance === substance);
    const usableFrom = house.clock.now().toZonedDateTimeISO('UTC').toPlainDate().subtract({ days: 1 });
    const lot = { itemId: item?.id ?? '', label: `Jar of ${substance}`, usableFrom, usableUntil: null };
    return stock.receive(tx, { ...lot, ...change }, quantity);
  });
}
const lots = () => house.db.inStudio(studio.id, (tx) => house.app.get(StockService).lots(tx));

describe('the library', () => {
  it('tells each formula with its source and what is assumed, and is taken from', async () => {
    const { html } = await owner.get(`${formulas}/library`);
    expect(textOf(html)).toContain('Quick collodion (Estabrooke, p. 29)');
    const starter = `${formulas}/library/collodion-estabrooke-p29`;
    const shown = textOf((await owner.get(starter)).html);
    expect(shown).toMatch(/Ammonium iodide 3\.89 g 60 gr/);
    expect(shown).toContain('one of the two swapped them');
    const answer = await owner.postAndFollow(starter, {
      itemId: studio.items.collodion.id,
      bromide: 'tetrahydrate',
    });
    expect(textOf(answer.html)).toMatch(/Cadmium bromide, tetrahydrate 1\.64 g 20 gr 26 % more/);
    expect(textOf((await owner.get(starter)).html)).toContain('It is among your formulas');
    const again = await owner.post(starter, { itemId: '', bromide: 'anhydrous' });
    expect([again.status, textOf(again.html).includes('among yours already')]).toEqual([409, true]);
    expect((await owner.get(`${formulas}/library/philtre`)).status).toBe(404);
  });

  it('does not take the place of a formula unless one says so, and tells which it replaced', async () => {
    const starter = `${formulas}/library/collodion-wilson-131`;
    await take('collodion-estabrooke-p29', studio.items.collodion.id);
    const { html } = await owner.get(starter);
    expect(html).toMatch(/<option[^>]*value="study"[^>]*selected|<option[^>]*selected[^>]*value="study"/);
    expect(textOf(html)).toContain(
      'Iodised collodion would be mixed by this instead of Quick collodion (Estabrooke, p. 29).',
    );
    const itemId = studio.items.collodion.id;
    const answer = await owner.postAndFollow(starter, { itemId });
    expect(textOf(answer.html)).toContain(
      'Iodised collodion is mixed by this now, instead of Quick collodion (Estabrooke, p. 29)',
    );
  });
});

describe('a form with mistakes', () => {
  it('tells each beside its field and keeps all that was typed', async () => {
    await owner.get(`${formulas}/new`);
    const sent = {
      name: 'House fixer',
      kind: 'fixer',
      'ingredient-1': 'Hypo',
      'amount-1': '5 oz',
      'ingredient-2': 'Distilled water',
      'amount-2': 'a jugful',
      'ingredient-3': 'cadmium bromide',
      'amount-3': '20 grains',
      method: 'Shake <well>.',
      lifeDays: 'long',
    };
    const { status, html } = await owner.post(`${formulas}/new`, sent);
    expect(status).toBe(422);
    expect(html).toMatch(/<a href="#f-amount-1">Which ounce/);
    expect(html).toMatch(/<a href="#f-amount-2">Please write how much/);
    expect(html).toMatch(/<a href="#f-ingredient-3">Which one/);
    expect(html).toContain('<a href="#f-lifeDays">');
    for (const typed of ['House fixer', 'value="5 oz"', 'a jugful', '20 grains', 'Shake &lt;well>.', 'long'])
      expect(html).toContain(typed);
    expect((await owner.get(formulas)).html).not.toContain('House fixer');
  });

  it('is one for cyanide and acid: nothing is kept, and why is said', async () => {
    await owner.get(`${formulas}/new`);
    const sent = { name: 'No', kind: 'developer', 'ingredient-1': 'potassium cyanide', 'amount-1': '5 g' };
    const { status, html } = await owner.post(`${formulas}/new`, { ...sent, batch: '1 l' });
    expect([status, textOf(html).includes('hydrogen cyanide gas, which kills')]).toEqual([422, true]);
  });
});

describe('a formula of one’s own', () => {
  const sent = {
    name: 'House developer',
    kind: 'developer',
    'ingredient-1': 'Distilled water',
    'amount-1': '4 US fl oz',
    'ingredient-2': 'Iron sulfate (ferrous sulfate, heptahydrate)',
    'amount-2': '3 drachms',
    ripenDays: '0',
  };

  it('is written, changed into a second version, and the first stays to be read as it was written', async () => {
    await owner.get(`${formulas}/new`);
    const made = await owner.postAndFollow(`${formulas}/new`, sent);
    expect(textOf(made.html)).toMatch(/Distilled water 118 mL 4 US fl oz/);
    const id = /formulas\/([0-9a-f-]{36})\/change/.exec(made.html)?.[1] ?? '';
    const form = (await owner.get(`${formulas}/${id}/change`)).html;
    const hidden = Object.fromEntries(
      [...form.matchAll(/<input type="hidden" name="((?:was|written|basedOn)[^"]*)" value="([^"]*)"/g)].map(
        ([, name = '', value = '']) => [name, value],
      ),
    );
    expect(hidden).toMatchObject({ basedOn: '1', 'written-2': '3 drachms' });
    const changed = { ...sent, ...hidden, 'amount-1': '118.294 mL', 'amount-2': '13 g', lifeDays: '30' };
    const after = textOf((await owner.postAndFollow(`${formulas}/${id}/change`, changed)).html);
    expect(after).toMatch(/Version 2, by Isaura Fenwick on Wednesday 25 November 2026/);
    expect(after).toMatch(/118 mL 4 US fl oz .* 13 g 13 g .*Earlier versions.* 11\.7 g 3 drachms/);
    const late = await owner.post(`${formulas}/${id}/change`, changed);
    expect([late.status, textOf(late.html).includes('changed in the meantime')]).toEqual([409, true]);
  });

  it('is set for things on the shelf and put away when nothing is mixed by it', async () => {
    const { formulaId } = await house.app.get(FormulasService).create(studio.id, studio.owner, sent);
    await owner.get(`${formulas}/${formulaId}`);
    await owner.postAndFollow(`${formulas}/${formulaId}/items`, { itemIds: studio.items.developer.id });
    const refused = await owner.post(`${formulas}/${formulaId}/archive`, { archived: 'yes' });
    expect([refused.status, refused.html.includes('Iron developer is mixed by it')]).toEqual([409, true]);
    await owner.postAndFollow(`${formulas}/${formulaId}/items`);
    await owner.postAndFollow(`${formulas}/${formulaId}/archive`, { archived: 'yes' });
    expect(textOf((await owner.get(formulas)).html)).toContain('one that is put away House developer');
  });
});

describe('the bench card', () => {
  it('tells amounts for the batch, their order, and what must be kept apart first', async () => {
    const { formulaId } = await take('fixer-cyanide-schriever', studio.items.fixer.id);
    const card = textOf((await owner.get(`${formulas}/${formulaId}/bench-card?batch=2+l`)).html);
    // 1 oz avoirdupois to 30 fl oz: 28.350 g to 887.206 mL, so 63.9 g to 2 L
    expect(card).toMatch(/Potassium cyanide 63\.9 g 1 oz \(avoirdupois assumed\)/);
    expect(card).toMatch(/Order of mixing Only who is trained for it/);
    expect(card).toMatch(/Keep apart Cyanide fixer \(Schriever\) with Iron developer: Hydrogen cyanide gas/);
    expect(card).toMatch(/Before the cyanide is opened .*Second trained adult: __/);
    expect(card).toContain('ask a licensed professional');
    expect(card).toMatch(/Version 1, by Isaura Fenwick on Wednesday 25 November 2026/);
  });

  // Statements known from memory only are never told in words, as a label would tell them.
  it('tells hazards that were read with their source, and of the others where to look', async () => {
    const { formulaId } = await take('collodion-estabrooke-p29', studio.items.collodion.id);
    const card = textOf((await owner.get(`${formulas}/${formulaId}/bench-card`)).html);
    expect(card).toMatch(/Ether: Extremely flammable liquid and vapour \(H224\).* Read in: GisChem/);
    expect(card).toMatch(/Cadmium iodide: From memory H301, .*: check your supplier’s safety data sheet/);
    expect(card).not.toMatch(/Toxic if swallowed|May cause cancer/);
    expect(card).toContain('Never in the same room and hour: mixing collodion or opening ether');
  });

  it('has the peroxide dates of ether on it', async () => {
    const { formulaId } = await take('collodion-estabrooke-p29', studio.items.collodion.id);
    await bottle('diethyl ether', 500_000n);
    const card = textOf((await owner.get(`${formulas}/${formulaId}/bench-card`)).html);
    expect(card).toMatch(/Jar of diethyl ether: not opened yet; not tested for peroxides yet; a test is due/);
  });

  it('asked for a batch that cannot be read says so beside the box', async () => {
    const { formulaId } = await take('fixer-hypo-20-percent', studio.items.fixer.id);
    const { status, html } = await owner.get(`${formulas}/${formulaId}/bench-card?batch=lots`);
    expect([status, html.includes('<a href="#f-batch">')]).toEqual([422, true]);
    expect(html).toContain('value="lots"');
  });

  it('puts a batch on the shelf and takes what went into it, once for a form sent twice', async () => {
    const { formulaId } = await take('fixer-hypo-20-percent', studio.items.fixer.id);
    const jar = await bottle('sodium thiosulfate pentahydrate', 300_000n);
    const card = (await owner.get(`${formulas}/${formulaId}/bench-card?batch=1000`)).html;
    expect(card).toContain(`name="from-${jar}"`);
    const key = '22222222-2222-4222-8222-222222222222';
    const sent = {
      _key: key,
      quantity: '1',
      'quantity-in': 'l',
      [`from-${jar}`]: '200',
      [`from-${jar}-in`]: 'g',
    };
    const before = (await lots()).length;
    const { html } = await owner.postAndFollow(`${formulas}/${formulaId}/mixed`, sent);
    expect(textOf(html)).toContain('The batch is on the shelf');
    await owner.postAndFollow(`${formulas}/${formulaId}/mixed`, sent);
    const after = await lots();
    expect(after.length).toBe(before + 1);
    expect(after.find((lot) => lot.id === jar)?.onHand).toBe(100_000n);
  });

  it('refuses to take more than is in a bottle, at that bottle, and keeps what was typed', async () => {
    const { formulaId } = await take('fixer-hypo-20-percent', studio.items.fixer.id);
    const jar = await bottle('sodium thiosulfate pentahydrate', 300_000n);
    await owner.get(`${formulas}/${formulaId}/bench-card`);
    const sent = { quantity: '2', 'quantity-in': 'l', [`from-${jar}`]: '400', [`from-${jar}-in`]: 'g' };
    const { status, html } = await owner.post(`${formulas}/${formulaId}/mixed`, sent);
    expect([status, html.includes(`<a href="#f-from-${jar}">There is not so much in it`)]).toEqual([
      422,
      true,
    ]);
    expect(html).toContain('value="400"');
    expect((await lots()).find((lot) => lot.id === jar)?.onHand).toBe(300_000n);
  });

  it('does not believe an amount that cannot have come of what was taken, and says so beside it', async () => {
    const { formulaId } = await take('collodion-estabrooke-p29', studio.items.collodion.id);
    const ether = await bottle('diethyl ether', 6_000_000n);
    await owner.get(`${formulas}/${formulaId}/bench-card`);
    const mixed = (quantity: string, taken: string) =>
      owner.post(`${formulas}/${formulaId}/mixed`, {
        ...{ quantity, 'quantity-in': 'ml', [`from-${ether}`]: taken, [`from-${ether}-in`]: 'ml' },
      });
    const little = await mixed('250', '5000');
    expect([little.status, errorAt(little.html, 'quantity')]).toEqual([
      422,
      expect.stringMatching(/^5 L of liquids were taken for it\. Please check both/),
    ]);
    const much = await mixed('5000', '125');
    expect([much.status, errorAt(much.html, 'quantity')]).toEqual([
      422,
      expect.stringMatching(
        /^So much does not come of what was taken: [\d.]+ L at most\. Please check both\.$/,
      ),
    ]);
    expect(much.html).toContain('value="5000"');
    expect((await lots()).find((lot) => lot.id === ether)?.onHand).toBe(6_000_000n);
    expect((await mixed('250', '125')).status).toBe(303);
  });
});
