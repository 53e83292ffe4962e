// What typed plates add up to, and what a correction changes.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { poursOf, sameTallies, saysOtherwise, talliesOf } from '../../src/plates/made.calc.js';
import type { Made } from '../../src/plates/made.schemas.js';

import { made, plateSize } from '../support/made-facts.js';

const WHOLE = plateSize('whole', 215.9, 165.1);
const HALF = plateSize('half', 165.1, 120.65);

describe('plates of a day', () => {
  const plates: Made[] = [
    made({ number: 1, plateSizeId: 'half', keeper: true, bathId: 'tank' }),
    made({ number: 2, keeper: true, bathId: 'tank' }),
    made({ number: 3, bathId: 'tank' }),
    made({ number: 4, sittingId: null, plateSizeId: 'half', bathId: 'tray' }),
    made({ number: 5, keeper: true, bathId: 'tray', struckAt: Temporal.Instant.from('2027-04-02T18:00Z') }),
  ];

  it('are tallied by size without tests and without what was struck', () => {
    // 215.9 x 165.1 mm and 165.1 x 120.65 mm in square micrometres
    expect(talliesOf(plates, [WHOLE, HALF])).toEqual([
      { plateSizeId: 'whole', areaUm2: 35_645_090_000n, tries: 2, keepers: 1 },
      { plateSizeId: 'half', areaUm2: 19_919_315_000n, tries: 1, keepers: 1 },
    ]);
    expect(talliesOf([], [WHOLE])).toEqual([]);
  });

  it('went through each bath with their area, tests among them', () => {
    expect([...poursOf(plates, [WHOLE, HALF])]).toEqual([
      ['tank', { plates: 3, area: 2n * 35_645_090_000n + 19_919_315_000n }],
      ['tray', { plates: 1, area: 19_919_315_000n }],
    ]);
  });

  it('say the same in whatever order they are tallied', () => {
    const [one, other] = talliesOf(plates, [WHOLE, HALF]);
    if (!one || !other) throw new Error('Two sizes were made.');
    expect(sameTallies([one, other], [other, one])).toBe(true);
    expect(sameTallies([one, other], [one, { ...other, keepers: 0 }])).toBe(false);
    expect(sameTallies([one], [])).toBe(false);
  });

  it('are corrected by whatever is said otherwise, and not by what they keep', () => {
    const was = made({ number: 7, seconds: 6 });
    expect(saysOtherwise(was, was)).toBe(false);
    expect(saysOtherwise(was, { ...was, seconds: 8 })).toBe(true);
    expect(saysOtherwise(was, { ...was, keeper: !was.keeper })).toBe(true);
    expect(saysOtherwise(was, { ...was, names: 'Corin Ashby' })).toBe(true);
  });
});
