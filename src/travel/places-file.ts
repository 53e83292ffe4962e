// The list of places as it lies on disk: a row of text for each place, and beside it what is needed to search in them, so
// that nothing has to be reckoned when the program starts. Made by gazetteer.build.ts on the machine that reads it.
import { endianness } from 'node:os';
import { z } from 'zod';
import { NameIndex, NameIndexBuilder } from './name-index.js';

/** Begins the file; raised when its form changes, so that an older file is not taken for current. */
export const PLACES_FORMAT = `plateday places 2 ${endianness()}`;

/** The list, ready to be searched. Its arrays look into the bytes of the file. */
export interface PlacesFile {
  text: Buffer;
  /** Where each row begins; rows are in order of population, the largest first. */
  starts: Uint32Array;
  /** Where the columns after each row's names begin: the name as it is shown, and so on. */
  facts: Uint32Array;
  names: NameIndex;
  aliases: NameIndex;
  /** id * ROWS + row, sorted. */
  ids: Float64Array;
}
export const ROWS = 2 ** 20;

const TAB = 0x09;
const LINE_END = 0x0a;
/** The first line: the format and the lengths of the parts in bytes; each part begins at a multiple of 8. */
const HEADER_BYTES = 256;
const lengths = z.array(z.number().int().min(0)).length(10);
const padded = (bytes: number) => Math.ceil(bytes / 8) * 8;

/** @param lines id, folded names, folded aliases parted by bars, name, and the rest, parted by tabs */
export function packPlaces(lines: readonly string[]): Buffer {
  const text = Buffer.from(lines.map((line) => `${line}\n`).join(''));
  const names = new NameIndexBuilder(text.length);
  const aliases = new NameIndexBuilder(text.length);
  const starts: number[] = [];
  const facts: number[] = [];
  const ids: number[] = [];
  for (let start = 0; start < text.length; start = text.indexOf(LINE_END, facts.at(-1)) + 1) {
    const row = starts.length;
    const idEnd = text.indexOf(TAB, start);
    const namesEnd = text.indexOf(TAB, idEnd + 1);
    const aliasesEnd = text.indexOf(TAB, namesEnd + 1);
    starts.push(start);
    facts.push(aliasesEnd + 1);
    ids.push(Number(text.toString('latin1', start, idEnd)) * ROWS + row);
    names.add(row, text, idEnd + 1, namesEnd);
    aliases.add(row, text, namesEnd + 1, aliasesEnd);
  }
  const parts = [
    Float64Array.from(ids).sort(),
    Uint32Array.from(starts),
    Uint32Array.from(facts),
    ...names.build().parts,
    ...aliases.build().parts,
    text,
  ].map((part) => Buffer.from(part.buffer, part.byteOffset, part.byteLength));
  const header = `${PLACES_FORMAT} ${JSON.stringify(parts.map((part) => part.length))}`;
  return Buffer.concat([
    Buffer.from(`${header.padEnd(HEADER_BYTES - 1)}\n`),
    ...parts.flatMap((part) => [part, Buffer.alloc(padded(part.length) - part.length)]),
  ]);
}

/** Null for a file of another version, or one that is not whole. */
export function unpackPlaces(file: Buffer): PlacesFile | null {
  const header = file.toString('latin1', 0, HEADER_BYTES).trimEnd();
  if (!header.startsWith(`${PLACES_FORMAT} [`)) return null;
  const sizes = lengths.parse(JSON.parse(header.slice(PLACES_FORMAT.length)));
  if (sizes.reduce((sum, size) => sum + padded(size), HEADER_BYTES) !== file.length) return null;
  let at = HEADER_BYTES;
  const parts = sizes.map((size) => {
    const part = file.subarray(at, at + size);
    at += padded(size);
    return part;
  });
  const [ids, starts, facts, nameStarts, nameRows, nameBytes, aliasStarts, aliasRows, aliasBytes, text] =
    parts as [Buffer, Buffer, Buffer, Buffer, Buffer, Buffer, Buffer, Buffer, Buffer, Buffer];
  return {
    text,
    starts: numbers(starts),
    facts: numbers(facts),
    names: new NameIndex(nameBytes, numbers(nameStarts), numbers(nameRows)),
    aliases: new NameIndex(aliasBytes, numbers(aliasStarts), numbers(aliasRows)),
    ids: new Float64Array(ids.buffer, ids.byteOffset, ids.length / 8),
  };
}

const numbers = (part: Buffer) => new Uint32Array(part.buffer, part.byteOffset, part.length / 4);
