// SQL of contacts and sitters.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type Contact, contactRow, type Sitter, sitterRow, toContact } from './people.schemas.js';

export class PeopleStore {
  async insert(tx: Tx, contact: Contact, sitters: Sitter[], at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into contact (studio_id, contact_id, name, reach_by, email, telephone, postal_address,
         home_name, home_latitude, home_longitude, home_zone, created_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [
        tx.studioId,
        contact.id,
        contact.name,
        contact.reachBy,
        contact.email,
        contact.telephone,
        contact.postalAddress,
        contact.home?.name ?? '',
        contact.home?.lat ?? null,
        contact.home?.lon ?? null,
        contact.home?.zone ?? null,
        at,
      ],
    );
    await tx.run(
      `insert into sitter (studio_id, sitter_id, contact_id, name, position)
       select $1, id, $2, name, place from unnest($3::uuid[], $4::text[]) with ordinality as s (id, name, place)`,
      [tx.studioId, contact.id, sitters.map((one) => one.id), sitters.map((one) => one.name)],
    );
  }

  async contact(tx: Tx, id: string): Promise<Contact> {
    const sql = 'select * from contact where studio_id = $1 and contact_id = $2';
    return toContact(await tx.one(contactRow, sql, [tx.studioId, id]));
  }

  async contacts(tx: Tx, ids: string[]): Promise<Map<string, Contact>> {
    const sql = 'select * from contact where studio_id = $1 and contact_id = any($2::uuid[])';
    const rows = await tx.many(contactRow, sql, [tx.studioId, ids]);
    return new Map(rows.map((row) => [row.contact_id, toContact(row)]));
  }

  async sittersOf(tx: Tx, contactIds: string[]): Promise<(Sitter & { contactId: string })[]> {
    const rows = await tx.many(
      sitterRow,
      'select * from sitter where studio_id = $1 and contact_id = any($2::uuid[]) order by contact_id, position',
      [tx.studioId, contactIds],
    );
    return rows.map((row) => ({ id: row.sitter_id, name: row.name, contactId: row.contact_id }));
  }
}
