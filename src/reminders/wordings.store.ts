// SQL of the owner's own words for letters. A version is only followed, never changed.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { type WordingVersion, wordingRow } from './wordings.schemas.js';

interface Worded {
  kind: string;
  language: string;
}

export class WordingsStore {
  private readonly current = new TogetherIn<Worded, WordingVersion | null>(async (tx, asked) => {
    const rows = await tx.many(
      wordingRow,
      `select distinct on (kind, language) kind, language, version, subject, body, since, who from letter_wording
       where studio_id = $1 and kind = any($2::text[]) and language = any($3::text[])
       order by kind, language, version desc`,
      [tx.studioId, asked.map((one) => one.kind), asked.map((one) => one.language)],
    );
    return asked.map(
      ({ kind, language }) => rows.find((row) => row.kind === kind && row.language === language) ?? null,
    );
  });

  /** The newest version of a kind in a language; null where there never was one. */
  inForce(tx: Tx, kind: string, language: string): Promise<WordingVersion | null> {
    return this.current.ask(tx, { kind, language });
  }

  /** The versions of a kind in a language, the newest first. */
  of(tx: Tx, kind: string, language: string): Promise<WordingVersion[]> {
    return tx.many(
      wordingRow,
      `select kind, language, version, subject, body, since, who from letter_wording
       where studio_id = $1 and kind = $2 and language = $3 order by version desc`,
      [tx.studioId, kind, language],
    );
  }

  /** The newest of each. */
  newest(tx: Tx): Promise<WordingVersion[]> {
    return tx.many(
      wordingRow,
      `select distinct on (kind, language) kind, language, version, subject, body, since, who from letter_wording
       where studio_id = $1 order by kind, language, version desc`,
      [tx.studioId],
    );
  }

  /** @returns whether nobody else has kept this version meanwhile */
  async keep(tx: Tx, { since, ...one }: WordingVersion & { since: Temporal.Instant }): Promise<boolean> {
    const added = await tx.run(
      `insert into letter_wording (studio_id, kind, language, version, subject, body, since, who)
       values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict do nothing`,
      [tx.studioId, one.kind, one.language, one.version, one.subject, one.body, since, one.who],
    );
    return added === 1;
  }

  /** What the newest letters of some kinds told, where it is not erased; of the kind asked for before any other. */
  async told(tx: Tx, kinds: readonly string[], first: { kind: string; change: string }): Promise<unknown> {
    const rows = await tx.many(
      z.object({ snapshot: z.unknown() }),
      `select snapshot from mail
       where studio_id = $1 and kind = any($2::text[]) and snapshot ? 'linkId'
         and (kind = $3 or snapshot->'place' <> 'null')
       order by (kind = $3 and coalesce(snapshot->>'change', '') = $4) desc, created_at desc, mail_id limit 1`,
      [tx.studioId, kinds, first.kind, first.change],
    );
    return rows[0]?.snapshot ?? null;
  }
}
