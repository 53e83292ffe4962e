// The sun's way through one day: its height over the hours, the least height for good light as a line, good light
// as a band, and places under the horizon line. The same is said in words.
import { LANGUAGE_OF_DESK } from '../../../words/languages.js';
import { type Words, wordsFor } from '../../../words/words-for.js';
import {
  endOf,
  hoursAround,
  lightInWords,
  minuteOf,
  PlaceMark,
  type PlaceInLight,
  type Stretch,
} from './light-bar.js';
import { useWords } from './spoken.js';

export interface SunPoint {
  /** Minutes after midnight by the clock, from 0 to 1440; not ahead of the point before, except over a clock change. */
  minute: number;
  /** Degrees above the horizon. */
  altitude: number;
}

interface SunCurveProps {
  /** Those below the horizon are not drawn. */
  points: SunPoint[];
  /** Degrees from which on light is good. */
  floor: number;
  light: Stretch | null;
  /** With `places` a line for them is drawn; leave it out where there are none to be had. */
  places?: PlaceInLight[] | undefined;
  /** The sun's greatest height in degrees, and when. */
  noon: { altitude: number; hour: number; minute: number };
}

const WIDTH = 360;
const LEFT = 30;
const RIGHT = 10;
const TOP = 12;
const HORIZON = 172;

export function SunCurve({ points, floor, light, places, noon }: SunCurveProps) {
  const up = points.filter(({ altitude }) => altitude >= 0);
  const hours = hoursAround([...sunUp(up), ...(places ?? [])]);
  const summit = Math.max(20, Math.ceil(noon.altitude / 10) * 10, Math.ceil(floor / 10) * 10);
  const x = (minute: number) =>
    round(LEFT + ((minute - hours.from * 60) / ((hours.until - hours.from) * 60)) * (WIDTH - LEFT - RIGHT));
  const y = (altitude: number) => round(HORIZON - (altitude / summit) * (HORIZON - TOP));
  const ticks = Array.from(
    { length: (hours.until - hours.from) / 3 + 1 },
    (_, step) => hours.from + step * 3,
  );
  const heights = Array.from({ length: summit / 10 + 1 }, (_, step) => step * 10).filter(
    (height) => summit <= 40 || height % 20 === 0,
  );
  const ground = places ? HORIZON + 22 : HORIZON;
  return (
    <svg
      class="sun-curve"
      viewBox={`0 0 ${WIDTH} ${ground + 20}`}
      role="img"
      aria-label={curveInWords({ floor, light, places, noon }, useWords())}
    >
      {light && (
        <rect
          class="light"
          x={x(minuteOf(light.from))}
          y={TOP}
          width={round(x(endOf(light)) - x(minuteOf(light.from)))}
          height={ground - TOP}
        />
      )}
      <path
        class="chart-line"
        d={[
          ...heights.map((height) => `M${LEFT} ${y(height)}H${WIDTH - RIGHT}`),
          ...ticks.map((hour) => `M${x(hour * 60)} ${ground}v4`),
        ].join('')}
      />
      {heights.map((height) => (
        <text key={`height ${height}`} class="chart-height" x={LEFT - 5} y={y(height) + 4}>
          {height}°
        </text>
      ))}
      {ticks.map((hour) => (
        <text key={`hour ${hour}`} class="chart-hour" x={x(hour * 60)} y={ground + 17}>
          {hour}
        </text>
      ))}
      <path class="floor-line" d={`M${LEFT} ${y(floor)}H${WIDTH - RIGHT}`} />
      <path class="ground" d={`M${LEFT} ${HORIZON}H${WIDTH - RIGHT}`} />
      <path
        class="sun-path"
        d={up.map(({ minute, altitude }, at) => `${at ? 'L' : 'M'}${x(minute)} ${y(altitude)}`).join('')}
      />
      {places?.map((place) => (
        <PlaceMark
          key={minuteOf(place.from)}
          state={place.state}
          x={x(minuteOf(place.from))}
          y={HORIZON + 6}
          width={round(x(endOf(place)) - x(minuteOf(place.from)))}
          height={11}
        />
      ))}
    </svg>
  );
}

/** From the first to the last point above the horizon; nothing when there is none. */
function sunUp(up: SunPoint[]): Stretch[] {
  const [first, last] = [up[0], up.at(-1)];
  const time = ({ minute }: SunPoint) => ({ hour: Math.floor(minute / 60), minute: minute % 60 });
  return first && last ? [{ from: time(first), until: time(last) }] : [];
}

/** "The sun is highest at 13:05, at 54 degrees. Good light, from 10 degrees on, from 06:31 to 19:38." */
export function curveInWords(
  { floor, light, places, noon }: Omit<SunCurveProps, 'points'>,
  words: Words = wordsFor(LANGUAGE_OF_DESK),
): string {
  const curve = words.daylight.sun.curve(words.dates.time(noon), Math.round(noon.altitude), round(floor));
  return `${curve} ${lightInWords(light, places ?? [], words)}`;
}

const round = (number: number) => Math.round(number * 10) / 10;
