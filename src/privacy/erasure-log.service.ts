// The erasure log outside the database, one file of ids beside the copies, and the files of letters to people who are
// erased. A copy that is put back reads it: a log that stands in the database only is as old as the copy.
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Injectable } from '@nestjs/common';
import { Config } from '../platform/config.js';
import { Mailer } from '../platform/mailer.js';
import { type ErasureLine, erasureLine } from './privacy.schemas.js';

@Injectable()
export class ErasureLog {
  constructor(
    private readonly config: Config,
    private readonly mailer: Mailer,
  ) {}

  /** What the file says; nothing where there is none. @throws Error where a line cannot be read: better than to forget it */
  async read(studioId: string): Promise<ErasureLine[]> {
    const text = await readFile(this.file(studioId), 'utf8').catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return '';
      throw error;
    });
    const lines = text.split('\n').filter((line) => line !== '');
    return lines.map((line) => erasureLine.parse(JSON.parse(line)));
  }

  /** Adds what is not in the file yet; nothing is ever taken out of it. */
  async add(studioId: string, lines: ErasureLine[]): Promise<void> {
    const before = await this.read(studioId);
    const known = new Set(before.map((line) => line.contact));
    const fresh = lines.filter((line) => !known.has(line.contact));
    if (fresh.length === 0) return;
    const file = this.file(studioId);
    await mkdir(join(file, '..'), { recursive: true, mode: 0o700 });
    const part = `${file}.${process.pid}.part`;
    try {
      const text = [...before, ...fresh].map((line) => `${JSON.stringify(line)}\n`).join('');
      await writeFile(part, text, { mode: 0o600, flush: true });
      await rename(part, file);
    } finally {
      await rm(part, { force: true });
    }
  }

  /** Deletes the files of these letters, where letters are kept as files. */
  async forgetLetters(messageIds: string[]): Promise<void> {
    await this.mailer.forget(messageIds);
  }

  private file(studioId: string): string {
    return join(this.config.home, 'copies', studioId, 'erased.jsonl');
  }
}
