// A form and the fields a person types into. Each keeps what was sent and tells its mistake beside it.
// Checking is the server's: `novalidate`, no browser bubbles. Choices and dates stand in their own files.
import type { ComponentChildren } from 'preact';
import type { FieldProblem } from '../../problems.js';
import { FORM_FIELD } from '../../security/forms.js';
import { SEEN_FIELD, seenOf } from '../../seen.js';
import { FieldFrame, type FieldProps, FormContext, type FormValues, useField } from './field.js';
import { useWords } from './spoken.js';

/** The hidden field that carries the form's own key: the same form sent twice acts once. */
export const FORM_KEY_FIELD = '_key';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The key that a form was sent with; a new one where it has none of ours. */
export function formKeyOf(sent: Record<string, unknown> | undefined, random: { id: () => string }): string {
  const key = sent?.[FORM_KEY_FIELD];
  return typeof key === 'string' && UUID.test(key) ? key : random.id();
}

interface FormProps {
  action: string;
  /** Needed for method post: the token of security/forms.ts. */
  csrf?: string | undefined;
  formKey?: string | undefined;
  /** What stands there, so that a change of somebody else in between is told: see platform/seen.ts. */
  shown?: FormValues | undefined;
  method?: 'post' | 'get' | undefined;
  values?: FormValues | undefined;
  errors?: FieldProblem[] | undefined;
  /** The name of the form for screen readers, when a page has several. */
  label?: string | undefined;
  /** It has a file among its fields: see platform/uploads.ts. */
  files?: boolean | undefined;
  children: ComponentChildren;
}

export function Form({
  action,
  csrf,
  formKey,
  shown,
  method = 'post',
  values = {},
  errors = [],
  label,
  files = false,
  children,
}: FormProps) {
  const sentMark = values[SEEN_FIELD];
  const mark = shown && (typeof sentMark === 'string' ? sentMark : seenOf(shown));
  return (
    <form
      class="form"
      action={action}
      method={method}
      encType={files ? 'multipart/form-data' : undefined}
      noValidate
      aria-label={label}
    >
      {csrf !== undefined && <input type="hidden" name={FORM_FIELD} value={csrf} />}
      {mark !== undefined && <input type="hidden" name={SEEN_FIELD} value={mark} />}
      {formKey !== undefined && <input type="hidden" name={FORM_KEY_FIELD} value={formKey} />}
      <FormContext.Provider value={{ values, errors }}>{children}</FormContext.Provider>
    </form>
  );
}

interface FieldsetProps {
  legend: string;
  hint?: string | undefined;
  children: ComponentChildren;
}

/** Several fields that belong together. */
export function Fieldset({ legend, hint, children }: FieldsetProps) {
  return (
    <fieldset class="group">
      <legend>{legend}</legend>
      {hint !== undefined && <p class="hint">{hint}</p>}
      {children}
    </fieldset>
  );
}

type Width = 'short' | 'medium' | 'full';

interface TextFieldProps extends FieldProps {
  value?: string | undefined;
  type?: 'text' | 'email' | 'tel' | 'url' | 'password' | 'search' | undefined;
  /** A token of HTML's autofill list: "name", "email", "tel", "street-address", "current-password" ... */
  autocomplete?: string | undefined;
  width?: Width | undefined;
}

export function TextField(props: TextFieldProps) {
  const { name, label, hint, optional, type = 'text', value, autocomplete, width = 'full' } = props;
  const { id, message, sent, aria } = useField(props);
  const plain = type === 'email' || type === 'url' || type === 'password';
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <input
        {...aria}
        id={id}
        class={width}
        type={type as 'text'} // any of the six; Preact's types want one at a time
        name={name}
        value={type === 'password' ? undefined : (value ?? sent)}
        autocomplete={autocomplete}
        autocapitalize={plain ? 'none' : undefined}
        spellcheck={plain ? false : undefined}
      />
    </FieldFrame>
  );
}

interface TextAreaProps extends FieldProps {
  value?: string | undefined;
  rows?: number | undefined;
  autocomplete?: string | undefined;
}

export function TextArea(props: TextAreaProps) {
  const { name, label, hint, optional, value, rows = 4, autocomplete } = props;
  const { id, message, sent, aria } = useField(props);
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <textarea {...aria} id={id} name={name} rows={rows} autocomplete={autocomplete} value={value ?? sent} />
    </FieldFrame>
  );
}

/** A file of theirs; a browser never fills it in again. */
export function FileField(props: FieldProps & { accept: string }) {
  const { name, label, hint, optional, accept } = props;
  const { id, message, aria } = useField(props);
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <input {...aria} id={id} class="full" type="file" name={name} accept={accept} />
    </FieldFrame>
  );
}

interface NumberFieldProps extends FieldProps {
  value?: number | string | undefined;
  /** Stands after the box: "plates", "mL". */
  unit?: string | undefined;
  decimal?: boolean | undefined;
}

/** A text box with a numeric keyboard: a number box of the browser changes under a scrolling finger. */
export function NumberField(props: NumberFieldProps) {
  const { name, label, hint, optional, value, unit, decimal = false } = props;
  const { id, message, sent, aria } = useField(props);
  const about = [aria['aria-describedby'], unit !== undefined && `${id}-unit`].filter(Boolean).join(' ');
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <span class="with-unit">
        <input
          {...aria}
          aria-describedby={about === '' ? undefined : about}
          id={id}
          class="short"
          type="text"
          inputMode={decimal ? 'decimal' : 'numeric'}
          name={name}
          value={value ?? sent}
          autocomplete="off"
        />
        {unit !== undefined && <span id={`${id}-unit`}>{unit}</span>}
      </span>
    </FieldFrame>
  );
}

interface PlaceFieldProps extends FieldProps {
  value?: string | undefined;
  /** The hidden field that takes the id of the chosen place; stays '' without JavaScript. */
  idName: string;
  idValue?: string | undefined;
  /** Answers GET ?q=... with { places: [{ id, label }] }. */
  placesUrl: string;
}

/** A town or village. With app.js it proposes places; without, the server asks which one was meant. */
export function PlaceField(props: PlaceFieldProps) {
  const { name, label, hint, optional, value, idName, idValue, placesUrl } = props;
  const { id, message, sent, sentAs, aria } = useField(props);
  const { proposed } = useWords().frame;
  return (
    <FieldFrame id={id} label={label} hint={hint} optional={optional} message={message}>
      <span class="place">
        <input
          {...aria}
          id={id}
          class="full"
          type="text"
          name={name}
          value={value ?? sent}
          autocomplete="address-level2"
          data-places-url={placesUrl}
          data-places-title={proposed.title}
          data-places-found={proposed.found}
          data-places-none={proposed.none}
        />
        <input type="hidden" name={idName} value={idValue ?? sentAs(idName)} />
      </span>
    </FieldFrame>
  );
}
