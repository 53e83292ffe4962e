// The shelf's pages: props in, markup out.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { BottlePage } from '../../src/desk/shelf/lot.pages.js';
import { ShelfPage } from '../../src/desk/shelf/overview.pages.js';
import { blendParts, typedAmount, withUnits } from '../../src/desk/shelf/words.calc.js';
import { type Planned, standingOf } from '../../src/stock/levels.calc.js';
import type { BottleView, WholeShelf } from '../../src/stock/shelf-views.service.js';
import {
  type Item,
  type Lot,
  type NewLot,
  withExtras,
  withLotExtras,
} from '../../src/stock/stock.schemas.js';
import { day, html, text, visitOf } from '../support/desk-props.js';

const visit = visitOf('owner');
const today = day('2027-05-01');
const item: Item = {
  id: 'i',
  ...withExtras({
    name: 'Iodised collodion',
    kind: 'collodion',
    unit: 'uL',
    plateSizeId: null,
    leadDays: null,
    ripenDays: 7,
    lifeDays: 120,
    heel: 40_000n,
    openedLifeDays: 30,
  }),
};
const lot = (label: string, from: string, until: string | null, more: Partial<NewLot> = {}): Lot => ({
  id: label,
  ...withLotExtras({
    itemId: 'i',
    label,
    usableFrom: day(from),
    usableUntil: until === null ? null : day(until),
    ...more,
  }),
  onHand: 500_000n,
  reserved: 120_000n,
});
const shelf = (lots: Lot[], planned: Planned[] = []): WholeShelf => ({
  today,
  standings: [standingOf(item, lots, planned, today)],
  lots,
  orders: [],
  suppliers: [],
  sizes: [],
  cautions: [],
});

describe('the shelf', () => {
  const lots = [
    lot('old', '2026-12-01', '2027-04-30'),
    lot('last day', '2027-01-01', '2027-05-01'),
    lot('ripening', '2027-05-04', '2027-09-01'),
    lot('lasting', '2027-01-01', null),
    lot('foggy', '2027-01-01', null, { state: 'suspect', stateNote: 'fog at the edges' }),
  ];

  it('tells of each bottle what is in it, what is set aside, and when it is usable', () => {
    const page = text(ShelfPage({ visit, shelf: shelf(lots) }));
    expect(page).toContain('last day 500 mL 120 mL set aside, until Saturday 1 May 2027 near its end');
    expect(page).toContain(
      'ripening 500 mL 120 mL set aside, from Tuesday 4 May 2027 until Wednesday 1 September 2027 still ripening',
    );
    expect(page).toContain('lasting 500 mL 120 mL set aside, does not run out');
    // Two bottles are usable today, each less its heel of 40 mL and the 120 mL set aside; a third still ripens.
    expect(page).toContain('Usable now 920 mL Set aside 360 mL Free 680 mL');
  });

  it('keeps what ran out or is suspect apart, and tells at the top what is near its end or past it', () => {
    const page = text(ShelfPage({ visit, shelf: shelf(lots) }));
    expect(page).toContain(
      '2 that cannot be used old 500 mL 120 mL set aside, ran out on Friday 30 April 2027 ran out foggy',
    );
    expect(page).toContain('fog at the edges suspect');
    expect(page).toMatch(/Runs out soon, or has old .* ran out last day .* near its end Iodised collodion/);
  });

  it('tells what is still to be mixed for places already given', () => {
    const planned = [
      { itemId: 'i', quantity: 30_000n, neededOn: day('2027-05-21') },
      { itemId: 'i', quantity: 20_000n, neededOn: day('2027-05-14') },
      { itemId: 'i', quantity: 9_000n, neededOn: day('2027-04-30') },
    ];
    const page = text(ShelfPage({ visit, shelf: shelf([], planned) }));
    expect(page).toContain(
      'Still to be mixed for given places: 50 mL, the first for Friday 14 May, by Friday 7 May 2027.',
    );
    expect(page).toContain('None on the shelf.');
  });

  it('offers the assistant no new kind of thing', () => {
    const page = text(ShelfPage({ visit: visitOf('assistant'), shelf: shelf([]) }));
    expect(page).toContain('Something has come');
    expect(page).not.toContain('Keep something new');
  });
});

describe('a bottle', () => {
  const view = (one: Lot, more: Partial<BottleView> = {}): BottleView => {
    const rest = { ledger: [], family: [], heldFor: [], history: [], others: [], solvents: [] };
    return { today, item, lot: one, ...rest, ...more };
  };
  const usable = lot('June', '2027-01-01', '2027-09-01');
  const show = (one: Lot, more: Partial<BottleView> = {}) => ({
    visit,
    view: view(one, more),
    formKey: 'key',
  });

  it('has its ledger with what was in it after each line', () => {
    const at = Temporal.Instant.from('2027-04-30T09:00:00Z');
    const line = { id: 'm', heldFor: null, at, who: 'Wren', reason: '' };
    const ledger = [
      {
        ...line,
        id: 'a',
        kind: 'used' as const,
        quantity: -100_000n,
        reason: 'a test plate',
        level: 500_000n,
      },
      { ...line, id: 'b', kind: 'reserved' as const, quantity: 120_000n, who: '', level: 600_000n },
      { ...line, id: 'c', kind: 'mixed' as const, quantity: 600_000n, level: 600_000n },
    ];
    const page = text(BottlePage(show(usable, { ledger })));
    expect(page).toContain('taken −100 mL 500 mL Wren: a test plate');
    expect(page).toMatch(/What was set aside of it and given back .* set aside 120 mL/);
    expect(page).toContain('added +600 mL 600 mL Wren');
  });

  it('of which something is wrong can be found good, and one that is gone can only be counted', () => {
    const acts = (one: Lot) =>
      [...html(BottlePage(show(one))).matchAll(/action="[^"]*\/bottles\/[^/]*\/(\w+)"/g)].map(
        ([, act]) => act,
      );
    expect(acts(usable)).toEqual([
      'count',
      'take',
      'open',
      'suspect',
      'decant',
      'thin',
      'discard',
      'correct',
    ]);
    expect(acts({ ...usable, state: 'suspect' })).toContain('good');
    expect(acts({ ...usable, state: 'gone', onHand: 0n })).toEqual(['count', 'correct']);
  });

  it('has each field once, so that each label leads to its own', () => {
    const other = lot('July', '2027-01-01', '2027-09-01');
    const page = html(BottlePage(show(usable, { others: [other] })));
    const ids = [...page.matchAll(/<(?:input|select|textarea)[^>]* id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(15);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('keeps what was typed and says what is wrong beside the field', () => {
    const errors = [{ field: 'take-quantity', message: 'There is not so much in it.' }];
    const sent = { act: 'take', values: { 'take-quantity': '900' }, errors };
    const page = html(BottlePage({ ...show(usable), sent }));
    expect(page).toMatch(/name="take-quantity"[^>]*value="900"|value="900"[^>]*name="take-quantity"/);
    expect(page.match(/There is not so much in it\./g)).toHaveLength(2);
  });
});

describe('amounts as they are typed', () => {
  it('are read in the unit beside the box when a bare number is typed, and else as written', () => {
    expect(withUnits({ quantity: ' 250 ', 'quantity-in': 'ml' }).quantity).toBe('250 ml');
    expect(withUnits({ quantity: '1.2 L', 'quantity-in': 'ml' }).quantity).toBe('1.2 L');
    expect(withUnits({ quantity: '12', 'quantity-in': '' }).quantity).toBe('12');
    expect(withUnits({ quantity: '', 'quantity-in': 'ml' }).quantity).toBe('');
    expect(withUnits({ quantity: '250' }).quantity).toBe('250');
  });

  it('stand in the box so that they are read back as they were', () => {
    expect(typedAmount(1_250_000n, 'uL')).toBe('1250');
    expect(typedAmount(1_250_040n, 'mg')).toBe('1250.04');
    expect(typedAmount(12n, 'sheet')).toBe('12');
  });

  it('of a blend are those that were filled in', () => {
    expect(blendParts({ 'part-a': '5 ml', 'part-a-in': 'ml', 'part-b': ' ', label: 'x' })).toEqual([
      { lotId: 'a', quantity: '5 ml' },
    ]);
  });
});
