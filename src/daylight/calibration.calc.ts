// What the studio's own exposure notes say about its reference exposure. It only proposes: the reference
// moves when the owner says so. Notes are compared like with like, and a median resists the odd plate.
import {
  exposureMultiplier,
  type Range,
  type StudioLight,
  WEATHER_FACTORS,
  type Weather,
} from './exposure.calc.js';

/** What must be the same for two exposures to be comparable, and the opening, which can be reckoned with. */
export interface ExposureConditions {
  lens: string;
  /** As the studio names it: "head", "half length", "group". */
  framing: string;
  /** The collodion bottle, or the class of bottle, as the studio notes it. */
  bottle: string;
  weather: Weather;
  /** Marked on the lens, as for a distant subject. */
  fNumber: number;
  /** Size on the plate over size in life: 0 far away, 1 for life size. */
  magnification: number;
}

/** One good plate. `altitude` is the sun's, in degrees, when it was exposed. */
export interface ExposureNote extends ExposureConditions {
  seconds: number;
  altitude: number;
}

export type Proposal =
  | {
      ok: true;
      /** Seconds at the studio's reference altitude under a clear sky: the median of what the notes imply. */
      referenceSeconds: number;
      /** Proposed over present reference: above 1 when the studio has been exposing longer than it says. */
      ratio: number;
      /** Notes that agree in all conditions, and those left aside. */
      count: number;
      leftOut: number;
      /** Quartiles of the implied seconds: half of the notes lie between them. */
      spread: Range;
    }
  | { ok: false; reason: 'too few notes'; count: number; leftOut: number; needed: number };

/** Assumption: below this a median says more about luck than about light. */
const LEAST_NOTES = 5;

/**
 * Light lost at an opening and magnification, relative to f/1 at infinity: the square of the f-number
 * times the bellows factor (1 + m)^2, since the lens stands (1 + m) focal lengths from the plate.
 */
export function openingFactor(lens: Pick<ExposureConditions, 'fNumber' | 'magnification'>): number {
  return (lens.fNumber * (1 + lens.magnification)) ** 2;
}

/**
 * Proposes a reference exposure from notes made under the given conditions: same lens, framing, bottle and
 * weather; another opening or magnification is reckoned over to the conditions' own. Notes taken with the sun
 * below the horizon are left out. For any weather but clear the weather factor (middle of its range) is
 * divided out, so such a proposal leans on that factor and is the weaker for it.
 */
export function proposeReference(
  studio: StudioLight,
  conditions: ExposureConditions,
  notes: readonly ExposureNote[],
  leastNotes: number = LEAST_NOTES,
): Proposal {
  const { from, to } = WEATHER_FACTORS[conditions.weather];
  const implied: number[] = [];
  for (const note of notes) {
    const multiplier = exposureMultiplier(studio, note.altitude);
    if (multiplier === null || !isLike(note, conditions)) continue;
    const opening = openingFactor(conditions) / openingFactor(note);
    implied.push((note.seconds * opening) / (multiplier * ((from + to) / 2)));
  }
  const count = implied.length;
  const leftOut = notes.length - count;
  if (count < Math.max(1, leastNotes))
    return { ok: false, reason: 'too few notes', count, leftOut, needed: leastNotes };
  implied.sort((a, b) => a - b);
  const referenceSeconds = quantile(implied, 0.5);
  return {
    ok: true,
    referenceSeconds,
    ratio: referenceSeconds / studio.referenceSeconds,
    count,
    leftOut,
    spread: { from: quantile(implied, 0.25), to: quantile(implied, 0.75) },
  };
}

function isLike(note: ExposureConditions, wanted: ExposureConditions): boolean {
  return (
    note.lens === wanted.lens &&
    note.framing === wanted.framing &&
    note.bottle === wanted.bottle &&
    note.weather === wanted.weather
  );
}

/** Of at least one number in ascending order; between two neighbours in proportion (Hyndman and Fan, type 7). */
function quantile(sorted: readonly number[], share: number): number {
  const position = (sorted.length - 1) * share;
  const low = sorted[Math.floor(position)] ?? Number.NaN;
  const high = sorted[Math.ceil(position)] ?? Number.NaN;
  return low + (high - low) * (position - Math.floor(position));
}
