// An address to take along, such as a calendar link: shown whole, so it can be read, marked or written down.
// app.js adds a button that copies it; without JavaScript there is none.
import { fieldId } from './errors.js';
import { useWords } from './spoken.js';

interface CopyFieldProps {
  name: string;
  label: string;
  value: string;
  hint?: string | undefined;
}

export function CopyField({ name, label, value, hint }: CopyFieldProps) {
  const id = fieldId(name);
  const words = useWords().ownCalendar;
  return (
    <div class="field copy">
      <label for={id}>{label}</label>
      {hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      <p class="print-only">{value}</p>
      <div class="copy-line no-print">
        <input
          id={id}
          type="text"
          readOnly
          value={value}
          aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        />
        <button
          type="button"
          class="button quiet"
          data-copy={id}
          data-copied={words.copied}
          data-marked={words.marked}
          hidden
        >
          {words.copy}
        </button>
        <span role="status" class="small" />
      </div>
    </div>
  );
}
