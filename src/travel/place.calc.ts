// A place of the gazetteer, and how names are compared.
// The list of places itself is in gazetteer.service.ts.

/** A town or village. Degrees north and east; region is '' where none is known; zone is an IANA name. */
export interface Place {
  id: number;
  name: string;
  region: string;
  country: string;
  countryCode: string;
  lat: number;
  lon: number;
  zone: string;
  population: number;
}

/** To be shown wherever a place is chosen or a distance told. */
export const PLACES_CREDIT = { text: 'Places: GeoNames, CC BY 4.0', href: 'https://www.geonames.org/' };

/** Letters that are not a plain letter with a mark. */
const LETTERS: Record<string, string> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ł: 'l',
  ħ: 'h',
  ı: 'i',
  ə: 'e',
};

/**
 * A name as it is compared: small letters without marks, and every run of anything else one space.
 * "Saint-Étienne" and "SAINT ETIENNE" are the same. Letters of other scripts stay as they are. May be ''.
 */
export const foldName = (name: string): string =>
  (PLAIN.test(name) ? name.toLowerCase() : withoutMarks(name)).replace(/[^\p{L}\p{N}]+/gu, ' ').trim();

/** Most names are plain, and unmarking them all would double the time of making the list. */
const PLAIN = /^[\x20-\x7e]*$/;

const withoutMarks = (name: string): string =>
  name
    .normalize('NFD')
    .toLowerCase()
    .replace(/\p{M}+/gu, '')
    .replace(/[ßæœøđðþłħıə]/g, (letter) => LETTERS[letter] ?? letter);
