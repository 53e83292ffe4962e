// zod pieces for checking rows: what pg-types.ts makes of PostgreSQL's dates and instants.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';

export const instant = z.instanceof(Temporal.Instant);
export const plainDate = z.instanceof(Temporal.PlainDate);
export const plainDateTime = z.instanceof(Temporal.PlainDateTime);
export const bytes = z.instanceof(Buffer);
