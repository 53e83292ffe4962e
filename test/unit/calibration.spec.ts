// What a studio's own notes say about its reference exposure: like with like, a median, a proposal only.
import fc from 'fast-check';
import {
  type ExposureConditions,
  type ExposureNote,
  openingFactor,
  proposeReference,
} from '../../src/daylight/calibration.calc.js';
import { exposureMultiplier, type StudioLight } from '../../src/daylight/exposure.calc.js';

const studio: StudioLight = { windowKind: 'north window', referenceSeconds: 6, referenceAltitudeDegrees: 40 };
const conditions: ExposureConditions = {
  lens: 'Petzval 300 mm',
  framing: 'head',
  bottle: 'old salts, 2 months',
  weather: 'clear',
  fNumber: 4,
  magnification: 0.25,
};
/** A note that implies so many seconds at the reference altitude, taken under a sun of some height. */
const aNote = (implied: number, altitude = 40, more: Partial<ExposureNote> = {}): ExposureNote => ({
  ...conditions,
  altitude,
  seconds: implied * (exposureMultiplier(studio, altitude) ?? Number.NaN),
  ...more,
});

describe('the opening of a lens', () => {
  it('costs the square of the f-number times the bellows factor (1 + m)^2', () => {
    expect(openingFactor({ fNumber: 4, magnification: 0 })).toBe(16);
    expect(openingFactor({ fNumber: 4, magnification: 1 })).toBe(64); // life size: two stops
    expect(openingFactor({ fNumber: 5.6, magnification: 0.25 })).toBeCloseTo(5.6 ** 2 * 1.5625, 9);
  });
});

describe('a proposal', () => {
  it('is the median of what the notes imply at the reference altitude, with count and quartiles', () => {
    const notes = [aNote(7, 12), aNote(8, 55), aNote(9, 20), aNote(7.5, 33), aNote(30, 25)];
    const answer = proposeReference(studio, conditions, notes);
    if (!answer.ok) throw new Error(answer.reason);
    expect(answer.referenceSeconds).toBeCloseTo(8, 9); // one spoilt plate of 30 s does not pull it
    expect(answer.ratio).toBeCloseTo(8 / 6, 9);
    expect(answer.spread.from).toBeCloseTo(7.5, 9);
    expect(answer.spread.to).toBeCloseTo(9, 9);
    expect([answer.count, answer.leftOut]).toEqual([5, 0]);
  });

  it('lies between the middle two of an even number', () => {
    const answer = proposeReference(
      studio,
      conditions,
      [4, 6, 7, 8, 10, 12].map((seconds) => aNote(seconds)),
    );
    expect(answer).toMatchObject({ ok: true, count: 6 });
    expect(answer.ok && answer.referenceSeconds).toBeCloseTo(7.5, 9);
  });

  it('needs a least number of notes, which can be set', () => {
    const four = [6, 7, 8, 9].map((seconds) => aNote(seconds));
    expect(proposeReference(studio, conditions, four)).toEqual({
      ok: false,
      reason: 'too few notes',
      count: 4,
      leftOut: 0,
      needed: 5,
    });
    expect(proposeReference(studio, conditions, four, 4)).toMatchObject({ ok: true, count: 4 });
    expect(proposeReference(studio, conditions, [], 0)).toMatchObject({ ok: false, reason: 'too few notes' });
  });

  it.each([
    ['lens', { lens: 'Dallmeyer 8B' }],
    ['framing', { framing: 'group' }],
    ['bottle', { bottle: 'new salts' }],
    ['weather', { weather: 'dull' }],
  ] as const)('leaves aside notes of another %s', (_, other) => {
    const like = [6, 7, 8, 9, 10].map((seconds) => aNote(seconds));
    const unlike = [60, 70, 80].map((seconds) => aNote(seconds, 40, other));
    const answer = proposeReference(studio, conditions, [...unlike, ...like]);
    expect(answer).toMatchObject({ ok: true, count: 5, leftOut: 3 });
    expect(answer.ok && answer.referenceSeconds).toBeCloseTo(8, 9);
  });

  it('leaves aside notes of a sun below the horizon', () => {
    const like = [6, 7, 8, 9, 10].map((seconds) => aNote(seconds));
    const night = aNote(8, 40, { altitude: -2 });
    expect(proposeReference(studio, conditions, [...like, night])).toMatchObject({ count: 5, leftOut: 1 });
  });

  it('reckons another stop and another magnification over to its own', () => {
    const stopped = (seconds: number) => aNote(4 * seconds, 30, { fNumber: 8 }); // two stops
    const near = (seconds: number) => aNote(seconds * (1.5 / 1.25) ** 2, 30, { magnification: 0.5 });
    const answer = proposeReference(studio, conditions, [
      stopped(8),
      stopped(9),
      near(7),
      near(10),
      aNote(8),
    ]);
    expect(answer.ok && answer.referenceSeconds).toBeCloseTo(8, 9);
  });

  it('from dull days divides the weather out', () => {
    const dull: ExposureConditions = { ...conditions, weather: 'dull' };
    const notes = [28, 30, 32, 34, 36].map((seconds) => aNote(seconds, 40, { weather: 'dull' }));
    const answer = proposeReference(studio, dull, notes);
    expect(answer.ok && answer.referenceSeconds).toBeCloseTo(8, 9);
  });

  it('finds the true reference again from notes of any altitude, in any order, and moves nothing', () => {
    const property = fc.property(
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.array(fc.double({ min: 5, max: 60, noNaN: true }), { minLength: 5, maxLength: 40 }),
      (truth, altitudes) => {
        const notes = Object.freeze(altitudes.map((altitude) => Object.freeze(aNote(truth, altitude))));
        const answer = proposeReference(
          Object.freeze({ ...studio }),
          Object.freeze({ ...conditions }),
          notes,
        );
        if (!answer.ok) throw new Error(answer.reason);
        expect(answer.referenceSeconds / truth).toBeCloseTo(1, 9);
        expect(answer.spread.to / answer.spread.from).toBeCloseTo(1, 9);
      },
    );
    fc.assert(property, { numRuns: 200, seed: 15 });
  });
});
