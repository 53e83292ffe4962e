// What people are asked to agree to, and what holds of it.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import {
  asksConsent,
  type Consent,
  consentLines,
  wordingsInForce,
} from '../../src/sittings/consents.calc.js';

const at = Temporal.Instant.from('2027-05-14T10:00:00Z');
const people = {
  contact: { name: 'Linnea Harrow' },
  sitters: [
    { id: 'a', name: 'Linnea Harrow' },
    { id: 'b', name: 'Tobias Harrow' },
  ],
};
const yes = (change: Partial<Consent>): Consent => ({
  id: '1',
  sitterId: 'a',
  purpose: 'show',
  version: 1,
  words: 'Show it.',
  givenAt: at,
  givenHow: 'page',
  givenBy: 'contact',
  withdrawnAt: null,
  withdrawnBy: '',
  ...change,
});

describe('the words in force', () => {
  it('are the standard ones in their first version until the owner writes others, and then the newest', () => {
    expect(wordingsInForce([]).show).toMatchObject({
      version: 1,
      words: expect.stringContaining('exhibition'),
    });
    const kept = [1, 3, 2].map((version) => ({ purpose: 'show' as const, version, words: `No. ${version}` }));
    expect(wordingsInForce(kept).show).toEqual(kept[1]);
    expect(wordingsInForce(kept).archive.version).toBe(1);
  });
});

describe('what everybody is asked', () => {
  it('is one thing of the contact and three of each who sits, each by itself', () => {
    const lines = consentLines(people, wordingsInForce([]), [yes({ sitterId: 'b' })]);
    expect(lines.map((one) => `${one.sitterId} ${one.purpose} ${one.live !== null}`)).toEqual([
      'null contact false',
      'a record false',
      'a archive false',
      'a show false',
      'b record false',
      'b archive false',
      'b show true',
    ]);
  });

  it('leaves out what has no words any more, unless somebody agreed to it once', () => {
    const none = wordingsInForce([{ purpose: 'show', version: 2, words: '' }]);
    const shown = (consents: Consent[]) =>
      consentLines(people, none, consents).flatMap((one) => (one.purpose === 'show' ? [one.sitterId] : []));
    expect(shown([])).toEqual([]);
    expect(shown([yes({})])).toEqual(['a']);
    expect(shown([yes({ withdrawnAt: at, withdrawnBy: 'contact' })])).toEqual(['a']);
  });

  it('is asked after the offer; what was said stays to be seen in any state', () => {
    const lines = (consents: Consent[]) => consentLines(people, wordingsInForce([]), consents);
    expect(asksConsent('requested', lines([]))).toBe(false);
    expect(asksConsent('waiting', lines([yes({})]))).toBe(true);
    for (const state of ['offered', 'confirmed', 'made'] as const)
      expect(asksConsent(state, lines([]))).toBe(true);
  });
});
