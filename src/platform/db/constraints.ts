// What PostgreSQL refuses by the name of the constraint, and what we tell the person. The friendly check
// comes first in the acts; these are the proof behind it.
import { AppError, type ProblemCode } from '../problems.js';

export const CONSTRAINT_PROBLEMS: Record<string, ProblemCode> = {
  occupancy_no_overlap: 'place_taken',
  teaching_session_never_overfull: 'place_taken',
  lot_never_oversold: 'short_of_stock',
  lot_never_negative: 'short_of_stock',
};

/** A NUL in a text, and in JSON: whoever reads a form takes it out first. */
const NO_TEXT: readonly unknown[] = ['22021', '22P05'];

/** The problem a database failure means to a person, or null when it is none of ours. */
export function problemOf(error: unknown): AppError | null {
  const failure = (error as { driverError?: { constraint?: unknown; code?: unknown } } | undefined)
    ?.driverError;
  const name = failure?.constraint;
  const code = typeof name === 'string' ? CONSTRAINT_PROBLEMS[name] : undefined;
  if (code) return new AppError(code);
  if (!NO_TEXT.includes(failure?.code)) return null;
  return new AppError(
    'bad_input',
    'In one of these texts is a character that no text can hold. Please type it anew.',
  );
}
