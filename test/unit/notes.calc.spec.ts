// Written notes put together like with like, and what each group proposes.
import { Temporal } from 'temporal-polyfill';
import { exposureMultiplier } from '../../src/daylight/exposure.calc.js';
import { altitudeOf, groupsOf } from '../../src/daylight/notes.calc.js';
import { noteForm, type WrittenNote } from '../../src/daylight/notes.schemas.js';
import { fieldProblems } from '../../src/platform/input.js';

const studio = {
  lat: 54.49,
  lon: -0.61,
  zone: 'Europe/London',
  windowKind: 'north window',
  referenceSeconds: 6,
  referenceAltitudeDegrees: 45,
} as const;

let made = 0;
/** A plate that implies `implied` seconds at the reference, or one of just so many seconds. */
function note(when: string, implied: number, more: Partial<WrittenNote> = {}): WrittenNote {
  const plain = {
    id: `note ${++made}`,
    zone: studio.zone,
    wallAt: Temporal.PlainDateTime.from(when),
    weather: 'clear',
    lens: 'Petzval 300 mm',
    fNumber: 4,
    framing: 'head',
    magnification: 0.2,
    bottle: 'June A',
    verdict: 'good',
  } as const;
  const multiplier = exposureMultiplier(studio, altitudeOf(studio, plain) ?? Number.NaN) ?? Number.NaN;
  return { ...plain, seconds: implied * multiplier, ...more };
}
const five = [
  note('2026-08-14T13:05', 7.1),
  note('2026-08-07T11:20', 6.9),
  note('2026-07-31T09:40', 7.4),
  note('2026-07-24T15:10', 30),
  note('2026-07-17T12:00', 7),
];

describe('the sun’s height of a note', () => {
  it('is that of its wall time at the studio, summer time included', () => {
    const at = (wallAt: string) =>
      altitudeOf(studio, { zone: studio.zone, wallAt: Temporal.PlainDateTime.from(wallAt) });
    const noon = at('2026-06-21T13:04') ?? 0; // solar noon there, by British Summer Time
    expect(noon).toBeCloseTo(90 - studio.lat + 23.44, 1);
    expect(at('2026-06-21T12:04')).toBeLessThan(noon);
    expect(at('2026-03-29T01:30')).toBeNull(); // the clocks skip it
  });
});

describe('groups of notes', () => {
  it('propose the median of plates made alike, each told with what it implies', () => {
    const [group] = groupsOf(studio, five);
    if (!group?.proposal.ok) throw new Error('A proposal was expected.');
    expect(group.proposal.referenceSeconds).toBeCloseTo(7.1, 6);
    expect(group.proposal.count).toBe(5);
    expect(group.notes.map(({ implied }) => Math.round(implied * 10) / 10)).toEqual([7.1, 6.9, 7.4, 30, 7]);
  });

  it('keep other lenses, framings, bottles and skies apart, the largest first', () => {
    const others = [
      note('2026-08-15T12:00', 9, { lens: 'Rapid rectilinear' }),
      note('2026-08-15T12:00', 9, { framing: 'group' }),
      note('2026-08-15T12:00', 9, { bottle: 'July B' }),
      note('2026-08-15T12:00', 9, { weather: 'dull' }),
    ];
    const groups = groupsOf(studio, [...others, ...five]);
    expect(groups.map(({ notes }) => notes.length)).toEqual([5, 1, 1, 1, 1]);
    expect(groups.slice(1).map(({ proposal }) => proposal)).toEqual(
      Array.from({ length: 4 }, () => ({
        ok: false,
        reason: 'too few notes',
        count: 1,
        leftOut: 0,
        needed: 5,
      })),
    );
  });

  it('count thin and dense plates without reckoning with them', () => {
    const [group] = groupsOf(studio, [
      note('2026-08-20T12:00', 2, { verdict: 'under' }),
      note('2026-08-20T12:30', 40, { verdict: 'over' }),
      ...five,
    ]);
    expect(group).toMatchObject({ under: 1, over: 1, proposal: { ok: true, count: 5 } });
  });

  it('reckon over to the opening and magnification of the latest plate', () => {
    const wider = note('2026-08-21T12:00', 7, { fNumber: 2, magnification: 0 });
    const [group] = groupsOf(studio, [wider, ...five]);
    const opened = (4 * 1.2) ** 2 / 2 ** 2; // f/4 at a fifth of life size against f/2 far away
    if (!group?.proposal.ok) throw new Error('A proposal was expected.');
    expect(group.conditions).toMatchObject({ fNumber: 2, magnification: 0 });
    expect(group.notes[1]?.implied).toBeCloseTo(7.1 / opened, 6);
  });

  it('have nothing to say of no notes', () => {
    expect(groupsOf(studio, [])).toEqual([]);
  });
});

describe('the form of a note', () => {
  const GOOD = {
    date: '2026-08-14',
    time: '13.05',
    seconds: '7,5',
    weather: 'clear',
    lens: ' Petzval  300 mm ',
    fNumber: '4',
    framing: 'head',
    magnification: '',
    bottle: 'June A',
    verdict: 'good',
  };

  it('takes what people type', () => {
    const read = noteForm.parse(GOOD);
    expect(read).toMatchObject({ seconds: 7.5, lens: 'Petzval 300 mm', magnification: 0 });
    expect([read.date.toString(), read.time.toString()]).toEqual(['2026-08-14', '13:05:00']);
  });

  it('tells each mistake in a sentence at its field', () => {
    const wrong = {
      ...GOOD,
      time: '25:00',
      seconds: '0',
      weather: 'foggy',
      lens: '',
      fNumber: 'f4',
      verdict: '',
      magnification: '-1',
    };
    const parsed = noteForm.safeParse(wrong);
    if (parsed.success) throw new Error('Mistakes were expected.');
    const problems = fieldProblems(parsed.error);
    expect(problems.map(({ field }) => field)).toEqual([
      'time',
      'seconds',
      'weather',
      'lens',
      'fNumber',
      'magnification',
      'verdict',
    ]);
    for (const { message } of problems) expect(message).toMatch(/^(Please (?!check)).*\.$/);
  });
});
