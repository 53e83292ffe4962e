// What happens to places ahead when a zone's law changes. The stored instants stand for the old law:
// British Columbia keeps summer time from 2026 on (tz database release 2026b), so a December sitting at 10:00 in
// Vancouver, booked under the old law, moves by an hour.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import type { Occupancy } from '../../src/room/occupancy.schemas.js';
import { isMislaid, rederive } from '../../src/room/rederive.calc.js';

const at = (text: string) => Temporal.Instant.from(text);

/** A place of an hour with half an hour of change-over, its instant as some earlier law had it. */
function aPlace(id: string, wallStart: string, startsAt: string, more: Partial<Occupancy> = {}): Occupancy {
  return {
    id,
    resource: 'room',
    kind: 'sitting',
    heldFor: id,
    holds: true,
    tentative: false,
    zone: 'America/Vancouver',
    wallStart: Temporal.PlainDateTime.from(wallStart),
    wallEnd: Temporal.PlainDateTime.from(wallStart).add({ hours: 1 }),
    startsAt: at(startsAt),
    endsAt: at(startsAt).add({ hours: 1 }),
    busyUntil: at(startsAt).add({ minutes: 90 }),
    title: '',
    plates: 1,
    kindId: null,
    uid: id,
    sequence: 0,
    revisedAt: at('2026-01-10T00:00:00Z'),
    createdAt: at('2026-01-10T00:00:00Z'),
    ...more,
  };
}

describe('places ahead after the law of their zone changed', () => {
  it('keep the hour that was promised, and move in absolute time', () => {
    const [one] = rederive([aPlace('a', '2026-12-15T10:00', '2026-12-15T18:00:00Z')]);
    expect(one?.outcome).toBe('moved');
    expect(one?.now.startsAt.toString()).toBe('2026-12-15T17:00:00Z');
    expect(one?.now.endsAt.toString()).toBe('2026-12-15T18:00:00Z');
    expect(one?.now.wallEnd.toString()).toBe('2026-12-15T11:00:00');
  });

  it('are left alone where the law is as it was', () => {
    expect(rederive([aPlace('a', '2026-07-15T10:00', '2026-07-15T17:00:00Z')])).toEqual([]);
    const done = rederive([aPlace('a', '2026-12-15T10:00', '2026-12-15T18:00:00Z')]);
    expect(rederive(done.map(({ now }) => now))).toEqual([]);
  });

  it('pass each other without a clash', () => {
    const outcomes = rederive([
      aPlace('a', '2026-12-15T10:00', '2026-12-15T18:00:00Z'),
      aPlace('b', '2026-12-15T11:30', '2026-12-15T19:30:00Z'),
    ]).map(({ outcome }) => outcome);
    expect(outcomes).toEqual(['moved', 'moved']);
  });

  it('give way to the one booked before, whichever of the two moved', () => {
    const old = aPlace('old', '2026-12-15T10:00', '2026-12-15T18:00:00Z');
    const inSteadyZone = { zone: 'America/Phoenix', createdAt: at('2026-02-01T00:00:00Z') };
    const later = aPlace('later', '2026-12-15T10:00', '2026-12-15T17:00:00Z', inSteadyZone);
    expect(rederive([later, old]).map(({ place, outcome }) => [place.id, outcome])).toEqual([
      ['old', 'moved'],
      ['later', 'clash'],
    ]);
    const earlier = { ...later, createdAt: at('2025-12-01T00:00:00Z') };
    expect(rederive([old, earlier]).map(({ place, outcome }) => [place.id, outcome])).toEqual([
      ['old', 'clash'],
    ]);
  });

  it('keep their instant, and are reported, where the clock now skips their hour', () => {
    const place = aPlace('a', '2027-03-14T02:30', '2027-03-14T07:30:00Z', { zone: 'America/New_York' });
    expect(rederive([place])).toEqual([{ place, now: place, outcome: 'clock gap' }]);
  });

  it('keep the room at their kept instant against whatever was booked before', () => {
    const skipped = aPlace('skipped', '2027-03-14T02:30', '2027-03-14T07:30:00Z', {
      zone: 'America/New_York',
      createdAt: at('2026-05-01T00:00:00Z'),
    });
    const earlier = aPlace('earlier', '2027-03-14T00:30', '2027-03-14T08:30:00Z', {
      zone: 'America/Vancouver',
    });
    const outcomes = rederive([earlier, skipped]).map(({ place, outcome }) => [place.id, outcome]);
    expect(outcomes).toEqual([
      ['earlier', 'clash'],
      ['skipped', 'clock gap'],
    ]);
  });

  it('know a piece of a closure that no longer lies between its wall times, at either end', () => {
    const closed = aPlace('c', '2026-10-20T00:00', '2026-10-20T07:00:00Z', {
      kind: 'closure',
      wallEnd: Temporal.PlainDateTime.from('2026-12-20T00:00'),
      endsAt: at('2026-12-20T08:00:00Z'),
    });
    expect(isMislaid(closed)).toBe(true);
    expect(isMislaid({ ...closed, endsAt: at('2026-12-20T07:00:00Z') })).toBe(false);
    expect(
      isMislaid({ ...closed, endsAt: at('2026-12-20T07:00:00Z'), startsAt: at('2026-10-20T08:00:00Z') }),
    ).toBe(true);
  });
});
