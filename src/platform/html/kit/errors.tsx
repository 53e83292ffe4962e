// What is wrong with the answers of a form, told twice in the same words: in a summary above the page
// that links to each field, and beside the field.
import type { FieldProblem } from '../../problems.js';
import { SignMark } from './marks.js';
import { useWords } from './spoken.js';

/** The id of a field's first input; the error summary links to it. Names may hold slashes ("plates/0/sitters"). */
export function fieldId(name: string): string {
  return `f-${name.replace(/[^A-Za-z0-9_-]+/g, '-')}`;
}

/** Nothing without errors. app.js puts the focus here when the page opens. */
export function ErrorSummary({ errors }: { errors: FieldProblem[] }) {
  const { frame } = useWords();
  if (errors.length === 0) return null;
  return (
    <section class="error-summary" role="alert" aria-labelledby="error-summary" tabIndex={-1} data-focus="">
      <h2 id="error-summary">{frame.problem}</h2>
      <ul>
        {errors.map(({ field, message }) => (
          <li key={`${field} ${message}`}>
            {field === '' ? (
              frame.beside(message)
            ) : (
              <a href={`#${fieldId(field)}`}>{frame.beside(message)}</a>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

export function FieldError({ id, message }: { id: string; message: string | undefined }) {
  const { frame } = useWords();
  if (message === undefined) return null;
  return (
    <p class="field-error" id={id}>
      <SignMark sign="bad" />
      <span>
        <span class="unseen">{frame.error}</span>
        {frame.beside(message)}
      </span>
    </p>
  );
}
