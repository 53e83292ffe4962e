// Small drawings that stand beside words and never replace them: hidden from screen readers, coloured by
// the style sheet.

/** Our mark: an upright plate, and on it the north window of a studio under a sloping roof. */
export function Mark() {
  return (
    <svg class="mark" viewBox="0 0 26 34" width="26" height="34" aria-hidden="true" focusable="false">
      <rect class="mark-plate" x="1" y="1" width="24" height="32" rx="1" />
      <path class="mark-light" d="M6 29V13.5L20 6v23z" />
      <path class="mark-bar" d="M13 9.2V29M6 20h14" />
    </svg>
  );
}

const SIGNS = {
  good: 'M4 10.5l4 4 8-9',
  warn: 'M10 2.5l8 14.5H2zM10 8v4M10 14.2v.3',
  bad: 'M5 5l10 10M15 5L5 15',
  note: 'M10 4v12M4.8 7l10.4 6M15.2 7L4.8 13',
} as const;

export type Sign = keyof typeof SIGNS;

export function SignMark({ sign }: { sign: Sign }) {
  return (
    <svg class="sign" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false">
      <path d={SIGNS[sign]} />
    </svg>
  );
}
