// From what a browser sends to the shape that request.schemas.ts checks, and the rows the form shows.
// Field names are the JSON pointers of that shape, so that a problem finds its field.
import type { Temporal } from 'temporal-polyfill';

/** What was sent, as the server received it: texts, or lists of texts for ticked boxes. */
export type Answers = Record<string, unknown>;

const MOST_SITTERS = 12;
const MOST_PLATES = 6;

/** How many rows of sitters and plates the form shows: those sent, and one more where "Add" was pressed. */
export function rowsOf(answers: Answers): { sitters: number; plates: number } {
  const sent = (stem: string, leaf: string, most: number) => {
    let count = 0;
    while (count < most && `${stem}/${count}${leaf}` in answers) count++;
    return count;
  };
  const more = text(answers.more);
  const sitters = Math.max(1, sent('sitters', '', MOST_SITTERS)) + (more === 'sitter' ? 1 : 0);
  const plates = Math.max(1, sent('plates', '/plateSizeId', MOST_PLATES)) + (more === 'plate' ? 1 : 0);
  return { sitters: Math.min(sitters, MOST_SITTERS), plates: Math.min(plates, MOST_PLATES) };
}

/**
 * The request as sent, unchecked. Rows of sitters left empty are dropped (but for the first), and plates
 * then name the ones that stay; who sits alone is on every plate without being asked.
 */
export function toRequest(answers: Answers, readDate: (name: string) => string): unknown {
  const rows = rowsOf({ ...answers, more: '' });
  const names = Array.from({ length: rows.sitters }, (_, at) => text(answers[`sitters/${at}`]));
  const kept = names.flatMap((name, at) => (name.trim() !== '' || at === 0 ? [at] : []));
  const plates = Array.from({ length: rows.plates }, (_, at) => ({
    plateSizeId: text(answers[`plates/${at}/plateSizeId`]),
    sitters:
      kept.length === 1
        ? [0]
        : list(answers[`plates/${at}/sitters`]).flatMap((position) => {
            const now = kept.indexOf(Number(position));
            return now < 0 ? [] : [now];
          }),
  }));
  const kind = text(answers['suits/kind']) === 'these' ? 'these' : 'any';
  return {
    name: text(answers.name),
    reachBy: text(answers.reachBy),
    email: text(answers.email),
    telephone: text(answers.telephone),
    postalAddress: text(answers.postalAddress),
    sitters: kept.map((at) => names[at] ?? ''),
    plates,
    homeId: /^\d{1,12}$/.test(text(answers.homeId)) ? Number(answers.homeId) : 0,
    suits:
      kind === 'these'
        ? { kind, days: list(answers['suits/days']) }
        : { kind, from: readDate('suits/from'), until: readDate('suits/until') },
    hopes: text(answers.hopes),
    anything: text(answers.anything),
  };
}

/** The answers of an empty form, with the day that was tapped on the studio's page already chosen. */
export function firstAnswers(
  bookable: { from: Temporal.PlainDate; until: Temporal.PlainDate },
  day: string | undefined,
): Answers {
  const range = { ...dateParts('suits/from', bookable.from), ...dateParts('suits/until', bookable.until) };
  return day === undefined
    ? { ...range, 'suits/kind': 'any' }
    : { ...range, 'suits/kind': 'these', 'suits/days': [day] };
}

function dateParts(name: string, date: Temporal.PlainDate): Answers {
  return {
    [`${name}-day`]: String(date.day),
    [`${name}-month`]: String(date.month),
    [`${name}-year`]: String(date.year),
  };
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const list = (value: unknown): string[] =>
  (Array.isArray(value) ? value : [value]).filter(
    (one): one is string => typeof one === 'string' && one !== '',
  );
