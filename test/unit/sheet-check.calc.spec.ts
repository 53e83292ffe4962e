// When the sheet of a teaching day may not be printed: each case beside its mended twin.
import { propertiesOf } from '../../src/chemistry/incompatible.calc.js';
import { NO_BRIEFING } from '../../src/teaching/briefing.schemas.js';
import type { Course, Where, Work } from '../../src/teaching/course.schemas.js';
import { type Missing, missingFor, type SheetFacts } from '../../src/teaching/sheet-check.calc.js';

const kept = (kind: string, substance: string | null = null) => ({
  name: kind,
  has: propertiesOf({ kind, substance, hCodes: [] }),
});
const HYPO = [
  kept('collodion'),
  kept('developer'),
  kept('fixer', 'sodium thiosulfate pentahydrate'),
  kept('bath'),
];
const CYANIDE = [...HYPO, kept('fixer', 'potassium cyanide')];
const FILLED = {
  emergencyNumber: '999',
  hospital: 'Whitby',
  eyewash: 'By the sink',
  teacher: 'Wren Calder',
  youngest: 31,
};
const part = (where: Where, minutes: number, ...work: Work[]): Course['parts'][number] => ({
  title: where,
  minutes,
  where,
  together: false,
  work,
});
const facts = (change: Partial<SheetFacts> = {}): SheetFacts => ({
  bench: HYPO,
  briefing: FILLED,
  secondAdult: 'Tobias Pike',
  leastAge: 16,
  parts: [part('table', 30), part('darkroom', 120, 'ether')],
  students: [{ name: 'Ada', safetyVersion: 2 }],
  safety: { version: 2 },
  ...change,
});
const reasons = (change: Partial<SheetFacts>): string[] =>
  missingFor(facts(change)).map(({ reason }) => reason);

describe('the sheet of a day without cyanide', () => {
  it('prints with what is blank to be written in by hand, and whatever the age above the least', () => {
    expect(missingFor(facts({ briefing: NO_BRIEFING, secondAdult: '' }))).toEqual([]);
    expect(missingFor(facts({ briefing: { ...FILLED, youngest: 16 } }))).toEqual([]);
  });

  it('is refused for somebody under the least age, cyanide or not', () => {
    expect(missingFor(facts({ briefing: { ...FILLED, youngest: 15 } }))).toEqual([
      { reason: 'under the least age', youngest: 15, leastAge: 16 },
    ]);
  });
});

describe('with cyanide on the bench', () => {
  it('prints once everything is filled in', () => {
    expect(missingFor(facts({ bench: CYANIDE }))).toEqual([]);
  });

  it.each(['emergencyNumber', 'hospital', 'eyewash', 'teacher'] as const)(
    'is refused while %s is blank',
    (what) => {
      const briefing = { ...FILLED, [what]: '  ' };
      expect(missingFor(facts({ bench: CYANIDE, briefing }))).toEqual([{ reason: 'blank', what }]);
    },
  );

  it('is refused without a second trained adult, or with the teacher as both', () => {
    expect(missingFor(facts({ bench: CYANIDE, secondAdult: '' }))).toEqual([
      { reason: 'blank', what: 'secondAdult' },
    ]);
    expect(reasons({ bench: CYANIDE, secondAdult: ' wren  CALDER' })).toEqual(['one name twice']);
  });

  it('is refused for anybody under 18, and while nobody said how old the youngest is', () => {
    const with_ = (youngest: number | null) =>
      missingFor(facts({ bench: CYANIDE, briefing: { ...FILLED, youngest } }));
    expect(with_(17)).toEqual([{ reason: 'under 18 with cyanide', youngest: 17 }]);
    expect(with_(18)).toEqual([]);
    expect(with_(null)).toEqual([{ reason: 'age not said' }]);
  });

  it.each([
    ['by its substance', kept('fixer', 'potassium cyanide')],
    [
      'by what it is mixed from',
      {
        name: 'Jar',
        has: propertiesOf({
          kind: 'fixer',
          substance: null,
          mixedFrom: ['distilled water', 'potassium cyanide'],
          hCodes: [],
        }),
      },
    ],
    [
      'by its label',
      { name: 'Tin', has: propertiesOf({ kind: 'chemical', substance: null, hCodes: ['EUH032'] }) },
    ],
  ] as const)('is known %s', (_, thing) => {
    expect(reasons({ bench: [...HYPO, thing], briefing: NO_BRIEFING, secondAdult: '' })).toHaveLength(6);
  });
});

it('names who has not agreed to the wording that holds now', () => {
  const students = [
    { name: 'Ada', safetyVersion: 1 },
    { name: 'Bo', safetyVersion: null },
    { name: 'Cy', safetyVersion: 2 },
  ];
  expect(missingFor(facts({ students }))).toEqual([{ reason: 'not agreed', names: ['Ada', 'Bo'] }]);
  expect(missingFor(facts({ students: students.slice(2) }))).toEqual([]);
});

describe('vapour and fire', () => {
  const told = (...parts: Course['parts']): Missing[] => missingFor(facts({ parts }));

  it.each(['flame', 'heater'] as const)('never share a part of the day: %s', (fire) => {
    expect(told(part('studio', 60, 'mixing', fire))).toEqual([
      { reason: 'fire near vapour', fire: { part: 0, work: fire }, vapour: { part: 0, work: 'mixing' } },
    ]);
    expect(told(part('studio', 60, 'mixing'), part('outside', 60, fire))).toEqual([]);
  });

  it('are an hour apart in one room, whichever comes first', () => {
    const near = [part('darkroom', 90, 'ether'), part('table', 59), part('darkroom', 30, 'flame')];
    const apart = near.map((one, at) => (at === 1 ? { ...one, minutes: 60 } : one));
    expect(told(...near)).toEqual([
      { reason: 'fire near vapour', fire: { part: 2, work: 'flame' }, vapour: { part: 0, work: 'ether' } },
    ]);
    expect(told(...apart)).toEqual([]);
    expect(told(...[...near].reverse())).toHaveLength(1);
    expect(told(...[...apart].reverse())).toEqual([]);
  });

  it('share the room of the studio and its table, and not the darkroom with it', () => {
    expect(told(part('studio', 60, 'ether'), part('table', 60, 'heater'))).toHaveLength(1);
    expect(told(part('darkroom', 60, 'ether'), part('table', 60, 'heater'))).toEqual([]);
  });

  it('must be told of both: a flame on a day of collodion with nobody saying when that is open', () => {
    expect(told(part('studio', 60), part('outside', 60, 'flame'))).toEqual([
      { reason: 'vapour not said', fire: { part: 1, work: 'flame' } },
    ]);
    expect(missingFor(facts({ bench: [], parts: [part('outside', 60, 'flame')] }))).toEqual([]);
  });
});
