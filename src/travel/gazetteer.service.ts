// Finds towns and villages by what somebody types, offline, in the list that gazetteer.build.ts makes.
// The list is read before the first question or at it, and kept as bytes; a Place is made only for an answer.
import { existsSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { foldName, type Place } from './place.calc.js';
import { placeLabel } from './place-label.calc.js';
import { type PlacesFile, ROWS, unpackPlaces } from './places-file.js';

/** What people call a country besides its English name. */
const COUNTRY_ALIASES: Record<string, string> = {
  usa: 'US',
  'united states of america': 'US',
  america: 'US',
  uk: 'GB',
  'great britain': 'GB',
  britain: 'GB',
  holland: 'NL',
  'the netherlands': 'NL',
  'czech republic': 'CZ',
  turkey: 'TR',
  uae: 'AE',
  eire: 'IE',
  'republic of ireland': 'IE',
};

const TAB = 0x09;
/** Names looked at for one answer: every name beginning "san" is among them, not every one with an "a". */
const MOST_LOOKED_AT = 5_000;
/** Further off than this no town is near. Assumption. */
const NEAR_KM = 300;
const KM_PER_DEGREE = 111.2;

/** One instance serves a process. */
export class Gazetteer {
  private loaded: PlacesFile | null = null;
  /** Latitude and longitude of each row; read at the first question for the nearest. */
  private points: Float32Array | null = null;
  private readonly countries = new Intl.DisplayNames('en', { type: 'region' });

  constructor(private readonly file: string) {}

  /**
   * At most `limit` places for "whitby", "san fran", "springfield, illinois", "paris, us". Accents and case do not
   * matter; each word has to begin a word of the name; what follows a comma has to begin a word of the region or
   * country, or be a code. The very name comes first, then the name in another language, then names that go on;
   * among equals the larger place. No answer to an empty question. Throws when the list was not built.
   */
  search(query: string, limit: number): Place[] {
    const [name = '', ...rest] = query.split(',').map(foldName);
    const within = rest.filter((part) => part !== '');
    const found = this.find(name, within, limit);
    return found.length === 0 && name !== '' && within.length > 0
      ? this.find(foldName(query), [], limit)
      : found;
  }

  /** Null when there is no such place (any more). Throws when the list was not built. */
  byId(id: number): Place | null {
    const { ids } = this.load();
    let low = 0;
    let high = ids.length - 1;
    while (low <= high) {
      const middle = (low + high) >>> 1;
      const packed = ids[middle] ?? 0;
      const here = Math.floor(packed / ROWS);
      if (here === id) return this.place(this.fields(packed % ROWS));
      if (here < id) low = middle + 1;
      else high = middle - 1;
    }
    return null;
  }

  /**
   * The place somebody means: the one of this id, as long as what was typed is a name of it; else the only one
   * that is called so, or the only one found. Else null. With it what was found to choose from, at most `limit`.
   */
  meant(typed: string, id: number | null, limit: number): { place: Place | null; found: Place[] } {
    const found = this.search(typed, limit);
    const chosen = id === null ? null : this.byId(id);
    if (chosen && (placeLabel(chosen) === typed || found.some((place) => place.id === chosen.id)))
      return { place: chosen, found };
    const called = [typed, typed.split(',')[0] ?? ''].map(foldName); // "Dublin" of "Dublin, Ireland"
    const exact = found.filter(({ name }) => called.includes(foldName(name)));
    const only = exact.length === 1 ? exact[0] : found.length === 1 ? found[0] : undefined;
    return { place: only ?? null, found };
  }

  /** The nearest place, or null where none is within 300 km. Good enough for a zone; not within a degree of the poles. */
  nearest({ lat, lon }: { lat: number; lon: number }): Place | null {
    const points = this.allPoints();
    const narrowing = Math.cos((lat * Math.PI) / 180);
    let best = -1;
    let least = (NEAR_KM / KM_PER_DEGREE) ** 2;
    for (let row = 0; row < points.length / 2; row += 1) {
      const north = (points[2 * row] ?? 0) - lat;
      const apart = Math.abs((points[2 * row + 1] ?? 0) - lon) % 360;
      const east = Math.min(apart, 360 - apart) * narrowing;
      const square = north * north + east * east;
      if (square < least) [best, least] = [row, square];
    }
    return best < 0 ? null : this.place(this.fields(best));
  }

  private allPoints(): Float32Array {
    if (this.points) return this.points;
    const { text, facts } = this.load();
    const points = new Float32Array(facts.length * 2);
    facts.forEach((from, row) => {
      const nameEnd = text.indexOf(TAB, from);
      const latEnd = text.indexOf(TAB, nameEnd + 1);
      points[2 * row] = Number(text.toString('latin1', nameEnd + 1, latEnd));
      points[2 * row + 1] = Number(text.toString('latin1', latEnd + 1, text.indexOf(TAB, latEnd + 1)));
    });
    this.points = points;
    return points;
  }

  /** Reads the list while others have their turn. Rejects when it was not built. */
  async warm(): Promise<void> {
    if (!existsSync(this.file)) throw missing(this.file);
    this.loaded ??= unpacked(await readFile(this.file), this.file);
  }

  private find(name: string, within: readonly string[], limit: number): Place[] {
    const found = new Map<number, Place>();
    if (name === '') return [];
    const { names, aliases } = this.load();
    const words = name.split(' ');
    const ranks = [
      () => names.exact(name),
      () => aliases.exact(name),
      () => names.withWords(words),
      () => aliases.withWords(words),
    ];
    const isWithin = this.areaTest(within);
    let left = MOST_LOOKED_AT;
    for (const rank of ranks)
      for (const row of rank()) {
        if (found.size >= limit || left === 0) return [...found.values()];
        left -= 1;
        if (!found.has(row) && isWithin(row)) found.set(row, this.place(this.fields(row)));
      }
    return [...found.values()];
  }

  /** Whether a row lies within all these; each region is told once, however many of its places are looked at. */
  private areaTest(within: readonly string[]): (row: number) => boolean {
    if (within.length === 0) return () => true;
    const { text, facts } = this.load();
    const told = new Map<string, boolean>();
    return (row) => {
      let from = facts[row] ?? 0;
      for (let column = 0; column < 3; column++) from = text.indexOf(TAB, from) + 1;
      let to = from - 1;
      for (let column = 0; column < 3; column++) to = text.indexOf(TAB, to + 1);
      const area = text.toString('latin1', from, to); // only a key
      let is = told.get(area);
      if (is === undefined) {
        const [countryCode = '', regionCode = '', region = ''] = text.toString('utf8', from, to).split('\t');
        const names = [region, this.country(countryCode)].map((one) => ` ${foldName(one)}`);
        is = within.every((part) => {
          const code = part.toUpperCase();
          if (code === countryCode || code === regionCode) return true;
          if (COUNTRY_ALIASES[part] === countryCode) return true;
          return names.some((one) => one.includes(` ${part}`));
        });
        told.set(area, is);
      }
      return is;
    };
  }

  private country(code: string): string {
    return this.countries.of(code) ?? code;
  }

  private fields(row: number): string[] {
    const { text, starts } = this.load();
    return text.toString('utf8', starts[row], (starts[row + 1] ?? text.length) - 1).split('\t');
  }

  private place(fields: readonly string[]): Place {
    const [id, , , name = '', lat, lon, countryCode = '', , region = '', population, zone = ''] = fields;
    return {
      id: Number(id),
      name,
      region,
      country: this.country(countryCode),
      countryCode,
      lat: Number(lat),
      lon: Number(lon),
      zone,
      population: Number(population),
    };
  }

  private load(): PlacesFile {
    if (this.loaded) return this.loaded;
    if (!existsSync(this.file)) throw missing(this.file);
    this.loaded = unpacked(readFileSync(this.file), this.file);
    return this.loaded;
  }
}

/** The list of this file; nothing is read yet. */
export const openGazetteer = (file: string): Gazetteer => new Gazetteer(file);

const missing = (file: string) =>
  new Error(`The list of places is missing (${file}); "npm run build" makes it.`);

/** @throws Error when the file is of another version */
function unpacked(bytes: Buffer, file: string): PlacesFile {
  const places = unpackPlaces(bytes);
  if (!places)
    throw new Error(`The list of places (${file}) is of another version; "npm run build" makes it anew.`);
  return places;
}
