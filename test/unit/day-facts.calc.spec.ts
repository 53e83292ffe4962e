// The plan for a dull day, who wants a helper, and the studio days beside one. Exposures by hand: each stop of the lens
// doubles the light, so that 34 s instead of 10 s is log2(3.4) = 1.77 stops.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { asksForHelper, daysBeside, dullPlan, LOOK_DAYS } from '../../src/desk/day-facts.calc.js';
import { dullInWords, holdStillInWords } from '../../src/desk/day-words.calc.js';
import { RHYTHM_DEFAULTS, type Rhythm } from '../../src/room/rules.schemas.js';
import type { PlateSize } from '../../src/stock/stock.schemas.js';

const size = (id: string, widthMm: number, heightMm: number, offered = true): PlateSize =>
  ({ id, name: id, widthMm, heightMm, offered, position: 1 }) as PlateSize;
const SIZES = [
  size('ninth plate', 51, 64, false),
  size('half plate', 108, 140),
  size('whole plate', 165, 216),
  size('mammoth', 254, 305),
];
const plate = (plateSizeId: string, people = 1) => ({
  id: 'p',
  plateSizeId,
  sizeName: plateSizeId,
  names: [],
  sitterIds: Array.from({ length: people }, (_, at) => `s${at}`),
});
const light = { clear: { from: 6, to: 9 }, dull: { from: 24, to: 34 } };

describe('the plan for a dull day', () => {
  it('counts whole stops and names the next smaller size on offer', () => {
    const plan = dullPlan(light, 10, [plate('whole plate')], SIZES);
    expect(plan).toEqual({ asks: 34, holds: 10, stops: 2, smaller: 'half plate', fewer: false });
    expect(dullInWords(plan!)).toBe(
      'If the sky is dull, that is up to 34\u00a0s and they hold 10\u00a0s: take a smaller plate (half plate); open the lens by 2 stops or take a wider one.',
    );
  });

  it('has no smaller size for the smallest on offer, and fewer plates for several', () => {
    const two = [plate('half plate'), plate('whole plate')];
    expect(dullPlan(light, 20, two, SIZES)).toEqual({
      asks: 34,
      holds: 20,
      stops: 1,
      smaller: null,
      fewer: true,
    });
  });

  it('is none where they hold still for that long, or nobody has to', () => {
    expect(dullPlan(light, 34, [plate('whole plate')], SIZES)).toBeNull();
    expect(dullPlan(light, Infinity, [plate('whole plate')], SIZES)).toBeNull();
  });

  it('stands beside the light in whole seconds', () => {
    expect(holdStillInWords(light)).toBe(
      'They hold still for 6 to 9\u00a0s under a clear sky, for up to 34\u00a0s under a dull one.',
    );
    expect(holdStillInWords({ ...light, clear: { from: 0.2, to: 0.4 } })).toContain('about 1\u00a0s');
  });
});

it('three people on a plate, or one larger than a whole plate, want a helper', () => {
  expect(asksForHelper([plate('whole plate', 2)], SIZES)).toBe(false);
  expect(asksForHelper([plate('half plate'), plate('half plate', 3)], SIZES)).toBe(true);
  expect(asksForHelper([plate('mammoth')], SIZES)).toBe(true);
});

describe('the studio days beside one', () => {
  const day = (text: string) => Temporal.PlainDate.from(text);
  const fridays: Rhythm = {
    ...RHYTHM_DEFAULTS,
    id: 'r',
    weekday: 5,
    starts: [570],
    effectiveFrom: day('2027-03-05'),
    effectiveUntil: day('2027-04-09'),
  };
  const beside = (date: string, held: string[] = []) => {
    const { before, after } = daysBeside(day(date), [fridays], held.map(day));
    return [before?.toString(), after?.toString()];
  };

  it('are those of the rhythm, and days on which somebody has a place', () => {
    expect(beside('2027-04-02')).toEqual(['2027-03-26', '2027-04-09']);
    expect(beside('2027-04-02', ['2027-03-31'])).toEqual(['2027-03-31', '2027-04-09']);
  });

  it('are none where the rhythm has ended or not begun, as far as is looked', () => {
    expect(beside('2027-03-05')).toEqual([undefined, '2027-03-12']);
    const far = day('2027-04-09').add({ days: LOOK_DAYS });
    expect(beside(far.toString())).toEqual(['2027-04-09', undefined]);
    expect(beside(far.add({ days: 1 }).toString())).toEqual([undefined, undefined]);
  });
});
