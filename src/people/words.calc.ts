// What is said of people, the same on the form for asking and at the desk.
import type { Sitter } from './people.schemas.js';

/** Ages as they are chosen among. */
export const AGES: { value: Sitter['ageBand']; label: string }[] = [
  { value: 'adult', label: '15 or older' },
  { value: '8 to 14', label: '8 to 14' },
  { value: 'under 8', label: 'Under 8' },
];
