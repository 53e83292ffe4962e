// What somebody can do with their own calendar, as the forms on their page send it, and what the page tells after it.
import { z } from 'zod';

export const ownCalendarForm = z.object({ do: z.enum(['replace', 'journeys', 'no journeys']) });
export type OwnCalendarAct = z.output<typeof ownCalendarForm>['do'];

export const CALENDAR_DONE = new Map<unknown, { tone: 'good' | 'warn'; text: string }>([
  [
    'replace',
    {
      tone: 'good',
      text: 'The new address stands below. The old one has stopped: put the new one on your phone.',
    },
  ],
  ['journeys', { tone: 'good', text: 'Your journeys stand in your calendar the next time it looks.' }],
  ['no-journeys', { tone: 'good', text: 'Your journeys go from your calendar the next time it looks.' }],
]);
