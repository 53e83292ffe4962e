// The reckoning of src/desk/glance.calc.ts.
import { Temporal } from 'temporal-polyfill';
import { bestPlace, choicesOf, dayToAct, openPlaces, rangeToSearch } from '../../src/desk/glance.calc.js';
import type { ClosedReason, Slot } from '../../src/room/openings.calc.js';
import type { SuitingDays } from '../../src/sittings/sittings.schemas.js';
import { ENOUGH, type Outlook } from '../../src/stock/outlook.calc.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const NOT_TO_BE_HAD: Outlook = { state: 'cannot be had', by: null, reasons: [] };

function slot(start: string, clearTo: number, closed: ClosedReason | null = null): Slot {
  const wallStart = Temporal.PlainDateTime.from(start);
  const holdStill = { clear: { from: clearTo - 1, to: clearTo }, dull: { from: 20, to: 30 } };
  const wallEnd = wallStart.add({ minutes: 75 });
  return { wallStart, wallEnd, startsAt: null, endsAt: null, busyUntil: null, holdStill, closed };
}

const on = (date: string, ...openings: Slot[]) => ({ date: day(date), light: null, openings });
const starts = (places: { slot: Slot }[]) =>
  places.map((place) => place.slot.wallStart.toString().slice(0, 16));

describe('the shelf at a glance', () => {
  it('has a day to act on only while that day is near', () => {
    const by = day('2027-05-07');
    expect(String(dayToAct({ state: 'mix by', by }))).toBe('2027-05-07');
    expect(String(dayToAct({ state: 'order by', by }))).toBe('2027-05-07');
    expect(dayToAct({ state: 'nothing to do yet', by })).toBeNull();
  });
});

describe('the places that can be given', () => {
  const days = [
    on('2027-05-07', slot('2027-05-07T09:30', 9), slot('2027-05-07T11:15', 6, 'room taken')),
    on('2027-05-14', slot('2027-05-14T09:30', 7.4), slot('2027-05-14T11:15', 6.6)),
    on('2027-05-21', slot('2027-05-21T09:30', 3)),
  ];
  const suits = { kind: 'any', from: day('2027-05-07'), until: day('2027-05-14') } as const;

  it('are the open ones on the days that suit, both ends included', () => {
    expect(starts(openPlaces(choicesOf(suits, days, () => ENOUGH)))).toEqual([
      '2027-05-07T09:30',
      '2027-05-14T09:30',
      '2027-05-14T11:15',
    ]);
    const these: SuitingDays = { kind: 'these', days: [day('2027-05-21')] };
    expect(starts(openPlaces(choicesOf(these, days, () => ENOUGH)))).toEqual(['2027-05-21T09:30']);
  });

  it('leave out days for which the shelf cannot provide, and keep those with something to be done', () => {
    const stockOn = (date: Temporal.PlainDate): Outlook =>
      date.day === 7 ? NOT_TO_BE_HAD : { ...ENOUGH, state: 'mix by', by: day('2027-05-01') };
    const choices = choicesOf(suits, days, stockOn);
    expect(choices.map((choice) => choice.slots.length)).toEqual([2, 2]);
    expect(starts(openPlaces(choices))).toEqual(['2027-05-14T09:30', '2027-05-14T11:15']);
  });

  it('are led by the one with the fewest whole seconds to hold still, the earlier of two alike', () => {
    const places = openPlaces(choicesOf(suits, days, () => ENOUGH));
    expect(bestPlace(places)?.slot.wallStart.toString()).toBe('2027-05-14T09:30:00'); // 7.4 and 6.6 are both 7
    expect(bestPlace(places.slice(0, 1))?.slot.wallStart.toString()).toBe('2027-05-07T09:30:00');
    expect(bestPlace([])).toBeNull();
  });
});

describe('the days worth looking at', () => {
  const bookable = { from: day('2027-01-04'), until: day('2028-01-01') };
  const range = (from: string, until: string) => {
    const found = rangeToSearch({ kind: 'any', from: day(from), until: day(until) }, bookable);
    return found && `${found.from} ${found.until}`;
  };

  it('are those that suit and can be booked', () => {
    expect(range('2026-12-01', '2027-03-01')).toBe('2027-01-04 2027-03-01');
    expect(range('2027-12-01', '2028-03-01')).toBe('2027-12-01 2028-01-01');
    expect(range('2028-01-01', '2028-03-01')).toBe('2028-01-01 2028-01-01');
  });

  it('are none once they are past or beyond the horizon', () => {
    expect(range('2026-12-01', '2027-01-03')).toBeNull();
    expect(range('2028-01-02', '2028-03-01')).toBeNull();
  });

  it('span single days in whatever order they were given', () => {
    const days = [day('2027-05-14'), day('2027-04-02'), day('2027-06-11')];
    const found = rangeToSearch({ kind: 'these', days }, bookable);
    expect(`${found?.from} ${found?.until}`).toBe('2027-04-02 2027-06-11');
  });
});
