// What the owner should know of a journey at first sight: the same figures as journey.calc.ts, rounded, without a day.
import type { Crossing } from './crossing.calc.js';
import type { FarAway, Range } from './distance.calc.js';
import { type Spot, travelOf } from './journey.calc.js';
import { kmAlong, type Mode } from './modes.calc.js';
import type { TravelPlan } from './plan.schemas.js';

export interface JourneyGlance {
  /** Over the earth, rounded so that it promises no more than a town's middle can. */
  km: number;
  mode: Mode;
  /** They told us how they come, or how long it takes them. */
  own: boolean;
  /** Along roads or rails, rounded outwards; null where one would fly or go by ferry. */
  roadKm: Range | null;
  /** One way from door to door; null where one would fly, unless they say how long. */
  hours: Range | null;
  /** Out, sitting and back do not fit into one day, or they stay the night. */
  overnight: boolean;
  farAway: FarAway;
  crossing: Crossing;
}

/** Throws RangeError as geodesicMetres. */
export function journeyGlance(home: Spot, studio: Spot, plan?: TravelPlan): JourneyGlance {
  const { km: straight, mode, minutes, own, night, farAway, crossing } = travelOf(home, studio, plan);
  const step = straight < 100 ? 1 : 10;
  const told = mode !== 'flight' || own.minutes;
  return {
    km: Math.round(straight / step) * step,
    mode,
    own: own.mode || own.minutes || own.night,
    roadKm: kmAlong(mode, mode === 'train' ? (crossing.railKm ?? straight) : straight),
    hours: told ? { from: minutes.from / 60, to: minutes.to / 60 } : null,
    overnight: night,
    farAway,
    crossing,
  };
}
