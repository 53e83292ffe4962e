// What of the shelf must be done by a date, and what it is too late for. The dates are counted by hand.
import { type DueTask, shelfTasks } from '../../src/stock/due.calc.js';
import { lookAhead, type ShelfFacts } from '../../src/stock/horizon.calc.js';
import { bottle, bought, dayOf, mixed, needs, recipe, shelf, TODAY } from '../support/shelf-facts.js';

const told = (facts: Partial<ShelfFacts>) => shelfTasks(lookAhead(shelf(facts), TODAY));
const line = ({ by, what, why, alarm }: DueTask) => `${alarm ? '!' : ''}${dayOf(by)} ${what} | ${why}`;

describe('what is due at the shelf', () => {
  it('stays in sight as an alarm once it can no longer be mixed or ordered in time', () => {
    const items = [bought('salt'), mixed('fixer')];
    const facts = {
      items,
      recipes: [recipe('fixer', 100n, { salt: 30n })],
      lots: [bottle('salt', 30n)],
    };
    const before = told({
      ...facts,
      needs: [...needs('a', 3, { fixer: 9n }), ...needs('b', 10, { salt: 4n })],
    });
    expect(before.map(line)).toEqual([
      '0 Mix fixer: 0.1 mL | For Thursday 4 March 2027.',
      '0 Order salt: 0.004 mL | For Thursday 11 March 2027.',
    ]);
    // a day later in need: three days of ripening and ten until it comes are too many
    const after = told({
      ...facts,
      needs: [...needs('a', 2, { fixer: 9n }), ...needs('b', 9, { salt: 34n })],
    });
    expect(after.map(line)).toEqual([
      '!2 fixer: 0.009 mL cannot be had in time | First needed on Wednesday 3 March 2027. Mixed today it would be ready on Thursday 4 March 2027.',
      '!9 salt: 0.004 mL cannot be had in time | First needed on Wednesday 10 March 2027. Ordered today it would be here on Thursday 11 March 2027.',
    ]);
    expect(after.map(({ path }) => path)).toEqual(['/shelf/mixing', '/shelf/orders']);
  });

  it('is an alarm, however far the day, where nobody said how more comes, and says what it would go into', () => {
    const facts = {
      items: [bought('salt', { leadDays: null }), mixed('fixer')],
      recipes: [recipe('fixer', 100n, { salt: 30n })],
      needs: needs('a', 90, { fixer: 9n }),
    };
    expect(told(facts).map(line)).toEqual([
      '87 Mix fixer: 0.1 mL | For Sunday 30 May 2027.',
      '!87 salt: 0.03 mL cannot be had in time | First needed on Thursday 27 May 2027 for fixer. It is not said how more of it comes.',
    ]);
  });

  it('is a task and no alarm where only what is kept at most is in the way', () => {
    const items = [bought('ether', { packQuantity: 10n, mostOnHand: 25n })];
    const found = told({ items, lots: [bottle('ether', 4n)], needs: needs('a', 20, { ether: 40n }) });
    expect(found.map(line)).toEqual([
      '10 Order ether: 0.02 mL (2 packs) | For Sunday 21 March 2027.',
      '10 Order ether: 0.016 mL | More than is kept at most, so it is not proposed. First needed on Sunday 21 March 2027.',
    ]);
    expect(new Set(found.map(({ key }) => key)).size).toBe(2);
  });
});
