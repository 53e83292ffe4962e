// What PostgreSQL refuses by the name of the constraint, and what we tell the person. The friendly check
// comes first in the acts; these are the proof behind it.
import { AppError, type ProblemCode } from '../problems.js';

export const CONSTRAINT_PROBLEMS: Record<string, ProblemCode> = {
  occupancy_no_overlap: 'place_taken',
  teaching_session_never_overfull: 'place_taken',
  lot_never_oversold: 'short_of_stock',
  lot_never_negative: 'short_of_stock',
};

/** The problem a database failure means to a person, or null when it is none of ours. */
export function problemOf(error: unknown): AppError | null {
  const name = (error as { driverError?: { constraint?: unknown } } | undefined)?.driverError?.constraint;
  const code = typeof name === 'string' ? CONSTRAINT_PROBLEMS[name] : undefined;
  return code ? new AppError(code) : null;
}
