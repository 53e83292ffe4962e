// Why there is no open place: the sentence says taken only where something is taken.
import { describe, expect, it } from '@jest/globals';
import type { ClosedReason, Slot } from '../../src/room/openings.calc.js';
import { noPlaceInWords } from '../../src/sittings/no-place.calc.js';

const day = (...reasons: (ClosedReason | null)[]) => ({
  openings: reasons.map((closed) => ({ closed }) as Slot),
});

describe('Where no place is open', () => {
  it.each([
    ['taken', [day('room taken', 'too soon'), day('day full')], 'Every place is taken just now.'],
    [
      'closed',
      [day('room closed', 'light ends first'), day('owner away')],
      'The studio is closed on every day that can be asked for just now.',
    ],
    [
      'too dark',
      [day('no light that day'), day('starts before good light', 'exposure above cap')],
      'On every day that can be asked for just now there is too little light for a plate.',
    ],
    [
      'of each some',
      [day('room taken'), day('room closed'), day('light ends first'), day('no light that day')],
      'No place is open just now: on one day every place is taken, on one day the studio is closed, and on 2 days there is too little light for a plate.',
    ],
    ['kept back, or for no day at all', [day(null)], 'No place is open just now.'],
    ['of no day', [], 'No place is open just now.'],
  ])('it says why: %s', (_title, days, sentence) => {
    expect(noPlaceInWords(days)).toBe(sentence);
  });
});
