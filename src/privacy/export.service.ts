// A person's data as one file: every row about them, every column that is tagged as theirs, in the order of their story.
import { Injectable } from '@nestjs/common';
import { csv } from '../lib/csv.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { ErasureService } from './erasure.service.js';
import { FILE_FORMAT, type PersonFile } from './privacy.schemas.js';
import { PrivacyStore } from './privacy.store.js';
import { needlesOf, ROWS_ABOUT, type TaggedColumn, tagOf } from './tags.calc.js';

const ABOUT =
  'Everything this studio keeps about one person. Each part is a list of rows; an empty text means that nothing was said.';
const GUARDED =
  ' What helps you here and whom to ring are left out, since others may see this page: the studio gives them to you.';

/** By their own page, or at the desk. */
export type Whose = { token: string } | { contactId: string };

@Injectable()
export class ExportService {
  private readonly store = new PrivacyStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly erasures: ErasureService,
  ) {}

  /** @throws AppError not_found, link_expired */
  file(studioId: string, whose: Whose): Promise<PersonFile> {
    return this.db.inStudio(studioId, async (tx) => {
      const behindLink = 'token' in whose;
      const contactId = behindLink ? await this.erasures.behind(tx, whose.token) : whose.contactId;
      if ((await this.store.present(tx, [contactId])).length === 0) throw new AppError('not_found');
      const parts = await this.parts(tx, contactId, behindLink);
      const { name } = await this.studios.load(tx);
      const about = behindLink ? ABOUT + GUARDED : ABOUT;
      return { format: FILE_FORMAT, about, studio: name, madeAt: this.clock.now().toString(), parts };
    });
  }

  private async parts(tx: Tx, contactId: string, behindLink: boolean): Promise<PersonFile['parts']> {
    const columns = await this.store.columns(tx);
    const ids = await this.store.ids(tx, contactId);
    const { reached } = await this.store.needles(tx, contactId);
    const parts: PersonFile['parts'] = {};
    for (const table of [...Object.keys(ROWS_ABOUT), 'request_draft']) {
      const told = columns.filter((one) => one.table === table && isTold(one, behindLink));
      const about = table === 'request_draft' ? needlesOf({ names: [], reached }) : ids;
      const names = told.map(({ column }) => column);
      const lines = names.length === 0 ? [] : await this.store.rows(tx, table, names, about);
      if (lines.length > 0) parts[table] = lines.map((line) => JSON.parse(line));
    }
    return parts;
  }
}

/** Ids say nothing to anybody; notes of the studio and names of who works there are not the person's. */
function isTold({ type, comment }: TaggedColumn, behindLink: boolean): boolean {
  const tag = tagOf(comment);
  if (tag?.of === 'person') return !tag.ofAnother && !(tag.guarded && behindLink);
  return !type.startsWith('uuid') && (tag === null || tag.of === 'plain');
}

export interface SentFile {
  type: string;
  name: string;
  text: string;
}

/** How a file goes out: JSON, unless a table is asked for. */
export function asSent(file: PersonFile, as: unknown): SentFile {
  const name = 'data-of-one-person';
  return as === 'csv'
    ? { type: 'text/csv; charset=utf-8; header=present', name: `${name}.csv`, text: asTable(file) }
    : {
        type: 'application/json; charset=utf-8',
        name: `${name}.json`,
        text: `${JSON.stringify(file, null, 2)}\n`,
      };
}

/** The same as a table for a spreadsheet: one line for each value that is not empty. */
function asTable({ parts }: PersonFile): string {
  const lines = Object.entries(parts).flatMap(([part, rows]) =>
    rows.flatMap((row, at) =>
      Object.entries(row)
        .filter(([, value]) => value !== null && value !== '')
        .map(([column, value]) => [
          part,
          String(at + 1),
          column.replaceAll('_', ' '),
          typeof value === 'string' ? value : JSON.stringify(value),
        ]),
    ),
  );
  return csv(['part', 'row', 'what', 'value'], lines);
}
