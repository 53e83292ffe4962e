// The chart of a bath: measured dots, a band that widens between them, the least strength as a line.
import { render } from 'preact-render-to-string';
import { BathChart, type StrengthPoint } from '../../src/platform/html/kit/bath-chart.js';

const point = (plates: number, likely: number, kind: StrengthPoint['kind'], half = 0): StrengthPoint => ({
  plates,
  weakest: likely - half,
  likely,
  strongest: likely + half,
  kind,
});
const chart = (points: StrengthPoint[]) =>
  render(<BathChart points={points} least={75} target={90} label="Strength of Tank A" />);
const numbers = (text: string) => [...text.matchAll(/-?\d+(\.\d+)?/g)].map(([number]) => Number(number));
const pathOf = (svg: string, name: string) => new RegExp(`class="${name}" d="([^"]*)"`).exec(svg)?.[1] ?? '';

describe('the chart of a bath', () => {
  const points = [
    point(0, 90, 'measured'),
    point(10, 88, 'reckoned', 1),
    point(20, 86, 'reckoned', 2),
    point(20, 85, 'measured'),
    point(30, 83, 'ahead', 1),
  ];

  it('has a name, and a dot for each measurement only', () => {
    const svg = chart(points);
    expect(svg).toContain('role="img" aria-label="Strength of Tank A"');
    expect(svg.match(/<circle/g)).toHaveLength(2);
  });

  it('draws what is reckoned from each measurement on, and begins anew at the next', () => {
    const svg = chart(points);
    expect(pathOf(svg, 'likely-line').match(/M/g)).toHaveLength(2);
    expect(pathOf(svg, 'band').match(/M[^M]*z/g)).toHaveLength(2);
    // from 0, 10 and 20 plates above, back from 20, 10 and 0 below
    const [, y0 = 0, , , , y2 = 0, , below2 = 0, , , , below0 = 0] = numbers(
      pathOf(svg, 'band').split('z')[0] ?? '',
    );
    expect(below0 - y0).toBe(0);
    expect(below2 - y2).toBeGreaterThan(10);
  });

  it('has stronger baths higher, and the least strength where it belongs', () => {
    const svg = chart(points);
    const heights = [...svg.matchAll(/<circle[^>]*cy="([\d.]+)"/g)].map(([, y]) => Number(y));
    const floor = numbers(pathOf(svg, 'floor-line'))[1] ?? 0;
    expect(heights[0]).toBeLessThan(heights[1] ?? 0);
    expect(heights[1]).toBeLessThan(floor);
  });

  it('marks the present where something is booked, and not else', () => {
    expect(pathOf(chart(points), 'chart-now')).not.toBe('');
    expect(pathOf(chart(points.slice(0, 4)), 'chart-now')).toBe('');
  });

  it('stays inside its frame for one point alone and for very strong and weak baths', () => {
    for (const one of [
      [point(3, 90, 'measured')],
      [point(0, 300, 'measured'), point(500, 5, 'reckoned', 5)],
    ]) {
      const svg = chart(one);
      const all = numbers(
        `${pathOf(svg, 'likely-line')} ${pathOf(svg, 'band')} ${pathOf(svg, 'chart-line')}`,
      );
      expect(all.every((number) => Number.isFinite(number) && number >= 0 && number <= 360)).toBe(true);
    }
  });

  it('is nothing without points', () => {
    expect(chart([])).toBe('');
  });
});
