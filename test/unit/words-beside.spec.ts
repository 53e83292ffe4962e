// What is wrong with an answer is told in French too: every such sentence that visitors and students can meet, found in
// the files that say them.
import { readFileSync } from 'node:fs';
import { PRINTED } from '../../src/chemistry/estimate.schemas.js';
import { BEGINNER_ATTEMPTS, DEFAULT_USE, SITTING_ATTEMPTS } from '../../src/chemistry/use-per-area.calc.js';
import { sourcesOf } from '../../src/chemistry/words.calc.js';
import { frenchBeside } from '../../src/words/fr/beside.js';
import { frenchPrinted } from '../../src/words/fr/printed.js';

/** Who checks what visitors and students send. */
const CHECKED_BY = [
  'chemistry/bath-form.schemas',
  'chemistry/estimate-form.schemas',
  'daylight/daylight.schemas',
  'people/own-journey.service',
  'people/ways.schemas',
  'platform/input',
  'platform/seen',
  'room/calculator.web',
  'sittings/ask-homes.service',
  'sittings/request.schemas',
  'teaching/sign-up.schemas',
  'teaching/sign-ups.service',
  'travel/journey-form.calc',
  'travel/journey.web',
  'travel/spots.service',
];

/** Sentences in a source, with whatever else they tell as {}. */
const sentencesIn = (source: string): string[] =>
  [...source.replace(/^\s*(\/\/|\*|\/\*).*$/gm, '').matchAll(/'([A-Z][^'\n]*\.)'|`([A-Z][^`\n]*\.)`/g)].map(
    ([, plain, told]) => plain ?? (told ?? '').replace(/\$\{(?:[^{}]|\{[^{}]*\})*\}/g, '{}'),
  );
const read = (file: string) => readFileSync(new URL(`../../src/${file}.ts`, import.meta.url), 'utf8');

it.each(CHECKED_BY)('every sentence of %s', (file) => {
  const said = sentencesIn(read(file)).map((sentence) => sentence.replaceAll('{}', '12'));
  expect(said.filter((sentence) => frenchBeside(sentence) === sentence)).toEqual([]);
  expect(said.length).toBeGreaterThan(0);
});

it('a sentence that has no French is found', () => {
  const source = `wrong('name', 'Please sing.'); wrong('age', \`At most \${MOST} songs.\`);`;
  expect(sentencesIn(source)).toEqual(['Please sing.', 'At most {} songs.']);
  expect(sentencesIn(source).filter((one) => frenchBeside(one) === one)).toHaveLength(2);
});

it.each([
  [
    'Please choose days from Friday 1 January 2027 to Monday 31 May 2027.',
    'Veuillez choisir des jours du vendredi 1er janvier 2027 au lundi 31 mai 2027.',
  ],
  ['Please keep this under 2,000 characters.', 'Veuillez ne pas dépasser 2,000 caractères.'],
  ['Please keep this under 200 characters.', 'Veuillez ne pas dépasser 200 caractères.'],
  ['Places are given until Saturday 1 May 2027.', 'Des places sont données jusqu’au samedi 1er mai 2027.'],
])('%s', (english, french) => {
  expect(frenchBeside(english)).toBe(french);
});

/** What the calculators tell of printed formulas and figures; sources that are a book alone keep its name. */
const PRINTED_TEXTS = [
  ...PRINTED.flatMap(({ name, note, lines }) => [name, note, ...lines.map(({ ingredient }) => ingredient)]),
  ...[SITTING_ATTEMPTS, BEGINNER_ATTEMPTS, ...sourcesOf(DEFAULT_USE)].map(({ source }) => source),
  ...PRINTED.map(({ source }) => source).filter((source) => /memory|assum/i.test(source)),
];

it('each printed formula, its ingredients and notes, and where figures are from, stand in French as a whole', () => {
  expect(PRINTED_TEXTS.filter((text) => frenchPrinted(text) === text)).toEqual([]);
  expect(PRINTED_TEXTS.length).toBeGreaterThan(100);
});

it('a printed text of which a part has no French is found', () => {
  expect(frenchPrinted('About 16 %. Life: from memory.')).toBe('Environ 16 %. Durée : de mémoire.');
  const unknown = 'About 16 %. Keep it in the dark.';
  expect(frenchPrinted(unknown)).toBe(unknown);
});
