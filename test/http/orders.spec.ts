// What is to be mixed and ordered, as the owner and the assistant see it, and the doors of orders.
import { planAnswer } from '../../src/stock/plan-api.schemas.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let copperas: string;
const SHELF = '/s/sandpiper-loft/desk/shelf';
const ORDERS = `${SHELF}/orders`;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    slug: 'sandpiper-loft',
    shelf: { wholeGlass: 0n, developer: 0n, collodion: 0n },
  });
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
  copperas = await house.db.inStudio(studio.id, async (tx) => {
    const bought = { plateSizeId: null, ripenDays: null, lifeDays: null } as const;
    const item = await house.app.get(StockService).enterItem(tx, {
      name: 'Copperas',
      kind: 'chemical',
      unit: 'mg',
      ...bought,
      leadDays: 9,
      packQuantity: 250_000n,
      noPost: true,
    });
    await house.app
      .get(StockService)
      .enterItem(tx, { name: 'Lint', kind: 'supply', unit: 'piece', ...bought, leadDays: null });
    const formula = [tx.studioId, '00000000-0000-4000-8000-00000000f001'];
    await tx.run(
      `insert into formula (studio_id, formula_id, item_kind, name, current_version)
       values ($1, $2, 'developer', 'Iron developer', 1)`,
      formula,
    );
    await tx.run(
      `insert into formula_version (studio_id, formula_id, version, created_at, who, batch_quantity, ripen_days)
       values ($1, $2, 1, '2026-11-01', 'Isaura', 500000, 1)`,
      formula,
    );
    await tx.run(
      `insert into formula_line (studio_id, formula_id, version, position, ingredient, item_id, quantity, unit)
       values ($1, $2, 1, 1, 'Copperas', $3, 20000, 'mg'), ($1, $2, 1, 2, 'Water', null, 480000, 'uL')`,
      [...formula, item.id],
    );
    await tx.run('update item set formula_id = $2 where studio_id = $1 and item_id = $3', [
      ...formula,
      studio.items.developer.id,
    ]);
    return item.id;
  });
  const suits = { kind: 'any', from: '2026-11-28', until: '2027-03-31' } as const;
  const { sittingId } = await askForSitting(house, studio, { suits });
  await approve(house, studio, sittingId, '2026-12-18T11:15');
}, 60_000);
afterAll(() => house.close());

describe('what is to be mixed', () => {
  it('is told with its batch, its days, whom it is for, and the ingredient that must be ordered first', async () => {
    const page = wordsOf((await assistant.get(`${SHELF}/mixing`)).html);
    expect(page).toMatch(/Iron developer ?: 500 mL mix by Thursday 17 December/);
    expect(page).toMatch(/[\d.]+ mL needed for Friday 18 December\. One batch of its formula\./);
    expect(page).toContain('Missing for it: Copperas: order by Tuesday 8 December');
    expect(page).toContain('Not counted on the shelf, please look yourself: Water.');
    // it ripens for a week: 11 December is more than two weeks off
    expect(page).toMatch(/one batch later .*Iodised collodion [\d.]+ mL .* and Friday 11 December/);
  });

  it('leads to the bench card of the batch', async () => {
    const { html } = await assistant.get(`${SHELF}/mixing`);
    const href = /href="([^"]*bench-card[^"]*)"/.exec(html)?.[1] ?? '';
    expect(href).toBe(`${SHELF}/formulas/00000000-0000-4000-8000-00000000f001/bench-card?batch=500`);
    expect((await assistant.get(href)).status).toBe(200);
  });
});

describe('what is to be ordered', () => {
  it('is told in packs, with its latest day, why, and that it cannot go by post', async () => {
    const page = wordsOf((await owner.get(ORDERS)).html);
    expect(page).toMatch(
      /Clear glass, whole plate ?: \d+ sheets? order by Friday 27 November ; it is needed on Friday 18/,
    );
    expect(page).toMatch(
      /Copperas ?: 250 g: one pack of 250 g order by Tuesday 8 December .* 20 g needed for Iron developer, to be mixed by Thursday 17 December\. .*cannot go by post or air/,
    );
  });

  it('is on its way once it is ordered, and on the shelf once it has come', async () => {
    const { html } = await assistant.get(ORDERS);
    const of = /name="of" value="([^"]*)"/g;
    const lines = [...html.matchAll(of)].map(([, found]) => found ?? '');
    const line = lines.find((one) => one.startsWith(copperas)) ?? '';
    const forms = html.split('<form').filter((one) => one.includes(`value="${line}"`));
    const token = /name="_form" value="([^"]*)"/.exec(forms[0] ?? '')?.[1] ?? '';
    const sent = {
      _form: token,
      _key: /name="_key" value="([^"]*)"/.exec(forms[0] ?? '')?.[1] ?? '',
      of: line,
      [`itemId-${line}`]: copperas,
      [`quantity-${line}-in`]: 'g',
      [`quantity-${line}`]: '500',
    };
    const after = await assistant.postAndFollow(ORDERS, sent);
    expect(wordsOf(after.html)).toContain('It is noted as ordered');
    expect(wordsOf(after.html)).toMatch(/On its way Copperas ?: 500 g expected on Friday 4 December 2026/);
    expect(wordsOf(after.html)).not.toContain('one pack of 250 g');
    await assistant.postAndFollow(ORDERS, sent);
    const twice = await assistant.get(ORDERS);
    expect(wordsOf(twice.html).match(/Copperas ?: 500 g expected/g)).toHaveLength(1);
    expect(wordsOf((await owner.get(`${SHELF}/mixing`)).html)).not.toContain('Missing for it');

    const receive = /action="([^"]*\/shelf\/receive\/[^"]*)"/.exec(twice.html)?.[1] ?? '';
    await assistant.post(receive, fieldsOf(twice.html, receive));
    expect(wordsOf((await owner.get(ORDERS)).html)).toContain('Nothing is ordered and still to come.');
    expect(wordsOf((await owner.get(`${SHELF}/items/${copperas}`)).html)).toContain('Usable now 500 g');
  });

  it('may be anything else too, whose slips are told beside the field with what was typed', async () => {
    const { html } = await owner.get(ORDERS);
    const forms = html.split('<form');
    const last = `<form${forms.at(-1)}`;
    const sent = {
      ...fieldsOf(last, ORDERS),
      'itemId-else': studio.items.fixer.id,
      'quantity-else': 'two jars',
    };
    const undated = await owner.post(ORDERS, sent);
    expect(undated.status).toBe(422);
    expect(errorAt(undated.html, 'expectedOn-else')).toBe('Please say when it should come.');
    expect(undated.html).toContain('value="two jars"');
    const dated = {
      ...sent,
      'expectedOn-else-day': '2',
      'expectedOn-else-month': '12',
      'expectedOn-else-year': '2026',
    };
    const wrong = await owner.post(ORDERS, dated);
    expect(errorAt(wrong.html, 'quantity-else')).toMatch(/with its unit/);
    const done = await owner.postAndFollow(ORDERS, { ...dated, 'quantity-else': '2 l' });
    expect(wordsOf(done.html)).toMatch(/Hypo fixer ?: 2 L expected on Wednesday 2 December 2026/);
    const off = /action="([^"]*\/orders\/[^"]*\/off)"/.exec(done.html)?.[1] ?? '';
    const gone = await owner.postAndFollow(off, fieldsOf(done.html, off));
    expect(wordsOf(gone.html)).toContain('Nobody waits for it any more.');
    expect((await owner.post(off, fieldsOf(done.html, off))).status).toBe(409);
  });
});

describe('more than is kept at most', () => {
  const most = (quantity: string | null) =>
    house.db.inStudio(studio.id, (tx) =>
      tx.run('update item set most_on_hand = $2 where studio_id = $1 and item_id = $3', [
        tx.studioId,
        quantity,
        copperas,
      ]),
    );
  afterAll(() => most(null));

  it('is noted as ordered all the same, with a warning', async () => {
    await most('600000');
    const { html } = await owner.get(ORDERS);
    const sent = {
      ...fieldsOf(`<form${html.split('<form').at(-1)}`, ORDERS),
      'itemId-else': copperas,
      'quantity-else': '250 g',
    };
    const done = await owner.postAndFollow(ORDERS, sent);
    expect(wordsOf(done.html)).toContain('that is more than you keep at most');
    expect(wordsOf(done.html)).toMatch(/Copperas ?: 250 g expected/);
    const off = /action="([^"]*\/orders\/[^"]*\/off)"/.exec(done.html)?.[1] ?? '';
    await owner.postAndFollow(off, fieldsOf(done.html, off));
  });
});

describe('one thing ahead', () => {
  it('is drawn and told as a table on its page, with what falls short', async () => {
    const { html } = await assistant.get(`${SHELF}/items/${studio.items.wholeGlass.id}`);
    expect(html).toMatch(/<svg class="stock-chart" [^>]*role="img"/);
    expect(wordsOf(html)).toMatch(/Missing: 1 sheet, first on Friday 18 December/);
    expect(wordsOf(html)).toMatch(/As a table .*Friday 18 December missing: 1 sheet 0 sheets 0 sheets/);
    const drawn = html.slice(
      html.indexOf('<svg class="stock-chart"'),
      html.indexOf('</svg>', html.indexOf('stock-chart')),
    );
    expect(drawn.length).toBeLessThan(20_000);
  });
});

describe('the shelf ahead for programs', () => {
  it('is every item day by day, what to mix and order, and how each place stands', async () => {
    const api = '/api/v1/s/sandpiper-loft';
    const session = await house.app.inject({
      method: 'POST',
      url: `${api}/sessions`,
      payload: { email: studio.assistant.email, password: PASSWORD },
    });
    const authorization = `Bearer ${(session.json() as { token: string }).token}`;
    const answer = await house.app.inject({ url: `${api}/shelf/plan`, headers: { authorization } });
    expect(answer.statusCode).toBe(200);
    const plan = planAnswer.parse(answer.json());
    const glass = plan.items.find(({ id }) => id === studio.items.wholeGlass.id);
    expect(glass?.days.map((one) => [one.day, one.short > 0])).toEqual([
      ['2026-11-25', false],
      ['2026-12-18', true],
    ]);
    expect(plan.toOrder).toMatchObject([
      { itemId: studio.items.wholeGlass.id, by: '2026-11-27', days: ['2026-12-18'] },
    ]);
    expect(plan.toMix.map((one) => [one.itemId, one.latest])).toEqual([
      [studio.items.collodion.id, '2026-12-11'],
      [studio.items.developer.id, '2026-12-17'],
    ]);
    expect(plan.places).toMatchObject([{ state: 'order by', by: '2026-11-27' }]);
    expect(plan.lacking).toEqual([]);
  });
});
