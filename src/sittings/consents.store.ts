// SQL of what people agree to: the words, version by version, and each yes.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import type { Consent, Wording } from './consents.calc.js';
import { consentRow, type KeptWording, saidRow, toConsent, wordingRow } from './consents.schemas.js';
import type { z } from 'zod';

export class ConsentsStore {
  /** All versions of all words, the newest first. */
  wordings(tx: Tx): Promise<KeptWording[]> {
    return tx.many(
      wordingRow,
      'select purpose, version, words, since, who from wording where studio_id = $1 order by purpose, version desc',
      [tx.studioId],
    );
  }

  /** Keeps a version of some words. @returns whether it was new */
  async keep(tx: Tx, wording: Wording, at: Temporal.Instant, who: string): Promise<boolean> {
    const added = await tx.run(
      `insert into wording (studio_id, purpose, version, words, since, who) values ($1, $2, $3, $4, $5, $6)
       on conflict do nothing`,
      [tx.studioId, wording.purpose, wording.version, wording.words, at, who],
    );
    return added === 1;
  }

  /** Every yes of a contact and of those they ask for, the latest first, with the words agreed to. */
  async of(tx: Tx, contactId: string): Promise<Consent[]> {
    const rows = await tx.many(
      consentRow,
      `select c.consent_id, c.sitter_id, c.purpose, c.version, w.words, c.given_at, c.given_how, c.given_by,
         c.withdrawn_at, c.withdrawn_by
       from consent c
       join wording w on w.studio_id = c.studio_id and w.purpose = c.purpose and w.version = c.version
       where c.studio_id = $1 and c.contact_id = $2 order by c.given_at desc, c.consent_id`,
      [tx.studioId, contactId],
    );
    return rows.map(toConsent);
  }

  /** What some sitters have ever agreed to, the latest last; what holds comes after all that was taken back. */
  said(tx: Tx, sitterIds: string[]): Promise<z.output<typeof saidRow>[]> {
    return tx.many(
      saidRow,
      `select sitter_id, purpose, withdrawn_at from consent where studio_id = $1 and sitter_id = any($2::uuid[])
       order by withdrawn_at is null, given_at, consent_id`,
      [tx.studioId, sitterIds],
    );
  }

  /** Notes a yes; nothing where one holds already. @returns whether it was noted */
  async give(
    tx: Tx,
    contactId: string,
    one: Pick<Consent, 'id' | 'sitterId' | 'purpose' | 'version' | 'givenAt' | 'givenHow' | 'givenBy'>,
  ): Promise<boolean> {
    const added = await tx.run(
      `insert into consent (studio_id, consent_id, contact_id, sitter_id, purpose, version, given_at, given_how,
         given_by)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9) on conflict do nothing`,
      [
        tx.studioId,
        one.id,
        contactId,
        one.sitterId,
        one.purpose,
        one.version,
        one.givenAt,
        one.givenHow,
        one.givenBy,
      ],
    );
    return added === 1;
  }

  /** Takes a yes back that holds. @returns whether one held */
  async withdraw(tx: Tx, id: string, at: Temporal.Instant, by: string): Promise<boolean> {
    const ended = await tx.run(
      `update consent set withdrawn_at = $3, withdrawn_by = $4
       where studio_id = $1 and consent_id = $2 and withdrawn_at is null`,
      [tx.studioId, id, at, by],
    );
    return ended === 1;
  }
}
