// What people who learn take: tries by experience, sums, and which bottle is poured.
import { describe, expect, it } from '@jest/globals';
import { attemptsFor } from '../../src/chemistry/attempts.calc.js';
import { FIGURES } from '../../src/chemistry/estimate.calc.js';
import { ownFigures } from '../../src/chemistry/learning.calc.js';
import { SOLUTION_KINDS } from '../../src/chemistry/use-per-area.calc.js';
import { withExtras, type Item, type NewItem } from '../../src/stock/stock.schemas.js';
import { course } from '../../src/teaching/course.schemas.js';
import {
  bottleOf,
  demonstrationEstimate,
  isCyanide,
  type ShelfFacts,
  studentEstimate,
  studentNeeds,
  sumOf,
  triesOf,
} from '../../src/teaching/estimate.calc.js';

const HALF = '00000000-0000-4000-8000-00000000000a';
const WHOLE = '00000000-0000-4000-8000-00000000000b';
const item = (id: string, one: Partial<NewItem> & Pick<NewItem, 'kind' | 'name'>): Item => ({
  id,
  ...withExtras({ unit: 'uL', plateSizeId: null, leadDays: null, ripenDays: null, lifeDays: null, ...one }),
});
const items = [
  item('glass', { kind: 'glass', name: 'Half', unit: 'sheet', plateSizeId: HALF }),
  item('collodion', { kind: 'collodion', name: 'Collodion' }),
  item('developer', { kind: 'developer', name: 'Developer' }),
  item('cyanide', { kind: 'fixer', name: 'Fixer C', substance: 'potassium cyanide', usual: true }),
  item('hypo', { kind: 'fixer', name: 'Hypo' }),
  item('varnish', { kind: 'varnish', name: 'Varnish' }),
  item('cotton', { kind: 'supply', name: 'Cotton', unit: 'piece' }),
  item('goggles', { kind: 'gear', name: 'Goggles', unit: 'piece' }),
];
const facts: ShelfFacts = {
  sizes: [
    { id: HALF, name: 'Half', widthMm: 165.1, heightMm: 120.65, offered: true, position: 1 },
    { id: WHOLE, name: 'Whole', widthMm: 215.9, heightMm: 165.1, offered: true, position: 2 },
  ],
  items,
  figures: ownFigures([]),
  choice: 'ninety',
};
const day = (change: object = {}) =>
  course.parse({
    name: 'First Plates',
    parts: [{ title: 'All day', minutes: 360, where: 'studio' }],
    plates: [{ plateSizeId: HALF, count: 3 }],
    leastAge: 16,
    most: 6,
    decideDays: 21,
    ...change,
  });
const beginner = { experience: 'none', plateSizeId: null } as const;

describe('tries of people who learn', () => {
  const { attempts } = facts.figures;

  it('fall with experience: beginners 55, some 62.5, practised 70 of a hundred kept', () => {
    const shares = (['none', 'some', 'practised'] as const).map(
      (one) => triesOf(one, attempts, null).keeperShare,
    );
    expect(shares).toEqual([0.55, 0.625, 0.7]);
  });

  it('go by the course where it says so, and practice never makes it worse', () => {
    expect(triesOf('none', attempts, 0.4).keeperShare).toBe(0.4);
    expect(triesOf('practised', attempts, 0.9).keeperShare).toBe(0.9);
  });

  it('of three plates are five likely and eight in nine cases of ten', () => {
    // negative binomial, 3 keepers at 0.55: P(failures <= 2) = 0.593, <= 1 = 0.391; <= 5 = 0.912, <= 4 = 0.847
    const rule = triesOf('none', attempts, null);
    expect([attemptsFor(3, rule, 0.5), attemptsFor(3, rule, 0.9)]).toEqual([5, 8]);
    expect(studentEstimate(day(), beginner, facts).glass[0]?.sheets).toMatchObject({
      likely: 5n,
      ninety: 8n,
    });
  });
});

describe('a day', () => {
  it('is the sum of its students and of the demonstration, figure by figure', () => {
    const taught = day({ demonstration: [{ plateSizeId: WHOLE, count: 1 }] });
    const all = [
      studentEstimate(taught, beginner, facts),
      studentEstimate(taught, { experience: 'some', plateSizeId: WHOLE }, facts),
      demonstrationEstimate(taught, facts),
    ];
    const sum = sumOf(all);
    for (const kind of SOLUTION_KINDS)
      for (const figure of FIGURES)
        expect(sum.solutions[kind][figure]).toBe(
          all.reduce((of, one) => of + one.solutions[kind][figure], 0n),
        );
    expect(sum.glass.map(({ sizeId, keepers }) => [sizeId, keepers])).toEqual([
      [HALF, 3],
      [WHOLE, 4],
    ]);
    expect(sumOf([]).silverNitrate.total.likely).toBe(0n);
  });

  it('pours nothing of what it leaves out', () => {
    const unvarnished = day({ uses: { varnish: 'none' } });
    expect(studentEstimate(unvarnished, beginner, facts).solutions.varnish.high).toBe(0n);
    expect(studentNeeds(unvarnished, beginner, facts).map(({ itemId }) => itemId)).not.toContain('varnish');
  });
});

describe('what is set aside for a student', () => {
  it('is glass and solutions by the studio’s choice, old collodion, and supplies that are used up', () => {
    const gear = [
      { name: 'Cotton', each: 4, itemId: null },
      { name: 'Goggles', each: 1, itemId: null },
    ];
    const taught = {
      ...day({ gear }),
      gear: gear.map((one, at) => ({ ...one, sized: false, itemId: at === 0 ? 'cotton' : 'goggles' })),
    };
    const needs = studentNeeds(taught, beginner, facts);
    const { solutions } = studentEstimate(taught, beginner, facts);
    expect(needs).toEqual([
      { itemId: 'glass', quantity: 8n },
      { itemId: 'collodion', quantity: solutions.collodion.ninety, class: 'old' },
      { itemId: 'developer', quantity: solutions.developer.ninety },
      { itemId: 'hypo', quantity: solutions.fixer.ninety },
      { itemId: 'varnish', quantity: solutions.varnish.ninety },
      { itemId: 'cotton', quantity: 4n },
    ]);
  });

  it('is never cyanide unless the course names it', () => {
    expect(bottleOf('fixer', day(), items)?.id).toBe('hypo');
    const id = '00000000-0000-4000-8000-0000000000cc';
    const named = item(id, { kind: 'fixer', name: 'Fixer C', hCodes: ['H300', 'EUH032'] });
    expect(bottleOf('fixer', day({ uses: { fixer: id } }), [...items, named])?.id).toBe(id);
    expect(isCyanide(named)).toBe(true);
  });
});
