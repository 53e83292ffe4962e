// A backup's file: a gzipped tar archive of named texts. Any archive program opens it.
import { buffer } from 'node:stream/consumers';
import { promisify } from 'node:util';
import { createGzip, gunzip, type ZlibOptions } from 'node:zlib';
import { extract, pack } from 'tar-stream';

const unzipped = promisify<Buffer, ZlibOptions, Buffer>(gunzip);

export type Entries = ReadonlyMap<string, Buffer>;

/** An archive bigger than this, opened, is no studio's. Assumption. */
export const MOST_BYTES = 2_000_000_000;
const NAME = /^[a-z0-9_][a-z0-9_./-]{0,199}$/;

/** Packs entries in their order. The same entries make the same bytes, whenever and by whomever. */
export async function packArchive(entries: Entries): Promise<Buffer> {
  const tar = pack();
  const zipped = buffer(tar.pipe(createGzip({ level: 6 })));
  for (const [name, content] of entries)
    tar.entry({ name, size: content.length, mode: 0o600, mtime: new Date(0) }, content);
  tar.finalize();
  return zipped;
}

/**
 * Opens an archive. Nothing is written anywhere.
 * @throws Error where it is cut off, no such archive, too large, or has a name twice or one that leads elsewhere
 */
export async function openArchive(bytes: Buffer, most = MOST_BYTES): Promise<Map<string, Buffer>> {
  const entries = new Map<string, Buffer>();
  const tar = extract();
  tar.end(await unzipped(bytes, { maxOutputLength: most }));
  for await (const entry of tar) {
    const { name, type } = entry.header;
    if (type !== 'file' || !NAME.test(name) || name.includes('..') || entries.has(name))
      throw new Error(`it holds what no backup holds (${name.slice(0, 80)})`);
    entries.set(name, await buffer(entry));
  }
  return entries;
}
