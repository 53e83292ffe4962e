// The look ahead of a full shelf is whole; `npm run bench` tells what it costs.
import { lookingAhead } from '../bench/shelf-ahead.js';

describe('the look ahead of 200 items, 18 months and 1,000 sessions', () => {
  it('tells of every item, of those that are only ingredients too', () => {
    const projections = lookingAhead();
    expect(projections).toHaveLength(200);
    expect(projections.filter(({ days }) => days.length > 20).length).toBeGreaterThan(150);
    expect(projections.some(({ suggested }) => suggested.length > 0)).toBe(true);
  });
});
