// How the shelf stands with places that are given, and with one that might be.
import fc from 'fast-check';
import { lookAhead, type ShelfFacts } from '../../src/stock/horizon.calc.js';
import { IfPromised } from '../../src/stock/if-promised.calc.js';
import { type Outlook, outlookOf, outlooks, type StockReason } from '../../src/stock/outlook.calc.js';
import { bottle, bought, dayOf, mixed, needs, on, recipe, shelf, TODAY } from '../support/shelf-facts.js';

const outlook = (facts: Partial<ShelfFacts>, heldFor = 'place') =>
  outlooks(lookAhead(shelf(facts), TODAY)).get(heldFor);
const ifPromised = (facts: Partial<ShelfFacts>, day: number, quantities: Record<string, bigint>) =>
  new IfPromised(lookAhead(shelf(facts), TODAY)).on(
    on(day),
    Object.entries(quantities).map(([itemId, quantity]) => ({ itemId, quantity })),
  );
/** State, day, and each reason as "item action by why, for what". */
const brief = (found: Outlook | undefined) =>
  found && [
    found.state,
    found.by && dayOf(found.by),
    found.reasons.map((one) =>
      [one.item, one.action, one.by && dayOf(one.by), one.why, one.into]
        .filter((word) => word !== null)
        .join(' '),
    ),
  ];
const SALTED = { items: [bought('salt'), mixed('fixer')], recipes: [recipe('fixer', 100n, { salt: 30n })] };

describe('the outlook of a place that is given', () => {
  it('is enough when bottles, or orders on their way, give what it needs', () => {
    const onTheWay = [{ receiptId: 'r', itemId: 'fixer', quantity: 5n, expectedOn: on(3) }];
    const facts = { items: [bought('fixer')], lots: [bottle('fixer', 5n)], onTheWay };
    expect(brief(outlook({ ...facts, needs: needs('place', 5, { fixer: 10n }) }))).toEqual([
      'enough',
      null,
      [],
    ]);
    expect(brief(outlook({ ...facts, needs: needs('place', 2, { fixer: 10n }) }))?.[0]).toBe('cannot be had');
  });

  it('does not count on the heel of what is on its way', () => {
    const onTheWay = [{ receiptId: 'r', itemId: 'varnish', quantity: 5n, expectedOn: on(3) }];
    const facts = { items: [bought('varnish', { heel: 1n })], onTheWay };
    expect(brief(outlook({ ...facts, needs: needs('place', 5, { varnish: 4n }) }))?.[0]).toBe('enough');
    expect(brief(outlook({ ...facts, needs: needs('place', 5, { varnish: 5n }) }))?.[0]).toBe(
      'cannot be had',
    );
  });

  it('is "mix by" when the ingredients are there, by the day that leaves time to ripen', () => {
    const facts = { ...SALTED, lots: [bottle('salt', 40n)], needs: needs('place', 12, { fixer: 60n }) };
    expect(brief(outlook(facts))).toEqual(['mix by', 9, ['fixer mix 9']]);
  });

  it('is "order by", and names the ingredient, when one has to come first', () => {
    const facts = { ...SALTED, needs: needs('place', 14, { fixer: 60n }) };
    expect(brief(outlook(facts))).toEqual(['order by', 1, ['salt order 1 fixer', 'fixer mix 11']]);
  });

  it('cannot be had, and names the ingredient, when that comes too late', () => {
    const facts = { ...SALTED, needs: needs('place', 12, { fixer: 60n }) };
    expect(brief(outlook(facts))).toEqual([
      'cannot be had',
      null,
      ['salt order too late fixer', 'fixer mix 9'],
    ]);
  });

  it('is quiet while the last day to begin is more than two weeks off', () => {
    const facts = (day: number) => ({
      ...SALTED,
      lots: [bottle('salt', 40n)],
      needs: needs('place', day, { fixer: 60n }),
    });
    expect(outlook(facts(17))?.state).toBe('mix by');
    expect(outlook(facts(18))?.state).toBe('nothing to do yet');
  });

  it('is quiet when what it needs will be left over from a batch mixed long before', () => {
    const facts = {
      ...SALTED,
      needs: [...needs('soon', 14, { fixer: 60n }), ...needs('place', 60, { fixer: 30n })],
    };
    expect(brief(outlook(facts, 'soon'))?.[0]).toBe('order by');
    expect(brief(outlook(facts))).toEqual(['nothing to do yet', 47, ['salt order 47 fixer', 'fixer mix 57']]);
    // taken together with the other it is not
    const near = {
      ...facts,
      needs: [...needs('soon', 14, { fixer: 60n }), ...needs('place', 28, { fixer: 30n })],
    };
    expect(brief(outlook(near))).toEqual(['order by', 1, ['salt order 1 fixer', 'fixer mix 11']]);
    // nor is it lost because the first batch comes too late
    const late = {
      ...facts,
      needs: [...needs('soon', 5, { fixer: 60n }), ...needs('place', 60, { fixer: 30n })],
    };
    expect(brief(outlook(late, 'soon'))?.[0]).toBe('cannot be had');
    expect(brief(outlook(late))?.[0]).toBe('nothing to do yet');
  });

  it('cannot be had when nobody sells or mixes it; the most that is kept only warns', () => {
    const limited = { items: [bought('ether', { packQuantity: 100n, mostOnHand: 90n })] };
    expect(brief(outlook({ ...limited, needs: needs('place', 20, { ether: 5n }) }))).toEqual([
      'order by',
      10,
      ['ether order 10 over the limit'],
    ]);
    expect(brief(outlook({ ...limited, needs: needs('place', 5, { ether: 5n }) }))).toEqual([
      'cannot be had',
      null,
      ['ether order too late'],
    ]);
    const found = { items: [bought('ether', { leadDays: null })], needs: needs('place', 20, { ether: 5n }) };
    expect(brief(outlook(found))).toEqual(['cannot be had', null, ['ether never comes']]);
  });
});

describe('the reasons of an outlook', () => {
  it('are led by the gravest, with its date, and each is told once, by its first day', () => {
    const one = (item: string, state: StockReason['state'], day: number | null): StockReason => {
      return { item, state, by: day === null ? null : on(day), action: 'mix', into: null, why: null };
    };
    const found = outlookOf([
      one('later', 'nothing to do yet', 80),
      one('soon', 'mix by', 9),
      one('glass', 'order by', 5),
      one('glass', 'order by', 3),
      one('salt', 'order by', 4),
    ]);
    expect(brief(found)).toEqual([
      'order by',
      3,
      ['glass mix 3', 'salt mix 4', 'soon mix 9', 'later mix 80'],
    ]);
    expect(brief(outlookOf([]))).toEqual(['enough', null, []]);
  });
});

describe('the outlook of a day that might be given', () => {
  it('is enough when nobody else loses anything', () => {
    const facts = {
      items: [bought('fixer')],
      lots: [bottle('fixer', 10n)],
      needs: needs('other', 20, { fixer: 6n }),
    };
    expect(brief(ifPromised(facts, 5, { fixer: 4n }))).toEqual(['enough', null, []]);
    expect(brief(ifPromised(facts, 30, { fixer: 4n }))).toEqual(['enough', null, []]);
  });

  it('takes from a later place what that can still get, and says by when', () => {
    const facts = {
      items: [bought('fixer')],
      lots: [bottle('fixer', 10n)],
      needs: needs('other', 20, { fixer: 6n }),
    };
    // the other is short on day 20 then; ordered on day 10 it comes in time
    expect(brief(ifPromised(facts, 5, { fixer: 5n }))).toEqual(['order by', 10, ['fixer order 10']]);
    const soon = { ...facts, needs: needs('other', 8, { fixer: 6n }) };
    expect(brief(ifPromised(soon, 5, { fixer: 5n }))).toEqual([
      'cannot be had',
      null,
      ['fixer order too late'],
    ]);
  });

  it('looks at the ingredients of what would have to be mixed', () => {
    const there = { ...SALTED, lots: [bottle('salt', 40n)] };
    expect(brief(ifPromised(there, 12, { fixer: 60n }))).toEqual(['mix by', 9, ['fixer mix 9']]);
    // 60 more are a second batch; 40 salt are not enough for both
    const asked = { ...there, needs: needs('other', 12, { fixer: 60n }) };
    expect(brief(ifPromised(asked, 12, { fixer: 60n }))?.[0]).toBe('cannot be had');
    expect(brief(ifPromised(asked, 16, { fixer: 60n }))).toEqual([
      'order by',
      3,
      ['salt order 3 fixer', 'fixer mix 13'],
    ]);
    // what is left over of the other's batch is mixed with it
    expect(brief(ifPromised(asked, 16, { fixer: 40n }))).toEqual(['mix by', 9, ['fixer mix 9']]);
  });

  it('asks for an ingredient of two solutions once for both', () => {
    const two = {
      items: [bought('salt'), mixed('fixer'), mixed('developer')],
      recipes: [recipe('fixer', 100n, { salt: 30n }), recipe('developer', 100n, { salt: 30n })],
      lots: [bottle('salt', 50n)],
    };
    expect(ifPromised(two, 12, { fixer: 9n }).state).toBe('mix by');
    expect(ifPromised(two, 12, { fixer: 9n, developer: 9n }).state).toBe('cannot be had');
  });

  it('is to be had by its day though it would be more than is kept at most', () => {
    const facts = {
      items: [bought('ether', { packQuantity: 50n, mostOnHand: 60n })],
      lots: [bottle('ether', 15n)],
    };
    expect(brief(ifPromised(facts, 20, { ether: 20n }))).toEqual([
      'order by',
      10,
      ['ether order 10 over the limit'],
    ]);
  });

  it('never lets a limit alone close a day', () => {
    const facts = (most: bigint | null, leastPacks: number, given: bigint, day: number) => ({
      items: [bought('ether', { packQuantity: 10n, leastPacks, mostOnHand: most })],
      needs: needs('other', day, { ether: given }),
    });
    const amount = fc.bigInt({ min: 1n, max: 60n });
    fc.assert(
      fc.property(
        amount,
        fc.integer({ min: 1, max: 9 }),
        amount,
        amount,
        fc.nat(60),
        fc.nat(60),
        (...drawn) => {
          const [most, packs, given, asked, day, other] = drawn;
          const free = facts(null, packs, given, other);
          const limited = facts(most, packs, given, other);
          const closed = (one: typeof free) =>
            ifPromised(one, day, { ether: asked }).state === 'cannot be had';
          if (!closed(free)) expect(closed(limited)).toBe(false);
          const lost = (one: typeof free) => outlook(one, 'other')?.state === 'cannot be had';
          if (!lost(free)) expect(lost(limited)).toBe(false);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('is what it would be if it were given, for anything bought', () => {
    const quantity = fc.bigInt({ min: 1n, max: 9n });
    const days = fc.nat(30);
    const lots = fc.array(
      fc.record({ quantity, from: fc.nat(20), life: fc.option(fc.nat(20), { nil: null }) }),
      { maxLength: 4 },
    );
    const places = fc.array(fc.record({ quantity, day: days }), { maxLength: 5 });
    fc.assert(
      fc.property(lots, places, quantity, days, (some, many, much, day) => {
        const facts = {
          items: [bought('fixer')],
          lots: some.map((one) =>
            bottle('fixer', one.quantity, {
              from: one.from,
              until: one.life === null ? null : one.from + one.life,
            }),
          ),
          needs: many.flatMap((one, at) => needs(`place ${at}`, one.day, { fixer: one.quantity })),
        };
        const before = outlooks(lookAhead(shelf(facts), TODAY));
        const after = outlooks(
          lookAhead(
            shelf({ ...facts, needs: [...facts.needs, ...needs(' new', day, { fixer: much })] }),
            TODAY,
          ),
        );
        const worse = [...after].filter(
          ([heldFor, now]) => now.state === 'cannot be had' && before.get(heldFor)?.state !== 'cannot be had',
        );
        const told = ifPromised(facts, day, { fixer: much });
        // a place that could not be had before may be short of more now; the state does not tell how much
        if (![...before.values()].some((one) => one.state === 'cannot be had'))
          expect(told.state === 'cannot be had').toBe(worse.length > 0);
        if (told.state === 'enough') expect(after.get(' new')?.state).toBe('enough');
      }),
      { numRuns: 400 },
    );
  });
});
