// The page on which a teaching day is written down, as its fields: who came, plates made by each or by the group, what
// was used. All but who came is optional; a 0 says that none was made.
import { MOST_TRIES } from '../../chemistry/actuals.schemas.js';
import { USED, type Used } from '../../chemistry/learning.calc.js';
import {
  ATTENDANCES,
  type Attendance,
  type ClassRecord,
  type MadePlates,
  type ToldAfter,
} from '../../teaching/after.schemas.js';
import type { Session, Student } from '../../teaching/teaching.schemas.js';
import { readAmount, textOf } from '../shelf/used.schemas.js';

type Sent = Record<string, unknown>;
const MOST_NOTE = 1000;

/** Of whom plates are asked, and of which sizes: each student, and the whole group. */
export interface Maker {
  /** A student, or the session. */
  id: string;
  /** In the names of its fields. */
  key: string;
  name: string;
  sizeIds: string[];
}

export function makersOf(session: Session, students: readonly Student[]): Maker[] {
  const { plates, demonstration } = session.course;
  const planned = plates.map(({ plateSizeId }) => plateSizeId);
  const own = students.map(({ id, name, plateSizeId }) => ({
    id,
    key: id,
    name,
    sizeIds: plateSizeId ? [plateSizeId] : [...new Set(planned)],
  }));
  const shown = demonstration.map(({ plateSizeId }) => plateSizeId);
  const all = [...new Set([...planned, ...shown, ...own.flatMap(({ sizeIds }) => sizeIds)])];
  return [...own, { id: session.id, key: 'group', name: 'The whole group, or you', sizeIds: all }];
}

interface Problem {
  field: string;
  message: string;
}
export type ReadAfter = { ok: true; told: ToldAfter } | { ok: false; problems: Problem[] };

export function readAfter(sent: Sent, session: Session, students: readonly Student[]): ReadAfter {
  const problems: Problem[] = [];
  const refuse = (field: string, message: string) => problems.push({ field, message });
  const attendance = new Map<string, Attendance>();
  for (const { id } of students) {
    const how = ATTENDANCES.find((one) => one === sent[`how-${id}`]);
    if (how) attendance.set(id, how); // one without is told by the service
  }
  const plates = makersOf(session, students).flatMap((maker) =>
    maker.sizeIds.flatMap((size) => readMade(sent, maker, size, refuse) ?? []),
  );
  const used: Partial<Record<Used, bigint>> = {};
  for (const what of USED) {
    const amount = readAmount(sent, what, refuse);
    if (amount !== null) used[what] = amount;
  }
  const note = textOf(sent.note);
  if (note.length > MOST_NOTE) refuse('note', `Please keep this under ${MOST_NOTE} characters.`);
  return problems.length > 0
    ? { ok: false, problems }
    : { ok: true, told: { attendance, plates, used, note } };
}

/** Null where nothing is said. */
function readMade(
  sent: Sent,
  maker: Maker,
  plateSizeId: string,
  refuse: (field: string, message: string) => void,
): MadePlates | null {
  const [triesField, keptField] = [`tries-${maker.key}-${plateSizeId}`, `kept-${maker.key}-${plateSizeId}`];
  const [tries, kept] = [textOf(sent[triesField]), textOf(sent[keptField])];
  if (tries === '' && kept === '') return null;
  const count = (text: string) => (/^\d{1,4}$/.test(text) ? Number(text) : Number.NaN);
  const tried = count(tries);
  const keepers = kept === '' && tried === 0 ? 0 : count(kept);
  if (!(tried <= MOST_TRIES)) refuse(triesField, `Please say how many were made: 0 to ${MOST_TRIES}.`);
  else if (Number.isNaN(keepers) && kept === '')
    refuse(keptField, 'Please say how many of them are kept; 0 counts too.');
  else if (!(keepers <= tried)) refuse(keptField, `Please give a number, not more than the ${tried} made.`);
  else return { maker: maker.id, plateSizeId, tries: tried, keepers };
  return null;
}

/** A record as the form sends it, so that it can be corrected. */
function fieldsOfRecord(record: ClassRecord): Sent {
  const key = (maker: string) => (maker === record.sessionId ? 'group' : maker);
  return {
    ...Object.fromEntries([...record.attendance].map(([id, how]) => [`how-${id}`, how])),
    ...Object.fromEntries(
      record.plates.flatMap(({ maker, plateSizeId, tries, keepers }) => [
        [`tries-${key(maker)}-${plateSizeId}`, String(tries)],
        [`kept-${key(maker)}-${plateSizeId}`, String(keepers)],
      ]),
    ),
    ...Object.fromEntries(
      Object.entries(record.used).map(([what, quantity]) => [what, String(Number(quantity) / 1000)]),
    ),
    note: record.note,
  };
}

/** The form as it stands: who came, as long as nobody has written otherwise, is present. */
export const afterAnswers = (students: readonly { id: string }[], record: ClassRecord | null): Sent => ({
  ...Object.fromEntries(students.map(({ id }) => [`how-${id}`, 'present'])),
  ...(record && fieldsOfRecord(record)),
});
