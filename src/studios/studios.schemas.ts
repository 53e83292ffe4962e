// A studio: where it stands, what light it has, and how far ahead it takes bookings.
import { z } from 'zod';

export const studioRow = z.object({
  studio_id: z.uuid(),
  slug: z.string(),
  name: z.string(),
  welcome: z.string(),
  address: z.string(),
  email: z.string(),
  telephone: z.string(),
  zone: z.string(),
  latitude: z.number(),
  longitude: z.number(),
  window_kind: z.enum(['north window', 'open shade', 'glass room']),
  light_floor_degrees: z.number(),
  reference_seconds: z.number(),
  reference_altitude_degrees: z.number(),
  exposure_cap_seconds: z.number(),
  horizon_months: z.number(),
  least_notice_days: z.number(),
  reserve_quantity: z.enum(['likely', 'ninety']),
  calendar_counter: z.bigint(),
});

type Row = z.output<typeof studioRow>;

export interface Studio {
  id: string;
  slug: string;
  name: string;
  welcome: string;
  address: string;
  email: string;
  telephone: string;
  zone: string;
  lat: number;
  lon: number;
  windowKind: Row['window_kind'];
  lightFloorDegrees: number;
  referenceSeconds: number;
  referenceAltitudeDegrees: number;
  exposureCapSeconds: number;
  horizonMonths: number;
  leastNoticeDays: number;
  reserveQuantity: Row['reserve_quantity'];
  calendarCounter: bigint;
}

/** What a new studio needs to be told; see Studio for the units. */
export type NewStudio = Omit<Studio, 'calendarCounter'>;

/** What an owner may change of a studio's light and booking. */
export type LightAndBooking = Pick<
  Studio,
  | 'windowKind'
  | 'lightFloorDegrees'
  | 'referenceSeconds'
  | 'referenceAltitudeDegrees'
  | 'exposureCapSeconds'
  | 'horizonMonths'
  | 'leastNoticeDays'
>;

/** What visitors read of a studio. */
export type Profile = Pick<Studio, 'name' | 'welcome' | 'address' | 'email' | 'telephone'>;

export function toStudio(row: Row): Studio {
  return {
    id: row.studio_id,
    slug: row.slug,
    name: row.name,
    welcome: row.welcome,
    address: row.address,
    email: row.email,
    telephone: row.telephone,
    zone: row.zone,
    lat: row.latitude,
    lon: row.longitude,
    windowKind: row.window_kind,
    lightFloorDegrees: row.light_floor_degrees,
    referenceSeconds: row.reference_seconds,
    referenceAltitudeDegrees: row.reference_altitude_degrees,
    exposureCapSeconds: row.exposure_cap_seconds,
    horizonMonths: row.horizon_months,
    leastNoticeDays: row.least_notice_days,
    reserveQuantity: row.reserve_quantity,
    calendarCounter: row.calendar_counter,
  };
}
