// SQL of contacts and sitters.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import {
  type Contact,
  contactAndSittersRow,
  contactRow,
  type ContactAndSitters,
  type Sitter,
  toContact,
  toSitter,
  type TravelShown,
  travelShownRow,
} from './people.schemas.js';

export class PeopleStore {
  async insert(tx: Tx, contact: Contact, sitters: Sitter[], at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into contact (studio_id, contact_id, name, reach_by, email, telephone, postal_address,
         home_name, home_latitude, home_longitude, home_zone, created_at, language)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
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
        contact.language,
      ],
    );
    await tx.run(
      `insert into sitter (studio_id, sitter_id, contact_id, name, position, age_band, head_rest)
       select $1, id, $2, name, place, band, rest
       from unnest($3::uuid[], $4::text[], $5::text[], $6::boolean[]) with ordinality as s (id, name, band, rest, place)`,
      [
        tx.studioId,
        contact.id,
        sitters.map((one) => one.id),
        sitters.map((one) => one.name),
        sitters.map((one) => one.ageBand),
        sitters.map((one) => one.headRest),
      ],
    );
  }

  async correct(tx: Tx, contact: Contact, sitters: Pick<Sitter, 'id' | 'name'>[]): Promise<void> {
    await tx.run(
      `update contact set name = $3, reach_by = $4, email = $5, telephone = $6, postal_address = $7, home_name = $8,
         home_latitude = $9, home_longitude = $10, home_zone = $11, language = $12
       where studio_id = $1 and contact_id = $2`,
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
        contact.language,
      ],
    );
    await tx.run(
      `update sitter s set name = n.name from unnest($3::uuid[], $4::text[]) as n (id, name)
       where s.studio_id = $1 and s.contact_id = $2 and s.sitter_id = n.id`,
      [tx.studioId, contact.id, sitters.map((one) => one.id), sitters.map((one) => one.name)],
    );
  }

  /** With those they ask for. */
  async remove(tx: Tx, ids: string[]): Promise<void> {
    const sql = 'delete from contact where studio_id = $1 and contact_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, ids]);
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

  /** With those they ask for, in the order they were named. */
  async withSitters(tx: Tx, ids: string[]): Promise<Map<string, ContactAndSitters>> {
    const rows = await tx.many(
      contactAndSittersRow,
      `select c.*, (select coalesce(jsonb_agg(to_jsonb(s) order by s.position), '[]') from sitter s
         where s.studio_id = c.studio_id and s.contact_id = c.contact_id) as sitters
       from contact c where c.studio_id = $1 and c.contact_id = any($2::uuid[])`,
      [tx.studioId, ids],
    );
    return new Map(
      rows.map((row) => [row.contact_id, { contact: toContact(row), sitters: row.sitters.map(toSitter) }]),
    );
  }

  async travelShown(tx: Tx, contactId: string): Promise<TravelShown> {
    const row = await tx.one(
      travelShownRow,
      `select travel_shown, travel_turns, travel_revised_at from contact
       where studio_id = $1 and contact_id = $2`,
      [tx.studioId, contactId],
    );
    return { shown: row.travel_shown, turns: row.travel_turns, revisedAt: row.travel_revised_at };
  }

  /** @returns false when it is so already */
  async showTravel(tx: Tx, contactId: string, shown: boolean, at: Temporal.Instant): Promise<boolean> {
    const changed = await tx.run(
      `update contact set travel_shown = $3, travel_turns = travel_turns + 1, travel_revised_at = $4
       where studio_id = $1 and contact_id = $2 and travel_shown <> $3`,
      [tx.studioId, contactId, shown, at],
    );
    return changed === 1;
  }

  /** The journeys in a calendar read otherwise now; nothing while there are none. @returns whether there are any */
  async reviseTravel(tx: Tx, contactId: string, at: Temporal.Instant): Promise<boolean> {
    const changed = await tx.run(
      `update contact set travel_turns = travel_turns + 1, travel_revised_at = $3
       where studio_id = $1 and contact_id = $2 and travel_shown`,
      [tx.studioId, contactId, at],
    );
    return changed === 1;
  }

  async setPose(
    tx: Tx,
    contactId: string,
    poses: Pick<Sitter, 'id' | 'ageBand' | 'headRest'>[],
  ): Promise<void> {
    await tx.run(
      `update sitter s set age_band = p.band, head_rest = p.rest
       from unnest($3::uuid[], $4::text[], $5::boolean[]) as p (id, band, rest)
       where s.studio_id = $1 and s.contact_id = $2 and s.sitter_id = p.id`,
      [
        tx.studioId,
        contactId,
        poses.map((one) => one.id),
        poses.map((one) => one.ageBand),
        poses.map((one) => one.headRest),
      ],
    );
  }

  async setReminders(
    tx: Tx,
    { id, email }: Pick<Contact, 'id' | 'email'>,
    stoppedAt: Temporal.Instant | null,
  ): Promise<void> {
    await tx.run(
      `update contact set reminders_stopped_at = $4
       where studio_id = $1 and (contact_id = $2 or ($3 <> '' and lower(email) = lower($3)))`,
      [tx.studioId, id, email, stoppedAt],
    );
  }

  async setLanguage(tx: Tx, contactId: string, language: Contact['language']): Promise<void> {
    const sql = 'update contact set language = $3 where studio_id = $1 and contact_id = $2';
    await tx.run(sql, [tx.studioId, contactId, language]);
  }

  async setJourney(
    tx: Tx,
    contactId: string,
    { home, postcode, plan }: Pick<Contact, 'home' | 'postcode' | 'plan'>,
  ): Promise<void> {
    await tx.run(
      `update contact set home_name = $3, home_latitude = $4, home_longitude = $5, home_zone = $6, home_postcode = $7,
         travel_mode = $8, travel_minutes = $9, travel_night = $10, travel_margin_minutes = $11
       where studio_id = $1 and contact_id = $2`,
      [
        tx.studioId,
        contactId,
        home?.name ?? '',
        home?.lat ?? null,
        home?.lon ?? null,
        home?.zone ?? null,
        postcode,
        plan.mode,
        plan.minutes,
        plan.night,
        plan.marginMinutes,
      ],
    );
  }
}
