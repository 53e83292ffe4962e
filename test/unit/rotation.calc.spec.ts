// Which copies stay, over three years of nights.
import { expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { type Copy, toRemove } from '../../src/backup/rotation.calc.js';

const day = Temporal.PlainDate.from;
const copyOf = (on: Temporal.PlainDate, hour = '03'): Copy => ({
  name: `loft-${on}T${hour}0000Z.tar.gz`,
  day: on,
});

it('keeps a week of days, then a copy a week, then one a month for a year, however long it goes on', () => {
  let kept: Copy[] = [];
  for (
    let today = day('2026-11-26');
    Temporal.PlainDate.compare(today, day('2029-12-01')) < 0;
    today = today.add({ days: 1 })
  ) {
    kept.push(copyOf(today));
    const gone = new Set(toRemove(kept, today));
    kept = kept.filter((one) => !gone.has(one));
    for (let back = 0; back < Math.min(7, today.since(day('2026-11-26')).days + 1); back++)
      expect(kept.some((one) => one.day.equals(today.subtract({ days: back })))).toBe(true);
    expect(kept.length).toBeLessThanOrEqual(7 + 4 + 12);
  }
  const months = new Set(kept.map((one) => one.day.toPlainYearMonth().toString()));
  expect(months.size).toBe(12);
});

it('keeps the newest of several of one day, and never takes the last one there is', () => {
  const copies = [copyOf(day('2026-11-26'), '03'), copyOf(day('2026-11-26'), '21')];
  expect(toRemove(copies, day('2026-11-26'))).toEqual([copies[0]]);
  expect(toRemove([copies[0] as Copy], day('2031-01-01'))).toEqual([]);
});
