// From what a browser sends to the shape that sign-up.schemas.ts checks, and the rows the form shows. Field names are
// the JSON pointers of that shape, so that a problem finds its field.
import { MOST_STUDENTS } from './sign-up.schemas.js';

export type Answers = Record<string, unknown>;

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

/** How many students the form shows: those sent, and one more where "Add" was pressed. */
export function rowsOf(answers: Answers): number {
  let sent = 0;
  while (sent < MOST_STUDENTS && Object.hasOwn(answers, `students/${sent}/name`)) sent++;
  return Math.min(MOST_STUDENTS, Math.max(1, sent) + (answers.more === 'student' ? 1 : 0));
}

/** Whoever was added counts, named or not, until they are taken out. */
function rowsThatCount(answers: Answers): number[] {
  const rows = [...Array(rowsOf({ ...answers, more: '' })).keys()];
  return rows.filter((at) => at === 0 || text(answers[`students/${at}/out`]) !== 'yes');
}

/** The sign-up as sent, unchecked. Whoever signs up need not write their own name twice. */
export function toSignUp(answers: Answers): Record<string, unknown> {
  return {
    name: text(answers.name),
    reachBy: text(answers.reachBy),
    email: text(answers.email),
    telephone: text(answers.telephone),
    postalAddress: text(answers.postalAddress),
    students: rowsThatCount(answers).map((at) => ({
      name: text(answers[`students/${at}/name`]).trim() || (at === 0 ? text(answers.name) : ''),
      experience: text(answers[`students/${at}/experience`]) || 'none',
      plateSizeId: text(answers[`students/${at}/plateSizeId`]) || null,
      brings: text(answers[`students/${at}/brings`]),
    })),
    anything: text(answers.anything),
    oldEnough: text(answers.oldEnough) === 'yes',
    orWait: text(answers.orWait) === 'yes',
    cameBefore: text(answers.cameBefore) === 'yes',
  };
}

/** What was sent of each student of a sign-up, by their ids, with which the names of their fields begin; unchecked. */
export function toDetails(answers: Answers): Record<string, unknown> {
  const own = /^([\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12})\/(.+)$/s;
  const of = new Map<string, Answers>();
  for (const [name, value] of Object.entries(answers)) {
    const [, id = '', field = ''] = own.exec(name) ?? [];
    if (id !== '') of.set(id, { ...of.get(id), [field]: value });
  }
  return Object.fromEntries([...of].map(([id, fields]) => [id, detailsSent(fields)]));
}

function detailsSent(fields: Answers): Record<string, unknown> {
  const gear = Object.entries(fields).filter(([name]) => name.startsWith('gear/'));
  const version = text(fields.agreesTo);
  return {
    gear: Object.fromEntries(gear.map(([name, size]) => [name.slice('gear/'.length), text(size)])),
    access: text(fields.access),
    emergencyName: text(fields.emergencyName),
    emergencyTelephone: text(fields.emergencyTelephone),
    agreesTo: /^\d{1,6}$/.test(version) ? Number(version) : null,
  };
}

/** The sizes of gear of all students as their form holds them. */
export const sizesShown = (
  students: { id: string; gear: Readonly<Record<string, string>> }[],
): Record<string, string> =>
  Object.fromEntries(
    students.flatMap(({ id, gear }) =>
      Object.entries(gear).map(([name, size]) => [`${id}/gear/${name}`, size] as const),
    ),
  );

const WHO = 'Please tell us who it is, or take this person out.';

/** The problems of a sign-up at the fields of its form: rows that were dropped count again, a name is told once. */
export function problemsOnForm<P extends { field: string; message: string }>(
  answers: Answers,
  problems: P[],
): P[] {
  const kept = rowsThatCount(answers);
  const nameMissing = problems.some(({ field }) => field === 'name');
  const seen = new Set<string>();
  return problems.flatMap((one) => {
    const [, row, leaf] = /^students\/(\d+)\/(\w+)$/.exec(one.field) ?? [];
    const field = row === undefined ? one.field : `students/${kept[Number(row)] ?? row}/${leaf}`;
    if ((nameMissing && field === 'students/0/name') || seen.has(field)) return [];
    seen.add(field);
    const unnamed = leaf === 'name' && Number(row) > 0 && text(answers[field]).trim() === '';
    const message = unnamed ? WHO : one.message;
    return [{ ...one, message, field: field === 'students' ? 'students/0/name' : field }];
  });
}
