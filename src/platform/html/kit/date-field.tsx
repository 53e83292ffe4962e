// A date in three boxes: day, month, year. Chosen over the browser's own picker because that hides the
// keyboard, differs on every device, and is hard for unsteady hands. The month may be written as a word.
import { Temporal } from 'temporal-polyfill';
import { LANGUAGES } from '../../../words/languages.js';
import { wordsFor } from '../../../words/words-for.js';
import { FieldError } from './errors.js';
import { type FieldProps, type FormValues, useField } from './field.js';
import { useWords } from './spoken.js';

interface DateFieldProps extends FieldProps {
  /** The date already known; what was sent wins over it. */
  value?: Pick<Temporal.PlainDate, 'day' | 'month' | 'year'> | undefined;
  /** For the person's own birthday only. */
  birthday?: boolean | undefined;
}

/** Sends NAME-day, NAME-month and NAME-year; readDateField puts them together. */
export function DateField(props: DateFieldProps) {
  const { name, label, hint, optional, value, birthday = false } = props;
  const { frame, dates } = useWords();
  const { id, message, sentAs, aria } = useField(props);
  const boxes = [
    { part: 'day', label: frame.day, known: value?.day, size: 'two' },
    { part: 'month', label: frame.month, known: value && dates.month(value.month), size: 'month' },
    { part: 'year', label: frame.year, known: value?.year, size: 'four' },
  ] as const;
  return (
    <fieldset
      class={message === undefined ? 'field date' : 'field date wrong'}
      aria-describedby={aria['aria-describedby']}
    >
      <legend>
        {label}
        {optional === true && <span class="optional">{frame.optional}</span>}
      </legend>
      {hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      <FieldError id={`${id}-error`} message={message} />
      <div class="boxes">
        {boxes.map(({ part, label: word, known, size }) => (
          <div key={part}>
            <label for={part === 'day' ? id : `${id}-${part}`}>{word}</label>
            <input
              id={part === 'day' ? id : `${id}-${part}`}
              class={size}
              type="text"
              name={`${name}-${part}`}
              inputMode={part === 'month' ? undefined : 'numeric'}
              autocomplete={birthday ? `bday-${part}` : 'off'}
              value={sentAs(`${name}-${part}`) || (known ?? '')}
              aria-invalid={aria['aria-invalid']}
            />
          </div>
        ))}
      </div>
    </fieldset>
  );
}

/**
 * The date of a DateField's three boxes as "2027-05-14"; '' when all are empty; else what was typed,
 * which no schema for dates takes. Months by number, or by name or the first letters of it, three or more, that no
 * other has; in any of our languages.
 */
export function readDateField(sent: FormValues, name: string): string {
  const [day, month, year] = (['day', 'month', 'year'] as const).map((part) => {
    const typed = sent[`${name}-${part}`];
    return typeof typed === 'string' ? typed.trim() : '';
  }) as [string, string, string];
  const typed = [day, month, year].filter((part) => part !== '').join(' ');
  const number = /^\d{1,2}$/.test(month) ? Number(month) : monthNamed(month);
  if (number === null || !/^\d{1,2}$/.test(day) || !/^\d{4}$/.test(year)) return typed;
  try {
    return Temporal.PlainDate.from(
      { year: Number(year), month: number, day: Number(day) },
      { overflow: 'reject' },
    ).toString();
  } catch {
    return typed;
  }
}

function monthNamed(word: string): number | null {
  const start = bare(word.replace(/\.$/, ''));
  if (start.length < 3) return null;
  const months = Array.from({ length: 12 }, (_, at) => at + 1);
  const meant = months.filter((month) =>
    LANGUAGES.some((language) => bare(wordsFor(language).dates.month(month)).startsWith(start)),
  );
  return meant.length === 1 ? (meant[0] ?? null) : null;
}

/** "Août" is "aout". */
const bare = (word: string): string =>
  word
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase();
