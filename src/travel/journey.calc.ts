// One journey to the studio and back: how, how long, whether a night's stay is wise, and the moment by which to leave,
// by the clock of the place they leave from. Pure: reminders and pages call it anew, so it follows every change.
import { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import { type Crossing, crossingBetween } from './crossing.calc.js';
import { type FarAway, geodesicMetres, type Point, type Range } from './distance.calc.js';
import { doorToDoor, isOverWater, likelyMode, type Mode, type Way, waysFor } from './modes.calc.js';
import { NO_PLAN, type TravelPlan } from './plan.schemas.js';

/** A point with the IANA name of its zone. */
export interface Spot extends Point {
  zone: string;
}

export interface Visit {
  startsAt: Temporal.Instant;
  endsAt: Temporal.Instant;
}

export type NightReason = 'they say' | 'by air' | 'too long for a day' | 'leaves at night' | 'none';

/** What is known without a day. */
export interface Travel {
  /** Straight over the earth, not rounded. */
  km: number;
  crossing: Crossing;
  /** Worth naming, in the order of MODES. */
  ways: Way[];
  /** Theirs, or what most would take. */
  mode: Mode;
  /** Door to door one way; of equal ends where they say so themselves. */
  minutes: Range;
  /** Which of it they say themselves. */
  own: { mode: boolean; minutes: boolean; night: boolean; margin: boolean };
  night: boolean;
  nightReason: NightReason;
  farAway: FarAway;
  /** Whether another country is likely: the zones have different names. Assumption, on the early side for booking. */
  abroad: boolean;
  /** Days before the visit on which to book travel and bed; null where there is nothing to book. */
  bookDaysBefore: 90 | 60 | 21 | null;
}

export interface Journey extends Travel {
  marginMinutes: number;
  /** To be near the studio: the margin before the start, or the evening before where they stay the night. */
  thereBy: Temporal.Instant;
  /** To be at the studio itself on the day. */
  atStudioBy: Temporal.Instant;
  /** To leave home, for the longest that it may take. */
  leaveBy: Temporal.Instant;
  /** What clocks at home show then. */
  leaveByWall: Temporal.PlainDateTime;
  /** Nights on the road before the last evening, for more driving than a day's. */
  nightsOnTheWay: number;
  /** Home again at the latest, when they leave as it ends and travel without a stop. */
  homeBy: Temporal.Instant;
  homeByWall: Temporal.PlainDateTime;
  /** A night after it is wise as well: home only after midnight, or too long a drive. */
  nightAfter: boolean;
  /** Out, at the studio and back, in hours, for the longest that it may take. */
  dayHours: number;
  /** Minutes that clocks at the studio are ahead of those at home when it starts; negative when behind. */
  clockDifference: number;
}

/** Assumptions. Ten hours out, at the studio and back make a full day; eight hours one way are too long for one. */
const DAY_MINUTES = 10 * 60;
const ONE_WAY_MINUTES = 8 * 60;
const AT_STUDIO_MINUTES = 2 * 60;
const NEAR_MINUTES = 75;
export const USUAL_MARGIN_MINUTES = 30;
/** Who stays the night is there by this hour of the evening before, by the clock at the studio. Assumption. */
const EVENING_HOUR = 20;
/** Nobody is sent off before this hour. The Highway Code (United Kingdom), rule 91: avoid midnight to 6 am. */
const MORNING_HOUR = 6;
/** Assumptions, from how far ahead travel sellers say that flights are booked: one to eight months. */
const BOOK_FLIGHT_ABROAD = 90;
const BOOK_FLIGHT = 60;
const BOOK_OTHER = 21;

/** How somebody travels, whatever the day. @throws RangeError as geodesicMetres */
export function travelOf(home: Spot, studio: Spot, plan: TravelPlan = NO_PLAN): Travel {
  const km = geodesicMetres(home, studio) / 1000;
  const crossing = crossingBetween(home, studio);
  const mode = plan.mode ?? likelyMode(km, crossing);
  const minutes =
    plan.minutes === null ? doorToDoor(mode, km, crossing) : { from: plan.minutes, to: plan.minutes };
  const abroad = home.zone !== studio.zone;
  const likely = (minutes.from + minutes.to) / 2;
  const nightReason = nightNeeded(mode, likely, plan);
  const night = plan.night === null ? nightReason !== 'none' : plan.night === 'yes';
  return {
    km,
    crossing,
    ways: waysFor(km, crossing),
    mode,
    minutes,
    own: {
      mode: plan.mode !== null,
      minutes: plan.minutes !== null,
      night: plan.night !== null,
      margin: plan.marginMinutes !== null,
    },
    night,
    nightReason,
    farAway:
      mode === 'flight' ? 'flight' : night ? 'night stay' : likely > NEAR_MINUTES ? 'day trip' : 'near',
    abroad,
    bookDaysBefore: bookAhead(mode, abroad, night),
  };
}

/**
 * The journey for a visit. Ways round over the day the clocks change are right by themselves, since hours are added to
 * instants and only the answer is read off the clock at home; so is the date line. @throws RangeError as geodesicMetres
 */
export function journeyOf(home: Spot, studio: Spot, visit: Visit, plan: TravelPlan = NO_PLAN): Journey {
  const way = travelOf(home, studio, plan);
  const marginMinutes = plan.marginMinutes ?? USUAL_MARGIN_MINUTES;
  const atStudioBy = visit.startsAt.subtract({ minutes: marginMinutes });
  const sameDay = toFive(atStudioBy.subtract({ minutes: way.minutes.to }));
  const atNight =
    plan.night === null && way.mode !== 'walk' && leavesAtNight(home.zone, sameDay, visit.startsAt);
  const night = way.night || atNight;
  const evening = eveningBefore(studio.zone, visit.startsAt);
  const thereBy = night && Temporal.Instant.compare(evening, atStudioBy) < 0 ? evening : atStudioBy;
  const nightsOnTheWay =
    night && isOnRoad(way) ? Math.max(0, Math.ceil(way.minutes.to / ONE_WAY_MINUTES) - 1) : 0;
  const rest = nightsOnTheWay * (24 * 60 - ONE_WAY_MINUTES);
  const leaveBy = toFive(thereBy.subtract({ minutes: way.minutes.to + rest }));
  const homeBy = visit.endsAt.add({ minutes: way.minutes.to });
  const minutesThere = visit.endsAt.since(visit.startsAt).total('minutes') + marginMinutes;
  const ends = instantToWall(home.zone, visit.endsAt).toPlainDate();
  return {
    ...way,
    night,
    nightReason: way.nightReason === 'none' && atNight ? 'leaves at night' : way.nightReason,
    farAway: night && way.farAway !== 'flight' ? 'night stay' : way.farAway,
    bookDaysBefore: bookAhead(way.mode, way.abroad, night),
    marginMinutes,
    thereBy,
    atStudioBy,
    leaveBy,
    leaveByWall: instantToWall(home.zone, leaveBy),
    nightsOnTheWay,
    homeBy,
    homeByWall: instantToWall(home.zone, homeBy),
    nightAfter:
      !instantToWall(home.zone, homeBy).toPlainDate().equals(ends) ||
      (isOnRoad(way) && way.minutes.to > ONE_WAY_MINUTES),
    dayHours: (2 * way.minutes.to + minutesThere) / 60,
    clockDifference: minutesAhead(studio.zone, home.zone, visit.startsAt),
  };
}

function nightNeeded(mode: Mode, likely: number, plan: TravelPlan): NightReason {
  if (plan.night !== null) return plan.night === 'yes' ? 'they say' : 'none';
  if (mode === 'flight' && plan.minutes === null) return 'by air';
  return 2 * likely + AT_STUDIO_MINUTES > DAY_MINUTES ? 'too long for a day' : 'none';
}

function bookAhead(mode: Mode, abroad: boolean, night: boolean): Travel['bookDaysBefore'] {
  if (mode === 'flight') return abroad ? BOOK_FLIGHT_ABROAD : BOOK_FLIGHT;
  return night || mode === 'ferry' || mode === 'train' || mode === 'coach' ? BOOK_OTHER : null;
}

const isOnRoad = ({ mode, crossing }: Travel): boolean =>
  (mode === 'car' || mode === 'coach' || mode === 'walk') && !isOverWater(crossing);

/** Before six, or on an earlier date than that of the visit, by the clock at home. */
function leavesAtNight(zone: string, leaves: Temporal.Instant, startsAt: Temporal.Instant): boolean {
  const wall = instantToWall(zone, leaves);
  return wall.hour < MORNING_HOUR || !wall.toPlainDate().equals(instantToWall(zone, startsAt).toPlainDate());
}

function eveningBefore(zone: string, startsAt: Temporal.Instant): Temporal.Instant {
  const evening = instantToWall(zone, startsAt)
    .toPlainDate()
    .subtract({ days: 1 })
    .toPlainDateTime({ hour: EVENING_HOUR });
  const answer = wallToInstant(zone, evening, 'earlier');
  // no zone of the data skips this hour from 1972 on; were one to, an hour of wall time earlier is not too late
  return answer.ok ? answer.instant : startsAt.subtract({ hours: 24 });
}

function minutesAhead(zone: string, than: string, at: Temporal.Instant): number {
  return instantToWall(than, at).until(instantToWall(zone, at)).total('minutes');
}

/** Down to five minutes. */
const toFive = (at: Temporal.Instant): Temporal.Instant =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at.epochMilliseconds / 300_000) * 300_000);
