// The boxes in which people tell of their own journey, read as a form sends them: all text, each may be left empty.
import { Temporal } from 'temporal-polyfill';
import { MODES } from './modes.calc.js';
import { MOST_MARGIN_MINUTES, MOST_MINUTES, type TravelPlan } from './plan.schemas.js';

export type FormAnswers = Record<string, unknown>;

interface Problem {
  field: string;
  message: string;
}

export const LONGEST_POSTCODE = 20;

/** One text, trimmed, without control characters; the first that is not empty where a name was sent twice. */
export const textOf = (answer: unknown): string =>
  [answer]
    .flat()
    .map((one) => (typeof one === 'string' ? one.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim() : ''))
    .find((one) => one !== '') ?? '';

/** The plan in the boxes `mode`, `hours`, `night` and `margin`; what is wrong is null in it. */
export function readPlan(sent: FormAnswers): { plan: TravelPlan; problems: Problem[] } {
  const problems: Problem[] = [];
  const refuse = (field: string, message: string) => {
    problems.push({ field, message });
    return null;
  };
  const [mode, hours, night, margin] = ['mode', 'hours', 'night', 'margin'].map((name) => textOf(sent[name]));
  const minutes = hours ? readHours(hours) : null;
  const long = minutes !== null && minutes >= 1 && minutes <= MOST_MINUTES;
  const before = margin ? readMinutes(margin) : null;
  return {
    plan: {
      mode: mode
        ? (MODES.find((one) => one === mode) ?? refuse('mode', 'Please choose one of these ways.'))
        : null,
      minutes: hours
        ? long
          ? minutes
          : refuse('hours', 'Please give hours, such as 6.5 or 6:30; a week at most.')
        : null,
      night:
        night === 'yes' || night === 'no'
          ? night
          : night
            ? refuse('night', 'Please choose one of these.')
            : null,
      marginMinutes: margin ? (before ?? refuse('margin', 'Please give whole minutes, 0 to 720.')) : null,
    },
    problems,
  };
}

/** The boxes as they would be filled to say just this. */
export function planAnswers({ mode, minutes, night, marginMinutes }: TravelPlan): Record<string, string> {
  return {
    mode: mode ?? '',
    hours: minutes === null ? '' : `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`,
    night: night ?? '',
    margin: marginMinutes === null ? '' : String(marginMinutes),
  };
}

/** "10:00", "9.30" and "9" -> a time of day; null for what is none. */
export function readTime(text: string): Temporal.PlainTime | null {
  const [, hour, minute = '00'] = /^(\d{1,2})(?:[:.](\d{2}))?$/.exec(text) ?? [];
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59) return null;
  return Temporal.PlainTime.from({ hour: Number(hour), minute: Number(minute) });
}

/** "6.5", "6,5" and "6:30" -> 390. */
function readHours(text: string): number | null {
  const [, whole, minutes] = /^(\d{1,3}):([0-5]\d)$/.exec(text) ?? [];
  if (whole !== undefined) return Number(whole) * 60 + Number(minutes);
  return /^\d{1,3}([.,]\d{1,3})?$/.test(text) ? Math.round(Number(text.replace(',', '.')) * 60) : null;
}

function readMinutes(text: string): number | null {
  return /^\d{1,3}$/.test(text) && Number(text) <= MOST_MARGIN_MINUTES ? Number(text) : null;
}
