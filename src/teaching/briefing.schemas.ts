// What the owner fills in for the sheet of a teaching day, by local rules: where help is, who answers for the day, how
// old the youngest is, and what is open or burns in which part.
import { z } from 'zod';
import { shortText } from '../people/ways.schemas.js';
import { WORKS } from './course.schemas.js';

export const briefingRow = z.object({
  emergency_number: z.string(),
  hospital: z.string(),
  eyewash: z.string(),
  teacher: z.string(),
  youngest: z.number().nullable(),
});

export interface Briefing {
  emergencyNumber: string;
  hospital: string;
  eyewash: string;
  teacher: string;
  /** Age of the youngest who will be in the room; null where nobody said. */
  youngest: number | null;
}

export const NO_BRIEFING: Briefing = {
  emergencyNumber: '',
  hospital: '',
  eyewash: '',
  teacher: '',
  youngest: null,
};

export const toBriefing = (row: z.output<typeof briefingRow>): Briefing => ({
  emergencyNumber: row.emergency_number,
  hospital: row.hospital,
  eyewash: row.eyewash,
  teacher: row.teacher,
  youngest: row.youngest,
});

const AGE = 'Please give an age in whole years, 0 to 120.';

export const briefingBody = z.object({
  emergencyNumber: shortText(40).default(''),
  hospital: shortText(200).default(''),
  eyewash: shortText(200).default(''),
  teacher: shortText(200).default(''),
  secondAdult: shortText(200).default(''),
  youngest: z.int(AGE).min(0, AGE).max(120, AGE).nullable().default(null),
  /** For each part of the day, in its order. */
  work: z.array(z.array(z.enum(WORKS))).default([]),
});
export type BriefingBody = z.output<typeof briefingBody>;
