// From the fields of a template's form to the shape that course.schemas.ts checks, and back. Rows left empty are
// dropped; a row's fields are the JSON pointers of that shape.
import { SOLUTION_KINDS } from '../../chemistry/use-per-area.calc.js';
import type { Course } from '../../teaching/course.schemas.js';
import { benchFields, toBench, toStations } from './bench-form.calc.js';

export type Fields = Record<string, unknown>;

const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');
/** What is no number stays text, which the schema tells of. */
const number = (value: unknown): unknown =>
  /^-?\d+([.,]\d+)?$/.test(text(value)) ? Number(text(value).replace(',', '.')) : text(value);

const TEXTS = ['name', 'about', 'bring', 'wear', 'reading', 'fee', 'deposit', 'release'] as const;
const NUMBERS = ['leastAge', 'most', 'least', 'decideDays'] as const;
export const MOST_ROWS = 20;

/** Rows that were filled in, by the field that names each, with their place in the form. */
function rows(fields: Fields, stem: string, names: string): number[] {
  return [...Array(MOST_ROWS).keys()].filter((at) => text(fields[`${stem}/${at}/${names}`]) !== '');
}

export function toCourse(fields: Fields): Record<string, unknown> {
  const plates = (stem: string) =>
    rows(fields, stem, 'plateSizeId').map((at) => ({
      plateSizeId: text(fields[`${stem}/${at}/plateSizeId`]),
      count: number(fields[`${stem}/${at}/count`]),
    }));
  const share = number(fields.keeperShare);
  return {
    ...Object.fromEntries(TEXTS.map((name) => [name, text(fields[name])])),
    ...Object.fromEntries(NUMBERS.map((name) => [name, number(fields[name])])),
    parts: rows(fields, 'parts', 'title').map((at) => ({
      title: text(fields[`parts/${at}/title`]),
      minutes: number(fields[`parts/${at}/minutes`]),
      where: text(fields[`parts/${at}/where`]),
      work: [fields[`parts/${at}/work`]]
        .flat()
        .map(text)
        .filter((one) => one !== ''),
      together: text(fields[`parts/${at}/together`]) === 'yes',
    })),
    plates: plates('plates'),
    demonstration: plates('demonstration'),
    keeperShare: share === '' ? null : typeof share === 'number' ? share / 100 : share,
    uses: Object.fromEntries(SOLUTION_KINDS.map((kind) => [kind, text(fields[`uses/${kind}`]) || 'usual'])),
    gear: rows(fields, 'gear', 'name').map((at) => ({
      name: text(fields[`gear/${at}/name`]),
      each: number(fields[`gear/${at}/each`]),
      sized: text(fields[`gear/${at}/sized`]) === 'yes',
      itemId: text(fields[`gear/${at}/itemId`]) || null,
    })),
    stations: toStations(fields),
    bench: toBench(fields),
    oneToOne: text(fields.oneToOne) === 'yes',
    secondDay: text(fields.secondDay) === 'yes',
  };
}

const asText = (value: unknown): string =>
  value === true ? 'yes' : value === false || value === null ? '' : String(value);

/** A course as the form's fields. */
export function toFields(course: Course): Fields {
  const list = <T extends object>(stem: string, all: readonly T[]) =>
    Object.fromEntries(
      all.flatMap((one, at) =>
        Object.entries(one).map(([name, value]) => [
          `${stem}/${at}/${name}`,
          Array.isArray(value) ? value : asText(value),
        ]),
      ),
    );
  return {
    ...Object.fromEntries(TEXTS.map((name) => [name, course[name]])),
    ...Object.fromEntries(NUMBERS.map((name) => [name, String(course[name])])),
    ...list('parts', course.parts),
    ...list('plates', course.plates),
    ...list('demonstration', course.demonstration),
    ...list('gear', course.gear),
    ...benchFields(course),
    ...Object.fromEntries(Object.entries(course.uses).map(([kind, of]) => [`uses/${kind}`, String(of)])),
    keeperShare: course.keeperShare === null ? '' : String(Math.round(course.keeperShare * 100)),
    oneToOne: course.oneToOne ? 'yes' : '',
    secondDay: course.secondDay ? 'yes' : '',
  };
}

/** Rows that were dropped count again, so that each problem stands at the row it was typed in. */
export function problemsOnTemplate<P extends { field: string }>(fields: Fields, problems: P[]): P[] {
  const named = { parts: 'title', plates: 'plateSizeId', demonstration: 'plateSizeId', gear: 'name' };
  return problems.map((one) => {
    const [, stem = '', row, leaf] =
      /^(parts|plates|demonstration|gear)\/(\d+)\/(\w+)$/.exec(one.field) ?? [];
    if (row === undefined) return one.field === 'parts' ? { ...one, field: 'parts/0/title' } : one;
    const at = rows(fields, stem, named[stem as keyof typeof named])[Number(row)] ?? row;
    return { ...one, field: `${stem}/${at}/${leaf}` };
  });
}

/** How many rows the form shows of each list: those filled in, and some more to fill in. */
export function shownRows(fields: Fields, stem: 'parts' | 'plates' | 'demonstration' | 'gear'): number {
  const named = { parts: 'title', plates: 'plateSizeId', demonstration: 'plateSizeId', gear: 'name' }[stem];
  const last = Math.max(-1, ...rows(fields, stem, named));
  const [more, most] = stem === 'parts' ? [2, 20] : stem === 'gear' ? [2, 20] : [1, 6];
  return Math.min(most, last + 1 + more);
}
