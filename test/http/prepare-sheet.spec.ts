// The preparation sheet behind a sitter's own link: every sentence of it in both languages, and the seconds of this very
// place as the public page of open places had them.
import { wordsFor } from '../../src/words/words-for.js';
import { LANGUAGES, type Language } from '../../src/words/languages.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

const sheetOf = async (own: string, language: Language): Promise<string> => {
  const { status, html } = await new Visitor(house).get(`${own}/prepare?lang=${language}`);
  expect(status).toBe(200);
  return wordsOf(html);
};

async function placed(start: string): Promise<string> {
  const { sittingId, token } = await askForSitting(house, studio);
  await approve(house, studio, sittingId, start);
  return `/s/${studio.slug}/place/${token}`;
}

/** Each sentence of a part of the catalogue, by its key. */
function sentencesOf(words: object, under = ''): [key: string, sentence: string][] {
  return Object.entries(words).flatMap(([key, value]: [string, unknown]) => {
    const name = `${under}${key}`;
    if (typeof value === 'string') return [[name, value.replace(/\s/g, ' ')] as [string, string]];
    return typeof value === 'object' && value !== null ? sentencesOf(value, `${name}.`) : [];
  });
}

it('has every sentence of the catalogue, in both languages, and no two are the same', async () => {
  const own = await placed('2027-05-14T11:15');
  for (const language of LANGUAGES) {
    const sheet = await sheetOf(own, language);
    const sentences = sentencesOf(wordsFor(language).prepareSheet.parts);
    expect(sentences.length).toBeGreaterThan(50);
    const missing = sentences.filter(([, sentence]) => !sheet.includes(sentence));
    expect({ language, missing }).toEqual({ language, missing: [] });
  }
  const [english, french] = LANGUAGES.map((one) => new Map(sentencesOf(wordsFor(one).prepareSheet)));
  expect([...(english ?? [])].filter(([key, sentence]) => french?.get(key) === sentence)).toEqual([]);
});

it('says "may" in both languages where lens, bottle and light decide', () => {
  for (const [language, may] of [
    ['en', /\bmay\b/],
    ['fr', /\bpeu(t|vent)\b|peut-être/],
  ] as const) {
    const { skin, face, glasses, colours } = wordsFor(language).prepareSheet.parts;
    const unsure = [
      ...Object.values(skin.says),
      ...Object.values(face.says),
      ...Object.values(glasses.says),
      ...[colours.says.red, colours.says.blue, colours.says.white, colours.says.dye],
    ];
    expect(unsure.filter((sentence) => !may.test(sentence))).toEqual([]);
  }
});

it('tells the seconds of this very place, as its day was open to all before', async () => {
  const said = async (day: string, time: string) => {
    const open = wordsOf((await new Visitor(house).get(`/s/${studio.slug}?lang=en`)).html);
    const seconds = new RegExp(
      `${day}.*?${time}[^:]*?hold still (\\d+ to \\d+|about \\d+) seconds if clear, up to (\\d+)`,
    );
    const [, clear = '', dull = ''] = seconds.exec(open) ?? [];
    return { clear, dull };
  };
  const [may, march] = [await said('14 May', '13:00'), await said('5 March', '13:00')];
  expect(may.clear).toMatch(/\d/);
  expect(march).not.toEqual(may);
  for (const [start, { clear, dull }] of [
    ['2027-05-14T13:00', may],
    ['2027-03-05T13:00', march],
  ] as const) {
    const own = await placed(start);
    const english = await sheetOf(own, 'en');
    expect(english).toContain(`${clear} seconds if the sky is clear, up to ${dull} if it is dull`);
    expect(english).toContain('13:00 to 14:15, for one plate');
    const [first = '', last] = clear.split(' to ');
    const french = last === undefined ? first.replace('about', 'environ') : `de ${first} à ${last}`;
    expect(await sheetOf(own, 'fr')).toContain(
      `${french} secondes si le ciel est clair, jusqu’à ${dull} s’il est couvert`,
    );
  }
});

it('tells nobody without a place how long, and is reached from their page', async () => {
  const { token } = await askForSitting(house, studio);
  const own = `/s/${studio.slug}/place/${token}`;
  expect(await sheetOf(own, 'en')).toContain('You have no place yet.');
  expect((await new Visitor(house).get(own)).html).toContain(`href="${own}/prepare"`);
  const strangers = `/s/${studio.slug}/place/${'x'.repeat(43)}/prepare`;
  expect((await new Visitor(house).get(strangers)).status).toBe(404);
});
