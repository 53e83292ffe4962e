// What is in a bath by its ledger, and which day takes which. The chemistry itself has its own tests.
import { Temporal } from 'temporal-polyfill';
import { levelAfterPlates, levelAfterTopUp } from '../../src/chemistry/bath-strength.calc.js';
import { plateAreaUm2 } from '../../src/chemistry/plate-sizes.calc.js';
import {
  CARE_DAYS,
  careArea,
  dependingOn,
  planBaths,
  platesByDay,
  type PlatesOfDay,
  readinessOf,
} from '../../src/stock/bath-days.calc.js';
import { bathTasks } from '../../src/stock/due.calc.js';
import { bathNow, chartOf } from '../../src/stock/baths.calc.js';
import { type Bath, type BathEvent, plainEvent } from '../../src/stock/baths.schemas.js';
import type { PlateSize } from '../../src/stock/stock.schemas.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const TODAY = day('2027-05-01');
const size = (id: string, widthMm: number, heightMm: number): PlateSize => ({
  id,
  name: id,
  widthMm,
  heightMm,
  offered: true,
  position: 1,
});
const WHOLE = size('whole', 165.1, 215.9);
const HALF = size('half', 120.65, 165.1);
const SIZES = [WHOLE, HALF];
const AREA = plateAreaUm2(WHOLE.widthMm, WHOLE.heightMm);

const bath = (id: string, more: Partial<Bath> = {}): Bath => ({
  id,
  name: id,
  tank: 'upright tank',
  plateSizeId: 'whole',
  volume: 2_000_000n,
  leastVolume: 1_500_000n,
  targetStrength: 90_000,
  leastStrength: 70_000,
  careAfterPlates: 40,
  lotId: null,
  state: 'working',
  stateSince: day('2027-01-01'),
  stateUntil: null,
  note: '',
  ...more,
});
let count = 0;
const line = (kind: BathEvent['kind'], date: string, more: Partial<BathEvent> = {}): BathEvent => ({
  ...plainEvent(kind, { id: `line ${++count}`, bathId: 'a', day: day(date), who: 'Odhran Pike' }),
  ...more,
});
const made = (strength: number, volume = 2_000_000n) => line('made', '2027-01-01', { strength, volume });
const poured = (date: string, plates: number) =>
  line('poured', date, { plates, area: AREA * BigInt(plates) });
const plates = (date: string, number: number, sizes = [WHOLE]): PlatesOfDay => ({
  date: day(date),
  plates: number,
  area: AREA * BigInt(number),
  sizes,
});
const full = (one: Bath, strength = 90_000) => bathNow(one, [made(strength, one.volume)]);

describe('a bath', () => {
  it('is as strong as it was told last, less what its plates took, in a band that widens', () => {
    const events = [
      made(80_000),
      line('measured', '2027-02-01', { strength: 88_000 }),
      poured('2027-02-05', 10),
    ];
    const now = bathNow(bath('a'), events);
    const from = { volume: 2_000_000n, strength: 88_000 };
    expect(now.level).toEqual({
      most: levelAfterPlates(from, AREA * 10n, 'most'),
      likely: levelAfterPlates(from, AREA * 10n, 'likely'),
      least: levelAfterPlates(from, AREA * 10n, 'least'),
    });
    const { most, likely, least } = now.level ?? {};
    expect(most?.strength).toBeLessThan(likely?.strength ?? 0);
    expect(likely?.strength).toBeLessThan(least?.strength ?? 0);
    expect([now.measured?.strength, now.plates]).toEqual([88_000, 10]);
  });

  it('keeps its volume where a measurement tells none, and takes it where one does', () => {
    const before = [made(90_000), poured('2027-01-02', 20)];
    const kept = bathNow(bath('a'), before).level?.likely.volume;
    const told = [...before, line('measured', '2027-01-03', { strength: 85_000 })];
    expect(bathNow(bath('a'), told).level?.likely.volume).toBe(kept);
    const looked = [...before, line('measured', '2027-01-03', { strength: 85_000, volume: 1_700_000n })];
    expect(bathNow(bath('a'), looked).level?.likely.volume).toBe(1_700_000n);
  });

  it('is stronger and fuller by what it was topped up with', () => {
    const added = { crystals: 20_000n, volume: 300_000n };
    const now = bathNow(bath('a'), [made(80_000, 1_600_000n), line('topped up', '2027-02-01', added)]);
    expect(now.level?.likely).toEqual(levelAfterTopUp({ volume: 1_600_000n, strength: 80_000 }, added));
    expect(now.level?.likely.volume).toBe(1_900_000n);
  });

  it('forgets a line that was taken back, and the line that took it', () => {
    const slip = poured('2027-02-01', 50);
    const events = [made(90_000), slip, line('taken back', '2027-02-01', { takesBack: slip.id })];
    expect(bathNow(bath('a'), events)).toEqual(bathNow(bath('a'), events.slice(0, 1)));
  });

  it('counts the plates since it was last sunned or filtered, and rest is neither', () => {
    const events = [
      made(90_000),
      poured('2027-02-01', 5),
      line('rested', '2027-02-02'),
      poured('2027-02-03', 3),
    ];
    expect(bathNow(bath('a'), events).areaSinceCare).toBe(AREA * 8n);
    const cared = [...events, line('filtered', '2027-02-04'), poured('2027-02-05', 2)];
    expect(bathNow(bath('a'), cared).areaSinceCare).toBe(AREA * 2n);
  });

  it('of unknown strength stays one, whatever goes through it', () => {
    expect(bathNow(bath('a'), [poured('2027-02-01', 5)]).level).toBeNull();
  });
});

describe('the chart', () => {
  it('has each measurement as a point without width, and what is reckoned and booked between and after', () => {
    const events = [
      made(90_000),
      poured('2027-01-05', 4),
      line('measured', '2027-01-06', { strength: 88_500 }),
    ];
    const points = chartOf(bath('a'), events, [plates('2027-05-14', 6)]);
    expect(points.map(({ plates: at, kind }) => [at, kind])).toEqual([
      [0, 'measured'],
      [4, 'reckoned'],
      [4, 'measured'],
      [10, 'ahead'],
    ]);
    expect(points[2]?.strength).toEqual({ most: 88_500, likely: 88_500, least: 88_500 });
    expect(points[3]?.strength.most).toBeLessThan(points[3]?.strength.least ?? 0);
  });
});

describe('the plates of a day', () => {
  const sheets = [
    { day: TODAY, plateSizeId: 'whole', sheets: 6n },
    { day: day('2027-05-08'), plateSizeId: 'whole', sheets: 2n },
    { day: day('2027-05-08'), plateSizeId: 'half', sheets: 3n },
    { day: day('2027-05-08'), plateSizeId: 'gone', sheets: 9n },
  ];

  it('are all sheets set aside, less what was poured today already', () => {
    const half = plateAreaUm2(HALF.widthMm, HALF.heightMm);
    const days = platesByDay(sheets, SIZES, { date: TODAY, poured: AREA * 4n, plates: 4 });
    expect(days.map((one) => [one.date.toString(), one.plates, one.area])).toEqual([
      ['2027-05-01', 2, AREA * 2n],
      ['2027-05-08', 5, AREA * 2n + half * 3n],
    ]);
  });

  it('are never below none', () => {
    const [first] = platesByDay(sheets, SIZES, { date: TODAY, poured: AREA * 40n, plates: 40 });
    expect([first?.plates, first?.area]).toEqual([0, 0n]);
  });
});

describe('the plan', () => {
  const plan = (days: PlatesOfDay[], baths: ReturnType<typeof full>[]) =>
    planBaths(days, baths, SIZES, TODAY);

  it('says why a day has no bath', () => {
    const reason = (...baths: Bath[]) =>
      plan(
        [plates('2027-05-14', 4)],
        baths.map((one) => full(one)),
      ).days[0]?.reason;
    expect(reason()).toBe('no bath');
    expect(reason(bath('a', { state: 'retired' }))).toBe('all retired');
    expect(reason(bath('a', { state: 'retired' }), bath('b', { state: 'retired' }))).toBe('all retired');
    expect(reason(bath('a', { plateSizeId: 'half' }))).toBe('none large enough');
    expect(reason(bath('a', { state: 'suspect' }))).toBe('none working');
    expect(reason(bath('a', { state: 'sunning' }))).toBe('none working');
    expect(reason(bath('a', { state: 'sunning', stateUntil: day('2027-05-15') }))).toBe('none working');
    expect(reason(bath('a', { state: 'sunning', stateUntil: day('2027-05-14') }))).toBeNull();
  });

  it('takes a plate turned either way', () => {
    const turned = size('turned', 215.9, 165.1);
    const found = planBaths(
      [plates('2027-05-14', 4, [turned])],
      [full(bath('a'))],
      [...SIZES, turned],
      TODAY,
    );
    expect(found.days[0]?.bath?.name).toBe('a');
  });

  it('lets two baths take turns by what went through each', () => {
    const days = ['2027-05-07', '2027-05-14', '2027-05-21', '2027-05-28'].map((date) => plates(date, 4));
    expect(plan(days, [full(bath('a')), full(bath('b'))]).days.map(({ bath: one }) => one?.name)).toEqual([
      'a',
      'b',
      'a',
      'b',
    ]);
  });

  it('sends a bath into the sun once its area is through, while the other works', () => {
    const days = ['2027-05-07', '2027-05-08', '2027-05-09', '2027-05-14'].map((date) => plates(date, 10));
    const tired = bath('a', { careAfterPlates: 10 });
    const found = plan(days, [full(tired), full(bath('b'))]);
    expect(found.days.map(({ bath: one }) => one?.name)).toEqual(['a', 'b', 'b', 'a']);
    expect(found.cares.map((one) => [one.bath.name, one.from.toString(), one.until.toString()])).toEqual([
      ['a', '2027-05-08', day('2027-05-08').add({ days: CARE_DAYS }).toString()],
      ['a', '2027-05-15', '2027-05-18'],
    ]);
    expect(careArea(tired, SIZES)).toBe(AREA * 10n);
    // alone, its care waits until the days between are over
    const alone = plan(days, [full(tired)]);
    expect(alone.days.map(({ bath: one }) => one?.name)).toEqual(['a', 'a', 'a', 'a']);
    expect(alone.cares.map((one) => one.from.toString())).toEqual(['2027-05-10', '2027-05-15']);
  });

  it('sends a bath that has had its area already into the sun from today', () => {
    const tired = (more: Partial<Bath> = {}) =>
      bathNow(bath('a', { careAfterPlates: 10, ...more }), [made(90_000), poured('2027-04-20', 12)]);
    const cares = (days: PlatesOfDay[], ...baths: ReturnType<typeof full>[]) =>
      plan(days, baths).cares.map((one) => `${one.bath.name} ${one.from} to ${one.until}`);
    expect(cares([], tired())).toEqual(['a 2027-05-01 to 2027-05-04']);
    // back by the day of its next plates, which are counted anew
    expect(cares([plates('2027-05-21', 4)], tired())).toEqual(['a 2027-05-01 to 2027-05-04']);
    // another takes what comes meanwhile; alone, its care waits, and nothing of its area is forgotten
    const soon = [plates('2027-05-02', 4)];
    const meanwhile = plan(soon, [tired(), bathNow(bath('b'), [made(90_000), poured('2027-04-20', 20)])]);
    expect(meanwhile.days.map(({ bath: one }) => one?.name)).toEqual(['b']);
    expect(cares(soon, tired())).toEqual(['a 2027-05-03 to 2027-05-06']);
    // one in the sun has its care already, of a suspect one nobody knows what it wants
    expect(cares([], tired({ state: 'sunning' }), tired({ state: 'suspect' }))).toEqual([]);
  });

  it('says by when a bath must be topped up and by how much, and goes on from there', () => {
    const weak = full(bath('a'), 70_300);
    const days = ['2027-05-07', '2027-05-14', '2027-05-21'].map((date) => plates(date, 6));
    const found = plan(days, [weak]);
    expect(found.topUps).toHaveLength(1);
    const [topUp] = found.topUps;
    expect([topUp?.by.toString(), topUp?.forDay.toString()]).toEqual(['2027-05-06', '2027-05-07']);
    // full to the brim: crystals alone, 2 litres from 70.3 to 90 grams
    expect([topUp?.crystals, topUp?.volume]).toEqual([39_400n, 0n]);
    expect(Math.round(found.days[0]?.before?.likely.strength ?? 0)).toBe(90_000);
    expect(found.days.map((one) => readinessOf(one).state)).toEqual(['top up by', 'ready', 'ready']);
  });

  it('tops up a bath that holds too little as well, today when the day is today', () => {
    const low = bathNow(bath('a'), [made(88_000, 1_450_000n)]);
    const [topUp] = plan([plates('2027-05-01', 1)], [low]).topUps;
    expect([topUp?.by.toString(), topUp?.volume]).toEqual(['2027-05-01', 550_000n]);
    const filled = levelAfterTopUp(
      { volume: 1_450_000n, strength: 88_000 },
      topUp ?? { crystals: 0n, volume: 0n },
    );
    expect(filled.volume).toBe(2_000_000n);
    expect(filled.strength).toBeGreaterThanOrEqual(90_000);
    expect(filled.strength).toBeLessThan(90_001);
  });

  it('takes a bath that needs nothing before one that needs topping up', () => {
    const weak = full(bath('a'), 60_000);
    const used = bathNow(bath('b'), [made(90_000), poured('2027-04-30', 20)]);
    const [first] = plan([plates('2027-05-07', 4)], [weak, used]).days;
    expect([first?.bath?.name, first?.topUp]).toEqual(['b', null]);
  });

  it('tells whom it concerns that a bath is suspect, and which takes its place', () => {
    const days = [plates('2027-05-07', 4), plates('2027-05-14', 4), plates('2027-05-21', 4)];
    const off = full(bath('a', { state: 'suspect' }));
    expect(
      dependingOn('a', days, [off, full(bath('b'))], SIZES, TODAY).map((one) => [
        one.day.date.toString(),
        one.instead?.name,
      ]),
    ).toEqual([
      ['2027-05-07', 'b'],
      ['2027-05-21', 'b'],
    ]);
    expect(dependingOn('a', days, [off], SIZES, TODAY).map((one) => one.instead)).toEqual([null, null, null]);
  });
});

describe('what is due', () => {
  it('names topping up, care and the days that no bath takes, but none where no bath is kept', () => {
    const days = [plates('2027-05-07', 10), plates('2027-05-14', 2)];
    const small = full(bath('small', { plateSizeId: 'half' }));
    const told = (baths: ReturnType<typeof full>[]) =>
      bathTasks(planBaths(days, baths, SIZES, TODAY)).map((task) => `${task.by} ${task.what}`);
    expect(told([full(bath('a', { careAfterPlates: 10 }), 70_100)])).toEqual([
      '2027-05-06 Top up a: 39.8 g of silver nitrate',
      '2027-05-08 Sun and filter a',
    ]);
    expect(told([small])).toEqual([
      '2027-05-07 No bath for Friday 7 May 2027',
      '2027-05-14 No bath for Friday 14 May 2027',
    ]);
    expect(told([])).toEqual([]);
  });

  it('tells two toppings up of one day apart', () => {
    const thirsty = full(bath('a', { leastStrength: 89_900 }), 89_000);
    const days = [plates('2027-05-01', 10), plates('2027-05-02', 10)];
    const tasks = bathTasks(planBaths(days, [thirsty], SIZES, TODAY));
    expect(tasks.map((task) => task.by.toString())).toEqual(['2027-05-01', '2027-05-01']);
    expect(new Set(tasks.map((task) => task.key)).size).toBe(2);
  });
});
