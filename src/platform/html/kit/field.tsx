// What all fields share: the form hands what was typed and what is wrong down to its fields by name, so that
// no answer is asked for twice; label, hint and message stand around each input in the same way.
import { type ComponentChildren, createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { FieldProblem } from '../../problems.js';
import { FieldError, fieldId } from './errors.js';
import { useWords } from './spoken.js';

/** What was sent, as the server received it; other than text and lists of text is passed over. */
export type FormValues = Record<string, unknown>;

export interface FormState {
  values: FormValues;
  errors: FieldProblem[];
}
export const FormContext = createContext<FormState>({ values: {}, errors: [] });

/** What every field takes; `value` and `error` given here win over the form's. */
export interface FieldProps {
  name: string;
  label: string;
  hint?: string | undefined;
  optional?: boolean | undefined;
  error?: string | undefined;
}

/** A field's ids, its message, and the two attributes that tie hint and message to an input. */
export function useField({ name, hint, error }: Pick<FieldProps, 'name' | 'hint' | 'error'>) {
  const { values, errors } = useContext(FormContext);
  const id = fieldId(name);
  const message = error ?? errors.find(({ field }) => field === name)?.message;
  const about = [hint !== undefined && `${id}-hint`, message !== undefined && `${id}-error`]
    .filter(Boolean)
    .join(' ');
  return {
    id,
    message,
    /** What was sent under this name, as text; '' for nothing. */
    sent: textOf(values[name]),
    sentList: listOf(values[name]),
    sentAs: (other: string) => textOf(values[other]),
    wasSent: name in values,
    aria: {
      'aria-describedby': about === '' ? undefined : about,
      'aria-invalid': message === undefined ? undefined : ('true' as const),
    },
  };
}

function textOf(value: unknown): string {
  if (typeof value === 'string') return value;
  return typeof value === 'number' || typeof value === 'bigint' ? String(value) : '';
}

function listOf(value: unknown): string[] {
  return (Array.isArray(value) ? value : [value]).map(textOf).filter((text) => text !== '');
}

interface FieldFrameProps {
  id: string;
  label: string;
  hint: string | undefined;
  optional: boolean | undefined;
  message: string | undefined;
  children: ComponentChildren;
}

/** Label, hint and message around one input. */
export function FieldFrame({ id, label, hint, optional, message, children }: FieldFrameProps) {
  const { frame } = useWords();
  return (
    <div class={message === undefined ? 'field' : 'field wrong'}>
      <label for={id}>
        {label}
        {optional === true && <span class="optional">{frame.optional}</span>}
      </label>
      {hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      <FieldError id={`${id}-error`} message={message} />
      {children}
    </div>
  );
}
