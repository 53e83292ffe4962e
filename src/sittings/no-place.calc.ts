// Why a visitor finds no open place on any day: taken, closed or too dark, as far as visitors may know.
import { counted } from '../lib/words.js';
import type { DayOfPlaces } from '../room/days.calc.js';
import type { ClosedReason } from '../room/openings.calc.js';

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

const ALL: Record<Cause, string> = {
  taken: 'Every place is taken just now.',
  closed: 'The studio is closed on every day that can be asked for just now.',
  dark: 'On every day that can be asked for just now there is too little light for a plate.',
};

/** What is so on a count of days. */
const SOME: Record<Cause, string> = {
  taken: 'every place is taken',
  closed: 'the studio is closed',
  dark: 'there is too little light for a plate',
};

/** The sentence for days of which none has an open place. Days that are closed for other reasons do not count. */
export function noPlaceInWords(days: Pick<DayOfPlaces, 'openings'>[]): string {
  const causes = days.flatMap((day) => causeOf(day) ?? []);
  const met = (['taken', 'closed', 'dark'] as const).filter((cause) => causes.includes(cause));
  if (met.length === 1 && met[0]) return ALL[met[0]];
  const count = (cause: Cause) => causes.filter((one) => one === cause).length;
  const parts = met.map((cause) => `on ${counted(count(cause), 'day')} ${SOME[cause]}`);
  const last = parts.pop();
  if (last === undefined) return 'No place is open just now.';
  return `No place is open just now: ${parts.join(', ')}, and ${last}.`;
}

/** What most stands in the way: a place that was taken would have been open. */
function causeOf({ openings }: Pick<DayOfPlaces, 'openings'>): Cause | null {
  const causes = openings.map(({ closed }) => (closed === null ? undefined : CAUSES[closed]));
  return (['taken', 'closed', 'dark'] as const).find((cause) => causes.includes(cause)) ?? null;
}
