// Which of our languages to answer in: the one chosen, else the one a browser likes best.
import { LANGUAGES, type Language } from './languages.js';

export const isLanguage = (value: unknown): value is Language =>
  (LANGUAGES as readonly unknown[]).includes(value);

/**
 * The best of ours by an Accept-Language header (RFC 9110 §12.5.4). The longest range that fits a language decides its
 * weight ("fr-CA" asks for French, as "fr" does; lookup of RFC 4647 §3.4); a weight of 0 refuses it. Of equal weights
 * the one named first; English where nothing fits. A weight that is none (RFC 9110 §12.4.2) leaves its range out.
 */
export function likedLanguage(header: string | undefined): Language {
  const ranges = (header ?? '').split(',').flatMap((part, at) => {
    const read =
      /^\s*([a-z]{1,8}(?:-[a-z0-9]{1,8})*|\*)\s*(?:;\s*q=(0(?:\.\d{0,3})?|1(?:\.0{0,3})?))?\s*$/i.exec(part);
    return read?.[1] === undefined ? [] : [{ tag: read[1].toLowerCase(), weight: Number(read[2] ?? 1), at }];
  });
  const liked = LANGUAGES.flatMap((language) => {
    const named = ranges.filter(({ tag }) => tag === language || tag.startsWith(`${language}-`));
    const own = named.length > 0 ? named : ranges.filter(({ tag }) => tag === '*');
    const best = own.toSorted((one, other) => other.weight - one.weight || one.at - other.at)[0];
    return best && best.weight > 0 ? [{ language, ...best }] : [];
  });
  return liked.toSorted((one, other) => other.weight - one.weight || one.at - other.at)[0]?.language ?? 'en';
}
