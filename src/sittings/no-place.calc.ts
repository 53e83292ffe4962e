// Why a visitor finds no open place on any day: taken, closed or too dark, as far as visitors may know.
import type { DayOfPlaces } from '../room/days.calc.js';
import type { ClosedReason } from '../room/openings.calc.js';
import { type Words, wordsFor } from '../words/words-for.js';

type Cause = 'taken' | 'closed' | 'dark';

const CAUSES: Partial<Record<ClosedReason, Cause>> = {
  'room taken': 'taken',
  'day full': 'taken',
  'no more plates': 'taken',
  'year full': 'taken',
  'room closed': 'closed',
  'owner away': 'closed',
  'no light that day': 'dark',
  'starts before good light': 'dark',
  'light ends first': 'dark',
  'exposure above cap': 'dark',
};

/** The sentence for days of which none has an open place. Days that are closed for other reasons do not count. */
export function noPlaceInWords(
  days: Pick<DayOfPlaces, 'openings'>[],
  { studio }: Words = wordsFor('en'),
): string {
  const causes = days.flatMap((day) => causeOf(day) ?? []);
  const met = (['taken', 'closed', 'dark'] as const).filter((cause) => causes.includes(cause));
  if (met.length === 1 && met[0]) return studio.all[met[0]];
  const count = (cause: Cause) => causes.filter((one) => one === cause).length;
  if (met.length === 0) return studio.noPlace;
  return studio.mixed(met.map((cause) => studio.on[cause](count(cause))));
}

/** What most stands in the way: a place that was taken would have been open. */
function causeOf({ openings }: Pick<DayOfPlaces, 'openings'>): Cause | null {
  const causes = openings.map(({ closed }) => (closed === null ? undefined : CAUSES[closed]));
  return (['taken', 'closed', 'dark'] as const).find((cause) => causes.includes(cause)) ?? null;
}
