// What the API answers about the plates of a day.
import { z } from 'zod';
import { WEATHERS } from '../daylight/exposure.calc.js';
import type { Made, MadeDay } from './made.schemas.js';
import { dayLight } from './made.schemas.js';

const plate = z.object({
  id: z.uuid(),
  number: z.int(),
  sittingId: z.uuid().nullable(),
  plateId: z.uuid().nullable(),
  plateSizeId: z.uuid(),
  keeper: z.boolean(),
  seconds: z.number().nullable(),
  sky: z.enum(WEATHERS).nullable(),
  lotId: z.uuid().nullable(),
  bathId: z.uuid().nullable(),
  result: z.string(),
  note: z.string(),
  names: z.string(),
  seriesId: z.uuid().nullable(),
  seriesNumber: z.int().nullable(),
  struck: z.boolean(),
});
const choice = z.object({ id: z.uuid(), name: z.string() });

export const madeDayAnswer = z.object({
  day: z.iso.date(),
  /** The running number of the next plate; null as long as nobody said where the book begins. */
  next: z.int().nullable(),
  plates: z.array(plate),
  /** To be sent back as `seen`: then a save is refused where others changed the day meanwhile. */
  version: z.string(),
  light: dayLight.nullable(),
  sittings: z.array(z.object({ id: z.uuid(), contact: z.string(), plates: z.array(choice) })),
  sizes: z.array(choice),
  bottles: z.array(choice),
  baths: z.array(choice),
  series: z.array(choice),
});

export const toMadeDay = (now: MadeDay): z.output<typeof madeDayAnswer> => ({
  day: now.day.toString(),
  next: now.next,
  plates: now.plates.map(toPlate),
  version: now.version,
  light: now.light,
  sittings: now.sittings.map(({ view }) => ({
    id: view.sitting.id,
    contact: view.contact.name,
    plates: view.plates.map((one) => ({ id: one.id, name: one.sizeName })),
  })),
  sizes: now.sizes.map(({ id, name }) => ({ id, name })),
  bottles: now.bottles.map(({ id, label }) => ({ id, name: label })),
  baths: now.baths.map(({ id, name }) => ({ id, name })),
  series: now.series.map(({ id, name }) => ({ id, name })),
});

const toPlate = ({ day: _day, who: _who, struckAt, ...one }: Made): z.output<typeof plate> => ({
  ...one,
  struck: struckAt !== null,
});
