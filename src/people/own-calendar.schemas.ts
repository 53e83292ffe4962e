// What somebody can do with their own calendar, as the forms on their page send it, and what the page tells after it.
import { z } from 'zod';
import { type Words, wordsFor } from '../words/words-for.js';

export const ownCalendarForm = z.object({ do: z.enum(['replace', 'journeys', 'no journeys']) });
export type OwnCalendarAct = z.output<typeof ownCalendarForm>['do'];

/** What the page tells after an act that the address names; anything else may stand there. */
export function calendarDone(
  done: unknown,
  { ownCalendar }: Words = wordsFor('en'),
): { tone: 'good'; text: string } | undefined {
  const said: Record<string, string> = ownCalendar.done;
  const text = typeof done === 'string' && Object.hasOwn(said, done) ? said[done] : undefined;
  return text === undefined ? undefined : { tone: 'good', text };
}
