// A bath's ledger tells what its own plates take: which stretches of it count, and how the forecast follows.
import { Temporal } from 'temporal-polyfill';
import { USUAL_LOSS_AREA } from '../../src/chemistry/bath-loss.calc.js';
import { DEFAULT_LOSS, levelAfterPlates } from '../../src/chemistry/bath-strength.calc.js';
import { UM2_PER_SQUARE_INCH } from '../../src/chemistry/plate-sizes.calc.js';
import { bathNow, chartOf, runsOf } from '../../src/stock/baths.calc.js';
import { type Bath, type BathEvent, plainEvent } from '../../src/stock/baths.schemas.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const BATH: Bath = {
  id: 'a',
  name: 'North tank',
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
};
const AREA = UM2_PER_SQUARE_INCH * BigInt(USUAL_LOSS_AREA);
let count = 0;
const line = (kind: BathEvent['kind'], more: Partial<BathEvent>): BathEvent => ({
  ...plainEvent(kind, { id: `line ${++count}`, bathId: 'a', day: day('2027-01-01'), who: 'Odhran Pike' }),
  ...more,
});
const made = () => line('made', { strength: 90_000, volume: 2_000_000n });
const poured = (area = AREA) => line('poured', { plates: 45, area });
const measured = (strength: number, volume: bigint | null) =>
  line('measured', { method: 'titration', strength, volume });

/** A bath that loses twice as much to its films as is usual. */
const GREEDY = { filmMg: 2 * DEFAULT_LOSS.likely.filmMg, dragOutUl: DEFAULT_LOSS.likely.dragOutUl };
const greedy = levelAfterPlates({ volume: 2_000_000n, strength: 90_000 }, AREA, GREEDY);

describe('the stretches of a ledger', () => {
  it('run from one measurement to the next, with the plates between', () => {
    const events = [made(), poured(), measured(84_000, 1_900_000n), measured(84_500, 1_900_000n), poured()];
    expect(runsOf(events)).toEqual([
      {
        areaUm2: AREA,
        before: { strength: 90_000, volume: 2_000_000n },
        after: { strength: 84_000, volume: 1_900_000n },
        volumeMeasured: true,
      },
    ]);
  });

  it('end where something is added, and begin again at the next measurement', () => {
    const topped = line('topped up', { crystals: 20_000n, volume: 100_000n });
    const events = [made(), poured(), topped, measured(90_000, 2_000_000n), poured(), measured(85_000, null)];
    expect(runsOf(events)).toEqual([
      {
        areaUm2: AREA,
        before: { strength: 90_000, volume: 2_000_000n },
        after: { strength: 85_000, volume: 2_000_000n },
        volumeMeasured: false,
      },
    ]);
  });

  it('leave out a slip that was taken back', () => {
    const slip = measured(20_000, 1_900_000n);
    const events = [made(), poured(), slip, line('taken back', { takesBack: slip.id })];
    expect(runsOf(events)).toEqual([]);
  });
});

test('the forecast of a bath follows its own measurements halfway over the area that the usual counts as', () => {
  const events = [made(), poured(), measured(greedy.strength, greedy.volume)];
  const { loss } = bathNow(BATH, events);
  expect(loss.usualWeight).toBeCloseTo(0.5, 9);
  expect(loss.loss.likely.filmMg / DEFAULT_LOSS.likely.filmMg).toBeCloseTo(1.5, 3);
  const after = bathNow(BATH, [...events, poured()]).level?.likely.strength ?? 0;
  const usual = levelAfterPlates(greedy, AREA, 'likely').strength;
  const own = levelAfterPlates(greedy, AREA, GREEDY).strength;
  expect(after).toBeLessThan(usual);
  expect(after).toBeGreaterThan(own);
  expect((usual - after) / (usual - own)).toBeCloseTo(0.5, 2);
});

test('the chart is reckoned by the same loss as the bath itself', () => {
  const events = [made(), poured(), measured(greedy.strength, greedy.volume), poured()];
  const [last] = chartOf(BATH, events, []).slice(-1);
  expect(last?.strength.likely).toBe(bathNow(BATH, events).level?.likely.strength);
});
