// What somebody says about their own journey. It wins over every figure reckoned here, wherever a journey is told.
import { z } from 'zod';
import { MODES } from './modes.calc.js';

/** Assumption: a week. */
export const MOST_MINUTES = 7 * 24 * 60;
export const MOST_MARGIN_MINUTES = 12 * 60;

/** Null wherever they leave it to us. */
export const travelPlan = z.object({
  mode: z
    .enum(MODES, `The way of travelling is one of: ${MODES.join(', ')}.`)
    .nullable()
    .default(null),
  minutes: z
    .int('Please give whole minutes.')
    .min(1, 'A journey takes at least a minute.')
    .max(MOST_MINUTES, 'A journey takes at most a week.')
    .nullable()
    .default(null)
    .describe('From door to door, one way'),
  night: z
    .enum(['yes', 'no'], 'Please say yes or no, or leave it to us.')
    .nullable()
    .default(null)
    .describe('Whether they sleep near the studio the night before'),
  marginMinutes: z
    .int('Please give whole minutes.')
    .min(0, 'Minutes before the start are 0 or more.')
    .max(MOST_MARGIN_MINUTES, 'At most twelve hours before the start.')
    .nullable()
    .default(null)
    .describe('How long before the start they want to be there'),
});

export type TravelPlan = z.output<typeof travelPlan>;

export const NO_PLAN: TravelPlan = { mode: null, minutes: null, night: null, marginMinutes: null };
