// Coordinates as people write them into a box for a place: "54.49, -0.61", "54.49 N 0.61 W", 54°29′24″N 0°36′36″W.
import type { Point } from './distance.calc.js';

export type ReadCoordinates =
  | { ok: true; point: Point }
  | { ok: false; reason: 'not coordinates' | 'beyond' };

/** Degrees, minutes, seconds: the later ones only behind their marks. */
const ANGLE =
  /([+-]?\d{1,3}(?:\.\d{1,10})?)\s*(?:[°º]\s*(?:(\d{1,2}(?:\.\d{1,10})?)\s*['’′]\s*)?(?:(\d{1,2}(?:\.\d{1,10})?)\s*(?:["”″]|''|’’|′′)\s*)?)?/
    .source;
const BOTH = new RegExp(`^${ANGLE}\\s*([NS])?\\s*[,;\\s]\\s*${ANGLE}\\s*([EW])?$`, 'i');

/** "113 30", "040 01": a postcode in Sweden, Czechia, Slovakia and Greece. No latitude has three figures. */
const POSTCODE = /^\d{3} \d{2}$/;

/** Latitude first. A letter for the half of the earth and a sign together are not coordinates. */
export function readCoordinates(text: string): ReadCoordinates {
  const parts = BOTH.exec(text.trim());
  if (!parts || POSTCODE.test(text.trim())) return { ok: false, reason: 'not coordinates' };
  const lat = degrees(parts.slice(1, 4), parts[4], 'S');
  const lon = degrees(parts.slice(5, 8), parts[8], 'W');
  if (lat === null || lon === null) return { ok: false, reason: 'not coordinates' };
  return Math.abs(lat) > 90 || Math.abs(lon) > 180
    ? { ok: false, reason: 'beyond' }
    : { ok: true, point: { lat, lon } };
}

function degrees(
  [whole = '', minutes = '0', seconds = '0']: (string | undefined)[],
  half: string | undefined,
  negative: 'S' | 'W',
): number | null {
  const signed = /^[+-]/.test(whole);
  if ((signed && half !== undefined) || Number(minutes) >= 60 || Number(seconds) >= 60) return null;
  const size = Math.abs(Number(whole)) + Number(minutes) / 60 + Number(seconds) / 3600;
  const minus = signed ? whole.startsWith('-') : half?.toUpperCase() === negative;
  return minus ? -size : size;
}

/** A postcode, as far as one can tell without a list of them: short, and with a figure. */
export const looksLikePostcode = (text: string): boolean => /\d/.test(text) && text.trim().length <= 12;
