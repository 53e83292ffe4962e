// The chemistry estimate through its two doors: for programs, and as a page from its address alone.
import type { z } from 'zod';
import type { estimateAnswer } from '../../src/chemistry/estimate.schemas.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let visitor: Visitor;
beforeAll(async () => {
  house = await openTestHouse();
  visitor = new Visitor(house);
});
afterAll(() => house.close());

async function ask(payload: object | string) {
  const answer = await house.app.inject({
    method: 'POST',
    url: '/api/v1/chemistry/estimate',
    payload,
    headers: { 'content-type': 'application/json' },
  });
  return { status: answer.statusCode, type: String(answer.headers['content-type']), body: answer.json() };
}
async function estimate(payload: object): Promise<z.output<typeof estimateAnswer>> {
  const { status, body } = await ask(payload);
  expect(status).toBe(200);
  return body;
}
const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('POST /api/v1/chemistry/estimate', () => {
  // scipy.stats.nbinom.ppf(0.5 and 0.9, 3, 0.7): one and three failures. By hand: 55.25 square inches x 0.2 mL.
  it('gives sheets and solutions of three whole plates', async () => {
    const found = await estimate({ plates: [{ size: 'whole', keepers: 3 }] });
    expect(found.attempts).toMatchObject({ keeperShare: 0.7, stopAfter: 3 });
    expect(found.plates).toEqual([
      {
        widthMm: 165.1,
        heightMm: 215.9,
        surface: 'glass',
        keepers: 3,
        sheets: { low: 3, likely: 4, ninety: 6, high: 6 },
      },
    ]);
    expect(found.solutions.collodion).toEqual({
      unit: 'mL',
      low: 24.863,
      likely: 44.2,
      ninety: 66.3,
      high: 82.875,
    });
    expect(found.sources.map(({ of }) => of)).toContain('silver nitrate');
    expect(found.notes.at(-1)).toContain('data sheets');
  });

  // B. Cuyler, UV Photographics blog, 14 January 2026: 0.72 g for an 8 x 10 in plate; Wilson's rate gives 0.984 g.
  it('gives the silver that was measured, with the part in the film', async () => {
    const { silverNitrate } = await estimate({ plates: [{ size: '8x10', keepers: 1 }], keeperShare: 1 });
    expect(silverNitrate.total).toMatchObject({ unit: 'g', low: 0.72, high: 0.984 });
    expect(silverNitrate.inFilm.likely).toBeLessThan(silverNitrate.total.low);
  });

  // Estabrooke's collodion, p. 29, anhydrous: 13.49 mg of silver nitrate in each millilitre; 4 mL stay on 4 x 5 in.
  it('comes down to raw chemicals by a formula, whose salts then tell the silver in the film', async () => {
    const formula = {
      solution: 'collodion',
      batchMl: 591.471,
      lines: [
        { ingredient: 'ammonium iodide', grams: 3.888 },
        { ingredient: 'cadmium iodide', grams: 1.944 },
        { ingredient: 'cadmium bromide, anhydrous', grams: 1.296 },
        { ingredient: 'ether', mL: 295.735 },
      ],
    };
    const found = await estimate({
      plates: [{ widthMm: 101.6, heightMm: 127, surface: 'metal', keepers: 100 }],
      keeperShare: 1,
      formulas: [formula],
    });
    expect(found.plates[0]).toMatchObject({ surface: 'metal', sheets: { likely: 100 } });
    expect(found.chemicals.map(({ ingredient, unit }) => [ingredient, unit])).toEqual([
      ['Silver nitrate', 'g'],
      ['ammonium iodide', 'g'],
      ['cadmium iodide', 'g'],
      ['cadmium bromide, anhydrous', 'g'],
      ['ether', 'mL'],
    ]);
    expect(found.chemicals[1]?.likely).toBeCloseTo((400 / 591.471) * 3.888, 2);
    expect(found.silverNitrate.inFilm.likely / (400 * 0.01349)).toBeCloseTo(1, 2);
    expect(found.silverNitrate.total.likely).toBeCloseTo(21.2, 6);
  });

  it('asks more of beginners, and goes on until a plate is made', async () => {
    const plates = [{ size: '4x5', keepers: 6 }];
    const [ours, theirs] = [await estimate({ plates }), await estimate({ plates, madeBy: 'beginners' })];
    expect(theirs.attempts.stopAfter).toBeNull();
    expect(theirs.plates[0]?.sheets.ninety).toBe(15); // scipy.stats.nbinom.ppf(0.9, 6, 0.55) = 9 failures
    expect(theirs.solutions.fixer.ninety).toBeGreaterThan(ours.solutions.fixer.ninety);
  });

  it.each([
    [{}, '/plates'],
    [{ plates: [] }, '/plates'],
    [{ plates: [{ size: 'mammoth', keepers: 1 }] }, '/plates/0/size'],
    [{ plates: [{ keepers: 1 }] }, '/plates/0/size'],
    [{ plates: [{ widthMm: 100, keepers: 1 }] }, '/plates/0/size'],
    [{ plates: [{ size: 'whole', widthMm: 100, heightMm: 100, keepers: 1 }] }, '/plates/0/size'],
    [{ plates: [{ widthMm: 100, heightMm: 3000, keepers: 1 }] }, '/plates/0/heightMm'],
    [{ plates: [{ size: 'whole', keepers: 0.5 }] }, '/plates/0/keepers'],
    [
      {
        plates: [
          { size: 'whole', keepers: 600 },
          { size: 'whole', keepers: 600 },
        ],
      },
      '/plates/1/keepers',
    ],
    [{ plates: [{ size: 'whole', keepers: 1, surface: 'paper' }] }, '/plates/0/surface'],
    [{ plates: [{ size: 'whole', keepers: 1 }], madeBy: 'magic' }, '/madeBy'],
    [{ plates: [{ size: 'whole', keepers: 1 }], keeperShare: 0 }, '/keeperShare'],
    [{ plates: [{ size: 'whole', keepers: 1 }], stopAfter: 0 }, '/stopAfter'],
    [{ plates: [{ size: 'whole', keepers: 1 }], formulas: [{ solution: 'tea' }] }, '/formulas/0/solution'],
    [{ plates: [{ size: 'whole', keepers: 1 }], formulas: [{ starter: 'tea' }] }, '/formulas/0/starter'],
    [{ plates: [{ size: 'whole', keepers: 1 }], formulas: [{}] }, '/formulas/0/starter'],
    [
      {
        plates: [{ size: 'whole', keepers: 1 }],
        formulas: [{ solution: 'fixer', batchMl: 1000, lines: [{ ingredient: 'hypo', grams: 1, mL: 1 }] }],
      },
      '/formulas/0/lines/0',
    ],
    [
      {
        plates: [{ size: 'whole', keepers: 1 }],
        formulas: [{ solution: 'fixer', batchMl: 0, lines: [{ ingredient: 'hypo', grams: 1 }] }],
      },
      '/formulas/0/batchMl',
    ],
  ])('refuses %j with a sentence and a pointer', async (payload, pointer) => {
    const { status, type, body } = await ask(payload);
    expect(status).toBe(422);
    expect(type).toContain('application/problem+json');
    expect(body.errors.map((one: { pointer: string }) => one.pointer)).toContain(pointer);
    for (const { detail } of body.errors) expect(detail).toMatch(/^[A-Za-z].*\.$/);
  });

  it('does not stumble over names that every object has, nor over the greatest that may be asked', async () => {
    const odd = {
      solution: 'collodion',
      batchMl: 100,
      lines: [{ ingredient: 'toString', grams: 1 }],
    };
    const sizes = ['whole', '8x10', '11x14', '4x5', '5x7', 'quarter', 'sixth', 'ninth', 'eighth', '4x6'];
    const found = await estimate({
      plates: sizes.map((size) => ({ size, keepers: 1000 })),
      keeperShare: 0.05,
      stopAfter: null,
      formulas: [odd],
    });
    expect(found.plates).toHaveLength(10);
    expect((await ask('{"plates":')).status).toBe(400);
  });

  it('is in the description of the API', async () => {
    const document = (await house.app.inject({ url: '/api/openapi.json' })).json();
    const described = document.paths['/api/v1/chemistry/estimate'].post;
    expect(described.requestBody.content['application/json'].schema.properties.plates).toBeDefined();
    expect(described.responses['200']).toBeDefined();
  });
});

describe('the chemistry page', () => {
  const look = (query: Record<string, string>) => visitor.get(`/chemistry?${new URLSearchParams(query)}`);

  it('asks first, and is linked from the daylight page', async () => {
    const { status, html } = await visitor.get('/chemistry');
    expect(status).toBe(200);
    expect(html).toContain('method="get"');
    expect(html).not.toContain('What to have ready');
    expect((await visitor.get('/daylight')).html).toContain('href="/chemistry"');
  });

  it('says what three whole plates and two of another measure need, in words', async () => {
    const { status, html } = await look({
      'size-1': 'whole',
      'keepers-1': '3',
      'size-2': 'own',
      'width-2': '101,6',
      'height-2': '127',
      'keepers-2': '2',
      madeBy: 'sittings',
    });
    const text = textOf(html);
    expect(status).toBe(200);
    expect(text).toContain('What 5 plates need');
    expect(text).toMatch(/Sheets, Whole plate 6 1\/2 x 8 1\/2 in 3 4 6 6 /);
    expect(text).toMatch(/Sheets, 4 x 5 in 2 3 4 4 /);
    expect(text).toContain('Silver nitrate');
    expect(text).toContain('70 of a hundred plates are kept, and after 3 tries for a plate one stops.');
    expect(text).toContain('follow your supplier');
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  // Estabrooke, p. 29: 60 grains of ammonium iodide in 20 fl oz (US); three whole plates take 44.2 mL, so 0.29 g.
  it('comes down to raw chemicals by printed formulas, each with its source', async () => {
    const { html } = await look({
      'size-1': 'whole',
      'keepers-1': '3',
      madeBy: 'sittings',
      'formula-collodion': 'collodion-estabrooke-p29',
    });
    const text = textOf(html);
    expect(text).toContain('What goes into the bottles');
    expect(text).toMatch(/Ammonium iodide 16\d mg 29\d mg 43\d mg 54\d mg/);
    expect(text).toContain('Estabrooke, Photography in the Studio and in the Field');
    const { body } = await ask({
      plates: [{ size: 'whole', keepers: 3 }],
      formulas: [{ starter: 'collodion-estabrooke-p29' }],
    });
    const iodide = body.chemicals.find(
      ({ ingredient }: { ingredient: string }) => ingredient === 'Ammonium iodide',
    );
    expect(iodide.likely).toBeCloseTo((44.2 * 60 * 0.06479891) / (20 * 29.5735295625), 2);
    expect(body.silverNitrate.inFilm.likely / (44.2 * 0.01349)).toBeCloseTo(1, 1);
  });

  it('warns of cyanide wherever a formula has it', async () => {
    const fixer = (key: string) =>
      look({ 'size-1': 'whole', 'keepers-1': '3', madeBy: 'sittings', 'formula-fixer': key });
    expect(textOf((await fixer('fixer-cyanide-schriever')).html)).toContain('Cyanide can kill');
    expect(textOf((await fixer('fixer-hypo-schriever')).html)).not.toContain('Cyanide can kill');
  });

  it('agrees with the API', async () => {
    const { body } = await ask({ plates: [{ size: 'half-british', keepers: 4 }], madeBy: 'beginners' });
    const text = textOf(
      (await look({ 'size-1': 'half-british', 'keepers-1': '4', madeBy: 'beginners' })).html,
    );
    expect(text).toContain(`Fixer ${Math.ceil(body.solutions.fixer.low)} mL`);
  });

  it.each([
    [{ 'size-1': '', 'keepers-1': '' }, 'Please choose a size.'],
    [{ 'size-1': 'whole', 'keepers-1': 'many' }, 'Please give a whole number of plates'],
    [{ 'size-1': 'whole', 'keepers-1': '1001' }, 'Please give a whole number of plates'],
    [{ 'size-1': 'own', 'keepers-1': '2', 'width-1': '5' }, 'Please give millimetres, 10 to 2000.'],
    [{ 'size-1': 'mammoth', 'keepers-1': '2' }, 'Please choose a size.'],
    [{ 'size-1': 'whole', 'keepers-1': '2', madeBy: 'magic' }, 'Please say who makes the plates.'],
    [{ 'size-1': 'whole', 'keepers-1': '2', 'formula-fixer': 'tea' }, 'Please choose a formula, or none.'],
    [
      { 'size-1': 'whole', 'keepers-1': '600', 'size-2': 'whole', 'keepers-2': '600' },
      'So many of one size are not reckoned together.',
    ],
  ])('tells a mistake at its field and keeps what was typed: %j', async (sent, sentence) => {
    const { status, html } = await look(sent as Record<string, string>);
    expect(status).toBe(422);
    expect(html).toContain(sentence);
    for (const [name, value] of Object.entries(sent))
      if (name.startsWith('keepers') && value) expect(html).toContain(`value="${value}"`);
  });
});
