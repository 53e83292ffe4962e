// In French a space stands before : ; ? ! » and after «, at which a line never ends.
const keep = (text: string): string => text.replace(/ (?=[:;?!»])/g, '\u00a0').replace(/« /g, '«\u00a0');

/** The same words with such spaces kept, in all they say. */
export function unbroken<T>(words: T): T {
  return kept(words) as T;
}

const isSaying = (words: unknown): words is (...told: unknown[]) => unknown => typeof words === 'function';

function kept(words: unknown): unknown {
  if (typeof words === 'string') return keep(words);
  if (isSaying(words)) return (...told: unknown[]) => kept(words(...told));
  if (Array.isArray(words)) return words.map(kept);
  if (typeof words !== 'object' || words === null) return words;
  return Object.fromEntries(Object.entries(words).map(([name, one]) => [name, kept(one)]));
}
