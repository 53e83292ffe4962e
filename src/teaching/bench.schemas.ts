// What the owner may set of a teaching bench beside the counts that a course always has: seconds of each step, further
// places, hands and the weather. Kept with the course; what is left out is a starting figure of rota-presets.calc.ts.
import { z } from 'zod';

export const WEATHERS = ['cold', 'mild', 'hot'] as const;
export const STEP_IDS = [
  'clean',
  'pose',
  'pour',
  'set',
  'sensitise',
  'load',
  'expose',
  'develop',
  'fix',
  'wash',
  'dry',
] as const;
export type StepId = (typeof STEP_IDS)[number];

/** Stations of the bench beside those of `courseStations`, by their ids in rota-presets.calc.ts. */
export const FURTHER_STATIONS = {
  cleaningPlaces: 'cleaning place',
  pouringPlaces: 'pouring place',
  fixingTrays: 'fixing tray',
  washingPlaces: 'washing place',
  rackPlaces: 'rack place',
} as const;
export type FurtherStation = keyof typeof FURTHER_STATIONS;

const MOST_SECONDS = 6 * 3600;
const SECONDS = `Please give whole seconds, from 0 to ${MOST_SECONDS}.`;
const seconds = z.int(SECONDS).min(0, SECONDS).max(MOST_SECONDS, SECONDS);
const range = z
  .object({ low: seconds, likely: seconds, high: seconds })
  .refine(({ low, likely }) => low <= likely, {
    path: ['likely'],
    message: 'The usual time is not below the shortest.',
  })
  .refine(({ likely, high }) => likely <= high, {
    path: ['high'],
    message: 'The longest time is not below the usual one.',
  });
export type StepSeconds = z.output<typeof range>;

const PLACES = 'Please give a whole number from 1 to 200.';
const places = z.int(PLACES).min(1, PLACES).max(200, PLACES).optional();
const few = (most: number, of: string) => {
  const words = `${of} is a whole number from 0 to ${most}.`;
  return z.int(words).min(0, words).max(most, words);
};

export const benchSettings = z.object({
  weather: z.enum(WEATHERS, 'Please choose the weather to reckon with.').default('mild'),
  /** Trained helpers beside the teacher, who may watch a pour or a developing. */
  helpers: few(6, 'How many helpers').default(0),
  /** Turns more for who never poured a plate. */
  spareTurns: few(3, 'How many spare turns').default(0),
  steps: z.partialRecord(z.enum(STEP_IDS), range).default({}),
  further: z
    .object({
      cleaningPlaces: places,
      pouringPlaces: places,
      fixingTrays: places,
      washingPlaces: places,
      rackPlaces: places,
    })
    .default({}),
});
export type BenchSettings = z.output<typeof benchSettings>;

/** What is set of a bench at once, for one day: the counts that a course always has too. */
export const shownStations = ['tanks', 'holders', 'cameras', 'sinks', 'darkroomPlaces'] as const;
