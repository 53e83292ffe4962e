// Thousands of requests entered at once by plain SQL, where going through the form would take minutes.
// Each is one sitter on one whole plate, any day of 2027, with a place link as the form would make it.
import { LinksService } from '../../src/accounts/links.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { hashOf } from '../../src/platform/security/tokens.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

export interface Entered {
  sittingId: string;
  token: string;
}

export async function enterSittings(house: TestHouse, studio: TestStudio, count: number): Promise<Entered[]> {
  const random = new SystemRandom();
  const links = house.app.get(LinksService);
  const rows = Array.from({ length: count }, () => {
    const linkId = random.id();
    const token = links.token({ purpose: 'place', id: linkId, generation: 1 });
    return { sittingId: random.id(), contactId: random.id(), linkId, token };
  });
  const ids = rows.map((row) => row.sittingId);
  const contacts = rows.map((row) => row.contactId);
  const now = house.clock.now();
  await house.db.inStudio(studio.id, async (tx) => {
    await tx.run(
      `insert into contact (studio_id, contact_id, name, reach_by, email, created_at)
       select $1, id, 'Linnea Harrow', 'email', 'linnea@post.example', $3 from unnest($2::uuid[]) as c (id)`,
      [tx.studioId, contacts, now],
    );
    await tx.run(
      `insert into sitting (studio_id, sitting_id, contact_id, state, asked_at, any_day_from, any_day_until)
       select $1, id, contact, 'requested', $4, '2027-01-01', '2027-12-31'
       from unnest($2::uuid[], $3::uuid[]) as s (id, contact)`,
      [tx.studioId, ids, contacts, now],
    );
    await tx.run(
      `insert into plate (studio_id, plate_id, sitting_id, position, plate_size_id)
       select $1, gen_random_uuid(), id, 1, $3 from unnest($2::uuid[]) as s (id)`,
      [tx.studioId, ids, studio.sizes.whole.id],
    );
    await tx.run(
      `insert into link (studio_id, link_id, purpose, subject_id, token_hash, created_at)
       select $1, id, 'place', sitting, decode(hash, 'hex'), $5
       from unnest($2::uuid[], $3::uuid[], $4::text[]) as l (id, sitting, hash)`,
      [
        tx.studioId,
        rows.map((row) => row.linkId),
        ids,
        rows.map((row) => hashOf(row.token).toString('hex')),
        now,
      ],
    );
  });
  return rows;
}
