// The words of src/desk/words.calc.ts and src/desk/outlook-words.calc.ts.
import { Temporal } from 'temporal-polyfill';
import { reasonInWords } from '../../src/desk/outlook-words.calc.js';
import {
  deedInWords,
  eventInWords,
  holdStillInShort,
  journeyInShort,
  momentInWords,
  platesInWords,
  shortDay,
  suitsInShort,
} from '../../src/desk/words.calc.js';
import type { StockReason } from '../../src/stock/outlook.calc.js';
import type { JourneyGlance } from '../../src/travel/journey-glance.calc.js';
import { reason } from '../support/desk-props.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('the words of the desk', () => {
  it('tell the days that suit in a line', () => {
    expect(suitsInShort({ kind: 'any', from: day('2027-03-01'), until: day('2027-05-31') })).toBe(
      'any day, 1 March to 31 May 2027',
    );
    expect(suitsInShort({ kind: 'any', from: day('2026-12-01'), until: day('2027-05-31') })).toBe(
      'any day, 1 December 2026 to 31 May 2027',
    );
    const days = ['2027-05-14', '2027-05-21', '2027-05-28', '2027-06-04', '2027-06-11'].map(day);
    expect(suitsInShort({ kind: 'these', days: days.slice(0, 3) })).toBe('14 May, 21 May, 28 May');
    expect(suitsInShort({ kind: 'these', days })).toBe('14 May, 21 May, 28 May and 2 more');
  });

  it('tell who sits on how many plates of which size', () => {
    const plate = (sizeName: string) => ({
      id: sizeName,
      plateSizeId: 'x',
      sitterIds: [],
      sizeName,
      names: [],
    });
    const person = { ageBand: 'adult', headRest: true } as const;
    const sitters = ['Ann', 'Bo'].map((name) => ({ id: name, name, ...person }));
    expect(platesInWords({ sitters: sitters.slice(1), plates: [plate('Whole plate')] })).toBe(
      'one person on one plate: Whole plate',
    );
    expect(
      platesInWords({ sitters, plates: [plate('Half plate'), plate('Whole plate'), plate('Half plate')] }),
    ).toBe('2 people on 3 plates: 2 × Half plate; 1 × Whole plate');
  });

  it('tell the time to hold still in whole seconds, never none', () => {
    const light = (from: number, to: number, most: number) =>
      plain(holdStillInShort({ clear: { from, to }, dull: { from: to, to: most } }));
    expect(light(5.6, 9.4, 36.6)).toBe('hold still 6 to 9 s, up to 37 s if dull');
    expect(light(6.1, 6.4, 26)).toBe('hold still about 6 s, up to 26 s if dull');
    expect(light(0.2, 0.4, 1.9)).toBe('hold still about 1 s, up to 2 s if dull');
  });

  it('tell the journey and what it means', () => {
    const crossing = { kind: 'none', railKm: null, from: '', to: '', water: '' } as const;
    const glance = { km: 410, mode: 'car', own: false, roadKm: null, hours: null, crossing } as const;
    const words = (change: Partial<JourneyGlance>) =>
      plain(journeyInShort({ ...glance, overnight: false, farAway: 'day trip', ...change }));
    expect(words({ overnight: true, farAway: 'night stay' })).toBe('410 km, a night’s stay likely');
    expect(words({ mode: 'flight', overnight: true, farAway: 'flight' })).toBe('410 km, a flight likely');
    expect(words({ mode: 'ferry', overnight: true, farAway: 'night stay' })).toBe(
      '410 km, a ferry and a night’s stay likely',
    );
    expect(words({})).toBe('410 km, there and back in a day');
    expect(words({ farAway: 'near' })).toBe('410 km, near by');
    expect(words({ own: true, mode: 'train' })).toBe('410 km, they come by train, there and back in a day');
    expect(words({ own: true, mode: 'flight', overnight: true, farAway: 'flight' })).toBe(
      '410 km, they come by air and stay the night',
    );
    expect(words({ km: 5150, mode: 'flight', overnight: true, farAway: 'flight' })).toBe(
      '5,150 km, a flight likely',
    );
    expect(words({ km: 0, farAway: 'near' })).toBe('under 1 km, near by');
    expect(journeyInShort(null)).toBe('home place not known');
  });

  it('tell what the shelf lacks and until when it can be had', () => {
    const by = day('2027-05-07');
    expect(reasonInWords(reason({ item: 'Collodion', state: 'mix by', action: 'mix', by }))).toBe(
      'Collodion: mix by Friday 7 May',
    );
    const late = { item: 'Ether', state: 'cannot be had', action: 'order', by: null } as const;
    const never = (why: StockReason['why'], into: string | null = null) =>
      reasonInWords({ ...late, why, into });
    expect(never('too late')).toBe('Ether: it cannot be had in time');
    expect(never('never comes')).toBe('Ether: it is not said how more of it comes');
    expect(never('over the limit', 'Collodion')).toBe(
      'Ether: that would be more than you keep at most, for Collodion',
    );
    expect(
      reasonInWords(reason({ item: 'Ether', state: 'order by', action: 'order', by, why: 'over the limit' })),
    ).toBe('Ether: order by Friday 7 May (that would be more than you keep at most)');
    expect(
      reasonInWords(reason({ item: 'Ether', state: 'order by', action: 'order', by, into: 'Collodion' })),
    ).toBe('Ether: order by Friday 7 May, for Collodion');
  });

  it('tell moments by the studio’s wall, in summer and in winter', () => {
    const at = (text: string) => momentInWords('Europe/London', Temporal.Instant.from(text));
    expect(at('2027-05-14T09:02:00Z')).toBe('Friday 14 May 2027, 10:02');
    expect(at('2027-01-01T00:30:00Z')).toBe('Friday 1 January 2027, 00:30');
    expect(shortDay(day('2027-05-14'))).toBe('Friday 14 May');
  });

  it('tell who did what, the contact by name, and do not lose an act they have no words for', () => {
    expect(eventInWords({ who: 'contact', event: 'ask' }, 'Linnea Harrow')).toBe(
      'Linnea Harrow asked for a sitting',
    );
    expect(eventInWords({ who: 'Isaura Fenwick', event: 'decline' }, 'x')).toBe('Isaura Fenwick declined');
    expect(eventInWords({ who: 'Isaura Fenwick', event: 'rename' }, 'x')).toBe('Isaura Fenwick rename');
  });
});

it('a line of what was done has its dates in words, and leaves what is no day as it is', () => {
  expect(deedInWords({ event: 'added', note: '2026-11-24, two plates' })).toMatch(
    /: Tuesday 24 November 2026, two plates$/,
  );
  expect(deedInWords({ event: 'added', note: 'bottle 2026-02-30' })).toMatch(/bottle 2026-02-30$/);
  expect(deedInWords({ event: 'takes', note: '' })).toBe('said what a day takes of the shelf');
});
