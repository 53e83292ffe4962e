// How long a way takes from door to door by each means of travel, as ranges wide enough to be honest: nothing here
// knows a road, a line, a timetable or a price. Whoever travels may overwrite each figure (plan.schemas.ts).
import type { Crossing } from './crossing.calc.js';
import { drivingHours, type Range, roadKm } from './distance.calc.js';

export const MODES = ['walk', 'car', 'coach', 'train', 'ferry', 'flight'] as const;
export type Mode = (typeof MODES)[number];

export interface Way {
  mode: Mode;
  /** Along roads or rails, rounded outwards; null for ferry and flight, of which only the straight line is known. */
  km: Range | null;
  /** Minutes from door to door, rounded outwards. */
  minutes: Range;
}

/*
 * Assumptions, unless a source is named. Road over straight line: distance.calc.ts. 800 km/h in the air, and what goes
 * before and after, are assumed; two hours at the airport at home, three abroad, are what the TSA (United States) tells
 * travellers.
 */
const ROAD_SPREAD = 0.15;
const PARKING = { from: 5, to: 15 };
const WALK = { roundabout: { from: 1.2, to: 1.5 }, kmPerHour: { fast: 5, slow: 4 }, mostKm: 6 };
const COACH = { slower: { from: 1.1, to: 1.5 }, around: { from: 30, to: 90 } };
const TRAIN = {
  roundabout: { from: 1.15, to: 1.5 },
  around: { from: 30, to: 100 },
  fast: [
    { upToKm: 50, kmPerHour: 60 },
    { upToKm: 200, kmPerHour: 100 },
    { upToKm: Number.POSITIVE_INFINITY, kmPerHour: 140 },
  ],
  slow: [
    { upToKm: 50, kmPerHour: 35 },
    { upToKm: 200, kmPerHour: 60 },
    { upToKm: Number.POSITIVE_INFINITY, kmPerHour: 80 },
  ],
};
/** At best nearly as fast as a road; at worst all of it at the speed of a ship (13 knots), and a wait for it. */
const FERRY = { around: { from: 90, to: 300 }, kmPerHour: 25, ofTheRoad: 0.5 };
const FLIGHT = {
  around: { from: 45 + 120 + 30 + 30 + 30, to: 120 + 180 + 45 + 60 + 120 },
  kmPerHour: { fast: 800, slow: 700 },
  /** Changing on the way, wholly counted from this distance on. */
  change: { minutes: 240, fromKm: 1500 },
  leastKm: 150,
};
/** Shorter ways by coach or train are not worth naming. */
const LINE_LEAST_KM = 10;

/** From here on most would fly; over a sea earlier. */
export const FLIGHT_KM = 800;
const FLIGHT_OVER_SEA_KM = 400;
const ON_FOOT_KM = 2;

/**
 * Minutes from door to door for a straight distance in kilometres; a longer distance never takes less. A car or coach
 * that has to cross a sea, or to go round one, is reckoned as going by ferry, and so is a train unless rails cross it.
 */
export function doorToDoor(mode: Mode, km: number, crossing: Crossing): Range {
  if (mode === 'train' && crossing.railKm !== null) return outwards(MINUTES.train(crossing.railKm));
  const byShip = isOverWater(crossing) && mode !== 'flight';
  return outwards(byShip ? MINUTES.ferry(km) : MINUTES[mode](km));
}

const MINUTES: Record<Mode, (km: number) => Range> = {
  walk: (km) => ({
    from: ((km * WALK.roundabout.from) / WALK.kmPerHour.fast) * 60,
    to: ((km * WALK.roundabout.to) / WALK.kmPerHour.slow) * 60,
  }),
  car: (km) => plus(driving(km, { from: 1, to: 1 }), PARKING),
  coach: (km) => plus(driving(km, COACH.slower), COACH.around),
  train: (km) => ({
    from: TRAIN.around.from + hoursAt(km * TRAIN.roundabout.from, TRAIN.fast) * 60,
    to: TRAIN.around.to + hoursAt(km * TRAIN.roundabout.to, TRAIN.slow) * 60,
  }),
  ferry: (km) => {
    const road = driving(km, { from: 1, to: FERRY.ofTheRoad });
    return plus({ from: road.from, to: road.to + (km / FERRY.kmPerHour) * 60 }, FERRY.around);
  },
  flight: (km) => ({
    from: FLIGHT.around.from + (km / FLIGHT.kmPerHour.fast) * 60,
    to:
      FLIGHT.around.to +
      (km / FLIGHT.kmPerHour.slow) * 60 +
      FLIGHT.change.minutes * Math.min(1, km / FLIGHT.change.fromKm),
  }),
};

/** The ways worth naming, in the order of MODES. */
export function waysFor(km: number, crossing: Crossing): Way[] {
  const water = isOverWater(crossing);
  const worth: Record<Mode, boolean> = {
    walk: !water && km * WALK.roundabout.from <= WALK.mostKm,
    car: !water,
    coach: !water && km >= LINE_LEAST_KM,
    train: (!water || crossing.railKm !== null) && km >= LINE_LEAST_KM,
    ferry: crossing.kind !== 'none',
    flight: km >= FLIGHT.leastKm,
  };
  return MODES.filter((mode) => worth[mode]).map((mode) => ({
    mode,
    km: kmAlong(mode, mode === 'train' ? (crossing.railKm ?? km) : km),
    minutes: doorToDoor(mode, km, crossing),
  }));
}

/** What most would take, as long as nobody says otherwise. */
export function likelyMode(km: number, crossing: Crossing): Mode {
  if (isOverWater(crossing)) return km > FLIGHT_OVER_SEA_KM ? 'flight' : 'ferry';
  if (km <= ON_FOOT_KM) return 'walk';
  return km > FLIGHT_KM ? 'flight' : 'car';
}

export const isOverWater = ({ kind }: Crossing): boolean => kind === 'sea' || kind === 'round';

/** Kilometres by road or rail, rounded outwards. */
export function kmAlong(mode: Mode, km: number): Range | null {
  if (mode === 'ferry' || mode === 'flight') return null;
  if (mode === 'walk') return kmOutwards(times(WALK.roundabout, km));
  if (mode === 'train') return kmOutwards(times(TRAIN.roundabout, km));
  return kmOutwards(roadRange(km));
}

const roadRange = (km: number): Range => times({ from: 1 - ROAD_SPREAD, to: 1 + ROAD_SPREAD }, roadKm(km));

function driving(km: number, slower: Range): Range {
  const { from, to } = roadRange(km);
  return { from: drivingHours(from) * 60 * slower.from, to: drivingHours(to) * 60 * slower.to };
}

/** Never less for a longer way, though the speed rises. */
const hoursAt = (km: number, speeds: readonly { upToKm: number; kmPerHour: number }[]): number =>
  Math.max(...speeds.map(({ upToKm, kmPerHour }) => Math.min(km, upToKm) / kmPerHour));

const plus = (a: Range, b: Range): Range => ({ from: a.from + b.from, to: a.to + b.to });
const times = ({ from, to }: Range, by: number): Range => ({ from: from * by, to: to * by });

/** To 5 minutes, to quarters from an hour and a half on, to half hours from three hours on. */
function outwards({ from, to }: Range): Range {
  const step = (minutes: number) => (minutes >= 180 ? 30 : minutes >= 90 ? 15 : 5);
  const [down, up] = [step(from), step(to)];
  return { from: Math.floor(from / down) * down, to: Math.ceil(to / up) * up };
}

function kmOutwards({ from, to }: Range): Range {
  const step = to < 10 ? 1 : to < 100 ? 5 : 10;
  return { from: Math.floor(from / step) * step, to: Math.ceil(to / step) * step };
}
