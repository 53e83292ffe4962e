// The picture of one thing ahead: steps to scale, marks for each change, and not too heavy.
import { render } from 'preact-render-to-string';
import { Temporal } from 'temporal-polyfill';
import { StockChart, type StockDay, StockLegend } from '../../src/platform/html/kit/stock-chart.js';

const TODAY = Temporal.PlainDate.from('2027-03-01');
const on = (day: number) => TODAY.add({ days: day });
const at = (day: number, onHand: bigint, change: Partial<StockDay> = {}): StockDay => ({
  day: on(day),
  onHand,
  setAside: 0n,
  came: 0n,
  ranOut: 0n,
  short: 0n,
  ...change,
});
const draw = (
  days: StockDay[],
  until = 100,
  suggested: { day: Temporal.PlainDate; quantity: bigint }[] = [],
) => render(<StockChart days={days} until={on(until)} suggested={suggested} unit="uL" label="Fixer ahead" />);
const pathOf = (html: string, name: string) =>
  new RegExp(`<path class="${name}" d="([^"]*)"`).exec(html)?.[1] ?? '';
const moves = (path: string) => path.match(/M/g)?.length ?? 0;
const numbers = (path: string) => (path.match(/-?[\d.]+/g) ?? []).map(Number);

describe('the picture of one thing ahead', () => {
  it('steps down to scale, from the day of each change to the right end', () => {
    const html = draw([at(0, 1_000_000n), at(50, 500_000n), at(75, 0n)]);
    // 302 wide from 50 on, 150 high from 14 on
    expect(pathOf(html, 'on-hand')).toBe('M50 14H201V89H276.5V164H352');
  });

  it('has a mark for each delivery, each bottle that runs out, each missing day and each suggestion', () => {
    const days = [
      at(0, 10n, { came: 10n }),
      at(10, 30n, { came: 20n, setAside: 5n }),
      at(20, 25n, { ranOut: 5n }),
      at(30, 25n, { short: 4n }),
      at(40, 25n, { short: 8n }),
    ];
    const html = draw(days, 60, [{ day: on(30), quantity: 12n }]);
    expect(['came', 'ran-out', 'short', 'suggested'].map((name) => moves(pathOf(html, name)))).toEqual([
      1, 1, 2, 1,
    ]);
    // the second shortage is twice the first
    const [first, second] = pathOf(html, 'short').match(/v[\d.]+/g) ?? [];
    expect(Number(second?.slice(1))).toBeCloseTo(2 * Number(first?.slice(1)), 0);
    expect(pathOf(html, 'aside')).toMatch(/z$/);
  });

  it('names amounts in the unit of the thing and a few months', () => {
    const html = draw([at(0, 1_700_000n)], 540);
    expect(html).toContain('>500 mL<');
    expect(html).toContain('>2 L<');
    expect(html.match(/class="chart-month"/g)?.length).toBeLessThanOrEqual(9);
    expect(html).toContain('role="img" aria-label="Fixer ahead"');
  });

  it('stays within its frame and is made of numbers, whatever is drawn', () => {
    const cases = [
      [at(0, 0n)],
      [at(0, 0n, { short: 9n })],
      [at(0, 1n), at(1, 99_999_999_999n), at(500, 3n, { short: 99_999_999_999_999n })],
    ];
    for (const days of cases) {
      const html = draw(days, 540);
      expect(html).not.toMatch(/NaN|Infinity|undefined/);
      const [width = 0, height = 0] = numbers(/viewBox="0 0 ([^"]*)"/.exec(html)?.[1] ?? '');
      for (const [x = 0, y = 0] of [...pathOf(html, 'on-hand').matchAll(/M([\d.]+) ([\d.]+)/g)].map(
        ([, ...found]) => found.map(Number),
      )) {
        expect(x).toBeLessThanOrEqual(width);
        expect(y).toBeLessThanOrEqual(height);
      }
    }
    expect(draw([])).toBe('');
  });

  it('weighs under 20 kB with something on every day for 18 months', () => {
    const days = Array.from({ length: 548 }, (_, day) =>
      at(day, BigInt((day * 7919) % 1_000_000), {
        setAside: BigInt((day * 4801) % 500_000),
        ...(day % 9 === 0 && { came: 5n }),
        ...(day % 11 === 0 && { ranOut: 5n }),
        ...(day % 7 === 0 && { short: BigInt(day) }),
      }),
    );
    const weight = draw(
      days,
      548,
      days.filter((_, day) => day % 14 === 0).map(({ day }) => ({ day, quantity: 1n })),
    ).length;
    expect(weight).toBeGreaterThan(10_000);
    expect(weight).toBeLessThan(20_000);
  });

  it('has its signs explained beside the same shapes', () => {
    const html = render(<StockLegend />);
    for (const name of ['on-hand', 'aside', 'came', 'ran-out', 'short', 'suggested'])
      expect(pathOf(html, name)).not.toBe('');
    expect(html).not.toContain('style=');
  });
});
