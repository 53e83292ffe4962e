// Copies of a studio: one file each with everything in it, made by hand or every night, the old ones thinned out.
import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Entries, packArchive } from './archive.js';
import { FORMAT, JOBS_PART, MANIFEST, type Manifest, rowsOf, SECRET } from './manifest.schemas.js';
import { ReadableStore } from './readable.store.js';
import { toRemove } from './rotation.calc.js';
import { TablesStore } from './tables.store.js';

export interface KeptCopy {
  /** Of the file: "SLUG-2026-11-26T021500Z.tar.gz". */
  name: string;
  day: Temporal.PlainDate;
  bytes: number;
}

const FILE = /^[a-z0-9-]+-(\d{4}-\d{2}-\d{2})T\d{6}Z\.tar\.gz$/;

@Injectable()
export class BackupService {
  private readonly tables = new TablesStore();
  private readonly readable = new ReadableStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly db: Db,
    private readonly studios: StudiosService,
  ) {}

  /** Everything about a studio as it stands at one moment, as the bytes of one archive. */
  async archive(studioId: string): Promise<{ name: string; bytes: Buffer; manifest: Manifest }> {
    const { parts, about } = await this.db.atOneMoment(studioId, async (tx) => {
      const parts = new Map<string, Buffer>();
      const tables: Manifest['tables'] = [];
      for (const table of await this.tables.tables(tx)) {
        const lines = await this.tables.dump(tx, table);
        tables.push({ table: table.name, rows: lines.length });
        parts.set(rowsOf(table.name), Buffer.from(lines.map((line) => `${line}\n`).join('')));
      }
      const jobs = await this.tables.jobs(tx);
      parts.set(JOBS_PART, Buffer.from(jobs.map((line) => `${line}\n`).join('')));
      for (const [name, text] of await this.readable.sheets(tx))
        parts.set(`readable/${name}`, Buffer.from(text));
      const { id, slug, name } = await this.studios.load(tx);
      const [migrations, shelf] = [await this.tables.migrations(tx), await this.tables.shelf(tx)];
      return { parts, about: { studio: { id, slug, name }, tables, migrations, shelf } };
    });
    if (this.config.ownSecret) parts.set(SECRET, this.config.secretKey);
    const madeAt = this.clock.now().round('second').toString();
    const manifest: Manifest = {
      ...{ format: FORMAT, program: 'plateday' as const, madeAt, zoneData: zoneDataVersion },
      ...about,
      parts: [...parts].map(([name, content]) => ({ name, bytes: content.length, sha256: sumOf(content) })),
    };
    const entries: Entries = new Map([
      [MANIFEST, Buffer.from(`${JSON.stringify(manifest, null, 2)}\n`)],
      ...parts,
    ]);
    const name = `${manifest.studio.slug}-${madeAt.replaceAll(':', '')}.tar.gz`;
    return { name, bytes: await packArchive(entries), manifest };
  }

  /** Makes a copy and keeps it beside the data; nothing is left of one that could not be written. */
  async keep(studioId: string): Promise<KeptCopy> {
    const { name, bytes } = await this.archive(studioId);
    const folder = this.folder(studioId);
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const part = join(folder, `${name}.part`);
    try {
      await writeFile(part, bytes, { mode: 0o600, flush: true });
      await rename(part, join(folder, name));
    } finally {
      await rm(part, { force: true });
    }
    return { name, day: dayOf(name), bytes: bytes.length };
  }

  /** The night's copy: made, and the old ones thinned out. */
  async keepTonight(studioId: string): Promise<void> {
    await this.keep(studioId);
    const today = Temporal.PlainDate.from(this.clock.now().toString().slice(0, 10));
    for (const { name } of toRemove(await this.kept(studioId), today))
      await rm(join(this.folder(studioId), name), { force: true });
  }

  /** The copies there are, the newest first. */
  async kept(studioId: string): Promise<KeptCopy[]> {
    const folder = this.folder(studioId);
    const names = await readdir(folder).catch(() => [] as string[]);
    const copies: KeptCopy[] = [];
    for (const name of names
      .filter((one) => FILE.test(one))
      .sort()
      .reverse())
      copies.push({ name, day: dayOf(name), bytes: (await stat(join(folder, name))).size });
    return copies;
  }

  /** One copy's bytes. @throws AppError not_found */
  async read(studioId: string, name: string): Promise<Buffer> {
    if (!FILE.test(name)) throw new AppError('not_found', 'This copy is not here any more.');
    try {
      return await readFile(join(this.folder(studioId), name));
    } catch {
      throw new AppError('not_found', 'This copy is not here any more.');
    }
  }

  /** Where the copies of a studio are. */
  folder(studioId: string): string {
    return join(this.config.home, 'copies', studioId);
  }
}

export const sumOf = (content: Buffer): string => createHash('sha256').update(content).digest('hex');
const dayOf = (name: string): Temporal.PlainDate => Temporal.PlainDate.from(FILE.exec(name)?.[1] ?? '');
