// Whom to telephone, from letters that mail does not bring: what is left out as out of date, what comes first, and
// the two lines to be said.
import { Temporal } from 'temporal-polyfill';
import {
  isAboutSitting,
  LETTER_KINDS,
  type LetterKind,
  type SittingLetter,
} from '../../src/reminders/letters.schemas.js';
import type { MailRow } from '../../src/reminders/mail.schemas.js';
import { toTell } from '../../src/reminders/telephone.calc.js';
import { toSay, wasToSay } from '../../src/reminders/telephone-words.calc.js';
import type { SittingView } from '../../src/sittings/sittings.schemas.js';
import { confirmed, view } from '../support/desk-props.js';

const now = Temporal.Instant.from('2027-03-01T10:00:00Z');
const UUID = '11111111-1111-4111-8111-111111111111';

function about(change: Partial<SittingLetter> & { start?: string } = {}): SittingLetter {
  const { start = '2027-05-14T11:15', ...more } = change;
  const end = Temporal.PlainDateTime.from(start).add({ minutes: 75 }).toString();
  const at = (wall: string) => Temporal.PlainDateTime.from(wall).toString({ smallestUnit: 'second' });
  return {
    studio: { slug: 's', name: 'Sandpiper Loft', address: '', email: '', telephone: '', lat: 54, lon: 0 },
    contactName: 'Linnea Harrow',
    owedSince: null,
    ...{ sitters: ['Linnea Harrow'], plates: [], days: 'any day in May 2027', message: '', passOn: 'x' },
    place: {
      ...{ uid: UUID, sequence: 0, zone: 'Europe/London', wallStart: at(start), wallEnd: at(end) },
      ...{ startsAt: `${at(start)}Z`, endsAt: `${at(end)}Z`, revisedAt: `${now}`, createdAt: `${now}` },
    },
    ...{ openUntil: null, was: null, leaveBy: null, homeZone: null, linkId: UUID },
    ...more,
  };
}

let mails = 0;
const mail = (kind: LetterKind, change: Partial<MailRow> = {}, letter = about()): MailRow =>
  ({
    mail_id: `mail-${String(++mails).padStart(4, '0')}`,
    about_id: UUID,
    sequence: 1,
    kind,
    snapshot: letter,
    state: 'sent',
    by_hand: 'telephone',
    telephone_now: false,
    created_at: now,
    ...change,
  }) as MailRow;

const places = (one: SittingView, change: Partial<SittingView['sitting']> = {}): SittingView => ({
  ...one,
  sitting: { ...one.sitting, turns: 1, ...change },
});
const told = (all: MailRow[], one: SittingView, newest = 1) =>
  toTell(all, new Map([[UUID, one]]), new Map([[UUID, newest]]), now);
const kinds = (all: MailRow[], one: SittingView, newest = 1) =>
  told(all, one, newest).map(({ kind }) => kind);

const stands = places(confirmed('2027-05-14T11:15'));

describe('who stands on the list', () => {
  it('is one a sitting: the newest is said, and what was not told before goes with it', () => {
    const [entry, ...others] = told(
      [mail('confirmed', { sequence: 2 }), mail('asked', { sequence: 0 })],
      stands,
      2,
    );
    expect(others).toEqual([]);
    expect([entry?.kind, entry?.before.map(({ kind }) => kind)]).toEqual(['confirmed', ['asked']]);
  });

  it('is nobody about a place given back meanwhile, an offer that is over, or a day that is past', () => {
    expect(kinds([mail('confirmed')], view({ sitting: { state: 'released' } }))).toEqual([]);
    const open = about({ openUntil: '2027-03-05T10:00:00Z' });
    const offered = places(stands, { state: 'offered' });
    expect(kinds([mail('offered', {}, open)], offered)).toEqual(['offered']);
    expect(kinds([mail('offered', {}, open)], places(stands, { state: 'offered', turns: 3 }))).toEqual([]);
    const over = about({ openUntil: '2027-03-01T10:00:00Z' });
    expect(kinds([mail('offered', {}, over)], offered)).toEqual([]);
    const past = places(confirmed('2027-02-26T11:15'));
    expect(kinds([mail('confirmed', {}, about({ start: '2027-02-26T11:15' }))], past)).toEqual([]);
  });

  it('is who was called off, also when the day is past: they have not been told', () => {
    const off = view({ sitting: { state: 'waiting', turns: 1 } });
    expect(kinds([mail('called off', {}, about({ start: '2027-02-26T11:15' }))], off)).toEqual([
      'called off',
    ]);
  });

  it('is who has e-mail only while the pressing letter is the newest', () => {
    const pressing = { by_hand: '', telephone_now: true } as const;
    expect(kinds([mail('moved', pressing)], stands, 1)).toEqual(['moved']);
    expect(kinds([mail('moved', pressing)], stands, 2)).toEqual([]);
    expect(told([mail('moved', pressing)], stands)[0]).toMatchObject({ why: 'too near', now: true });
  });

  it('is written to only where there is no number to ring', () => {
    const by = (contact: Partial<SittingView['contact']>) =>
      told([mail('confirmed')], { ...stands, contact: { ...stands.contact, ...contact } })[0]?.way;
    expect(by({ reachBy: 'letter', postalAddress: '4 Chandlery Row' })).toBe('letter');
    expect(by({ reachBy: 'telephone', telephone: '1', postalAddress: '4 Chandlery Row' })).toBe('telephone');
    expect(by({ reachBy: 'email', telephone: '', postalAddress: '4 Chandlery Row' })).toBe('letter');
    expect(by({ reachBy: 'email', telephone: '' })).toBe('telephone');
  });
});

describe('what is to be done at once', () => {
  const isNow = (one: MailRow, standing = stands) => told([one], standing)[0]?.now;

  it('is an offer in its last two days', () => {
    const offered = places(stands, { state: 'offered' });
    const until = (openUntil: string) => isNow(mail('offered', {}, about({ openUntil })), offered);
    expect([until('2027-03-03T10:00:00Z'), until('2027-03-03T10:00:01Z')]).toEqual([true, false]);
  });

  it('is a place within a week, or one that goes from within a week', () => {
    expect(isNow(mail('confirmed', {}, about({ start: '2027-03-05T11:15' })))).toBe(true);
    expect(isNow(mail('confirmed', {}, about({ start: '2027-03-12T11:15' })))).toBe(false);
    expect(isNow(mail('moved', {}, about({ was: '2027-03-05T11:15' })))).toBe(true);
    expect(isNow(mail('moved', {}, about({ was: '2027-03-12T11:15' })))).toBe(false);
  });

  it('comes before the others', () => {
    const near = { ...stands, sitting: { ...stands.sitting, id: 'near' } };
    const views = new Map([
      [UUID, stands],
      ['near', near],
    ]);
    const all = [
      mail('confirmed'),
      mail('confirmed', { about_id: 'near' }, about({ start: '2027-03-05T11:15' })),
    ];
    expect(toTell(all, views, new Map(), now).map((one) => one.view.sitting.id)).toEqual(['near', UUID]);
  });
});

describe('what is said', () => {
  it('has two lines for every kind that goes to them, without anything only mail can do', () => {
    const said = about({ was: '2027-03-05T11:15', openUntil: '2027-03-03T18:00:00Z', message: 'A storm.' });
    for (const kind of LETTER_KINDS) {
      if (!isAboutSitting(kind) || kind.startsWith('owner:')) continue;
      const [first, second] = toSay(kind, said);
      expect([kind, first.length > 20, second.length > 5]).toEqual([kind, true, true]);
      expect(`${first} ${second}`).not.toMatch(/attached|your page|one tap|undefined|null/i);
    }
  });

  it('names the day that goes and the day that comes, with the owner’s own words', () => {
    const moved = about({ was: '2027-03-05T11:15', message: 'A storm is on its way.' });
    expect(toSay('moved', moved)[0]).toBe(
      'Friday 5 March 2027, 11:15 cannot be held. Your place is now Friday 14 May 2027, 11:15. A storm is on its way.',
    );
    expect(wasToSay(mail('asked'))).toBe('Your request has reached us.');
  });

  it('is said to them, also by when to leave home; and until when an offer is held', () => {
    const far = about({ leaveBy: '2027-05-14T05:30:00Z', homeZone: 'Europe/Paris' });
    const leave = 'Leave home by Friday 14 May 2027, 07:30 (your time, CEST), to be here without haste.';
    expect(toSay('reminder: eve', far)[0]).toBe(`We see you on Friday 14 May 2027, 11:15. ${leave}`);
    expect(toSay('reminder: day', far)[0]).toBe(`Today: Friday 14 May 2027, 11:15. ${leave}`);
    expect(toSay('reminder: day', about())[0]).toBe('Today: Friday 14 May 2027, 11:15.');
    const held = (openUntil: string | null) => toSay('offered', about({ openUntil }))[1];
    expect(held('2027-05-03T18:00:00Z')).toBe(
      'Do you take it? It is held for you until Monday 3 May 2027, 19:00.',
    );
    expect(held(null)).toBe('Do you take it? It is held for you until we hear from you.');
  });
});
