// How far somebody comes, by the straight line over the earth, and a first guess at the road and the hours at the wheel.
// It knows no roads, ferries or timetables; what is made of it is a range (modes.calc.ts, journey.calc.ts).
import geographiclib from 'geographiclib-geodesic';

/** Degrees north and east. */
export interface Point {
  lat: number;
  lon: number;
}

export interface Range {
  from: number;
  to: number;
}

export type FarAway = 'near' | 'day trip' | 'night stay' | 'flight';

/*
 * Assumptions, each inside a published range where there is one.
 * Road over straight line: 1.3 +- 0.1 on motorway networks of several countries (Wang, Bette, Schreckenberg and Guhr,
 * npj Complexity 1:22, 2024); short trips are more roundabout than long ones.
 */
const ROAD_FACTORS = [
  { upToKm: 30, factor: 1.4 },
  { upToKm: 300, factor: 1.3 },
  { upToKm: Number.POSITIVE_INFINITY, factor: 1.2 },
];
/** Mean speeds by length of the road. Assumption, no source. */
const ROAD_SPEEDS = [
  { upToKm: 30, kmPerHour: 40 },
  { upToKm: 100, kmPerHour: 60 },
  { upToKm: 300, kmPerHour: 80 },
  { upToKm: Number.POSITIVE_INFINITY, kmPerHour: 88 },
];
/** The Highway Code (United Kingdom), rule 91: at least 15 minutes after every two hours. */
const BREAK_EVERY_HOURS = 2;
const BREAK_HOURS = 0.25;
/**
 * Metres along the shortest line on the WGS84 ellipsoid (C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87,
 * 2013). Any longitude is taken. Throws RangeError for a latitude beyond the poles or what is no number.
 */
export function geodesicMetres(from: Point, to: Point): number {
  const metres = geographiclib.Geodesic.WGS84.Inverse(from.lat, from.lon, to.lat, to.lon).s12;
  if (metres === undefined || Number.isNaN(metres))
    throw new RangeError(`There is no distance from ${from.lat}, ${from.lon} to ${to.lat}, ${to.lon}.`);
  return metres;
}

/** Kilometres by road for kilometres straight; never less for a longer way, though the factor falls. */
export const roadKm = (straightKm: number): number =>
  Math.max(...ROAD_FACTORS.map(({ upToKm, factor }) => Math.min(straightKm, upToKm) * factor));

/** Hours one way for kilometres of road, breaks within; never less for a longer way. */
export function drivingHours(km: number): number {
  const wheel = Math.max(...ROAD_SPEEDS.map(({ upToKm, kmPerHour }) => Math.min(km, upToKm) / kmPerHour));
  const breaks = Math.max(0, Math.ceil(wheel / BREAK_EVERY_HOURS) - 1);
  return wheel + breaks * BREAK_HOURS;
}
