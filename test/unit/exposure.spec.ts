// The exposure model against what was printed, and what a studio may rely on whatever the model: its own
// reference comes back, more light never means a longer exposure, and a slot is refused for the right reason.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import {
  altitudesDuring,
  directLight,
  exposureMultiplier,
  exposureRange,
  lightAt,
  type StudioLight,
  skyCoefficientsConfirmed,
  skyLight,
  slotLight,
  WEATHER_FACTORS,
  WEATHERS,
  type WindowKind,
} from '../../src/daylight/exposure.calc.js';
import { type Place, sunAt } from '../../src/daylight/sun.calc.js';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { wallToInstant } from '../../src/lib/zoned-time.js';

const KINDS: WindowKind[] = ['north window', 'open shade', 'glass room'];
const kittiwake: Place = { lat: 54.49, lon: -0.61, zone: 'Europe/London' };
const studio = (more: Partial<StudioLight> = {}): StudioLight => ({
  windowKind: 'north window',
  referenceSeconds: 6,
  referenceAltitudeDegrees: 40,
  ...more,
});
const instant = (wall: string) => {
  const answer = wallToInstant(kittiwake.zone, Temporal.PlainDateTime.from(wall));
  if (!answer.ok) throw new Error(answer.reason);
  return answer.instant;
};
const altitudes = fc.double({ min: 0.1, max: 90, noNaN: true });
const kinds = fc.constantFrom(...KINDS);

describe('the direct sun of Bunsen and Roscoe', () => {
  // "Chemical intensity of direct sun, 25 March", Chapman Jones in the Sinclair Handbook of Photography, ch. III:
  // hours from noon, then Iceland, Manchester, Cairo. Latitudes are ours (Reykjavik, Manchester, Cairo); the
  // table takes the sun on the equator. Iceland at one hour is cut off after "18." in the text at hand.
  const latitudes = [64.13, 53.33, 30.03] as const;
  it.each([
    [6, 0, 0, 0],
    [5, 0.02, 0.22, 1.74],
    [4, 1.53, 5.85, 20.13],
    [3, 6.62, 18.71, 50.01],
    [2, 13.27, 32.91, 78.61],
  ])('gives the printed row of %d hours from noon', (hours, ...printed) => {
    const degree = Math.PI / 180;
    const ours = latitudes.map((lat) => {
      const sine = Math.cos(lat * degree) * Math.cos(hours * 15 * degree);
      return directLight(Math.asin(sine) / degree);
    });
    // period arithmetic: to one and a half units of the last printed figure
    for (const [i, value] of ours.entries()) {
      expect(Math.abs(value - (printed[i] ?? Number.NaN))).toBeLessThanOrEqual(0.015);
    }
  });

  it('is nothing below the horizon', () => {
    expect([directLight(0), directLight(-5), directLight(-90)]).toEqual([0, 0, 0]);
  });
});

describe('the sky', () => {
  it('is marked as unconfirmed, for every page that shows a prediction', () => {
    expect(skyCoefficientsConfirmed).toBe(false);
  });

  it('falls far more slowly than the sun: 2.5 times from 60 to 10 degrees, where direct light falls 19 times', () => {
    expect(skyLight(60) / skyLight(10)).toBeCloseTo(2.5, 1);
    expect(directLight(60) / directLight(10)).toBeGreaterThan(19);
  });

  it('with the sun is within a quarter of modern ultraviolet measurements from 15 to 60 degrees', () => {
    // 290-385 nm on level ground at Cordoba: 62.23 m^-1.34 W/m2 ("Influences of the clearness index ..."); air
    // mass m by Kasten and Young 1989, coefficients from memory
    const uv = (h: number) => (Math.sin((h * Math.PI) / 180) + 0.50572 * (h + 6.07995) ** -1.6364) ** 1.34;
    for (const h of [15, 20, 30, 45]) {
      const ours = lightAt('glass room', 60) / lightAt('glass room', h);
      expect(Math.abs(ours / (uv(60) / uv(h)) - 1)).toBeLessThan(0.25);
    }
  });
});

describe('an exposure', () => {
  it('at the reference altitude under a clear sky is the reference itself', () => {
    const property = fc.property(
      kinds,
      altitudes,
      fc.double({ min: 0.5, max: 60, noNaN: true }),
      (kind, h, seconds) => {
        const own = studio({ windowKind: kind, referenceSeconds: seconds, referenceAltitudeDegrees: h });
        const range = exposureRange(own, { from: h, to: h }, 'clear');
        expect(range?.from).toBeCloseTo(seconds, 9);
        expect(range?.to).toBeCloseTo(seconds, 9);
      },
    );
    fc.assert(property, { numRuns: 300, seed: 40 });
  });

  it('is never longer under a higher sun, at any window, up to the zenith', () => {
    const property = fc.property(kinds, altitudes, altitudes, (kind, a, b) => {
      const own = studio({ windowKind: kind });
      const [low, high] = [Math.min(a, b), Math.max(a, b)];
      const longer = exposureMultiplier(own, low) ?? 0;
      expect(exposureMultiplier(own, high)).toBeLessThanOrEqual(longer * (1 + 1e-12));
    });
    fc.assert(property, { numRuns: 2_000, seed: 41 });
  });

  it('doubles with the reference, and is the same in open shade as at a north window', () => {
    const at = { from: 15, to: 25 };
    const once = exposureRange(studio(), at, 'dull');
    const twice = exposureRange(studio({ referenceSeconds: 12 }), at, 'dull');
    expect(twice?.from).toBeCloseTo(2 * (once?.from ?? 0), 9);
    expect(exposureRange(studio({ windowKind: 'open shade' }), at, 'dull')).toEqual(once);
  });

  it('grows more towards evening in a glass room than at a north window', () => {
    const glass = studio({ windowKind: 'glass room' });
    expect(exposureMultiplier(glass, 10)).toBeGreaterThan(2 * (exposureMultiplier(studio(), 10) ?? 0));
  });

  it('holds altitude and weather in one range, the lower sun and the darker sky at its long end', () => {
    const clear = exposureRange(studio(), { from: 15, to: 40 }, 'clear');
    expect(clear?.from).toBeCloseTo(6, 9);
    expect(clear?.to).toBeCloseTo(6 * (skyLight(40) / skyLight(15)), 9);
    const broken = exposureRange(studio(), { from: 15, to: 40 }, 'broken');
    expect(broken?.from).toBeCloseTo(0.8 * (clear?.from ?? 0), 9);
    expect(broken?.to).toBeCloseTo(1.2 * (clear?.to ?? 0), 9);
    expect(exposureRange(studio(), { from: 40, to: 40 }, 'heavy')).toEqual({ from: 48, to: 96 });
  });

  it('gets no shorter from one weather step to the next, clear and broken aside, and steps can be replaced', () => {
    const steps = WEATHERS.map((weather) => WEATHER_FACTORS[weather]);
    expect(steps.every(({ from, to }) => from <= to)).toBe(true);
    expect(steps.slice(2).every(({ from }, i) => from >= (steps[i + 1]?.to ?? 0))).toBe(true);
    const own = { ...WEATHER_FACTORS, dull: { from: 5, to: 6 } };
    expect(exposureRange(studio(), { from: 40, to: 40 }, 'dull', own)).toEqual({ from: 30, to: 36 });
  });

  it('is not predicted with the sun below the horizon in any part of the time', () => {
    expect(exposureMultiplier(studio(), -0.01)).toBeNull();
    for (const kind of KINDS) {
      expect(exposureRange(studio({ windowKind: kind }), { from: -1, to: 20 }, 'clear')).toBeNull();
    }
  });
});

describe('a slot', () => {
  const date = Temporal.PlainDate.from('2027-03-12');
  const window = lightWindow(kittiwake, date, 15);
  if (!window) throw new Error('no light on 12 March');
  const slot = (start: string, end: string) => ({
    start: instant(`2027-03-12T${start}`),
    end: instant(`2027-03-12T${end}`),
  });
  const judge = (start: string, end: string, cap = 20) =>
    slotLight(kittiwake, studio(), window, slot(start, end), cap);

  it('within good light is open, with its clear-sky exposure', () => {
    const answer = judge('11:00', '12:15');
    if (!answer.ok) throw new Error(answer.reason);
    expect(answer.clear.from).toBeGreaterThan(6);
    expect(answer.clear.to).toBeLessThan(8);
  });

  it('on a day without light is refused for that', () => {
    const winter = lightWindow(kittiwake, Temporal.PlainDate.from('2026-12-18'), 15);
    expect(slotLight(kittiwake, studio(), winter, slot('11:00', '12:00'), 20)).toEqual({
      ok: false,
      reason: 'no light that day',
    });
  });

  it('that starts too early or ends too late says until or from when there is light', () => {
    expect(judge('08:00', '09:15')).toEqual({
      ok: false,
      reason: 'starts before good light',
      goodFrom: window.start,
    });
    expect(judge('15:30', '16:45')).toEqual({ ok: false, reason: 'light ends first', goodUntil: window.end });
    expect(judge('07:00', '18:00')).toMatchObject({ reason: 'starts before good light' });
  });

  it('is open when it fills the window to its edges, and closed a millisecond beyond', () => {
    const edge = { start: window.start, end: window.end };
    expect(slotLight(kittiwake, studio(), window, edge, 60)).toMatchObject({ ok: true });
    const early = { ...edge, start: edge.start.subtract({ milliseconds: 1 }) };
    expect(slotLight(kittiwake, studio(), window, early, 60)).toMatchObject({
      reason: 'starts before good light',
    });
    const late = { ...edge, end: edge.end.add({ milliseconds: 1 }) };
    expect(slotLight(kittiwake, studio(), window, late, 60)).toMatchObject({ reason: 'light ends first' });
  });

  it('is closed when its longest clear-sky exposure passes the cap, and open when it just reaches it', () => {
    const answer = judge('09:00', '10:15');
    if (!answer.ok) throw new Error(answer.reason);
    expect(judge('09:00', '10:15', answer.clear.to)).toMatchObject({ ok: true });
    expect(judge('09:00', '10:15', answer.clear.to - 1e-6)).toEqual({
      ok: false,
      reason: 'exposure above cap',
      seconds: answer.clear.to,
    });
  });

  it('over noon has its shortest exposure at noon, else at the end nearer to noon', () => {
    const over = altitudesDuring(kittiwake, window, slot('11:00', '13:30'));
    expect(over.to).toBe(window.noonAltitude);
    expect(over.from).toBe(sunAt(kittiwake, instant('2027-03-12T13:30')).altitude);
    const before = altitudesDuring(kittiwake, window, slot('09:00', '10:00'));
    expect(before.to).toBe(sunAt(kittiwake, instant('2027-03-12T10:00')).altitude);
  });

  it('is predicted no better and no worse than its single minutes', () => {
    const times = slot('10:40', '14:10');
    const range = exposureRange(studio(), altitudesDuring(kittiwake, window, times), 'clear');
    const minutes: number[] = [];
    for (let at = times.start; Temporal.Instant.compare(at, times.end) <= 0; at = at.add({ minutes: 1 })) {
      minutes.push(6 * (exposureMultiplier(studio(), sunAt(kittiwake, at).altitude) ?? Number.NaN));
    }
    expect(range?.from).toBeCloseTo(Math.min(...minutes), 4);
    expect(range?.to).toBeCloseTo(Math.max(...minutes), 4);
  });
});
