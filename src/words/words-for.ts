// The words of a language. Those of English say what there is; the compiler asks the same of every other.
import { agreeing } from './en/agreeing.js';
import { asking } from './en/asking.js';
import { calendar } from './en/calendar.js';
import { correct } from './en/correct.js';
import { bath } from './en/bath.js';
import { chemistry } from './en/chemistry.js';
import { dates } from './en/dates.js';
import { frame } from './en/frame.js';
import { journey } from './en/journey.js';
import { letters } from './en/letters.js';
import { lettersTeaching } from './en/letters-teaching.js';
import { light } from './en/light.js';
import { ownCalendar } from './en/own-calendar.js';
import { ownData } from './en/own-data.js';
import { place } from './en/place.js';
import { prepareSheet } from './en/prepare-sheet.js';
import { problem } from './en/problem.js';
import { studio } from './en/studio.js';
import { teaching } from './en/teaching.js';
import { student } from './en/student.js';
import { meeting } from './en/meeting.js';
import { calculators } from './en/calculators.js';
import { daylight } from './en/daylight.js';
import { frenchAgreeing } from './fr/agreeing.js';
import { frenchAsking } from './fr/asking.js';
import { frenchCalendar } from './fr/calendar.js';
import { frenchCorrect } from './fr/correct.js';
import { frenchBath } from './fr/bath.js';
import { frenchChemistry } from './fr/chemistry.js';
import { frenchDates } from './fr/dates.js';
import { frenchFrame } from './fr/frame.js';
import { frenchJourney } from './fr/journey.js';
import { frenchLetters } from './fr/letters.js';
import { frenchLettersTeaching } from './fr/letters-teaching.js';
import { frenchLight } from './fr/light.js';
import { frenchOwnCalendar } from './fr/own-calendar.js';
import { frenchOwnData } from './fr/own-data.js';
import { frenchPlace } from './fr/place.js';
import { frenchPrepareSheet } from './fr/prepare-sheet.js';
import { frenchProblem } from './fr/problem.js';
import { frenchStudio } from './fr/studio.js';
import { frenchTeaching } from './fr/teaching.js';
import { frenchStudent } from './fr/student.js';
import { frenchMeeting } from './fr/meeting.js';
import { frenchCalculators } from './fr/calculators.js';
import { frenchDaylight } from './fr/daylight.js';
import { unbroken } from './fr/unbroken.js';
import type { Language } from './languages.js';

const english = {
  dates,
  frame,
  light,
  studio,
  asking,
  place,
  correct,
  agreeing,
  journey,
  ownCalendar,
  calendar,
  ownData,
  prepareSheet,
  problem,
  teaching,
  student,
  meeting,
  calculators,
  chemistry,
  bath,
  daylight,
  letters,
  lettersTeaching,
};
export type Words = typeof english;

const WORDS: Record<Language, Words> = {
  en: english,
  fr: unbroken<Words>({
    dates: frenchDates,
    frame: frenchFrame,
    light: frenchLight,
    studio: frenchStudio,
    asking: frenchAsking,
    place: frenchPlace,
    correct: frenchCorrect,
    agreeing: frenchAgreeing,
    journey: frenchJourney,
    ownCalendar: frenchOwnCalendar,
    calendar: frenchCalendar,
    ownData: frenchOwnData,
    prepareSheet: frenchPrepareSheet,
    problem: frenchProblem,
    teaching: frenchTeaching,
    student: frenchStudent,
    meeting: frenchMeeting,
    calculators: frenchCalculators,
    chemistry: frenchChemistry,
    bath: frenchBath,
    daylight: frenchDaylight,
    letters: frenchLetters,
    lettersTeaching: frenchLettersTeaching,
  }),
};

export const wordsFor = (language: Language): Words => WORDS[language];
