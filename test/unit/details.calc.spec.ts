// What a change of settings alters, value by value.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { HELPER_NEVER, OWNER_ALWAYS } from '../../src/room/attendance.calc.js';
import { changed, type Settings } from '../../src/room/changes.calc.js';
import { change as changeSchema } from '../../src/room/changes.schemas.js';
import { detailsOf, warningsOf } from '../../src/room/details.calc.js';
import { DEFAULT_POSE_LIMITS } from '../../src/room/pose.calc.js';
import { type Kind, RHYTHM_DEFAULTS, type Rhythm } from '../../src/room/rules.schemas.js';

const TODAY = Temporal.PlainDate.from('2026-11-25');
const ID = '00000000-0000-4000-8000-000000000001';
const fridays: Rhythm = {
  id: ID,
  weekday: 5,
  starts: [570, 675],
  ...RHYTHM_DEFAULTS,
  effectiveFrom: TODAY.subtract({ years: 1 }),
  effectiveUntil: null,
};
const series: Kind = {
  ...{ id: ID, position: 1, name: 'Series', offered: 'public', firstPlateMinutes: null, plates: 1 },
  ...{ fee: '', deposit: '', keepsPlate: 'series', weekdays: [5], yearlyQuota: null },
};
const before: Settings = {
  rules: {
    rhythms: [fridays],
    owner: OWNER_ALWAYS,
    helper: HELPER_NEVER,
    kinds: [series],
    closures: [],
    elsewhere: [],
    limits: DEFAULT_POSE_LIMITS,
  },
  booking: {
    ...{ lat: 54.49, lon: -0.61, zone: 'Europe/London', windowKind: 'north window', referenceSeconds: 6 },
    ...{ referenceAltitudeDegrees: 45, exposureCapSeconds: 20, lightFloorDegrees: 10 },
    ...{ horizonMonths: 12, leastNoticeDays: 3 },
  },
};

function alter(input: object) {
  const change = changeSchema.parse(input);
  const answer = changed(before, change, '00000000-0000-4000-8000-000000000002', TODAY);
  if (!answer.ok) throw new Error(answer.reason);
  const told = detailsOf(before, answer.after, change).map((one) => [one.term, one.before, one.after]);
  return { told, warnings: warningsOf(before.rules, answer.after.rules, TODAY) };
}

const {
  id: _id,
  effectiveFrom: _from,
  effectiveUntil: _until,
  starts: _starts,
  breaks: _breaks,
  ...numbers
} = fridays;
const rhythm = { do: 'rhythm', ...numbers, starts: ['09:30', '11:15'], breaks: [], until: null };

describe('The values of a change', () => {
  it('of a rhythm are beside those of the one in force on its first day', () => {
    const { told, warnings } = alter({ ...rhythm, from: '2027-03-01', starts: ['10:00'], mostPlates: 8 });
    expect(told).toEqual([
      ['A sitting may start at', '09:30, 11:15', '10:00'],
      ['Plates', '10', '8'],
    ]);
    expect(warnings).toEqual([]);
  });

  it('of a rhythm on a new weekday have nothing beside them', () => {
    const { told } = alter({ ...rhythm, weekday: 2, from: '2027-03-01' });
    expect(told).toHaveLength(12);
    expect(told.every(([, old]) => old === '')).toBe(true);
  });

  it('of a day with starts of its own are beside those of the weekday', () => {
    const { told } = alter({ do: 'extra day', date: '2027-05-14', starts: ['12:00'] });
    expect(told).toEqual([
      ['A sitting may start at', '09:30, 11:15', '12:00'],
      ['Last day', 'no end', 'Friday 14 May 2027'],
    ]);
  });

  it('of people, of how long they hold still and of the light are told only where they differ', () => {
    const people = { do: 'people', ownerWeekdays: [1, 5], ownerAlso: [], ownerAway: ['2027-05-14'] };
    expect(alter({ ...people, helperWeekdays: [], helperAlso: [], helperAway: [] }).told).toEqual([
      ['The owner is there on', 'every day', 'Mondays and Fridays'],
      ['The owner is away on', 'no day', 'Friday 14 May 2027'],
    ]);
    expect(alter({ do: 'pose', ...DEFAULT_POSE_LIMITS, adult: 12.5 }).told).toEqual([
      ['Somebody older, without a head rest', '10 seconds', '12.5 seconds'],
    ]);
    expect(
      alter({ do: 'close', from: '2027-05-14', until: '2027-05-14', fromTime: null, untilTime: null }).told,
    ).toEqual([]);
  });
});

describe('A warning is given', () => {
  it('when the last weekday of a kind loses its rhythm', () => {
    const { warnings } = alter({ do: 'drop rhythm', rhythmId: ID });
    expect(warnings).toEqual([
      'There are no sittings on Fridays, so Series has no place at all. Enter a rhythm for Fridays, or choose other days for it.',
    ]);
  });
});
