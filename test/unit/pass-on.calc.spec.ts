// Who is asked next for a place that came free, and why the others are not.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { type Candidate, passOn } from '../../src/waiting/pass-on.calc.js';

const open = {
  ok: true,
  expiresAt: Temporal.Instant.from('2026-12-07T18:00:00Z'),
  byTelephone: false,
} as const;
const one = (id: string, more: Partial<Candidate> = {}): Candidate => ({
  id,
  suits: true,
  fits: true,
  hadIt: false,
  expiry: open,
  ...more,
});

describe('passing a place on', () => {
  it('asks in the order of the list', () => {
    expect(passOn([one('b'), one('a')])).toEqual({ order: ['b', 'a'], notAsked: [] });
  });

  it('tells of everybody who is not asked the one reason that counts', () => {
    const { order, notAsked } = passOn([
      one('said no', { hadIt: true, suits: false }),
      one('other days', { suits: false, expiry: { ok: false, reason: 'notice too long' } }),
      one('from far', { expiry: { ok: false, reason: 'notice too long' }, fits: false }),
      one('too late', { expiry: { ok: false, reason: 'no time to answer' } }),
      one('six plates', { fits: false }),
      one('next'),
    ]);
    expect(order).toEqual(['next']);
    expect(notAsked.map(({ id, why }) => `${id}: ${why}`)).toEqual([
      'said no: said no to it',
      'other days: day does not suit',
      'from far: notice too long',
      'too late: no time to answer',
      'six plates: does not fit',
    ]);
  });

  it('asks nobody where nobody waits', () => {
    expect(passOn([])).toEqual({ order: [], notAsked: [] });
  });
});
