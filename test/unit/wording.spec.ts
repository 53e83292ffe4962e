// Texts with variables, and that every language of the letters puts in the same.
import fc from 'fast-check';
import { fill, literal, pieces, variablesIn, WordingError } from '../../src/lib/wording.js';
import { sittingLetterIn } from '../../src/reminders/letters.calc.js';
import type { SittingLetter } from '../../src/reminders/letters.schemas.js';
import { exampleOf } from '../../src/reminders/wording-example.calc.js';
import { letterWith, ourWording, problemsOf, variablesOf } from '../../src/reminders/wordings.calc.js';
import { WORDED_KINDS, type WordedKind } from '../../src/reminders/wordings.schemas.js';
import { LANGUAGES } from '../../src/words/languages.js';
import { wordsFor } from '../../src/words/words-for.js';

const anyText = fc.string({ unit: fc.constantFrom('{', '}', 'a', 'name', ' ', '\r\n', '$&', '<b>', 'é') });
const name = fc.constantFrom('name', 'place', 'studio', 'leave_by');

describe('texts with variables', () => {
  it('puts in what stands for them, as it is and once', () => {
    const values = { name: '{studio}', studio: '$& {name} {{' };
    expect(fill('Dear {name}, at {studio} or { studio }.', values)).toBe(
      'Dear {studio}, at $& {name} {{ or $& {name} {{.',
    );
    expect(fill('{{name}} {{{name}}}', values)).toBe('{name} {{studio}}');
    expect(variablesIn('{name}{{name}}{studio}{name}')).toEqual(['name', 'studio']);
  });

  it('names what it does not know, also what every object has', () => {
    for (const unknown of ['nobody', 'constructor', '__proto__', 'NAME', ''])
      expect(() => fill(`Dear {${unknown}}`, { name: 'A' })).toThrow(new RegExp(`\\{${unknown}\\}`));
    for (const loose of ['a { b', 'a } b', '{name', '{{name}', '{ {name} }'])
      expect(() => fill(loose, { name: 'A' })).toThrow(WordingError);
  });

  it('any text is itself when every brace is meant, and any value is put in as it is', () => {
    fc.assert(
      fc.property(anyText, anyText, name, (text, value, variable) => {
        expect(fill(literal(text), {})).toBe(text);
        expect(fill(`${literal(text)}{${variable}}${literal(text)}`, { [variable]: value })).toBe(
          `${text}${value}${text}`,
        );
      }),
    );
  });

  it('any text at all is either filled or refused by a sentence', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const refused = pieces(text).some((piece) => 'trouble' in piece);
        const values = Object.fromEntries(variablesIn(text).map((one) => [one, 'x']));
        if (refused) expect(() => fill(text, values)).toThrow(WordingError);
        else expect(fill(text, values)).not.toContain('undefined');
      }),
    );
  });
});

describe('letters in each language', () => {
  const templates = (words: unknown, at = ''): [string, string][] =>
    typeof words === 'string'
      ? [[at, words]]
      : Object.entries(words as object).flatMap(([key, one]) => templates(one, `${at}/${key}`));
  const of = (language: (typeof LANGUAGES)[number]) => {
    const { letters, lettersTeaching } = wordsFor(language);
    return new Map(templates({ letters, lettersTeaching }));
  };

  it('have the same templates with the same variables', () => {
    const english = of('en');
    expect(english.size).toBeGreaterThan(100);
    for (const language of LANGUAGES) {
      const theirs = of(language);
      expect([...theirs.keys()]).toEqual([...english.keys()]);
      for (const [at, template] of theirs) {
        const mine = { at, has: variablesIn(template).toSorted() };
        expect(mine).toEqual({ at, has: variablesIn(english.get(at) ?? '').toSorted() });
        expect(pieces(template).filter((piece) => 'trouble' in piece)).toEqual([]);
      }
    }
  });

  it('are not the same words', () => {
    const [english, french] = [of('en'), of('fr')];
    const same = [...english].flatMap(([at, words]) => (french.get(at) === words ? [at] : []));
    expect(same).toEqual(['/letters/moment']);
  });
});

describe("an owner's own words", () => {
  const studio = {
    ...{ slug: 'loft', name: 'Sandpiper Loft', address: 'Ropewalk', email: 'desk@loft.example' },
    ...{ telephone: '01632 960100', lat: 54, lon: -1 },
  };
  const page = 'https://x.example/page';
  const letterOf = (kind: WordedKind, own: { subject: string; body: string } | null) =>
    letterWith(exampleOf(kind, studio, null), 'en', own && { kind, version: 1, ...own }, page);

  it.each(WORDED_KINDS)(
    '%s: our words put in only what is explained, and read the same as theirs',
    (kind) => {
      for (const language of LANGUAGES) {
        const ours = ourWording(exampleOf(kind, studio, null), language);
        expect(problemsOf(kind, ours)).toEqual([]);
      }
      const ours = ourWording(exampleOf(kind, studio, null), 'en');
      const [mine, theirs] = [letterOf(kind, null), letterOf(kind, ours)];
      expect(theirs.subject).toBe(mine.subject);
      expect(theirs.paragraphs.toSorted()).toEqual(mine.paragraphs.toSorted());
    },
  );

  it.each(WORDED_KINDS)(
    '%s: every variable has a value, and what is so stands there whatever they write',
    (kind) => {
      const body = Object.keys(variablesOf(kind))
        .map((one) => `{${one}}`)
        .join('\n\n');
      const [mine, theirs] = [letterOf(kind, null), letterOf(kind, { subject: 'S {name}', body })];
      expect(theirs.subject).toBe('S Ottilie Marsh');
      expect(theirs.paragraphs[0]).toBe('Ottilie Marsh');
      const { greeting, facts, action, closing } = mine;
      expect(theirs).toMatchObject({ greeting, action, closing });
      expect(theirs.facts).toEqual(expect.arrayContaining(facts));
      expect(theirs.facts.some(({ term }) => term === 'Held for you until')).toBe(/offered$/.test(kind));
      const leave = mine.paragraphs.filter((one) => one.startsWith('Leave home by'));
      expect(leave).toHaveLength(/reminder: (eve|day)/.test(kind) ? 1 : 0);
      expect(theirs.paragraphs).toEqual(expect.arrayContaining(leave));
    },
  );

  it('do not tell of what is attached on paper, where they keep our sentence about it', () => {
    const example = exampleOf('confirmed', studio, null);
    const own = { kind: 'confirmed', version: 1, ...ourWording(example, 'en') };
    const about = { ...example.about, wording: own } as SittingLetter;
    expect(sittingLetterIn('confirmed', about, page).paragraphs.join()).toContain('attached');
    const printed = sittingLetterIn('confirmed', { ...about, onPaper: true } as SittingLetter, page);
    expect(printed.paragraphs.join()).not.toContain('attached');
  });

  it('hold for their own kind only, and a letter that is passed on has ours', () => {
    const own = { kind: 'confirmed', version: 1, subject: 'Mine', body: 'Mine' };
    const example = exampleOf('released', studio, null);
    expect(letterWith(example, 'en', own, page).subject).not.toBe('Mine');
    const about = { ...exampleOf('confirmed', studio, null).about, wording: own } as SittingLetter;
    expect(sittingLetterIn('confirmed', about, page).subject).toBe('Mine');
    const passedOn = sittingLetterIn('confirmed', { ...about, passOn: 'Ring them:' }, page);
    expect(passedOn.subject).toMatch(/^To pass on to Ottilie Marsh: Your place at/);
  });
});
