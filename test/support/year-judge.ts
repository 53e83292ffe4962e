// Judges a year of mail by what really happened: by its own record of the acts, by what the mail server was handed, and by
// the rows that are left. Hours of night are read off Node's own clock of the zone, not ours.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { instant } from '../../src/platform/db/row.js';
import type { TestHouse } from './house.js';
import type { Happened } from './year-acts.js';
import type { Year } from './year-run.js';

const mailRow = z.object({
  mail_id: z.uuid(),
  about_id: z.uuid(),
  kind: z.string(),
  sequence: z.number(),
  state: z.string(),
  attempts: z.number(),
  by_hand: z.string(),
  last_error: z.string(),
  told_at: instant.nullable(),
  created_at: instant,
  leave_by: z.string().nullable(),
  was: z.string().nullable(),
});
type Mail = z.output<typeof mailRow>;
const reminderRow = z.object({
  sitting_id: z.uuid(),
  turn: z.number(),
  kind: z.string(),
  state: z.string(),
  reason: z.string(),
  mail_id: z.uuid().nullable(),
});

export type Promised =
  | 'nothing of what was rolled back'
  | 'nothing missing'
  | 'twice only without an answer'
  | 'one on its way'
  | 'not at night'
  | 'nothing after it went'
  | 'one outcome each';
export interface Broken {
  promise: Promised;
  what: string;
}

const LETTER_OF: Partial<Record<Happened['kind'], string>> = {
  confirmed: 'confirmed',
  move: 'moved',
  'call off': 'called off for good',
  'give up': 'released',
};
const TAKEN = new Set<unknown>(['take', 'take and cut']);

/** Every promise that was broken, and how. */
export async function judge(house: TestHouse, year: Year): Promise<Broken[]> {
  const broken: Broken[] = [];
  const isBroken = (promise: Promised, what: string) => broken.push({ promise, what });
  if (year.doubled > 1) isBroken('one on its way', `${year.doubled} of one letter`);
  twice(year, isBroken);
  const { mails, reminders } = await rows(house, year);
  const byId = new Map(mails.map((mail) => [mail.mail_id, mail]));
  const aboutWhom = new Map<string, Mail[]>(year.lives.map((life) => [life.person.sittingId, []]));
  for (const mail of mails) aboutWhom.get(mail.about_id)?.push(mail);
  const idIn = (messageId: string) => messageId.slice(1, messageId.indexOf('@'));
  const tried = new Map(year.handed.map((one) => [idIn(one.messageId), one.at])); // the last of each
  const taken = year.handed.filter((one) => TAKEN.has(one.fate));
  for (const { person, happened } of year.lives) {
    const about = aboutWhom.get(person.sittingId) ?? [];
    letters(happened, about, (mail) => tried.get(mail.mail_id), isBroken, person.email);
    outcomes(happened, about, reminders.get(person.sittingId) ?? [], year.hours, isBroken, person.email);
  }
  const lives = new Map(year.lives.map((life) => [life.person.sittingId, life]));
  for (const { messageId, at, order } of taken) {
    const mail = byId.get(idIn(messageId));
    const life = mail && lives.get(mail.about_id);
    if (!mail || !life || mail.kind.startsWith('owner:')) continue;
    const zone =
      mail.leave_by && Temporal.Instant.compare(mail.leave_by, at) <= 0
        ? 'Europe/London'
        : life.person.home.zone;
    if (mail.kind.startsWith('reminder:') && isNight(at, zone))
      isBroken('not at night', `${mail.kind} to ${life.person.email} at ${at}, ${zone}`);
    const changes = life.happened.filter((one) => !one.failed && LETTER_OF[one.kind]);
    const later = changes.slice(mail.sequence).find((one) => one.order < order);
    if (later && isOfNoUse(mail, later))
      isBroken(
        'nothing after it went',
        `${mail.kind} ${mail.sequence} to ${life.person.email} at ${at}, ${later.kind} ${later.at}`,
      );
  }
  return broken;
}

/** Who is told that their day is called off has to know of the day: a move is told all the same, until there is another. */
const isOfNoUse = ({ kind }: Mail, later: Happened): boolean =>
  kind.startsWith('reminder:') || kind === 'confirmed' || (kind === 'moved' && later.kind !== 'call off');

const isNight = (at: Temporal.Instant, timeZone: string): boolean => {
  const hour = Number(
    new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', hourCycle: 'h23' }).format(
      at.epochMilliseconds,
    ),
  );
  return hour >= 21 || hour < 8;
};

/** The same words to the same person twice: under one Message-ID, and only where nobody heard the answer to the first. */
function twice({ handed, unheard }: Year, isBroken: (promise: Promised, what: string) => void): void {
  const same = new Map<string, Year['handed']>();
  for (const one of handed.filter(({ fate }) => TAKEN.has(fate))) {
    const text = /Content-Type: text\/plain[\s\S]*?\r\n\r\n([\s\S]*?)\r\n--/.exec(one.raw)?.[1] ?? one.raw;
    const key = `${one.to}\n${one.subject}\n${text}`;
    same.set(key, [...(same.get(key) ?? []), one]);
  }
  for (const copies of same.values()) {
    const [{ to = '', subject = '', messageId = '' } = {}] = copies;
    const ids = new Set(copies.map((one) => one.messageId));
    if (ids.size > 1) isBroken('twice only without an answer', `${subject} to ${to} under ${[...ids]}`);
    const answered = copies.slice(0, -1).filter((one) => one.fate === 'take').length;
    if (answered > unheard.filter((id) => id === messageId).length)
      isBroken(
        'twice only without an answer',
        `${subject} to ${to}: ${copies.map((one) => `${one.fate} ${one.at}`)}`,
      );
  }
}

/** Each change that was committed has its letter, and there is none of any other. */
function letters(
  happened: Happened[],
  about: Mail[],
  lastTried: (mail: Mail) => Temporal.Instant | undefined,
  isBroken: (promise: Promised, what: string) => void,
  who: string,
): void {
  const changes = happened.filter((one) => !one.failed && LETTER_OF[one.kind]);
  const toThem = about.filter(
    (mail) => !mail.kind.startsWith('owner:') && !mail.kind.startsWith('reminder:'),
  );
  const rest = new Set(toThem);
  changes.forEach((change, n) => {
    const mail = toThem.find((one) => one.sequence === n + 1 && isLetterOf(change, one, toThem, changes));
    if (mail) rest.delete(mail);
    const key = `${LETTER_OF[change.kind]} ${n + 1}`;
    const wentOn = changes.at(-1) !== change;
    const isTold = mail && (mail.state === 'sent' || mail.told_at !== null);
    // a yes that was over before it was told is told to nobody, and neither is a place that was left again
    if (!isTold && !wentOn && !(mail?.state === 'parked' && isOver(change, lastTried(mail))))
      isBroken('nothing missing', `${key} to ${who}: ${mail?.state ?? 'none'} ${mail?.last_error}`);
    // who is moved once more hears of that only; whose move is called off or given back has it written all the same
    if (change.kind === 'move' && wentOn && changes[n + 1]?.kind !== 'move' && !mail)
      isBroken('nothing missing', `${key} to ${who}: none`);
  });
  for (const { kind, sequence } of rest)
    isBroken('nothing of what was rolled back', `${kind} ${sequence} to ${who}`);
}

/** Refused for good once its hour was past: there was nobody left to tell. */
function isOver({ wall }: Happened, tried: Temporal.Instant | undefined): boolean {
  const end = wallToInstant('Europe/London', wall.add({ minutes: 75 }), 'earlier');
  return tried !== undefined && end.ok && Temporal.Instant.compare(end.instant, tried) <= 0;
}

/** Who never heard of a day is told of theirs as a yes; who heard of one, that it was moved, and from the one they heard of. */
function isLetterOf({ kind }: Happened, mail: Mail, toThem: Mail[], changes: Happened[]): boolean {
  if (kind !== 'move') return mail.kind === LETTER_OF[kind];
  const before = toThem.filter((one) => one.sequence < mail.sequence && /^(confirmed|moved)$/.test(one.kind));
  if (mail.kind === 'confirmed') return before.every((one) => one.state !== 'sent' && one.told_at === null);
  const heard = before.filter((one) => one.attempts > 0 || one.told_at !== null);
  const was = mail.was && Temporal.PlainDateTime.from(mail.was);
  return (
    mail.kind === 'moved' && heard.some(({ sequence }) => was && changes[sequence - 1]?.wall.equals(was))
  );
}

/** Each reminder of each place they had ended in one way. */
function outcomes(
  happened: Happened[],
  about: Mail[],
  reminders: z.output<typeof reminderRow>[],
  hours: number,
  isBroken: (promise: Promised, what: string) => void,
  who: string,
): void {
  const changes = happened.filter((one) => !one.failed && LETTER_OF[one.kind]);
  changes.forEach((change, n) => {
    if (change.kind === 'call off' || change.kind === 'give up') return;
    const next = changes[n + 1];
    // it went before anybody planned for it: who was to do so died, and was missed a look at the queue later
    const short = next && next.at.since(change.at).total('hours') < 3 * hours;
    for (const kind of ['week', 'near', 'eve', 'day']) {
      const ended = reminders.filter((one) => one.turn === n + 1 && one.kind === kind);
      if (ended.length !== 1 && !(short && ended.length === 0))
        isBroken('one outcome each', `${kind} of turn ${n + 1} of ${who}: ${ended.length}`);
    }
  });
  for (const one of reminders) {
    const mail = about.find((other) => other.mail_id === one.mail_id);
    const outcomes = [
      one.state === 'dropped' && one.reason !== '' && !mail,
      mail?.state === 'dropped' && mail.last_error !== '' && mail.told_at === null,
      mail?.state === 'sent' && mail.by_hand === '',
      mail !== undefined && mail.told_at !== null && (mail.by_hand !== '' || mail.state === 'parked'),
    ].filter(Boolean).length;
    if (outcomes !== 1)
      isBroken(
        'one outcome each',
        `${one.kind} of ${who}: ${one.state} ${one.reason} ${mail?.state} ${mail?.by_hand} ${mail?.told_at}`,
      );
  }
}

async function rows(house: TestHouse, { studio }: Year) {
  return house.db.inStudio(studio.id, async (tx) => {
    const mails = await tx.many(
      mailRow,
      `select mail_id, about_id, kind, sequence, state, attempts, by_hand, last_error, told_at, created_at, snapshot ->> 'leaveBy' as leave_by,
         snapshot ->> 'was' as was
       from mail where studio_id = $1`,
      [tx.studioId],
    );
    const all = await tx.many(
      reminderRow,
      'select sitting_id, turn, kind, state, reason, mail_id from reminder where studio_id = $1',
      [tx.studioId],
    );
    const reminders = new Map<string, typeof all>();
    for (const one of all) reminders.set(one.sitting_id, [...(reminders.get(one.sitting_id) ?? []), one]);
    return { mails, reminders };
  });
}
