// Who asks (the contact), who sits, and where they come from.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import { LANGUAGES, type Language } from '../words/languages.js';
import { travelPlan, type TravelPlan } from '../travel/plan.schemas.js';

/** How somebody is told. */
export const REACHED_BY = ['email', 'telephone', 'letter'] as const;

export const contactRow = z.object({
  contact_id: z.uuid(),
  name: z.string(),
  reach_by: z.enum(REACHED_BY),
  email: z.string(),
  telephone: z.string(),
  postal_address: z.string(),
  home_name: z.string(),
  home_latitude: z.number().nullable(),
  home_longitude: z.number().nullable(),
  home_zone: z.string().nullable(),
  home_postcode: z.string(),
  travel_mode: travelPlan.shape.mode,
  travel_minutes: travelPlan.shape.minutes,
  travel_night: travelPlan.shape.night,
  travel_margin_minutes: travelPlan.shape.marginMinutes,
  reminders_stopped_at: instant.nullable(),
  language: z.enum(LANGUAGES),
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
  /** As they wrote it, beside the town; ''. */
  postcode: string;
  /** What they say of their journey themselves. */
  plan: TravelPlan;
  /** Since when they want no reminders; null where they do. */
  remindersStoppedAt: ContactRow['reminders_stopped_at'];
  /** In which letters to them are written. */
  language: Language;
}

/** Whether somebody has their journeys in their calendar, and the revision that entries of them have. */
export interface TravelShown {
  shown: boolean;
  turns: number;
  /** Null until they were asked for the first time. */
  revisedAt: z.output<typeof travelShownRow>['travel_revised_at'];
}

export const travelShownRow = z.object({
  travel_shown: z.boolean(),
  travel_turns: z.number(),
  travel_revised_at: instant.nullable(),
});

/** Without a birth date: which of three bands is enough to know how long somebody holds still. */
export const SITTER_AGE_BANDS = ['adult', '8 to 14', 'under 8'] as const;

export interface Sitter {
  id: string;
  name: string;
  ageBand: (typeof SITTER_AGE_BANDS)[number];
  /** Whether a head rest is used. */
  headRest: boolean;
}

const sitterRow = z.object({
  sitter_id: z.uuid(),
  contact_id: z.uuid(),
  name: z.string(),
  age_band: z.enum(SITTER_AGE_BANDS),
  head_rest: z.boolean(),
});

export const contactAndSittersRow = contactRow.extend({ sitters: z.array(sitterRow) });

/** A contact, and those they ask for in the order they were named. */
export interface ContactAndSitters {
  contact: Contact;
  sitters: Sitter[];
}

export const toSitter = (row: z.output<typeof sitterRow>): Sitter => ({
  id: row.sitter_id,
  name: row.name,
  ageBand: row.age_band,
  headRest: row.head_rest,
});

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
    postcode: row.home_postcode,
    plan: {
      mode: row.travel_mode,
      minutes: row.travel_minutes,
      night: row.travel_night,
      marginMinutes: row.travel_margin_minutes,
    },
    remindersStoppedAt: row.reminders_stopped_at,
    language: row.language,
  };
}
