// Whether water lies between two places: another island, or a gulf or lake that the straight line passes and the road
// goes round. The waters are drawn from memory, well inside their shores; small ones are not there. It knows no ferries.
import { geodesicMetres, type Point } from './distance.calc.js';
import { areJoinedAtSuez, isWithin, type Land, landOf, railLink, turned } from './land.calc.js';
import { corners } from './land-outlines.calc.js';

export interface Crossing {
  /** sea: no road leads there. round: a road does, but round the water. perhaps: two places of one group of islands. */
  kind: 'none' | 'sea' | 'round' | 'perhaps';
  /** Straight kilometres to and from where trains cross the sea; null unless kind is sea and they do. */
  railKm: number | null;
  /** The lands of both ends, as they stand in a sentence; the same unless kind is sea. */
  from: string;
  to: string;
  /** "the Adriatic"; '' unless kind is round. */
  water: string;
}

/** Less water than this in the straight line, or a smaller part of it, is a bend of the coast. Assumptions. */
const LEAST_WATER_KM = 10;
const LEAST_WATER_PART = 0.15;
const MOST_STEPS = 60;
const LEAST_STEP_KM = 2;
/** From here eastwards one goes from Africa to Asia by road, at Suez. */
const SUEZ_ROAD_FROM_LON = 29;

interface Box {
  south: number;
  north: number;
  west: number;
  east: number;
}

const boxOf = (points: readonly Point[]): Box => {
  const [lats, lons] = [points.map(({ lat }) => lat), points.map(({ lon }) => lon)];
  return {
    south: Math.min(...lats),
    north: Math.max(...lats),
    west: Math.min(...lons),
    east: Math.max(...lons),
  };
};
const touch = (a: Box, b: Box): boolean =>
  a.south <= b.north && b.south <= a.north && a.west <= b.east && b.west <= a.east;

const water = (name: string, at: string) => {
  const shape = corners(at);
  return { name, shape, box: boxOf(shape.map(([lat, lon]) => ({ lat, lon }))) };
};

const WATERS = [
  water(
    'the Bristol Channel',
    '51.42 -3.03, 51.36 -3.3, 51.36 -3.6, 51.47 -3.78, 51.54 -4.2, 51.55 -5, 51.1 -4.8, 51.24 -4, 51.25 -3.1, 51.35 -3.02',
  ),
  water('the North Sea', '53 3, 53.6 5, 54 7.5, 55 8, 57 7.5, 57.8 6.5, 58.5 4.8, 58.5 3'),
  water('the Skagerrak', '57.5 6.5, 57.9 7.9, 58.3 9, 58.8 10.4, 58.6 10.6, 57.8 10.7, 57.7 9.9, 56.9 7.8'),
  water('the Kattegat', '56.2 11.3, 57.7 10.7, 57.6 11.4, 56.9 12.2, 56.3 12.3, 56.1 11.8'),
  water(
    'the Baltic Sea',
    '54.22 11.2, 54.45 11.4, 54.6 12.3, 54.95 12.8, 55.25 13.2, 55.9 15.5, 56.3 16.9, 58.5 17.8, 59.3 19.5, 59.4 22, 57.5 20.8, 56 20.6, 55 19.6, 54.7 18.8, 54.9 18, 54.4 15.5, 54.7 13.9, 54.7 13, 54.5 12.5',
  ),
  water(
    'the Gulf of Finland',
    '59.55 23, 59.95 23.2, 60.1 25.2, 60.3 27.5, 60 29, 59.75 28.5, 59.65 26.5, 59.5 24.8',
  ),
  water(
    'the Gulf of Bothnia',
    '60.7 17.9, 62 18, 63 19.5, 64.5 21.9, 65.5 23, 65.5 24.8, 64.8 24.6, 63.3 21.2, 62 20.9, 60.8 20.8',
  ),
  water('the Bay of Biscay', '43.7 -2, 44.5 -1.6, 46 -2, 47 -3.5, 47.6 -5.5, 44 -7, 43.8 -4'),
  water(
    'the western Mediterranean',
    '42 3.6, 43 4, 43 6.2, 44 8.8, 43.8 9.8, 42.7 10, 41.3 11.3, 40.3 12.9, 39.7 14.2, 38.9 15.2, 38.4 15, 38.4 10, 37.3 5, 37 0, 38 2, 40 2, 41.3 3',
  ),
  water(
    'the Adriatic',
    '45.2 12.9, 45.3 13.3, 44.7 13.7, 43.7 15, 42.9 16.3, 42.2 18, 41.5 19.2, 40.4 19.1, 40.4 18.6, 41.3 17, 42.1 16.3, 42.3 14.6, 43.6 13.8, 44.5 12.5',
  ),
  water('the Ionian Sea', '40.2 18.8, 39.6 19.5, 38.2 20.2, 37 21.2, 36.5 19, 38 16.9, 39 17.4, 39.6 18.3'),
  water(
    'the Aegean',
    '40.4 25.5, 39.5 25.8, 38.6 26, 37 27, 36 28, 35.9 24, 37.2 23.6, 38.2 24.7, 39.3 23.6',
  ),
  water(
    'the eastern Mediterranean',
    '36.4 29, 36 31, 36.3 34, 35.5 35.3, 33 34.7, 31.6 33.5, 31.8 30, 32.5 25, 33.5 21, 35.5 22.5, 34.5 27',
  ),
  water(
    'the Black Sea',
    '41.6 29.5, 43.2 28.6, 45 30.2, 46 31, 44.6 33, 44.4 34, 45 36, 44.4 38, 43 40, 41.7 41.3, 41.2 39, 41.4 36.5, 42.2 35, 41.8 32',
  ),
  water(
    'the Caspian Sea',
    '37.2 50.5, 37.2 53.5, 40 52.8, 41.5 52.4, 44.5 50, 45 48, 43 48, 41.5 49.3, 40.2 50.6, 38.5 49.2',
  ),
  water(
    'the Persian Gulf',
    '29.7 48.8, 29.5 50, 27.6 52, 26.6 53.8, 26.3 56, 25.5 55.2, 24.7 53.5, 26 52, 27 50.3, 28.5 49',
  ),
  water('the Red Sea', '27.5 34.3, 25 37, 21 38.8, 16.5 42.3, 13 43.1, 15 40.5, 19 37.8, 24 35.9'),
  water('the Gulf of Aden', '12.7 45, 14.5 50, 12.2 51, 11 48, 10.7 45, 11.6 43.6'),
  water('the Bay of Bengal', '20 87.2, 21 88, 21 91, 18 93.8, 14 97, 6 93, 10 80.7, 15 81, 18 85'),
  water(
    'the Gulf of Thailand',
    '13 100.3, 12.3 101.5, 11 102.8, 9.5 104, 6.5 102.5, 8 100.6, 9.5 100.3, 12 100.1',
  ),
  water(
    'the Bohai Strait',
    '37.6 121, 37.65 121.8, 37.55 123, 38.9 123, 38.75 121.8, 38.65 121.1, 39.4 121.1, 40.4 121.2, 39.6 119.9, 38.8 118.2, 37.9 119.4',
  ),
  water(
    'the Gulf of Mexico',
    '29 -94, 29.5 -88, 29 -84, 26 -83, 23.5 -83, 21.8 -87, 21.5 -90, 19 -94, 20 -96.5, 24 -97.2, 27 -96.5',
  ),
  water(
    'the Gulf of California',
    '31 -114.3, 28 -112, 25.5 -109.8, 23 -107.5, 23.3 -109, 26 -110.9, 28.6 -112.7',
  ),
  water('Lake Michigan', '41.8 -87.3, 43 -87.6, 45 -87, 45.7 -86, 45 -86.3, 43.5 -86.7, 42 -86.8'),
  water(
    'Lake Superior',
    '47 -90.5, 48 -88.2, 48.6 -87, 47.5 -85.2, 46.7 -85.2, 47 -87.3, 47.6 -88.3, 47 -90',
  ),
  water('Lake Huron', '43.3 -82.1, 44.5 -83, 45.5 -83.2, 45.4 -82, 44.5 -81.8, 43.5 -81.9'),
  water('Lake Ontario', '43.4 -79.3, 43.8 -78.5, 43.9 -77, 43.7 -76.4, 43.45 -77.5, 43.35 -79'),
  water('Lake Erie', '41.7 -83, 42.2 -81.9, 42.6 -80.6, 42.75 -79.3, 42.4 -79.7, 41.8 -81.5, 41.6 -82.6'),
  water('Hudson Bay', '53 -80.5, 59 -79, 62 -79, 63 -85, 60 -94, 57.5 -91, 55.5 -83'),
  water(
    'the River Plate',
    '-34.52 -58.15, -34.55 -57.5, -34.95 -56.4, -35.3 -55.5, -36.2 -56.4, -35.3 -57.1, -34.75 -57.9',
  ),
];

/** What water lies between. Throws RangeError as geodesicMetres. */
export function crossingBetween(from: Point, to: Point): Crossing {
  const [here, there] = [landOf(from), landOf(to)];
  const told = { railKm: null, from: here.name, to: there.name, water: '' };
  if (here.name !== there.name && !isOverSuez(from, to, here, there))
    return { ...told, kind: 'sea', railKm: railKmBetween(from, to, railLink(here, there)) };
  if (here.group) {
    const samePlace = geodesicMetres(from, to) < LEAST_WATER_KM * 1000;
    return { ...told, kind: samePlace ? 'none' : 'perhaps' };
  }
  const name = waterOnTheLine(from, to);
  return name === null ? { ...told, kind: 'none' } : { ...told, kind: 'round', water: name };
}

const isOverSuez = (from: Point, to: Point, here: Land, there: Land) =>
  areJoinedAtSuez(here, there) &&
  turned(from.lon) > SUEZ_ROAD_FROM_LON &&
  turned(to.lon) > SUEZ_ROAD_FROM_LON;

/** Null as well where another water lies on the way to the crossing. */
function railKmBetween(from: Point, to: Point, link: Point | null): number | null {
  if (link === null || waterOnTheLine(from, link) !== null || waterOnTheLine(link, to) !== null) return null;
  return (geodesicMetres(from, link) + geodesicMetres(link, to)) / 1000;
}

/** The first water of which there is enough in the straight line. */
function waterOnTheLine(from: Point, to: Point): string | null {
  const km = geodesicMetres(from, to) / 1000;
  const steps = Math.min(MOST_STEPS, Math.floor(km / LEAST_STEP_KM));
  if (steps < 2) return null;
  const least = Math.max(LEAST_WATER_KM, LEAST_WATER_PART * km);
  const line = alongTheLine(from, to, steps);
  const around = boxOf(line);
  const waters = WATERS.filter(({ box }) => touch(box, around));
  const kmOf = new Map<string, number>();
  for (const { lat, lon } of waters.length > 0 ? line : []) {
    const found = waters.find(({ shape }) => isWithin([lat, lon], shape));
    if (found) kmOf.set(found.name, (kmOf.get(found.name) ?? 0) + km / steps);
  }
  return [...kmOf].find(([, long]) => long >= least)?.[0] ?? null;
}

/** The middles of so many equal pieces, on a sphere: near enough for outlines as coarse as these. None between antipodes. */
function alongTheLine(from: Point, to: Point, steps: number): Point[] {
  const [a, b] = [onSphere(from), onSphere(to)];
  const angle = Math.acos(Math.max(-1, Math.min(1, a.x * b.x + a.y * b.y + a.z * b.z)));
  const scale = Math.sin(angle);
  if (scale < 1e-9) return [];
  return Array.from({ length: steps }, (_, step) => {
    const part = (step + 0.5) / steps;
    const [near, far] = [Math.sin((1 - part) * angle) / scale, Math.sin(part * angle) / scale];
    const z = Math.max(-1, Math.min(1, near * a.z + far * b.z));
    return {
      lat: (Math.asin(z) * 180) / Math.PI,
      lon: (Math.atan2(near * a.y + far * b.y, near * a.x + far * b.x) * 180) / Math.PI,
    };
  });
}

function onSphere({ lat, lon }: Point): { x: number; y: number; z: number } {
  const [north, east] = [(lat * Math.PI) / 180, (lon * Math.PI) / 180];
  return { x: Math.cos(north) * Math.cos(east), y: Math.cos(north) * Math.sin(east), z: Math.sin(north) };
}
