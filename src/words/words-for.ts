// The words of a language. Those of English say what there is; the compiler asks the same of every other.
import { asking } from './en/asking.js';
import { dates } from './en/dates.js';
import { frame } from './en/frame.js';
import { light } from './en/light.js';
import { prepareSheet } from './en/prepare-sheet.js';
import { studio } from './en/studio.js';
import { frenchAsking } from './fr/asking.js';
import { frenchDates } from './fr/dates.js';
import { frenchFrame } from './fr/frame.js';
import { frenchLight } from './fr/light.js';
import { frenchPrepareSheet } from './fr/prepare-sheet.js';
import { frenchStudio } from './fr/studio.js';
import type { Language } from './languages.js';

const english = { dates, frame, light, studio, asking, prepareSheet };
export type Words = typeof english;

const WORDS: Record<Language, Words> = {
  en: english,
  fr: {
    dates: frenchDates,
    frame: frenchFrame,
    light: frenchLight,
    studio: frenchStudio,
    asking: frenchAsking,
    prepareSheet: frenchPrepareSheet,
  },
};

export const wordsFor = (language: Language): Words => WORDS[language];
