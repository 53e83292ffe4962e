// Every kind of letter there is, sent as files, and read back as the mail program of its reader has it.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ParsedMail, simpleParser } from 'mailparser';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { InvitationsService } from '../../src/accounts/invitations.service.js';
import { NewsService } from '../../src/desk/news.service.js';
import { ReminderRulesService } from '../../src/reminders/reminder-rules.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import type { TestHouse } from './house.js';
import { letterActs, REACH, REMIND_ALL, remindedAt, TO_THEM } from './letter-acts.js';
import { readable } from './page-forms.js';
import { approve, askForSitting, openStarts, type TestStudio } from './studio.js';
import { TEACHING_CHANGES, teachingLetterActs } from './teaching-letter-acts.js';

/** As much on the shelf as all of them need. */
export const ENOUGH = {
  wholeGlass: 900n,
  halfGlass: 5_000n,
  collodion: 90_000_000_000n,
  developer: 90_000_000_000n,
  fixer: 90_000_000_000n,
  varnish: 90_000_000_000n,
};

const isReminder = (kind: string) => kind.startsWith('reminder: ');

/** Does what ends in each kind of letter, to people with e-mail and to one without. Afterwards it is `now` again. */
export async function sendEveryKind(house: TestHouse, studio: TestStudio): Promise<void> {
  const now = house.clock.now().toString();
  const beforeWork = () => undefined;
  const workAt = async (at: string) => {
    house.clock.set(at);
    await house.work();
  };
  const fridays = await openStarts(house, studio, { from: '2027-03-05', until: '2027-10-29' });
  const wall = () => Temporal.PlainDateTime.from(fridays.shift() ?? '');
  const suits = { kind: 'any', from: '2026-11-28', until: '2027-10-31' } as const;
  const person = (name: string, reach: object = { email: `${name.replace(/\W+/g, '.')}@post.example` }) =>
    askForSitting(house, studio, { name, suits, ...reach });
  const acts = letterActs(house, studio, { wall, now, beforeWork });
  for (const kind of TO_THEM) if (!isReminder(kind)) await acts[kind]?.(await person(kind));
  await acts.confirmed?.(await person('passed on', REACH.telephone));
  const near = Temporal.PlainDateTime.from('2026-12-04T11:15');
  const { sittingId } = await person('to be rung', { email: 'rung@post.example', telephone: '01632 960777' });
  await house.app.get(OffersService).make(studio.id, studio.owner, sittingId, near);
  await house.work();

  let monday = Temporal.PlainDateTime.from('2027-03-01T10:00');
  const start = () => {
    monday = monday.add({ days: 7 });
    return monday.toString({ smallestUnit: 'minute' });
  };
  const teaching = teachingLetterActs(house, studio, { start, now, beforeWork });
  for (const change of TEACHING_CHANGES)
    if (!isReminder(change))
      await teaching[change]({ email: `learns.${change.replace(/\W+/g, '.')}@post.example` });

  await house.app.get(ReminderRulesService).saveRules(studio.id, studio.owner, REMIND_ALL);
  const reminded = await person('reminded');
  const friday = wall();
  await approve(house, studio, reminded.sittingId, friday.toString());
  await teaching.signed({ email: 'learns.reminded@post.example' });
  await house.work();
  for (const days of [21, 7, 3, 1, 0]) await workAt(remindedAt(friday, days));
  for (const days of [21, 7, 3, 1, 0]) await workAt(remindedAt(monday, days));

  house.clock.set('2027-03-05T07:00:00Z');
  await house.app.get(NewsService).write(studio.id, '2027-03-05');
  await house.work();
  house.clock.set(now);
  await house.app.get(AccountsService).askForLink(studio.id, studio.owner.email);
  const colleague = { name: 'Perpetua Nairn', email: 'perpetua@post.example' };
  await house.app.get(InvitationsService).invite(studio.id, studio.owner, colleague);
  await house.work();
}

export interface ReadLetter {
  kind: string;
  to: string;
  subject: string;
  /** The addresses in it, by where they stand. */
  links: { text: string[]; html: string[]; stops: string[]; calendar: string[] };
  /** The calendar files that came with it, unfolded. */
  calendars: string[];
}

/** The letters of a folder, each as mailparser has it and with the kind that its row has. */
export async function readLetters(house: TestHouse, studioId: string, folder: string): Promise<ReadLetter[]> {
  const rows = await house.db.inStudio(studioId, (tx) =>
    tx.many(z.object({ kind: z.string(), message_id: z.string() }), 'select kind, message_id from mail'),
  );
  const kinds = new Map(rows.map(({ kind, message_id }) => [message_id, kind]));
  const letters: ReadLetter[] = [];
  for (const file of readdirSync(folder)) {
    const mail = await simpleParser(readFileSync(join(folder, file)));
    const kind = kinds.get(mail.messageId ?? '');
    if (kind === undefined) throw new Error(`${file} has no row.`);
    const to = [mail.to ?? []].flat()[0]?.value[0]?.address ?? '';
    const calendars = mail.attachments.map(({ content }) => content.toString().replace(/\r\n[ \t]/g, ''));
    letters.push({ kind, to, subject: mail.subject ?? '', links: linksOf(mail, calendars), calendars });
  }
  const order = ({ kind, to, subject }: ReadLetter) => `${kind} ${to} ${subject}`;
  return letters.sort((a, b) => (order(a) < order(b) ? -1 : 1));
}

const ADDRESS = /\b(?:https?|webcal):\/\/[^\s<>"\\]+/g;
const addressesIn = (text: string) => [...new Set(text.match(ADDRESS) ?? [])];

function linksOf(mail: ParsedMail, calendars: string[]): ReadLetter['links'] {
  const { unsubscribe } = (mail.headers.get('list') ?? {}) as { unsubscribe?: { url?: string } };
  return {
    text: addressesIn(mail.text ?? ''),
    // wherever it stands in the markup: a scanner does not ask whether it is shown
    html: addressesIn(readable(mail.html || '')),
    stops: unsubscribe?.url ? [unsubscribe.url] : [],
    calendar: [...new Set(calendars.flatMap(addressesIn))],
  };
}

export const allLinks = (letters: ReadLetter[]): string[] => [
  ...new Set(letters.flatMap(({ links }) => Object.values(links).flat())),
];
