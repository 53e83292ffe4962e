// One exposed plate as the studio wrote it down, and the form it is typed into.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDateTime } from '../platform/db/row.js';
import { plainDateText, written } from './daylight.schemas.js';
import { WEATHERS } from './exposure.calc.js';

export const VERDICTS = ['good', 'under', 'over'] as const;

export const noteRow = z.object({
  note_id: z.uuid(),
  zone: z.string(),
  wall_at: plainDateTime,
  seconds: z.number(),
  weather: z.enum(WEATHERS),
  lens: z.string(),
  f_number: z.number(),
  framing: z.string(),
  magnification: z.number(),
  bottle: z.string(),
  verdict: z.enum(VERDICTS),
});
type Row = z.output<typeof noteRow>;

export interface WrittenNote {
  id: string;
  zone: string;
  /** By the clock of the studio. */
  wallAt: Row['wall_at'];
  seconds: number;
  weather: Row['weather'];
  lens: string;
  fNumber: number;
  framing: string;
  /** Size on the plate over size in life; 0 as for a distant subject. */
  magnification: number;
  bottle: string;
  verdict: Row['verdict'];
}

export const toNote = (row: Row): WrittenNote => ({
  id: row.note_id,
  zone: row.zone,
  wallAt: row.wall_at,
  seconds: row.seconds,
  weather: row.weather,
  lens: row.lens,
  fNumber: row.f_number,
  framing: row.framing,
  magnification: row.magnification,
  bottle: row.bottle,
  verdict: row.verdict,
});

const TIME = 'Please give the time like 14:20.';
const time = z.string(TIME).transform((text, context) => {
  const [, hour, minute] = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/.exec(text.trim()) ?? [];
  if (hour && minute) return new Temporal.PlainTime(Number(hour), Number(minute));
  context.addIssue({ code: 'custom', message: TIME });
  return z.NEVER;
});

const name = (asked: string) =>
  z
    .string(asked)
    .transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
    .pipe(z.string().min(1, asked).max(80, 'Please keep this under 80 characters.'));

/** Answers as a form sends them: all text. */
export const noteForm = z.object({
  date: plainDateText,
  time,
  seconds: written(0.01, 3600, 'Please give the seconds, above 0 and at most 3600.'),
  weather: z.enum(WEATHERS, 'Please choose how the sky was.'),
  lens: name('Please name the lens.'),
  fNumber: written(0.5, 128, 'Please give the f-number, such as 4.'),
  framing: name('Please say how close: head, half length, group.'),
  magnification: z.preprocess(
    (sent) => (sent === undefined || sent === '' ? '0' : sent),
    written(0, 10, 'Please give a number such as 0.2, or leave it empty.'),
  ),
  bottle: name('Please name the bottle.'),
  verdict: z.enum(VERDICTS, 'Please say how the plate came out.'),
});
