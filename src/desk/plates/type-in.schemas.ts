// The form on which a day is typed in: a line a plate, everything on it optional. A line on which nothing was typed is no
// plate; what stands on it beforehand (size, bottle, bath, names) is not typing.
import { WEATHERS } from '../../daylight/exposure.calc.js';
import { written } from '../../daylight/daylight.schemas.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Made, MadeDay } from '../../plates/made.schemas.js';

type Sent = Record<string, unknown>;

/** One line of the form. */
export interface Line {
  id: string;
  /** Null: a test plate. */
  sittingId: string | null;
  /** The plate asked for that it is a try at. */
  plateId: string | null;
  /** The plate in the book; null: a line to write in. */
  made: Made | null;
}

export const MOST_NEW_LINES = 60;
const MORE_LINES = 3;
export const TESTS = 'tests';
const SECONDS = 'Please give the seconds, such as 6.';
const seconds = written(0.01, 3600, SECONDS);
const UUID = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}';
const LINE = new RegExp(`^(${UUID}) (${UUID}|${TESTS}) (${UUID})?$`);

export const lineText = ({ id, sittingId, plateId }: Line): string =>
  `${id} ${sittingId ?? TESTS} ${plateId ?? ''}`;

/** Lines as they stand at first: the plates in the book, and one for each plate asked for that has none yet. */
export function linesAtFirst(now: MadeDay, newId: () => string): Line[] {
  const made = now.plates.filter((one) => one.struckAt === null);
  const known = made.map((one) => ({ ...place(one), id: one.id, made: one }));
  const asked = now.sittings.flatMap(({ view }) =>
    view.plates
      .filter((plate) => !made.some((one) => one.plateId === plate.id))
      .map((plate) => ({ id: newId(), sittingId: view.sitting.id, plateId: plate.id, made: null })),
  );
  const tests = made.some((one) => one.sittingId === null) ? [] : [newTest(newId)];
  return [...known, ...asked, ...tests];
}

const place = ({ sittingId, plateId }: Made) => ({ sittingId, plateId });
const newTest = (newId: () => string): Line => ({ id: newId(), sittingId: null, plateId: null, made: null });

/** The lines that were sent, with those that stand in the book now; `more` adds some for a sitting, or for the tests. */
export function linesSent(now: MadeDay, sent: Sent, more: string | null, newId: () => string): Line[] {
  const made = now.plates.filter((one) => one.struckAt === null);
  const lines = textsOf(sent.line).flatMap((text): Line[] => {
    const [, id = '', whose = '', plateId = null] = LINE.exec(text) ?? [];
    if (id === '' || made.some((one) => one.id === id) || now.plates.some((one) => one.id === id)) return [];
    return [{ id, sittingId: whose === TESTS ? null : whose, plateId: plateId || null, made: null }];
  });
  const added = more === null ? [] : moreLines(now, lines, more, newId);
  return [...made.map((one) => ({ ...place(one), id: one.id, made: one })), ...lines, ...added].slice(
    0,
    made.length + MOST_NEW_LINES,
  );
}

function moreLines(now: MadeDay, lines: readonly Line[], more: string, newId: () => string): Line[] {
  if (more === TESTS) return Array.from({ length: MORE_LINES }, () => newTest(newId));
  const view = now.sittings.find((one) => one.view.sitting.id === more)?.view;
  if (!view) return [];
  const last = lines.filter((one) => one.sittingId === more).at(-1);
  const plateId = last?.plateId ?? view.plates.at(-1)?.id ?? null;
  return Array.from({ length: MORE_LINES }, () => ({ id: newId(), sittingId: more, plateId, made: null }));
}

export type ReadDay = { ok: true; input: Sent } | { ok: false; problems: FieldProblem[] };

/** What the form says, as MadeService takes it; `ids` of the plates in it stand in their order. */
export function readTypeIn(sent: Sent, lines: readonly Line[]): ReadDay {
  const problems: FieldProblem[] = [];
  const refuse = (field: string, message: string) => problems.push({ field, message });
  const plates = lines.flatMap((line) => readLine(sent, line, refuse) ?? []);
  const first = textOf(sent.first);
  if (first !== '' && !/^\d{1,8}$/.test(first)) refuse('first', 'Please give a whole number, such as 1.');
  const light = readLight(sent, refuse);
  if (problems.length > 0) return { ok: false, problems };
  const strike = textOf(sent.strike);
  const input = {
    plates,
    strike: strike === '' ? [] : [strike],
    ...(first !== '' && { first: Number(first) }),
    ...(light !== undefined && { light }),
    seen: textOf(sent.seen),
  };
  return { ok: true, input };
}

type Refuse = (field: string, message: string) => void;

function readLine(sent: Sent, { id, sittingId, plateId, made }: Line, refuse: Refuse): Sent | null {
  const said = (name: string) => textOf(sent[`${id}-${name}`]);
  if (sent[`${id}-out`] === undefined) return null; // not on the form that was sent
  const typed = ['out', 'seconds', 'sky', 'result', 'note', 'seriesId'].some((name) => said(name) !== '');
  if (!typed && !made) return null;
  const out = said('out');
  if (out !== 'kept' && out !== 'not kept') refuse(`${id}-out`, 'Please say whether it was kept.');
  const read = seconds.safeParse(said('seconds'));
  if (said('seconds') !== '' && !read.success) refuse(`${id}-seconds`, SECONDS);
  const sky = said('sky');
  if (sky !== '' && !WEATHERS.some((one) => one === sky))
    refuse(`${id}-sky`, 'Please choose how the sky was.');
  const orNull = (name: string) => said(name) || null;
  return {
    ...{ id, sittingId, plateId },
    plateSizeId: said('plateSizeId'),
    keeper: out === 'kept',
    seconds: read.success ? read.data : null,
    sky: sky || null,
    ...{ lotId: orNull('lotId'), bathId: orNull('bathId'), seriesId: orNull('seriesId') },
    ...{ result: said('result'), note: said('note'), names: said('names') },
  };
}

/** Undefined where the form did not ask; null where no notes are wanted. */
function readLight(sent: Sent, refuse: Refuse): Sent | null | undefined {
  if (sent.lens === undefined) return undefined;
  if (textOf(sent.light) !== 'yes') return null;
  const fNumber = written(0.5, 128, 'Please give the f-number, such as 4.').safeParse(sent.fNumber);
  const [lens, framing] = [textOf(sent.lens), textOf(sent.framing)];
  if (lens === '') refuse('lens', 'Please name the lens.');
  if (framing === '') refuse('framing', 'Please say how close: head, half length, group.');
  if (!fNumber.success) refuse('fNumber', 'Please give the f-number, such as 4.');
  return { lens, framing, fNumber: fNumber.success ? fNumber.data : 0 };
}

/** A mistake told of `plates/2/lotId` stands beside the field of that line. */
export function atLines(fields: readonly FieldProblem[], ids: readonly string[]): FieldProblem[] {
  return fields.map(({ field, message }) => {
    const [, at, name] = /^plates\/(\d+)\/(\w+)$/.exec(field) ?? [];
    const id = at === undefined ? undefined : ids[Number(at)];
    if (id === undefined) return { field: field.replace(/^light\//, ''), message };
    return { field: `${id}-${OWN_FIELD.includes(name ?? '') ? name : 'out'}`, message };
  });
}
const OWN_FIELD = ['plateSizeId', 'seconds', 'sky', 'lotId', 'bathId', 'seriesId', 'result', 'note', 'names'];

const textsOf = (value: unknown): string[] => [value].flat().filter((one) => typeof one === 'string');
const textOf = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');
