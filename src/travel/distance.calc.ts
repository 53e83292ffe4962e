// How far somebody comes, by the straight line over the earth, and a first guess at the road and its hours.
// It knows no roads, ferries or timetables: every guess is a range, and who must fly gets no hours at all.
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

export interface JourneyGlance {
  /** Over the earth, rounded so that it promises no more than a town's middle can. */
  km: number;
  /** By road, rounded outwards; null where one would fly. */
  roadKm: Range | null;
  /** One way at the wheel with breaks, rounded outwards to quarter and half hours; null where one would fly. */
  hours: Range | null;
  /** Out, sitting and back do not fit into one day. */
  overnight: boolean;
  farAway: FarAway;
}

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
const ROAD_SPREAD = 0.15;
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
/** Assumptions. Ten hours out, at the studio and back make a full day. */
const NEAR_HOURS = 1;
const DAY_HOURS = 10;
const AT_STUDIO_HOURS = 2;
/**
 * Assumption: 500 miles. In the United States more people drive than fly up to 749 miles and more fly from 750 on
 * (Bureau of Transportation Statistics, National Household Travel Survey 2001-02).
 */
const FLIGHT_KM = 800;

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

/** What the owner should know of a journey at first sight. A sea between is not noticed. Throws as geodesicMetres. */
export function journeyGlance(from: Point, studio: Point): JourneyGlance {
  const straight = geodesicMetres(from, studio) / 1000;
  const km = nearest(straight, straight < 100 ? 1 : 10);
  if (straight > FLIGHT_KM) return { km, roadKm: null, hours: null, overnight: true, farAway: 'flight' };

  const road = roadKm(straight);
  const range = { from: road * (1 - ROAD_SPREAD), to: road * (1 + ROAD_SPREAD) };
  const likely = drivingHours(road);
  const overnight = 2 * likely + AT_STUDIO_HOURS > DAY_HOURS;
  return {
    km,
    roadKm: outwards(range, road < 100 ? 5 : 10),
    hours: outwards({ from: drivingHours(range.from), to: drivingHours(range.to) }, likely < 3 ? 0.25 : 0.5),
    overnight,
    farAway: overnight ? 'night stay' : likely > NEAR_HOURS ? 'day trip' : 'near',
  };
}

const nearest = (value: number, step: number): number => Math.round(value / step) * step;
const outwards = ({ from, to }: Range, step: number): Range => ({
  from: Math.floor(from / step) * step,
  to: Math.ceil(to / step) * step,
});
