// From what a browser sends to the shape that request.schemas.ts checks, and the rows the form shows.
// Field names are the JSON pointers of that shape, so that a problem finds its field.
import type { Temporal } from 'temporal-polyfill';
import { MOST_PLATES, MOST_SITTERS } from './request.schemas.js';

/** What was sent, as the server received it: texts, or lists of texts for ticked boxes. */
export type Answers = Record<string, unknown>;

/**
 * How many rows of sitters and plates the form shows: those sent, and one more where "Add" was pressed.
 * One too many is shown as well, so that it can be told and nothing that was typed goes lost.
 */
export function rowsOf(answers: Answers): { sitters: number; plates: number } {
  const rows = (stem: string, leaf: string, most: number, more: boolean) => {
    let sent = 0;
    while (sent <= most && Object.hasOwn(answers, `${stem}/${sent}${leaf}`)) sent++;
    return more && sent < most ? Math.max(1, sent) + 1 : Math.max(1, sent);
  };
  return {
    sitters: rows('sitters', '', MOST_SITTERS, answers.more === 'sitter'),
    plates: rows('plates', '/plateSizeId', MOST_PLATES, answers.more === 'plate'),
  };
}

/** The rows of sitters that count: those with a name or on a plate, and the first in any case. */
function rowsThatCount(answers: Answers): number[] {
  const { sitters, plates } = rowsOf({ ...answers, more: '' });
  const onPlates = [...Array(plates).keys()].flatMap((at) => list(answers[`plates/${at}/sitters`]));
  const counts = (at: number) =>
    at === 0 || text(answers[`sitters/${at}`]).trim() !== '' || onPlates.includes(String(at));
  return [...Array(sitters).keys()].filter(counts);
}

/** What the days shown are to be open for, as far as it is chosen: the rows that are there, and the kind. */
export function askedOf(answers: Answers): { plates: number; sitters: number; kindId: string | undefined } {
  const kindId = text(answers.kindId);
  return {
    plates: Math.min(MOST_PLATES, rowsOf(answers).plates),
    sitters: Math.min(MOST_SITTERS, rowsThatCount(answers).length),
    kindId: kindId === '' ? undefined : kindId,
  };
}

/** Whoever asks need not write their own name twice: the first row left empty stands for them. */
export const firstIsContact = (answers: Answers) => text(answers['sitters/0']).trim() === '';

/**
 * The request as sent, unchecked. Rows of sitters left empty and on no plate are dropped (but for the first),
 * and plates then name the ones that stay; where the form had one row, its sitter is on every plate unasked.
 */
export function toRequest(answers: Answers, readDate: (name: string) => string) {
  const kept = rowsThatCount(answers);
  const rows = rowsOf({ ...answers, more: '' });
  const plates = Array.from({ length: rows.plates }, (_, at) => ({
    plateSizeId: text(answers[`plates/${at}/plateSizeId`]),
    sitters:
      rows.sitters === 1
        ? [0]
        : list(answers[`plates/${at}/sitters`]).flatMap((position) => {
            const now = kept.indexOf(Number(position));
            return now < 0 ? [] : [now];
          }),
  }));
  const kind = text(answers['suits/kind']) === 'these' ? 'these' : 'any';
  const days = list(answers['suits/days']);
  return {
    name: text(answers.name),
    reachBy: text(answers.reachBy),
    email: text(answers.email),
    telephone: text(answers.telephone),
    postalAddress: text(answers.postalAddress),
    sitters: kept.map((at) =>
      at === 0 && firstIsContact(answers) ? text(answers.name) : text(answers[`sitters/${at}`]),
    ),
    bands: kept.map((at) => text(answers[`bands/${at}`]) || 'adult'),
    kindId: text(answers.kindId) || null,
    plates,
    homeId: /^\d{1,12}$/.test(text(answers.homeId)) ? Number(answers.homeId) : 0,
    suits:
      kind === 'these'
        ? { kind, days }
        : { kind, from: readDate('suits/from'), until: readDate('suits/until'), days },
    hopes: text(answers.hopes),
    anything: text(answers.anything),
    access: text(answers.access),
    brings: text(answers.brings),
    voucher: text(answers.voucher),
    minor: text(answers.minor) === 'yes',
    guardian: guardianOf(answers),
  };
}

/** Who answers for somebody under 18, as soon as anything of it is typed. */
function guardianOf(answers: Answers) {
  const [name, relation, reach] = ['name', 'relation', 'reach'].map((one) =>
    text(answers[`guardian/${one}`]),
  );
  return [name, relation, reach].some((one) => one?.trim()) ? { name, relation, reach } : null;
}

/** The form's fields from top to bottom, by how their names begin. */
const ORDER = [
  'name',
  'reachBy',
  'email',
  'telephone',
  'postal',
  'kindId',
  'sitters',
  'bands',
  'minor',
  'guardian',
  'plates',
  'home',
  'suits',
  '',
];

/**
 * The problems of a request at the fields of its form, from top to bottom, one a field: rows that were dropped
 * count again, a list as a whole is told at its last row, one of several ticks at the ticks, and the
 * contact's own name only where it was typed.
 */
export function problemsOnForm<P extends { field: string }>(answers: Answers, problems: P[]): P[] {
  const told = problems.filter(({ field }) => !(field === 'sitters/0' && firstIsContact(answers)));
  const found = told.map((one) => ({ ...one, field: fieldOnForm(answers, one.field) }));
  const place = ({ field }: P) => ORDER.findIndex((start) => field.startsWith(start));
  return found
    .filter(({ field }, at) => found.findIndex((one) => one.field === field) === at)
    .sort((a, b) => place(a) - place(b));
}

function fieldOnForm(answers: Answers, field: string): string {
  const rows = rowsOf({ ...answers, more: '' });
  if (field === 'sitters' || field === 'bands') return `sitters/${rows.sitters - 1}`;
  if (field === 'plates') return `plates/${rows.plates - 1}/plateSizeId`;
  const sitter = /^(sitters|bands)\/(\d+)$/.exec(field);
  if (sitter) return `${sitter[1]}/${rowsThatCount(answers)[Number(sitter[2])] ?? 0}`;
  return field.replace(/^(plates\/\d+\/sitters|suits\/days)\/\d+$/, '$1');
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
