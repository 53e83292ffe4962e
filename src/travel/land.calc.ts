// On which land a point lies, so that a sea between two places is noticed. Small islands off a coast are not known and
// count as that coast; what bridges or road tunnels join counts as one land. It knows no roads.
import type { Point } from './distance.calc.js';
import { AROUND_EURASIA, type Corner, OUTLINES } from './land-outlines.calc.js';

export interface Land {
  /** "Great Britain", as it stands in a sentence. */
  name: string;
  /** Several islands drawn as one: between two places of it there may be water or none. */
  group: boolean;
}

const MAINLAND = 'the mainland of Europe and Asia';
const EURASIA: Land = { name: MAINLAND, group: false };
const FAR_OUT: Land = { name: 'islands far out', group: true };

/** Where trains go from one land to another: two tunnels, and onto the ferry at Messina. From memory. */
const RAIL_LINKS: readonly { lands: readonly string[]; at: Point }[] = [
  { lands: [MAINLAND, 'Great Britain'], at: { lat: 51.01, lon: 1.5 } },
  { lands: ['Hokkaido', 'Honshu, Shikoku and Kyushu'], at: { lat: 41.4, lon: 140.3 } },
  { lands: [MAINLAND, 'Sicily'], at: { lat: 38.21, lon: 15.6 } },
];

/** The land that a point lies on. Any longitude is taken. */
export function landOf({ lat, lon }: Point): Land {
  const point: Corner = [lat, turned(lon)];
  const found = OUTLINES.find(({ corners }) => isWithin(point, corners));
  if (found) return { name: found.name, group: found.group };
  const beyond180 = lat > 62 && point[1] < -168.9;
  return isWithin(point, AROUND_EURASIA) || beyond180 ? EURASIA : FAR_OUT;
}

/** Where trains cross from one land to the other, or null. */
export const railLink = (a: Land, b: Land): Point | null =>
  RAIL_LINKS.find(({ lands }) => lands.includes(a.name) && lands.includes(b.name))?.at ?? null;

/** Africa and Asia meet at Suez. */
export const areJoinedAtSuez = (a: Land, b: Land): boolean =>
  [a.name, b.name].sort().join('|') === `Africa|${MAINLAND}`;

/** Whether a point lies within a polygon that does not go over the meridian of 180 degrees. */
export function isWithin([lat, lon]: Corner, corners: readonly Corner[]): boolean {
  let inside = false;
  let [lastLat, lastLon] = corners[corners.length - 1] ?? [0, 0];
  for (const [atLat, atLon] of corners) {
    const crosses = atLat > lat !== lastLat > lat;
    if (crosses && lon < ((lastLon - atLon) * (lat - atLat)) / (lastLat - atLat) + atLon) inside = !inside;
    [lastLat, lastLon] = [atLat, atLon];
  }
  return inside;
}

/** A longitude from -180 up to 180. */
export const turned = (lon: number): number => ((((lon + 180) % 360) + 360) % 360) - 180;
