// Checking what people and programs send; used by services and doors alike.
import type { z } from 'zod';
import { AppError, type FieldProblem } from './problems.js';

/** @throws AppError bad_input with one sentence per wrong field */
export function readInput<S extends z.ZodType>(schema: S, input: unknown): z.output<S> {
  const parsed = schema.safeParse(input);
  if (!parsed.success) throw new AppError('bad_input', undefined, fieldProblems(parsed.error));
  return parsed.data;
}

/** One plain sentence per field; zod's own wording is for programmers. */
export function fieldProblems(error: z.ZodError): FieldProblem[] {
  return error.issues.map((issue) => ({
    field: issue.path.join('/'),
    message: /^(Invalid|Unrecognized|Too )/.test(issue.message) ? 'Please check this answer.' : issue.message,
  }));
}

/** Runs what reads the part of a body under a key: its mistakes are told by where they stand in the whole. */
export async function within<T>(key: string, run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const fields = error.fields.map(({ field, message }) => ({
      field: field === '' ? key : `${key}/${field}`,
      message,
    }));
    throw new AppError(error.code, error.detail, fields, error.retryAfter);
  }
}
