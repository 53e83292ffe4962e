// French typography: a space that stands before : ; ? ! » or after « never ends a line (Lexique des règles typographiques
// en usage à l'Imprimerie nationale, from memory).
import { unbroken } from '../../src/words/fr/unbroken.js';
import { wordsFor } from '../../src/words/words-for.js';

const textsOf = (words: unknown): string[] => {
  if (typeof words === 'string') return [words];
  return typeof words === 'object' && words !== null ? Object.values(words).flatMap(textsOf) : [];
};

it('keeps such spaces in texts, lists and what is put together, and no others', () => {
  const words = unbroken({
    text: 'Des questions ? Dites « oui » : merci',
    list: ['a ; b', 'a b'],
    told: (name: string) => `Bonjour ${name} !`,
    parts: (count: number) => [`${count} :`],
  });
  expect(words.text).toBe('Des questions\u00a0? Dites «\u00a0oui\u00a0»\u00a0: merci');
  expect(words.list).toEqual(['a\u00a0; b', 'a b']);
  expect(words.told('Aubin Vire')).toBe('Bonjour Aubin Vire\u00a0!');
  expect(words.parts(2)).toEqual(['2\u00a0:']);
});

it('holds for the whole catalogue, in French only', () => {
  expect(textsOf(wordsFor('fr')).filter((text) => / [:;?!»]|« /.test(text))).toEqual([]);
  expect(wordsFor('fr').place.facts.plate('Whole plate', 'Aubin Vire')).toBe('Whole plate\u00a0: Aubin Vire');
  expect(textsOf(wordsFor('en')).filter((text) => text.includes('\u00a0'))).toEqual(['under 1\u00a0km']);
});
