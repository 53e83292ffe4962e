// Invented plates that the demo's owner noted on past Fridays: they agree on a little more than the reference
// that is set, one is odd, and some were made in other weather or came out wrong.
import type { INestApplicationContext } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { DaylightService } from '../src/daylight/daylight.service.js';
import { exposureMultiplier, type Weather, WEATHER_FACTORS } from '../src/daylight/exposure.calc.js';
import { altitudeOf } from '../src/daylight/notes.calc.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import type { Random } from '../src/platform/clock.js';
import { STUDIO } from './kittiwake-yard.js';

interface Plate {
  weeksAgo: number;
  time: string;
  /** Seconds it would have taken at the reference height of the sun, under a clear sky. */
  implied: number;
  weather?: Weather;
  verdict?: 'under' | 'over';
  framing?: string;
}

const PLATES: Plate[] = [
  { weeksAgo: 1, time: '11:40', implied: 7.1 },
  { weeksAgo: 2, time: '13:20', implied: 6.8 },
  { weeksAgo: 3, time: '11:35', implied: 7.4 },
  { weeksAgo: 3, time: '12:10', implied: 4, verdict: 'under' },
  { weeksAgo: 4, time: '13:25', implied: 7, weather: 'bright overcast' },
  { weeksAgo: 5, time: '11:45', implied: 7.3 },
  { weeksAgo: 6, time: '13:15', implied: 12 },
  { weeksAgo: 7, time: '11:30', implied: 6.7 },
  { weeksAgo: 8, time: '13:30', implied: 6.9, framing: 'group of three' },
  { weeksAgo: 9, time: '11:50', implied: 7.2 },
  { weeksAgo: 10, time: '13:10', implied: 7.6, weather: 'dull' },
  { weeksAgo: 11, time: '11:40', implied: 7 },
  { weeksAgo: 12, time: '12:20', implied: 11, verdict: 'over' },
];

/** Each note at the evening of its day. @param friday the Friday of this week */
export function exposureNotes(
  app: INestApplicationContext,
  random: Random,
  { studioId, owner, friday }: { studioId: string; owner: Account; friday: Temporal.PlainDate },
): { at: Temporal.Instant; act: () => Promise<void> }[] {
  return PLATES.map((plate) => {
    const date = friday.subtract({ weeks: plate.weeksAgo });
    const evening = wallToInstant(STUDIO.zone, date.toPlainDateTime({ hour: 18 }));
    if (!evening.ok) throw new Error('Clocks do not change in the evening there.');
    const note = {
      date: date.toString(),
      time: plate.time,
      seconds: String(secondsOf(plate, date)),
      weather: plate.weather ?? 'clear',
      lens: 'Petzval 305 mm',
      fNumber: '4',
      framing: plate.framing ?? 'head and shoulders',
      magnification: '0.25',
      bottle: 'Old salts, second batch',
      verdict: plate.verdict ?? 'good',
    };
    return {
      at: evening.instant,
      act: () => app.get(DaylightService).enterNote(studioId, owner, random.id(), note),
    };
  });
}

/** Whole seconds, as one counts them: what the day's sun and weather make of the plate's own measure. */
function secondsOf({ implied, weather = 'clear', time }: Plate, date: Temporal.PlainDate): number {
  const wallAt = date.toPlainDateTime(Temporal.PlainTime.from(time));
  const altitude = altitudeOf(STUDIO, { zone: STUDIO.zone, wallAt }) ?? 0;
  const { from, to } = WEATHER_FACTORS[weather];
  return Math.max(1, Math.round((implied * (exposureMultiplier(STUDIO, altitude) ?? 1) * (from + to)) / 2));
}
