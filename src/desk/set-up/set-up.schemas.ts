// What a new owner is asked on the first evening, and what a studio begins with until its owner says otherwise.
import { z } from 'zod';
import { slugText } from './slug.calc.js';

const text = (most: number) =>
  z
    .string()
    .default('')
    .transform((sent) => sent.replace(/[\p{Cc}\s]+/gu, ' ').trim())
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`));
const needed = (most: number, say: string) => text(most).pipe(z.string().min(1, say));
const email = z
  .string()
  .default('')
  .transform((sent) => sent.trim().toLowerCase())
  .pipe(z.email('Please give an e-mail address like name@example.org.').max(254));

export const claimForm = z.object({
  name: needed(120, 'Please give your name.'),
  email,
  password: z.string('Please choose a password.').max(500, 'A password has at most 500 characters.'),
  studio: needed(120, 'Please give the name of your studio.'),
  address: text(300),
  telephone: text(60),
  place: text(100),
  placeId: text(20),
  zone: text(60),
});

export const profileForm = z.object({
  name: needed(120, 'Please give the name of your studio.'),
  welcome: z
    .string()
    .default('')
    .transform((sent) => sent.replace(/\r\n?/g, '\n').trim())
    .pipe(z.string().max(2000, 'Please keep this under 2000 characters.')),
  address: text(300),
  email,
  telephone: text(60),
});

/**
 * What light and booking begin with. A reference of 6 s at 45 degrees and a floor of 10 degrees are assumptions for a
 * north window, to be replaced by the studio's own notes; the cap is what people hold still with a head rest.
 */
export const STARTING_LIGHT = {
  windowKind: 'north window',
  lightFloorDegrees: 10,
  referenceSeconds: 6,
  referenceAltitudeDegrees: 45,
  exposureCapSeconds: 20,
  horizonMonths: 12,
  leastNoticeDays: 3,
  reserveQuantity: 'ninety',
} as const;

const WHOLE = 'Please give a whole number.';
const whole = (least: number, most: number, say = `Please give a whole number from ${least} to ${most}.`) =>
  z.coerce.number(say).int(say).min(least, say).max(most, say);

/** "09:30" as minutes after midnight. */
const time = z
  .string('Please give a time like 09:30.')
  .trim()
  .regex(/^([01]?\d|2[0-3])[:.]?[0-5]\d$/, 'Please give a time like 09:30.')
  .transform((sent) => {
    const figures = sent.replace(/\D/g, '').padStart(4, '0');
    return Number(figures.slice(0, 2)) * 60 + Number(figures.slice(2));
  });

export const WINDOWS = ['north window', 'open shade', 'glass room'] as const;

export const rhythmForm = z
  .object({
    weekday: whole(1, 7, 'Please choose a day.'),
    first: time,
    sittings: whole(1, 12),
    apart: whole(15, 480),
    windowKind: z.enum(WINDOWS, 'Please choose your light.'),
  })
  .refine(({ first, sittings, apart }) => first + (sittings - 1) * apart < 24 * 60, {
    path: ['sittings'],
    message: 'The last would begin after midnight. Fewer, or nearer to each other?',
  });
export type FirstRhythm = z.output<typeof rhythmForm>;

const amount = (most: number) =>
  z
    .string()
    .default('')
    .transform((sent) => sent.trim())
    .refine((sent) => sent === '' || (/^\d{1,6}$/.test(sent) && Number(sent) <= most), WHOLE)
    .transform((sent) => (sent === '' ? null : Number(sent)));

/** Sheets of glass by size, and millilitres of each solution; empty for a size that is not used. */
export const shelfForm = z.object({
  sheets: z.record(z.string(), amount(10_000)),
  millilitres: z.record(z.string(), amount(200_000)),
});
export type FirstShelf = z.output<typeof shelfForm>;

/** The studio's address in links, of its name; of its id where the name has no letter that an address can hold. */
export function slugOf(name: string, id: string): string {
  return slugText(name) || `studio-${id.slice(0, 8)}`;
}
