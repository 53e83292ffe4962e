// A page in two languages: what of the one is left on the other.
import { Temporal } from 'temporal-polyfill';
import { type LetterToCome, REMINDED_OF } from '../../src/people/letters-to-come.schemas.js';
import { LANGUAGES } from '../../src/words/languages.js';
import { wordsFor } from '../../src/words/words-for.js';
import type { TestHouse } from './house.js';
import { readable } from './page-forms.js';

/** A page as a browser of that language asks for it. */
export async function fetchedIn(house: TestHouse, url: string, language: string, status = 200) {
  const answer = await house.app.inject({
    url,
    headers: { accept: 'text/html', 'accept-language': language },
  });
  expect([url, answer.statusCode]).toEqual([url, status]);
  return answer;
}

/** What is read or heard: text, and the names of pictures and parts. */
export function textsOf(html: string): string[] {
  const body = html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, ' ');
  const texts = [...body.matchAll(/>([^<>]+)</g), ...body.matchAll(/aria-label="([^"]*)"/g)];
  return texts.map(([, text = '']) => readable(text).replace(/\s+/g, ' ').trim());
}

/** The same in both, and not allowed to be: of the studio's own words, numbers and names nothing is translated. */
export function leftovers(english: string, french: string, allowed: (string | RegExp)[]): string[] {
  const same = new Set(textsOf(english));
  const fine = (text: string) => !/\p{L}/u.test(text) || isAmong(allowed, text);
  return [...new Set(textsOf(french).filter((text) => same.has(text) && !fine(text)))];
}

const isAmong = (allowed: (string | RegExp)[], text: string): boolean =>
  allowed.some((one) => (typeof one === 'string' ? one === text : one.test(text)));

/** Those of the test studio, of the program and of the list of places. */
export const OF_THE_STUDIO = [
  /GeoNames/,
  'Plateday',
  'Sandpiper Loft',
  'Sandpiper Loft, Ropewalk',
  'desk@sandpiper-loft.example',
  'Portraits on glass, by daylight, on Fridays.',
];

/** Every sentence of the English catalogue that reads otherwise in French, long enough to be no chance. */
function englishSentences(): string[] {
  const of = (words: object): unknown[] =>
    Object.values(words).flatMap((one: unknown) =>
      typeof one === 'object' && one !== null ? of(one) : [one],
    );
  const [english, french] = [of(wordsFor('en')), of(wordsFor('fr'))];
  const texts = english.filter((one): one is string => typeof one === 'string' && one.length >= 12);
  return texts.filter((text) => !french.includes(text));
}

const SENTENCES = englishSentences();
export const englishIn = (html: string, allowed: (string | RegExp)[] = []) => {
  const words = textsOf(html)
    .filter((text) => !isAmong(allowed, text))
    .join(' ');
  return SENTENCES.filter((sentence) => words.includes(sentence));
};

/** Every reminder there is, as still to come. */
export const LETTERS: LetterToCome[] = REMINDED_OF.map((about) => ({
  about,
  on: Temporal.PlainDate.from('2027-05-07'),
  by: 'telephone',
}));

/** A page stands whole in both languages. */
export async function inBoth(
  house: TestHouse,
  path: string,
  typed: (string | RegExp)[],
  status = 200,
): Promise<void> {
  const [english, french] = await Promise.all(
    LANGUAGES.map(async (one) => (await fetchedIn(house, path, one, status)).body),
  );
  expect(english).toContain('<html lang="en-GB">');
  expect(french).toContain('lang=en"');
  expect({ path, left: leftIn(french ?? '', english ?? '', typed) }).toEqual({ path, left: [] });
}

/** What of the English page, and of any English sentence of the catalogue, is left on the French one. */
export function leftIn(french: string, english: string, typed: (string | RegExp)[]): string[] {
  expect(french).toContain('<html lang="fr">');
  expect(french).toContain('n’a pas encore été relue');
  return [...leftovers(english, french, typed), ...englishIn(french, typed)];
}
