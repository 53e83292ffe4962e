// The steps of a beginner's plate as a teaching day plans them, for cold, mild and hot weather. Starting figures that
// the owner may change; each says where it comes from. It plans nothing.
import type { Bench, Hold, PlateSize, Seconds, Station, Step, Varnish, WetClock } from './rota-bench.calc.js';

export type Weather = 'cold' | 'mild' | 'hot';

const minutes = (low: number, high: number): Seconds => ({ low: low * 60, high: high * 60 });
const seconds = (low: number, high: number): Seconds => ({ low, high });
const step = (id: string, time: Seconds, busy: Step['busy'], more: Partial<Step> = {}): Step => ({
  id,
  seconds: time,
  busy,
  follows: 'at once',
  within: null,
  lit: false,
  outlasts: false,
  ...more,
});

/** Setting goes faster, and the bath works faster, the warmer it is (common practice, no source for the figures). */
const SET: Record<Weather, Seconds> = { cold: seconds(20, 60), mild: seconds(10, 40), hot: seconds(10, 25) };
const BATH: Record<Weather, Seconds> = { cold: minutes(4, 5), mild: minutes(3, 4), hot: minutes(2, 3) };

/**
 * - clean: 15 to 20 minutes for a day's three plates (common practice, no source).
 * - sensitise: 2 to 5 minutes (E. M. Estabrooke, Photography in the Studio and in the Field), quicker when warm. The
 *   plate stays in the bath until its planned time, whatever pouring took: so long the wet clock does not run.
 * - expose: the walk with the holder, and 1 to 40 seconds of light (J. B. Schriever, Complete Self-Instructing Library
 *   of Practical Photography, tries 10 to 40).
 * - fix, wash: hypo and its washing, from memory; dry: 1 to 3 hours on a rack, common practice, no source.
 * - pour, set, load, develop and stop, pose and focus: assumptions.
 */
export function stepsIn(weather: Weather): Step[] {
  return [
    step('clean', minutes(5, 7), 'maker', { follows: 'waits' }),
    step('pose', minutes(2, 5), 'both', { follows: 'waits' }),
    step('pour', seconds(30, 60), 'maker', { follows: 'on time' }),
    step('set', SET[weather], 'maker'),
    step('sensitise', BATH[weather], 'maker'),
    step('load', seconds(30, 60), 'maker', { follows: 'on time' }),
    step('expose', seconds(30, 90), 'both', { lit: true }),
    step('develop', seconds(45, 120), 'maker'),
    step('fix', minutes(2, 5), 'maker', { follows: 'waits', within: 900 }),
    step('wash', minutes(20, 30), 'nobody'),
    step('dry', minutes(60, 180), 'nobody', { outlasts: true }),
  ];
}

/**
 * From pouring to the bath 10 to 60 seconds, less in heat (common practice, no source). Out of the bath to the
 * developer stopped with water 5 minutes: the upper end of "three to five" (tintypesforever.com); others give ten and
 * more, less in hot weather (bencairns.co.uk).
 */
export const clocksIn = (weather: Weather): WetClock[] => [
  {
    id: 'pour to bath',
    from: { step: 'pour', edge: 'end' },
    until: { step: 'sensitise', edge: 'start' },
    most: weather === 'hot' ? 30 : 60,
  },
  {
    id: 'wet',
    from: { step: 'load', edge: 'start' },
    until: { step: 'develop', edge: 'end' },
    most: weather === 'hot' ? 270 : 300,
  },
];

/** Where a plate is during its steps; the teacher sees every pour and every developing. */
export const HOLDS: Hold[] = [
  { station: 'cleaning place', from: 'clean', until: 'clean' },
  { station: 'camera', from: 'pose', until: 'expose' },
  { station: 'teacher', from: 'pour', until: 'set' },
  { station: 'pouring place', from: 'pour', until: 'set' },
  { station: 'tank', from: 'sensitise', until: 'sensitise' },
  { station: 'holder', from: 'load', until: 'develop' },
  { station: 'darkroom place', from: 'sensitise', until: 'load' },
  { station: 'darkroom place', from: 'develop', until: 'develop' },
  { station: 'teacher', from: 'develop', until: 'develop' },
  { station: 'sink', from: 'develop', until: 'develop' },
  { station: 'fixing tray', from: 'fix', until: 'fix' },
  { station: 'washing place', from: 'wash', until: 'wash' },
  { station: 'rack place', from: 'dry', until: 'dry' },
];

/** Beside HOLDS where the fixer is cyanide: the teacher's hands only. */
export const TEACHER_FIXES: Hold = { station: 'teacher', from: 'fix', until: 'fix' };

/** Its flame an hour after the last collodion: they never share the room and an hour (assumption of the figure). */
export const VARNISH: Varnish = {
  seconds: minutes(5, 8),
  station: 'varnish lamp',
  after: 'dry',
  ether: 'set',
  airing: 3600,
};

/** So many alike, numbered from 1, each for plates up to an area in mm2. */
export const alike = (station: string, count: number, largest: number | null = null): Station => ({
  id: station,
  attended: station === 'teacher',
  units: Array.from({ length: count }, (_, at) => ({ id: `${station} ${at + 1}`, largest })),
});

/** A small teaching bench: one tank, two cameras and holders, two places in the darkroom, one teacher. */
export const STATIONS: Station[] = [
  alike('teacher', 1),
  alike('cleaning place', 4),
  alike('camera', 2),
  alike('holder', 2),
  alike('pouring place', 1),
  alike('tank', 1),
  alike('darkroom place', 2),
  alike('sink', 1),
  alike('fixing tray', 2),
  alike('washing place', 8),
  alike('rack place', 24),
  alike('varnish lamp', 1),
];

/** A bench without students yet, of one weather. */
export function benchIn(
  weather: Weather,
  day: Pick<Bench, 'day' | 'light' | 'breaks'>,
  sizes: PlateSize[],
): Bench {
  return {
    ...day,
    steps: stepsIn(weather),
    holds: HOLDS,
    clocks: clocksIn(weather),
    turnStep: 'pour',
    stations: STATIONS,
    sizes,
    students: [],
    teams: [],
    varnish: VARNISH,
  };
}
