// What a bath's own measurements tell of its plates.
import { fitLoss, learnLoss, USUAL_LOSS_AREA } from '../../src/chemistry/bath-loss.calc.js';
import { DEFAULT_LOSS, levelAfterPlates } from '../../src/chemistry/bath-strength.calc.js';
import { UM2_PER_SQUARE_INCH } from '../../src/chemistry/plate-sizes.calc.js';

const squareInches = (count: number): bigint =>
  (UM2_PER_SQUARE_INCH * BigInt(Math.round(count * 1000))) / 1000n;
const litres = (count: number): bigint => BigInt(Math.round(count * 1e6));

describe('the loss of one bath', () => {
  it('is found again from what the model itself would have measured', () => {
    const loss = { filmMg: 2.7, dragOutUl: 66 };
    const start = { volume: litres(1.8), strength: 92_000 };
    const runs = [400, 900, 250].map((area) => {
      const areaUm2 = squareInches(area);
      return { areaUm2, before: start, after: levelAfterPlates(start, areaUm2, loss) };
    });
    const fitted = fitLoss(runs);
    if (!fitted.ok) throw new Error(fitted.reason);
    expect(fitted.loss.filmMg).toBeCloseTo(2.7, 3);
    expect(fitted.loss.dragOutUl).toBeCloseTo(66, 2);
    expect(fitted.runs).toBe(3);
  });

  it('needs plates, and a bath that got weaker and lower', () => {
    const level = { volume: litres(1), strength: 90_000 };
    const areaUm2 = squareInches(100);
    expect(fitLoss([{ areaUm2: 0n, before: level, after: level }])).toEqual({
      ok: false,
      reason: 'no plates',
    });
    const stronger = { ...level, strength: 95_000 };
    expect(fitLoss([{ areaUm2, before: level, after: stronger }], 70)).toEqual({
      ok: false,
      reason: 'not weaker',
    });
    const fuller = { ...level, volume: litres(1.1) };
    expect(fitLoss([{ areaUm2, before: level, after: fuller }])).toEqual({ ok: false, reason: 'not less' });
  });
});

describe('a loss learned from measurements', () => {
  const start = { volume: litres(2), strength: 90_000 };
  const run = (area: number, loss = { filmMg: 5, dragOutUl: 50 }, volumeMeasured = true) => {
    const areaUm2 = squareInches(area);
    return { areaUm2, before: start, after: levelAfterPlates(start, areaUm2, loss), volumeMeasured };
  };

  it('is the usual one as long as nothing tells it', () => {
    expect(learnLoss([])).toEqual({ loss: DEFAULT_LOSS, own: null, area: 0, runs: 0, usualWeight: 1 });
    const stronger = { ...run(500), after: { volume: litres(1.9), strength: 95_000 } };
    expect(learnLoss([stronger]).loss).toEqual(DEFAULT_LOSS);
  });

  // By hand: 2500 square inches of the usual 3.16 and 73, and 1250 of its own 5 and 50.
  it('goes a third of the way to its own over half the area that the usual counts as', () => {
    const { loss, own, usualWeight, runs } = learnLoss([run(750), run(500)]);
    expect(own?.filmMg).toBeCloseTo(5, 2);
    expect(runs).toBe(2);
    expect(usualWeight).toBeCloseTo(USUAL_LOSS_AREA / (USUAL_LOSS_AREA + 1250), 9);
    expect(loss.likely.filmMg).toBeCloseTo((2 * 3.16 + 5) / 3, 2);
    expect(loss.likely.dragOutUl).toBeCloseTo((2 * 73 + 50) / 3, 1);
    expect(loss.most.filmMg / loss.likely.filmMg).toBeCloseTo(4.675 / 3.16, 9);
    expect(loss.least.dragOutUl / loss.likely.dragOutUl).toBeCloseTo(70 / 73, 9);
  });

  it('tells of the film alone where no volume was measured', () => {
    const { loss } = learnLoss([run(1250, { filmMg: 5, dragOutUl: 73 }, false)]);
    expect(loss.likely.dragOutUl).toBe(73);
    expect(loss.likely.filmMg).toBeCloseTo((2 * 3.16 + 5) / 3, 2);
  });
});
