import fc from 'fast-check';
import type { Crossing } from '../../src/travel/crossing.calc.js';
import { doorToDoor, likelyMode, MODES, waysFor } from '../../src/travel/modes.calc.js';

const crossing = (kind: Crossing['kind'], railKm: number | null = null): Crossing => ({
  kind,
  railKm,
  from: 'here',
  to: kind === 'sea' ? 'there' : 'here',
  water: kind === 'round' ? 'the water' : '',
});
const CROSSINGS = [
  crossing('none'),
  crossing('sea'),
  crossing('sea', 340),
  crossing('round'),
  crossing('perhaps'),
];
const anyCrossing = fc.constantFrom(...CROSSINGS);
const anyKm = fc.double({ min: 0, max: 20_000, noNaN: true });

test('a longer distance never takes less time by the same way of travelling, and each range is in order', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...MODES),
      anyCrossing,
      anyKm,
      fc.double({ min: 0, max: 300, noNaN: true }),
      (mode, over, km, more) => {
        const [near, far] = [doorToDoor(mode, km, over), doorToDoor(mode, km + more, over)];
        expect(near.from).toBeLessThanOrEqual(near.to);
        expect(far.from).toBeGreaterThanOrEqual(near.from);
        expect(far.to).toBeGreaterThanOrEqual(near.to);
      },
    ),
    { numRuns: 2000 },
  );
});

test('by hand: 100 km straight by car, coach and train', () => {
  // road 130 km, 110.5 to 149.5 km at 80 km/h: but never less than 100 km at 60: 1 h 40 to 1 h 52; parking 5 and 15
  expect(doorToDoor('car', 100, crossing('none'))).toEqual({ from: 105, to: 135 });
  // 100 x 1.1 + 30 = 140; 112.1 x 1.5 + 90 = 258.2
  expect(doorToDoor('coach', 100, crossing('none'))).toEqual({ from: 135, to: 270 });
  // 115 km at 100 km/h = 69 + 30 = 99; 150 km at 60 km/h = 150 + 100 = 250
  expect(doorToDoor('train', 100, crossing('none'))).toEqual({ from: 90, to: 270 });
});

test('by hand: 5 km on foot, 100 km by ship and 1,000 km by air', () => {
  // 6 km at 5 km/h, 7.5 km at 4 km/h
  expect(doorToDoor('walk', 5, crossing('none'))).toEqual({ from: 70, to: 120 });
  // at best the road, 100 min, and 90 of waiting; at worst half of 112.1 min, four hours at sea, five of waiting
  expect(doorToDoor('ferry', 100, crossing('sea'))).toEqual({ from: 180, to: 600 });
  // 255 + 75; 525 + 85.7 + two thirds of the change, 160
  expect(doorToDoor('flight', 1000, crossing('none'))).toEqual({ from: 330, to: 780 });
});

test('over a sea a car and a coach go by ferry, and a train only where no rails cross it', () => {
  const ferry = doorToDoor('ferry', 300, crossing('sea'));
  expect(doorToDoor('car', 300, crossing('sea'))).toEqual(ferry);
  expect(doorToDoor('coach', 300, crossing('round'))).toEqual(ferry);
  expect(doorToDoor('train', 300, crossing('sea'))).toEqual(ferry);
  expect(doorToDoor('train', 300, crossing('sea', 340))).toEqual(doorToDoor('train', 340, crossing('none')));
  const named = (km: number, over: Crossing) => waysFor(km, over).map(({ mode }) => mode);
  expect(named(300, crossing('sea'))).toEqual(['ferry', 'flight']);
  expect(named(300, crossing('sea', 340))).toEqual(['train', 'ferry', 'flight']);
  expect(named(300, crossing('none'))).toEqual(['car', 'coach', 'train', 'flight']);
  expect(named(300, crossing('perhaps'))).toEqual(['car', 'coach', 'train', 'ferry', 'flight']);
  expect(named(3, crossing('none'))).toEqual(['walk', 'car']);
});

test('what most would take: on foot, by car, by ferry, by air', () => {
  const likely = (km: number, kind: Crossing['kind']) => likelyMode(km, crossing(kind));
  expect([1, 3, 800, 801].map((km) => likely(km, 'none'))).toEqual(['walk', 'car', 'car', 'flight']);
  expect([1, 400, 401].map((km) => likely(km, 'sea'))).toEqual(['ferry', 'ferry', 'flight']);
});

test('some way is always named, and the likely one is among them', () => {
  fc.assert(
    fc.property(anyKm, anyCrossing, (km, over) => {
      expect(waysFor(km, over).map(({ mode }) => mode)).toContain(likelyMode(km, over));
    }),
    { numRuns: 1000 },
  );
});
