// Putting a studio back from its archive, into an empty installation, all or nothing: the whole archive is checked before
// anything is touched, and counts and the sums of the shelf are checked before it is kept.
import { Injectable } from '@nestjs/common';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { ErasureLog } from '../privacy/erasure-log.service.js';
import { ErasureService } from '../privacy/erasure.service.js';
import { openArchive } from './archive.js';
import { sumOf } from './backup.service.js';
import {
  JOBS_PART,
  MANIFEST,
  type Manifest,
  manifest as manifestSchema,
  rowsOf,
  SECRET,
} from './manifest.schemas.js';
import { TablesStore } from './tables.store.js';

/** Why an archive is refused, as a sentence for a person. */
export class NotRestored extends Error {}

export interface Checked {
  manifest: Manifest;
  entries: Map<string, Buffer>;
  /** The key that links were made with; null where the installation it came from was given its key from outside. */
  secret: Buffer | null;
}

@Injectable()
export class RestoreService {
  private readonly store = new TablesStore();

  constructor(
    private readonly db: Db,
    private readonly log: ErasureLog,
    private readonly erasures: ErasureService,
  ) {}

  /** Checks an archive by itself; touches nothing. @throws NotRestored */
  async check(bytes: Buffer): Promise<Checked> {
    const entries = await openArchive(bytes).catch((error: Error) => {
      throw new NotRestored(`This file is no whole copy: ${error.message}.`);
    });
    const manifest = manifestIn(entries);
    const names = new Set([MANIFEST, ...manifest.parts.map((part) => part.name)]);
    for (const name of entries.keys())
      if (!names.has(name)) throw new NotRestored(`This file was altered: ${name} does not belong to it.`);
    for (const { name, bytes: size, sha256 } of manifest.parts) {
      const content = entries.get(name);
      if (!content || content.length !== size || sumOf(content) !== sha256)
        throw new NotRestored(`This file was altered or cut off: ${name} is not what was saved.`);
    }
    for (const { table, rows } of manifest.tables)
      if (linesOf(entries, rowsOf(table)).length !== rows)
        throw new NotRestored(`This file was altered: rows of ${table} are missing.`);
    return { manifest, entries, secret: entries.get(SECRET) ?? null };
  }

  /**
   * Puts a checked archive back, in one transaction, and erases in it whoever was erased since it was made.
   * @throws NotRestored where a studio is here already, this version knows less than the archive, or what came back is not
   * what was saved; nothing is kept then
   */
  async restore({ manifest, entries }: Checked): Promise<Manifest> {
    const erasedSince = await this.log.read(manifest.studio.id);
    await this.db.inStudio(manifest.studio.id, async (tx) => {
      if (!(await this.store.isEmpty(tx)))
        throw new NotRestored(
          'A studio is here already. A copy is put back into an empty installation only.',
        );
      await this.checkVersion(tx, manifest);
      const saved = new Map(manifest.tables.map((one) => [one.table, one.rows]));
      const tables = await this.store.tables(tx);
      const unknown = manifest.tables.find((one) => !tables.some(({ name }) => name === one.table));
      if (unknown)
        throw new NotRestored(`This version knows nothing of ${unknown.table}; please start the newer one.`);
      for (const table of tables) {
        const { name } = table;
        const lines = linesOf(entries, rowsOf(name));
        const rows = await this.store.load(tx, table, lines);
        if (rows !== (saved.get(name) ?? 0))
          throw new NotRestored(`Of ${saved.get(name) ?? 0} rows of ${name} only ${rows} could be put back.`);
      }
      if (JSON.stringify(await this.store.shelf(tx)) !== JSON.stringify(manifest.shelf))
        throw new NotRestored('The sums of the shelf are not those that were saved.');
      await this.store.enqueue(tx, linesOf(entries, JOBS_PART));
      await this.erasures.again(tx, erasedSince);
    });
    await this.erasures.afterwards(manifest.studio.id);
    return manifest;
  }

  /** Files that came after the archive are fine: new columns take what they are given when empty. */
  private async checkVersion(tx: Tx, { migrations }: Manifest): Promise<void> {
    const here = new Map((await this.store.migrations(tx)).map((one) => [one.name, one.checksum]));
    for (const { name, checksum } of migrations)
      if (here.get(name) !== checksum)
        throw new NotRestored(
          `The copy was made with another version of Plateday (${name}); please start that one or a newer one.`,
        );
    if (here.size !== migrations.length)
      throw new NotRestored(
        'The copy was made with an older version of Plateday; put it back with that one, then update.',
      );
  }
}

function manifestIn(entries: ReadonlyMap<string, Buffer>): Manifest {
  const text = entries.get(MANIFEST)?.toString();
  if (text === undefined)
    throw new NotRestored('This file is no copy of a studio: nothing in it says what it is.');
  try {
    return manifestSchema.parse(JSON.parse(text));
  } catch {
    throw new NotRestored(
      'This file was altered, or made by a version of Plateday that this one does not know.',
    );
  }
}

const linesOf = (entries: ReadonlyMap<string, Buffer>, part: string): string[] =>
  (entries.get(part)?.toString() ?? '').split('\n').filter((line) => line !== '');
