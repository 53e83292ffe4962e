// The look ahead stays quick: told as a ratio, so that a busy machine slows both sides.
import { lookingAhead, MOST, settingAside } from '../bench/shelf-ahead.js';
import { ratio } from '../bench/ratio.js';

describe('the look ahead of 200 items, 18 months and 1,000 sessions', () => {
  it('tells of every item, of those that are only ingredients too', () => {
    const projections = lookingAhead();
    expect(projections).toHaveLength(200);
    expect(projections.filter(({ days }) => days.length > 20).length).toBeGreaterThan(150);
    expect(projections.some(({ suggested }) => suggested.length > 0)).toBe(true);
  });

  it('costs a few times what setting the same needs aside costs', async () => {
    const { ratio: found } = await ratio('', settingAside, lookingAhead, MOST, { counted: 5, warming: 3 });
    expect(found).toBeLessThan(MOST);
  });
});
