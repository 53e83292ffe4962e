// SQL of secret links: only hashes are kept, the token is derived anew when it is needed.
import type { Temporal } from 'temporal-polyfill';
import type { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type Client, type Link, linkRow } from './accounts.schemas.js';

const toLink = (row: z.output<typeof linkRow>): Link => ({
  id: row.link_id,
  purpose: row.purpose,
  subjectId: row.subject_id,
  kind: row.kind,
  name: row.name,
  generation: row.generation,
  expiresAt: row.expires_at,
  usedAt: row.used_at,
  revokedAt: row.revoked_at,
  fetchedAt: row.fetched_at,
  fetchedBy: row.fetched_by,
});

export class LinksStore {
  /** @returns false when the subject has such a link already; of those that never expire it has one */
  async insert(tx: Tx, link: Link, tokenHash: Buffer, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into link (studio_id, link_id, purpose, subject_id, kind, generation, token_hash, created_at, expires_at, name)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
       on conflict (studio_id, purpose, subject_id, kind, name) where revoked_at is null and expires_at is null do nothing`,
      [
        tx.studioId,
        link.id,
        link.purpose,
        link.subjectId,
        link.kind,
        link.generation,
        tokenHash,
        at,
        link.expiresAt,
        link.name,
      ],
    );
    return added === 1;
  }

  async byHash(tx: Tx, purpose: Link['purpose'], tokenHash: Buffer): Promise<Link | null> {
    const row = await tx.maybe(
      linkRow,
      'select * from link where studio_id = $1 and token_hash = $2 and purpose = $3',
      [tx.studioId, tokenHash, purpose],
    );
    return row && toLink(row);
  }

  async byIds(tx: Tx, ids: string[]): Promise<Map<string, Link>> {
    const sql = 'select * from link where studio_id = $1 and link_id = any($2::uuid[])';
    const rows = await tx.many(linkRow, sql, [tx.studioId, ids]);
    return new Map(rows.map((row) => [row.link_id, toLink(row)]));
  }

  /** Of each subject the newest link of a kind, without a name, that opens at an instant. */
  async live(
    tx: Tx,
    purpose: Link['purpose'],
    kind: string,
    subjectIds: string[],
    at: Temporal.Instant,
  ): Promise<Map<string, Link>> {
    const rows = await tx.many(
      linkRow,
      `select distinct on (subject_id) * from link where studio_id = $1 and purpose = $2 and subject_id = any($3::uuid[])
         and kind = $4 and name = '' and revoked_at is null and (expires_at is null or expires_at > $5)
       order by subject_id, created_at desc, link_id desc`,
      [tx.studioId, purpose, subjectIds, kind, at],
    );
    return new Map(rows.map((row) => [row.subject_id, toLink(row)]));
  }

  /** The links of a subject that stay until they are ended, the oldest first. */
  async staying(tx: Tx, purpose: Link['purpose'], subjectId: string): Promise<Link[]> {
    const rows = await tx.many(
      linkRow,
      `select * from link where studio_id = $1 and purpose = $2 and subject_id = $3
         and revoked_at is null and expires_at is null order by created_at, link_id`,
      [tx.studioId, purpose, subjectId],
    );
    return rows.map(toLink);
  }

  /** The newest link of each subject that was not ended, whether it has run out or not. */
  async newest(tx: Tx, purpose: Link['purpose'], subjectIds: string[]): Promise<Link[]> {
    const rows = await tx.many(
      linkRow,
      `select distinct on (subject_id) * from link where studio_id = $1 and purpose = $2
         and subject_id = any($3::uuid[]) and revoked_at is null
       order by subject_id, created_at desc, link_id desc`,
      [tx.studioId, purpose, subjectIds],
    );
    return rows.map(toLink);
  }

  /** Marks a link used; false when it was used before, whoever was first. */
  async use(tx: Tx, id: string, at: Temporal.Instant): Promise<boolean> {
    const touched = await tx.run(
      'update link set used_at = $3 where studio_id = $1 and link_id = $2 and used_at is null',
      [tx.studioId, id, at],
    );
    return touched === 1;
  }

  /** Whatever links some subjects have: nobody was ever given one of them. */
  async deleteOf(tx: Tx, subjectIds: string[]): Promise<void> {
    const sql = 'delete from link where studio_id = $1 and subject_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, subjectIds]);
  }

  async setExpiry(tx: Tx, purpose: Link['purpose'], subjectId: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      'update link set expires_at = $4 where studio_id = $1 and purpose = $2 and subject_id = $3',
      [tx.studioId, purpose, subjectId, at],
    );
  }

  async replace(tx: Tx, id: string, generation: number, tokenHash: Buffer): Promise<void> {
    await tx.run(`update link set generation = $3, token_hash = $4 where studio_id = $1 and link_id = $2`, [
      tx.studioId,
      id,
      generation,
      tokenHash,
    ]);
  }

  /** Notes when a link was fetched and by what, unless a later time is noted. */
  async fetched(tx: Tx, id: string, at: Temporal.Instant, by: Client): Promise<void> {
    await tx.run(
      `update link set fetched_at = $3, fetched_by = $4 where studio_id = $1 and link_id = $2
         and (fetched_at is null or fetched_at < $3)`,
      [tx.studioId, id, at, by],
    );
  }

  /** Deletes the links for a purpose that ran out no later than an instant. */
  async deleteExpired(tx: Tx, purpose: Link['purpose'], at: Temporal.Instant): Promise<void> {
    await tx.run('delete from link where studio_id = $1 and purpose = $2 and expires_at <= $3', [
      tx.studioId,
      purpose,
      at,
    ]);
  }

  async revoke(tx: Tx, id: string, at: Temporal.Instant): Promise<void> {
    await tx.run('update link set revoked_at = $3 where studio_id = $1 and link_id = $2', [
      tx.studioId,
      id,
      at,
    ]);
  }

  async revokeAll(tx: Tx, purpose: Link['purpose'], subjectId: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update link set revoked_at = $4
       where studio_id = $1 and purpose = $2 and subject_id = $3 and revoked_at is null`,
      [tx.studioId, purpose, subjectId, at],
    );
  }
}
