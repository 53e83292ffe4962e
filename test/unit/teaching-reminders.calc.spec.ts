// Reminders of a teaching day: when, worked by hand over both changes of the clocks, and what is still open before it.
// When clocks change is in the IANA tz database: in Europe on 28 March and 31 October 2027 at 01:00 UTC.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import type { TeachingLetter } from '../../src/reminders/letters.schemas.js';
import { planReminders, type ReminderFacts, tellsOf } from '../../src/reminders/reminder-plan.calc.js';
import { DEFAULT_REMINDER_RULES, TELLS } from '../../src/reminders/reminder-rules.schemas.js';
import { teachingToSay } from '../../src/reminders/teaching-call-words.calc.js';
import { teachingLetterIn } from '../../src/reminders/teaching-letters.calc.js';
import { openPoints } from '../../src/reminders/teaching-missing.calc.js';

const near = {
  zone: 'Europe/London',
  km: 20,
  flies: false,
  abroad: false,
  staysANight: false,
  leaveBy: null,
};
const facts = (start: string, change: Partial<ReminderFacts> = {}): ReminderFacts => ({
  forDay: 'teaching',
  place: { zone: 'Europe/London', wallStart: Temporal.PlainDateTime.from(start) },
  since: Temporal.Instant.from('2026-11-26T10:00:00Z'),
  coming: near,
  ...change,
});
const told = (about: ReminderFacts) =>
  planReminders(DEFAULT_REMINDER_RULES, about).map(
    ({ kind, at, skip }) => `${kind} ${skip ?? at.toString()}`,
  );

describe('a teaching day', () => {
  it('is told of at the same hour of the clock on both sides of its change', () => {
    expect(told(facts('2027-03-31T10:00'))).toEqual([
      'week 2027-03-24T10:00:00Z', // ten is ten in UTC
      'near 2027-03-28T09:00:00Z', // the very day: clocks went forward at one
      'eve 2027-03-30T09:00:00Z',
      'day 2027-03-31T07:00:00Z',
    ]);
    expect(told(facts('2027-11-03T10:00'))).toEqual([
      'week 2027-10-27T09:00:00Z',
      'near 2027-10-31T10:00:00Z', // the very day: clocks went back at two
      'eve 2027-11-02T10:00:00Z',
      'day 2027-11-03T08:00:00Z',
    ]);
  });
  it('is told of on the clock at home, until they have left', () => {
    // New York is on summer time from 14 March 2027: ten there is 14:00 in UTC. They leave on Monday at 18:00 in UTC
    const leaveBy = Temporal.Instant.from('2027-03-29T18:00:00Z');
    const coming = {
      ...near,
      zone: 'America/New_York',
      km: 5300,
      flies: true,
      abroad: true,
      staysANight: true,
      leaveBy,
    };
    expect(told(facts('2027-03-31T10:00', { coming }))).toEqual([
      'travel 2026-12-31T15:00:00Z', // 90 days before, in winter
      'week 2027-03-24T14:00:00Z',
      'near with another', // on Sunday; the eve has moved to it, before they leave
      'eve 2027-03-28T14:00:00Z',
      'day 2027-03-31T07:00:00Z', // eight, on the studio’s clock
    ]);
  });
});

const student = (change: object = {}) => ({
  name: 'Linnea',
  gear: { Gloves: 'small' },
  emergency: { name: 'Una', telephone: '01632 960001' },
  safetyVersion: 2,
  ...change,
});
const view = (students: object[], change: object = {}) =>
  ({
    course: {
      reading: 'Chapter 3.',
      deposit: '60 pounds',
      gear: [
        { name: 'Gloves', sized: true },
        { name: 'Goggles', sized: false },
      ],
    },
    students,
    signUp: { deposit: 'due' },
    ...change,
  }) as never;

describe('what is still open', () => {
  it('is told of each, with who it is about', () => {
    const found = openPoints(
      view([
        student(),
        student({
          name: 'Corin',
          gear: { Gloves: ' ' },
          emergency: { name: '', telephone: '' },
          safetyVersion: 1,
        }),
      ]),
      { version: 2 },
      TELLS,
    );
    expect(found).toEqual([
      { tells: 'reading', names: [], what: 'Chapter 3.' },
      { tells: 'safety', names: ['Corin'], what: '' }, // they agreed to an older wording only
      { tells: 'emergency', names: ['Corin'], what: '' },
      { tells: 'gear', names: ['Corin'], what: 'Gloves' },
      { tells: 'deposit', names: [], what: '60 pounds' },
    ]);
  });
  it('is not told where the rule does not say so, or nothing is', () => {
    expect(openPoints(view([student({ safetyVersion: null })]), { version: 2 }, ['gear'])).toEqual([]);
    const course = { reading: '', deposit: '', gear: [] };
    expect(
      openPoints(
        view([student({ gear: {} })], { course, signUp: { deposit: 'received' } }),
        { version: 2 },
        TELLS,
      ),
    ).toEqual([]);
  });
  it('is told by the rules for them as they stand', () => {
    const about = facts('2027-03-31T10:00');
    expect(tellsOf(DEFAULT_REMINDER_RULES, 'eve', about)).toEqual(['reading', 'safety', 'emergency']);
    expect(tellsOf(DEFAULT_REMINDER_RULES, 'eve', { ...about, forDay: 'sitting' })).toEqual([]);
    const off = DEFAULT_REMINDER_RULES.map((one) => ({ ...one, on: one.kind !== 'eve' }));
    expect(tellsOf(off, 'eve', about)).toEqual([]);
  });
});

const letter: TeachingLetter = {
  studio: {
    slug: 'loft',
    name: 'Sandpiper Loft',
    address: 'Quay 1',
    email: '',
    telephone: '01632 960100',
    lat: 0,
    lon: 0,
  },
  contactName: 'Linnea Harrow',
  change: 'reminder: eve',
  course: 'First Plates',
  students: ['Linnea Harrow'],
  place: {
    ...{ uid: '00000000-0000-4000-8000-000000000001', sequence: 0, zone: 'Europe/London' },
    ...{ wallStart: '2027-04-07T10:00', wallEnd: '2027-04-07T16:00' },
    ...{ startsAt: '2027-04-07T09:00:00Z', endsAt: '2027-04-07T15:00:00Z' },
    ...{ revisedAt: '2026-11-26T10:00:00Z', createdAt: '2026-11-26T10:00:00Z' },
  },
  hadPlace: true,
  parts: [],
  wantedOn: null,
  message: '',
  passOn: '',
  openUntil: null,
  bring: '',
  wear: '',
  open: [{ tells: 'safety', names: ['Linnea Harrow'], what: '' }],
  leaveBy: '2027-04-07T07:15:00Z',
  homeZone: 'Europe/London',
  linkId: '00000000-0000-4000-8000-000000000002',
};

it('a letter says when to leave, what is still open, and how to give the place back', () => {
  const { subject, paragraphs, action } = teachingLetterIn(letter, 'https://x.example/page', false);
  expect(subject).toBe('See you at Sandpiper Loft on Wednesday 7 April 2027, 10:00');
  expect(paragraphs).toEqual([
    'Leave home by Wednesday 7 April 2027, 08:15 (your time, BST), to be here without haste.',
    'We begin together: First Plates, Wednesday 7 April 2027, 10:00.',
    'How we work safely is not agreed to yet by Linnea Harrow. Please read it and agree on your page: without it nobody stands at the bench.',
    expect.stringMatching(/^If you cannot come, please give the place back/),
  ]);
  expect(action?.url).toBe('https://x.example/page');
  expect(teachingToSay(letter)).toEqual([
    'See you: First Plates, Wednesday 7 April 2027, 10:00.',
    expect.stringContaining('Please read it and agree: without it'),
  ]);
});

it('a letter to the owner from before it was kept how they hear of it reads as it did', () => {
  const { paragraphs } = teachingLetterIn({ ...letter, change: 'released' }, 'https://x.example/page', true);
  expect(paragraphs).toEqual([
    'To Linnea Harrow we have written: Your place is given back. You are welcome to sign up again.',
  ]);
});
