// Whose time is over by the rules of keeping, and what a tag or a name means. Worked by hand.
import { Temporal } from 'temporal-polyfill';
import { type Asked, erasedFrom } from '../../src/privacy/keeping.calc.js';
import { needlesOf, tagOf } from '../../src/privacy/tags.calc.js';

const RULES = { unansweredDays: 30, refusedDays: 90, madeMonths: 24, lettersDays: 30 };
const asked = (how: Asked['how'], on: string): Asked => ({
  how,
  since: Temporal.Instant.from(`${on}T10:00Z`),
});
const from = (all: Asked[], rules = {}) => erasedFrom(all, { ...RULES, ...rules })?.toString() ?? null;

describe('the time of somebody', () => {
  it.each([
    ['unanswered', '2026-12-01', '2026-12-31T10:00:00Z'],
    ['refused', '2026-12-01', '2027-03-01T10:00:00Z'],
    ['made', '2024-02-29', '2026-02-28T10:00:00Z'],
  ] as const)('is over after what was %s on %s', (how, on, over) => {
    expect(from([asked(how, on)])).toBe(over);
  });
  it('is over with the latest of all that they asked for', () => {
    expect(from([asked('made', '2026-01-01'), asked('unanswered', '2026-12-01')])).toBe(
      '2028-01-01T10:00:00Z',
    );
  });
  it('is not over while one thing is open, a rule says never, or nothing is known', () => {
    expect(from([asked('open', '2020-01-01'), asked('refused', '2020-01-01')])).toBeNull();
    expect(
      from([asked('made', '2020-01-01'), asked('refused', '2020-01-01')], { madeMonths: null }),
    ).toBeNull();
    expect(from([])).toBeNull();
  });
});

it('a tag is one of those that are written down, or none', () => {
  expect(tagOf('plain')).toEqual({ of: 'plain' });
  expect(tagOf('personal: emptied, guarded')).toEqual({
    ...{ of: 'person', done: 'emptied', guarded: true, ofAnother: false },
  });
  for (const wrong of ['', 'Plain', 'personal', 'personal: lost', 'personal: row, hidden'])
    expect(tagOf(wrong)).toBeNull();
});

it('one word is no name to be looked for, and nothing is looked for twice', () => {
  const person = {
    names: ['Rose', ' Rose Amber ', 'Rose Amber', 'erased'],
    reached: ['', '999', 'rose@post.example'],
  };
  expect(needlesOf(person)).toEqual(['rose@post.example', 'Rose Amber']);
});
