// Every pair of state and event, against a table written out by hand: one line a state, one column an event.
import { describe, expect, it } from '@jest/globals';
import { EVENTS, givingUp, hasPlace, next, STATES } from '../../src/sittings/states.calc.js';

const TABLE = `
               wait    offer   approve   decline  accept    refuse  lapse   run_out reopen  withdraw  release  ask_another_day call_off   move      delay     end_made end_no_plate  end_missed    undo_ending
requested      waiting offered confirmed declined -         -       -       -       -       withdrawn -        -               -          -         -         -        -             -                         -
waiting        -       offered confirmed declined -         -       -       -       -       withdrawn -        -               -          -         -         -        -             -                         -
offered        -       -       -         -        confirmed waiting waiting lapsed  -       withdrawn -        waiting         waiting    -         -         -        -             -                         -
confirmed      -       -       -         -        -         -       -       -       -       -         released waiting         called_off confirmed confirmed made     came_no_plate did_not_come              -
made           -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         confirmed
came_no_plate  -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         confirmed
did_not_come   -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         confirmed
declined       -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         -
withdrawn      -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         -
lapsed         -       -       -         -        -         -       -       -       waiting withdrawn -        -               -          -         -         -        -             -                         -
released       -       -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         -
called_off     waiting -       -         -        -         -       -       -       -       -         -        -               -          -         -         -        -             -                         -
`;
const [head = [], ...rows] = TABLE.trim()
  .split('\n')
  .map((line) => line.trim().split(/\s+/));
const PAIRS = rows.flatMap(([state, ...after]) =>
  after.map((expected, at) => ({ state, event: head[at], expected })),
);

describe('the table of states', () => {
  it('is written out for all 12 states and 19 events', () => {
    expect(rows.map(([state]) => state)).toEqual([...STATES]);
    expect([...head].sort()).toEqual([...EVENTS].sort());
    expect(PAIRS).toHaveLength(STATES.length * EVENTS.length);
  });

  it.each(PAIRS)('$state, $event: $expected', ({ state, event, expected }) => {
    const known = STATES.find((one) => one === state);
    const happens = EVENTS.find((one) => one === event);
    if (!known || !happens) throw new Error('unknown');
    expect(next(known, happens) ?? '-').toBe(expected);
  });

  it('leads from every state that is not an ending to an ending, and into every state', () => {
    const reached = new Set(STATES.flatMap((state) => EVENTS.map((event) => next(state, event))));
    expect(STATES.filter((state) => state !== 'requested' && !reached.has(state))).toEqual([]);
    const ends = STATES.filter((state) =>
      EVENTS.every((event) => event === 'undo_ending' || next(state, event) === null),
    );
    expect(ends).toEqual(['made', 'came_no_plate', 'did_not_come', 'declined', 'withdrawn', 'released']);
  });

  it('keeps the room for an offer and for a confirmed place, and for nothing else', () => {
    expect(STATES.filter(hasPlace)).toEqual(['offered', 'confirmed']);
  });

  it('calls giving up releasing once a place is confirmed, and withdrawing before', () => {
    expect(STATES.filter((state) => givingUp(state) === 'withdraw')).toEqual([
      'requested',
      'waiting',
      'offered',
      'lapsed',
    ]);
    expect(STATES.filter((state) => givingUp(state) === 'release')).toEqual(['confirmed']);
  });
});
