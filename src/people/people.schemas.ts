// Who asks (the contact), who sits, and where they come from.
import { z } from 'zod';

export const contactRow = z.object({
  contact_id: z.uuid(),
  name: z.string(),
  reach_by: z.enum(['email', 'telephone', 'letter']),
  email: z.string(),
  telephone: z.string(),
  postal_address: z.string(),
  home_name: z.string(),
  home_latitude: z.number().nullable(),
  home_longitude: z.number().nullable(),
  home_zone: z.string().nullable(),
});
type ContactRow = z.output<typeof contactRow>;

export interface Home {
  name: string;
  lat: number;
  lon: number;
  zone: string;
}

export interface Contact {
  id: string;
  name: string;
  reachBy: ContactRow['reach_by'];
  email: string;
  telephone: string;
  postalAddress: string;
  home: Home | null;
}

export interface Sitter {
  id: string;
  name: string;
}

export const sitterRow = z.object({ sitter_id: z.uuid(), contact_id: z.uuid(), name: z.string() });

export function toContact(row: ContactRow): Contact {
  const home =
    row.home_latitude === null || row.home_longitude === null || row.home_zone === null
      ? null
      : { name: row.home_name, lat: row.home_latitude, lon: row.home_longitude, zone: row.home_zone };
  return {
    id: row.contact_id,
    name: row.name,
    reachBy: row.reach_by,
    email: row.email,
    telephone: row.telephone,
    postalAddress: row.postal_address,
    home,
  };
}
