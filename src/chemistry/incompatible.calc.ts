// What must not stand, be mixed or be poured away together. Judged by what things bring with them, never by their
// names: every acid counts against a cyanide, also the one in the developer, in the bath and on an unrinsed plate.
import type { Words } from '../words/words-for.js';
import { type Property, substanceOf } from './substances.calc.js';

/** A thing on a shelf, a bench or a sheet. */
export interface Kept {
  name: string;
  has: readonly Property[];
}

export interface Rule {
  one: Property;
  other: Property;
  /** What happens, and who says so, in the words for what must never meet. */
  told: keyof Words['meeting']['rules'];
  /** Kills or explodes where they meet, and is told before all else. */
  grave: boolean;
}

/** The gravest first. */
const RULES: readonly Rule[] = [
  { one: 'cyanide', other: 'acid', told: 'cyanide and acid', grave: true },
  { one: 'cyanide', other: 'oxidiser', told: 'cyanide and oxidiser', grave: true },
  { one: 'cyanide', other: 'light metal', told: 'cyanide and light metal', grave: false },
  { one: 'nitric acid', other: 'alcohol', told: 'nitric acid and alcohol', grave: true },
  { one: 'nitric acid', other: 'makes peroxides', told: 'nitric acid and peroxides', grave: true },
  { one: 'silver salt', other: 'ammonia', told: 'silver and ammonia', grave: true },
  { one: 'bleach', other: 'acid', told: 'bleach and acid', grave: true },
  { one: 'bleach', other: 'ammonia', told: 'bleach and ammonia', grave: true },
  { one: 'thiosulfate', other: 'bleach', told: 'thiosulfate and bleach', grave: false },
  { one: 'thiosulfate', other: 'acid', told: 'thiosulfate and acid', grave: false },
  { one: 'oxidiser', other: 'burns', told: 'oxidiser and fire', grave: false },
];

export interface Pair {
  rule: Rule;
  /** What brings the one and what brings the other, by name, in order. */
  ones: string[];
  others: string[];
}

/**
 * The rules that things standing together break, the gravest first. A thing is not set against itself. With `own`
 * only pairs in which one of those takes part.
 */
export function incompatiblePairs(things: readonly Kept[], own: readonly Kept[] = things): Pair[] {
  return RULES.flatMap((rule) => {
    const bring = (property: Property) => things.filter(({ has }) => has.includes(property));
    const met = bring(rule.one).flatMap((one) =>
      bring(rule.other)
        .filter((other) => other !== one && (own.includes(one) || own.includes(other)))
        .map((other) => ({ one: one.name, other: other.name })),
    );
    if (met.length === 0) return [];
    const names = (all: string[]) => [...new Set(all)].sort();
    return [{ rule, ones: names(met.map(({ one }) => one)), others: names(met.map(({ other }) => other)) }];
  });
}

/** What the kinds of solution always bring, whatever they are mixed by. Common practice, no source. */
const BY_KIND: Readonly<Record<string, readonly Property[]>> = {
  collodion: ['makes peroxides', 'alcohol', 'flammable vapour', 'burns', 'cadmium'],
  developer: ['acid'],
  bath: ['silver salt', 'oxidiser', 'acid'],
  varnish: ['alcohol', 'flammable vapour', 'burns'],
};

/** What a hazard statement on the owner's own label gives away. */
const BY_CODE: Readonly<Record<string, readonly Property[]>> = {
  EUH032: ['cyanide'],
  EUH031: ['bleach'],
  EUH019: ['makes peroxides', 'flammable vapour', 'burns'],
  H271: ['oxidiser'],
  H272: ['oxidiser'],
  H224: ['flammable vapour', 'burns'],
  H225: ['flammable vapour', 'burns'],
  H226: ['flammable vapour', 'burns'],
};

/**
 * All that an item of the shelf brings: by its kind, its own substance, those it is mixed from, and the statements
 * on its label. In a fixer mixed with water an acid or an alcohol would be among what it is mixed from.
 */
export function propertiesOf(item: {
  kind: string;
  substance: string | null;
  mixedFrom?: readonly (string | null)[];
  hCodes: readonly string[];
}): Property[] {
  const from = [item.substance, ...(item.mixedFrom ?? [])].flatMap((key) => substanceOf(key)?.has ?? []);
  const codes = item.hCodes.flatMap((code) => BY_CODE[code] ?? []);
  return [...new Set([...(BY_KIND[item.kind] ?? []), ...from, ...codes])].sort();
}

/** Work that never shares a room and an hour. Common practice, no source; vapour and flame: ILO card 0355, ether. */
export const NEVER_TOGETHER: readonly { work: string; with: string }[] = [
  {
    work: 'mixing collodion or opening ether',
    with: 'the flame for varnish, a heater, anything that sparks',
  },
  { work: 'pouring cyanide', with: 'developer, acid and an open silver bath on the same bench' },
];

/** Wastes, each in its own labelled bottle and none down the drain. From memory; cadmium and cyanide: local law. */
export const WASTES: readonly string[] = [
  'silver (bath, first wash, spent hypo)',
  'cyanide, alone, never with an acid',
  'acid developer',
  'collodion, ether and alcohol',
  'cadmium salts and what held them',
];
