// The order of the desk's front page: what is decided today, what is done this week, and what is not told at all.
import type { OutsideCalendar } from '../../src/outside/outside.schemas.js';
import { Temporal } from 'temporal-polyfill';
import { type InboxFacts, inboxOf, KINDS, type Line } from '../../src/desk/inbox.calc.js';
import type { FreedForWho } from '../../src/sittings/list.schemas.js';
import type { DueTask } from '../../src/stock/due.calc.js';
import type { Task } from '../../src/stock/preparation.calc.js';
import type { Offer } from '../../src/waiting/offers.schemas.js';
import type { TeachingToTell } from '../../src/reminders/teaching-calls.calc.js';
import type { DayView, DecisionDue, OwnView } from '../../src/teaching/day-views.schemas.js';
import type { ToTell } from '../../src/reminders/telephone.calc.js';
import type { MailRow } from '../../src/reminders/mail.schemas.js';
import { confirmed, day, view } from '../support/desk-props.js';

const now = Temporal.Instant.from('2026-11-25T10:00:00Z');
const NOTHING: InboxFacts = {
  ...{ now, today: day('2026-11-25'), telephone: [], offers: [], freed: [], requests: [], toMove: [] },
  ...{
    erasures: [],
    wishes: [],
    teachingCalls: [],
    teaching: { asked: [], toOffer: [], toMove: [], due: [] },
  },
  ...{ untold: [], owed: [], due: [], parked: [], unread: [], tasks: [] },
};
const inbox = (facts: Partial<InboxFacts>) => inboxOf({ ...NOTHING, ...facts });
const kinds = (facts: Partial<InboxFacts>) => {
  const { today, week } = inbox(facts);
  return { today: today.map(({ kind }) => kind), week: week.map(({ kind }) => kind) };
};

const asked = (id: string, at: string) =>
  view({ sitting: { id, askedAt: Temporal.Instant.from(`${at}T10:00:00Z`) } });
const telephone = (id: string, pressing: boolean) =>
  ({ now: pressing, mail: { mail_id: id }, view: view({ sitting: { id } }) }) as unknown as ToTell;
const offer = (id: string, until: string) => ({
  view: view(),
  offer: { id, forId: id, expiresAt: Temporal.Instant.from(until) } as Offer,
});
const freed = (start: string, byRule: boolean): FreedForWho => ({
  ...{ wallStart: Temporal.PlainDateTime.from(start), byRule, mode: 'automatic' },
  ...{ first: view(), others: 0 },
});
const learner = (id: string) =>
  ({ signUp: { id, askedAt: Temporal.Instant.from('2026-10-01T10:00:00Z') } }) as unknown as OwnView;
const call = (id: string, pressing: boolean) =>
  ({ now: pressing, mail: { mail_id: id }, view: learner(id) }) as unknown as TeachingToTell;
const teachingDay = (id: string) =>
  ({ session: { id }, place: { startsAt: Temporal.Instant.from('2027-04-07T10:00:00Z') } }) as DayView;
const decide = (id: string, by: string) =>
  ({ ...teachingDay(id), session: { id, decideOn: day(by) }, enough: false }) as DecisionDue;
const due = (key: string, by: string, alarm?: true): DueTask => ({
  ...{ key, by: day(by), what: key, why: '', path: '' },
  ...(alarm ? { alarm } : {}),
});
const task = (id: string, on: string, ahead: string, done = false) =>
  ({
    ...{ rule: { id }, ahead: { date: day(ahead) }, day: day(on), done },
    from: day(on).toPlainDateTime(),
  }) as Task;
const parked = (id: string) => ({ mail_id: id, created_at: now }) as MailRow;

const wish = (sittingId: string, at: string) => ({
  sittingId,
  words: 'One more plate.',
  askedAt: Temporal.Instant.from(at),
});

const names = (lines: Line[]) =>
  lines.map((line) => {
    if (line.kind === 'due') return line.one.key;
    if (line.kind === 'task') return line.one.rule.id;
    if (line.kind === 'offer') return line.one.offer.id;
    if (line.kind === 'telephone') return line.one.mail.mail_id;
    if (line.kind === 'request') return line.one.sitting.id;
    return line.kind;
  });
const all = (facts: Partial<InboxFacts>, part: 'today' | 'week') =>
  inbox(facts)[part].flatMap(({ first, rest }) => names([...first, ...rest]));

describe('the order of the front page', () => {
  it('is the same whatever comes in which order, and leaves out what there is none of', () => {
    const everything: Partial<InboxFacts> = {
      telephone: [telephone('t', true)],
      offers: [offer('o', '2026-11-26T10:00:00Z')],
      freed: [freed('2027-04-02T09:30', false)],
      requests: [asked('r', '2026-10-01')],
      wishes: [{ view: asked('a', '2026-10-01'), wish: wish('a', '2026-11-20T10:00:00Z') }],
      toMove: [{ view: confirmed('2026-12-04T11:15'), reason: 'closed' }],
      teachingCalls: [call('c', true)],
      teaching: {
        asked: [learner('a')],
        toOffer: [{ ...learner('l'), byRule: false, mode: 'propose' }],
        toMove: [{ day: teachingDay('m'), reason: 'closed' }],
        due: [decide('h', '2026-11-25')],
      },
      untold: [confirmed('2026-11-20T11:15')],
      owed: [asked('w', '2026-01-01')],
      due: [due('d', '2026-11-25')],
      tasks: [task('k', '2026-11-25', '2026-11-27')],
      erasures: [{ contactId: 'e', name: 'E', askedAt: now }],
      parked: [parked('p')],
      unread: [{ id: 'u', name: 'School', readAt: now } as unknown as OutsideCalendar],
    };
    expect(kinds(everything)).toEqual({
      today: KINDS.filter((kind) => kind !== 'parked' && kind !== 'unread'),
      week: ['parked', 'unread'],
    });
    const reversed = Object.fromEntries(Object.entries(everything).reverse());
    expect(kinds(reversed)).toEqual(kinds(everything));
    expect(kinds({})).toEqual({ today: [], week: [] });
  });

  it('asks whether a class is held in its week, and today from its date on', () => {
    const teaching = {
      ...{ asked: [], toOffer: [], toMove: [] },
      due: [decide('later', '2026-11-30'), decide('now', '2026-11-25'), decide('late', '2026-11-20')],
    };
    const ids = (part: 'today' | 'week') =>
      inbox({ teaching })[part].flatMap(({ first }) =>
        first.flatMap((line) => (line.kind === 'teaching-due' ? [line.one.session.id] : [])),
      );
    expect([ids('today'), ids('week')]).toEqual([['late', 'now'], ['later']]);
  });

  it('leaves what the rule passes on by itself out of what is decided today', () => {
    const teaching = {
      ...{ asked: [], toMove: [], due: [] },
      toOffer: [{ ...learner('l'), byRule: true, mode: 'automatic' as const }],
    };
    expect(kinds({ teaching, freed: [freed('2027-04-02T09:30', true)] })).toEqual({
      today: [],
      week: ['freed', 'teaching-offer'],
    });
  });

  it('puts the oldest request first, and the same first of two of one moment each time', () => {
    const requests = [asked('c', '2026-11-02'), asked('b', '2026-11-01'), asked('a', '2026-11-02')];
    expect(all({ requests }, 'today')).toEqual(['b', 'a', 'c']);
    expect(all({ requests: [...requests].reverse() }, 'today')).toEqual(['b', 'a', 'c']);
  });

  it('shows three of a kind, and loses none', () => {
    const requests = ['1', '2', '3', '4', '5'].map((id) => asked(id, `2026-11-0${id}`));
    const [group] = inbox({ requests }).today;
    expect([group?.first.length, group?.rest.length]).toEqual([3, 2]);
    expect(all({ requests }, 'today')).toEqual(['1', '2', '3', '4', '5']);
  });
});

describe('what is told today', () => {
  it('is an offer in its last two days, not one that has run out or has longer', () => {
    const offers = [
      offer('over', '2026-11-25T10:00:00Z'),
      offer('just', '2026-11-25T10:00:01Z'),
      offer('two days', '2026-11-27T10:00:00Z'),
      offer('longer', '2026-11-27T10:00:01Z'),
    ];
    expect(all({ offers }, 'today')).toEqual(['just', 'two days']);
    expect(all({ offers }, 'week')).toEqual([]);
  });

  it('is told once for somebody who is to be telephoned about their offer', () => {
    const offers = [offer('rung', '2026-11-26T10:00:00Z'), offer('mailed', '2026-11-26T10:00:00Z')];
    expect(all({ offers, telephone: [telephone('rung', true)] }, 'today')).toEqual(['rung', 'mailed']);
  });

  it('is who is to be telephoned now; the others are of this week, in their own order', () => {
    const list = [telephone('b', true), telephone('a', true), telephone('z', false), telephone('y', false)];
    expect(all({ telephone: list }, 'today')).toEqual(['b', 'a']);
    expect(all({ telephone: list }, 'week')).toEqual(['z', 'y']);
  });

  it('is what of the shelf is late, due today, or cannot be held; within a week it is of this week', () => {
    const list = [
      due('late', '2026-11-24'),
      due('today', '2026-11-25'),
      due('tomorrow', '2026-11-26'),
      due('in a week', '2026-12-02'),
      due('later', '2026-12-03'),
      due('alarm', '2027-05-14', true),
    ];
    expect(all({ due: list }, 'today')).toEqual(['late', 'today', 'alarm']);
    expect(all({ due: list }, 'week')).toEqual(['tomorrow', 'in a week']);
  });

  it('is the first day only of several that cannot be held for one reason', () => {
    const list = [due('no-bath', '2027-05-21', true), due('no-bath', '2027-05-14', true)];
    const [group] = inbox({ due: list }).today;
    expect(group?.first).toHaveLength(1);
    expect(group?.first[0]).toMatchObject({ one: { by: day('2027-05-14') } });
  });
});

describe('preparation', () => {
  it('is what is left for the next day with people, late or today first', () => {
    const tasks = [
      task('past day', '2026-11-19', '2026-11-20'),
      task('late', '2026-11-24', '2026-11-27'),
      task('done', '2026-11-24', '2026-11-27', true),
      task('tomorrow', '2026-11-26', '2026-11-27'),
      task('the day after', '2026-11-26', '2026-12-04'),
    ];
    expect(all({ tasks }, 'today')).toEqual(['late']);
    expect(all({ tasks }, 'week')).toEqual(['tomorrow']);
  });

  it('is quiet while the next day with people is far', () => {
    expect(kinds({ tasks: [task('far', '2027-02-01', '2027-02-05')] })).toEqual({ today: [], week: [] });
  });
});
