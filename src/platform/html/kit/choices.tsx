// The fields a person chooses in: lists, one of several, some of several. Whole lines are the targets.
import { FieldError } from './errors.js';
import { FieldFrame, type FieldProps, useField } from './field.js';
import { useWords } from './spoken.js';

export interface Option {
  value: string;
  label: string;
  hint?: string | undefined;
}

interface SelectFieldProps extends FieldProps {
  options: Option[];
  value?: string | undefined;
  /** The first line, which chooses nothing; null leaves it out. */
  empty?: string | null | undefined;
  autocomplete?: string | undefined;
}

export function SelectField(props: SelectFieldProps) {
  const { name, label, hint, optional, options, value, autocomplete } = props;
  const { frame } = useWords();
  const empty = props.empty === undefined ? frame.choose : props.empty;
  const { id, message, sent, aria } = useField(props);
  const chosen = value ?? sent;
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <select {...aria} id={id} name={name} autocomplete={autocomplete}>
        {empty !== null && <option value="">{empty}</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value} selected={option.value === chosen}>
            {option.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

interface RadioGroupProps extends FieldProps {
  options: Option[];
  value?: string | undefined;
}

/** One of a few. Nothing is chosen beforehand unless `value` says so. */
export function RadioGroup(props: RadioGroupProps) {
  const { sent } = useField(props);
  const chosen = props.value ?? sent;
  return <Choices {...props} type="radio" chosen={chosen === '' ? [] : [chosen]} />;
}

interface CheckboxGroupProps extends FieldProps {
  options: Option[];
  /** Of many options, those after the first so many are folded away under some words. */
  folded?: { after: number; words: string; open: boolean } | undefined;
  /** What is ticked before anything was sent. */
  values?: string[] | undefined;
}

/** Any of a few; a single consent is a group of one. Sent as one value or a list of values. */
export function CheckboxGroup(props: CheckboxGroupProps) {
  const { sentList, wasSent } = useField(props);
  return <Choices {...props} type="checkbox" chosen={wasSent ? sentList : (props.values ?? [])} />;
}

interface ChoicesProps extends FieldProps {
  type: 'radio' | 'checkbox';
  options: Option[];
  chosen: string[];
  folded?: CheckboxGroupProps['folded'];
}

function Choices(props: ChoicesProps) {
  const { type, name, label, hint, optional, options, chosen, folded } = props;
  const { frame } = useWords();
  const { id, message, aria } = useField(props);
  const lines = options.map((option, at) => {
    const own = at === 0 ? id : `${id}-${at + 1}`;
    return (
      <div class="choice" key={option.value}>
        <input
          id={own}
          type={type}
          name={name}
          value={option.value}
          checked={chosen.includes(option.value)}
          aria-invalid={aria['aria-invalid']}
          aria-describedby={option.hint === undefined ? undefined : `${own}-says`}
        />
        <label for={own}>{option.label}</label>
        {option.hint !== undefined && (
          <p class="hint" id={`${own}-says`}>
            {option.hint}
          </p>
        )}
      </div>
    );
  });
  return (
    <fieldset
      class={message === undefined ? 'field choices' : 'field choices wrong'}
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
      {lines.slice(0, folded?.after)}
      {folded && folded.after < lines.length && (
        <details open={folded.open}>
          <summary>{folded.words}</summary>
          {lines.slice(folded.after)}
        </details>
      )}
    </fieldset>
  );
}
