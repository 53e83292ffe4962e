// What a day of teaching is: its parts, what each student makes of what, what is worn and brought. Kept whole with a
// template, and as a copy of its own with every session.
import { z } from 'zod';
import { SOLUTION_KINDS } from '../chemistry/use-per-area.calc.js';
import { longText } from '../people/ways.schemas.js';
import { benchSettings } from './bench.schemas.js';

export const WHERES = ['studio', 'darkroom', 'outside', 'table', 'break'] as const;
export type Where = (typeof WHERES)[number];

const line = (most: number, missing?: string) => {
  const text = longText(most);
  return missing === undefined ? text : text.pipe(z.string().min(1, missing));
};
const count = (least: number, most: number, of: string) => {
  const words = `${of} is a whole number from ${least} to ${most}.`;
  return z.int(words).min(least, words).max(most, words);
};

/** What must not share a room and an hour: vapour that burns, and what lights it. */
export const WORKS = ['mixing', 'ether', 'flame', 'heater'] as const;
export type Work = (typeof WORKS)[number];

export const coursePart = z.object({
  title: line(120, 'Please name this part of the day.'),
  minutes: count(1, 600, 'The length of a part in minutes'),
  where: z.enum(WHERES, 'Please say where this part is held.'),
  work: z.array(z.enum(WORKS)).max(WORKS.length).default([]),
  /** All do the same, so that nobody's turn goes on: a talk, a plate that is shown. */
  together: z.boolean().default(false),
});
export const coursePlates = z.object({
  plateSizeId: z.uuid('Please choose a plate size.'),
  count: count(1, 12, 'How many plates to keep'),
});
export const courseGear = z.object({
  name: line(80, 'Please name this thing.'),
  each: count(1, 20, 'How many for each student'),
  /** Whether students say their size. */
  sized: z.boolean().default(false),
  /** What of the shelf it is; a supply is used up and set aside, gear stays. */
  itemId: z.uuid().nullable().default(null),
});
/** Counts of what a class shares. */
export const courseStations = z.object({
  tanks: count(0, 20, 'How many silver tanks'),
  holders: count(0, 40, 'How many holders'),
  cameras: count(0, 20, 'How many cameras'),
  sinks: count(0, 20, 'How many sinks'),
  darkroomPlaces: count(0, 40, 'How many places in the darkroom'),
});

const solution = z.union([z.literal('usual'), z.literal('none'), z.uuid()]).default('usual');

const RANGE = 'The share of plates kept is a number from 0.05 to 1.';

export const course = z
  .object({
    name: line(120, 'Please give the day a name.'),
    about: line(2000).default(''),
    parts: z
      .array(coursePart)
      .min(1, 'A day has at least one part.')
      .max(20, 'A day has at most 20 parts.')
      .refine(
        (parts) => parts.reduce((sum, part) => sum + part.minutes, 0) <= 720,
        'A day has at most 12 hours.',
      ),
    /** For each student. */
    plates: z.array(coursePlates).max(6, 'At most six sizes.').default([]),
    /** The teacher's own, once a day. */
    demonstration: z.array(coursePlates).max(6, 'At most six sizes.').default([]),
    /** Of plates that beginners keep; null by the studio's own figures. */
    keeperShare: z.number(RANGE).min(0.05, RANGE).max(1, RANGE).nullable().default(null),
    /** Which bottle of each kind: the usual, none, or one by name. */
    uses: z.object(Object.fromEntries(SOLUTION_KINDS.map((kind) => [kind, solution]))).default({}),
    gear: z.array(courseGear).max(20, 'At most 20 things.').default([]),
    stations: courseStations.default({ tanks: 1, holders: 2, cameras: 2, sinks: 1, darkroomPlaces: 2 }),
    bench: benchSettings.prefault({}),
    leastAge: count(0, 99, 'The least age').default(16),
    most: count(1, 40, 'The size of the group'),
    least: count(1, 40, 'The least number').default(1),
    /** Days before at which it is decided whether the day is held. */
    decideDays: count(0, 365, 'Days before').default(21),
    bring: line(2000).default(''),
    wear: line(2000).default(''),
    /** What students read or prepare before they come. */
    reading: line(2000).default(''),
    fee: line(200).default(''),
    deposit: line(200).default(''),
    release: line(2000).default(''),
    /** Whether it may be asked for one to one, on a day of one's own. */
    oneToOne: z.boolean().default(false),
    /** Only for who came before. */
    secondDay: z.boolean().default(false),
  })
  .refine(({ least, most }) => least <= most, {
    path: ['least'],
    message: 'The least number is not more than the size of the group.',
  });
export type Course = z.output<typeof course>;
export type CoursePlates = Course['plates'][number];

/** Minutes of the whole day. */
export const minutesOf = ({ parts }: Pick<Course, 'parts'>): number =>
  parts.reduce((sum, part) => sum + part.minutes, 0);
