// Journeys as entries of a calendar: by the clock at home, rising with each change, cancelled where they are not to be.
import { Temporal } from 'temporal-polyfill';
import { buildFeed } from '../../src/calendar/ics.calc.js';
import { travelEntries } from '../../src/calendar/travel-entries.calc.js';
import type { Studio } from '../../src/studios/studios.schemas.js';
import { NO_PLAN } from '../../src/travel/plan.schemas.js';
import { at } from '../support/calendar-entries.js';
import { byIcalJs, byNodeIcal, wordsByIcalJs } from '../support/calendar-readers.js';

const studio = {
  name: 'Kittiwake Yard',
  address: '3 Capstan Steps',
  lat: 54.49,
  lon: -0.61,
  zone: 'Europe/London',
} as Studio;
/** Two hours of train from Paris, as they say themselves; the sitting is at ten in London, on a day of summer. */
const contact = {
  language: 'en' as const,
  home: { name: 'Paris', lat: 48.85, lon: 2.35, zone: 'Europe/Paris' },
  plan: { ...NO_PLAN, mode: 'train' as const, minutes: 120, night: 'no' as const, marginMinutes: 30 },
};
const visit = {
  uid: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a01',
  sequence: 2,
  revisedAt: at('2027-05-01T08:30:00Z'),
  createdAt: at('2027-04-01T08:30:00Z'),
  startsAt: at('2027-07-16T09:00:00Z'),
  endsAt: at('2027-07-16T10:15:00Z'),
  standing: true,
};
const shown = { shown: true, turns: 1, revisedAt: at('2027-05-02T08:30:00Z') };
const cancelledSince = at('2027-04-25T00:00:00Z');
const entries = (
  changes: { visit?: object; shown?: object; contact?: object; since?: Temporal.Instant } = {},
) =>
  travelEntries(
    { ...visit, ...changes.visit },
    {
      contact: { ...contact, ...changes.contact },
      shown: { ...shown, ...changes.shown },
      cancelledSince: changes.since ?? cancelledSince,
    },
    studio,
    'https://studio.example/s/x/place/t/journey',
  );

test('stand by the clock at home, worked by hand, and two readers agree', () => {
  const text = buildFeed({ name: 'x', entries: entries(), refreshHours: 6 });
  // at the studio by 9:30 in London; two hours before it is 7:30 there and 8:30 in Paris; home at 12:15, 13:15 and 14:15
  expect(text).toContain('DTSTART;TZID=Europe/Paris:20270716T083000');
  expect(text).toContain('DTEND;TZID=Europe/Paris:20270716T103000');
  expect(text).toContain('DTSTART;TZID=Europe/Paris:20270716T121500');
  expect(text).toContain('DTEND;TZID=Europe/Paris:20270716T141500');
  expect(text).toContain('TZID:Europe/Paris\r\n');
  expect(text.replace(/\r\n /g, '')).toContain(
    'Leave by Friday 16 July 2027\\, 08:30 (Europe/Paris)\\, from Paris.',
  );
  for (const read of [byIcalJs, byNodeIcal]) {
    const told = read(text);
    expect(told.size).toBe(2);
    expect(told.get(`${visit.uid}-there`)).toMatchObject({
      starts: '2027-07-16T06:30:00.000Z',
      ends: '2027-07-16T08:30:00.000Z',
      status: 'CONFIRMED',
      sequence: 3,
      revised: '2027-05-02T08:30:00.000Z',
    });
    expect(told.get(`${visit.uid}-back`)).toMatchObject({ starts: '2027-07-16T10:15:00.000Z' });
  }
  expect(text.match(/BEGIN:VALARM/g)).toHaveLength(1);
});

test('have uids that name nobody and stay when anything changes', () => {
  const uids = [`${visit.uid}-there`, `${visit.uid}-back`];
  const others = [
    entries(),
    entries({ visit: { startsAt: at('2027-07-17T09:00:00Z'), endsAt: at('2027-07-17T10:15:00Z') } }),
    entries({ shown: { turns: 5 } }),
  ];
  for (const one of others) expect(one.map(({ uid }) => uid)).toEqual(uids);
  expect(uids.every((uid) => /^[0-9a-z-]+$/.test(uid))).toBe(true);
});

test('rise with the place and with the journey', () => {
  expect(entries({ visit: { sequence: 3 } })[0]?.sequence).toBe(4);
  expect(entries({ shown: { turns: 2 } })[0]?.sequence).toBe(4);
  expect(entries({ visit: { revisedAt: at('2027-06-01T00:00:00Z') } })[0]?.revisedAt).toEqual(
    at('2027-06-01T00:00:00Z'),
  );
});

test('are cancelled with the visit, and for a while once they are taken out', () => {
  const statuses = (...of: Parameters<typeof entries>) =>
    entries(...of).map(({ status, transparent }) => [status, transparent]);
  const gone = [
    ['CANCELLED', true],
    ['CANCELLED', true],
  ];
  expect(statuses({ visit: { standing: false } })).toEqual(gone);
  expect(statuses({ shown: { shown: false, turns: 2 } })).toEqual(gone);
  expect(statuses({ shown: { shown: false, turns: 2 }, since: at('2027-05-03T00:00:00Z') })).toEqual([]);
  // a place that was given after they were taken out never had them
  expect(statuses({ shown: { shown: false }, visit: { createdAt: at('2027-05-03T00:00:00Z') } })).toEqual([]);
});

test('are none while nobody asked for them, or nobody knows from where', () => {
  expect(entries({ shown: { shown: false, turns: 0, revisedAt: null } })).toEqual([]);
  expect(entries({ contact: { home: null } })).toEqual([]);
});

test('are in the language of who travels, at the same instants, and an entry taken out says so in it', () => {
  const french = { language: 'fr' as const };
  const text = buildFeed({ name: 'x', entries: entries({ contact: french }), refreshHours: 6 });
  expect(byIcalJs(text)).toEqual(byIcalJs(buildFeed({ name: 'x', entries: entries(), refreshHours: 6 })));
  const words = [...wordsByIcalJs(text).values()];
  expect(words.map(({ summary }) => summary)).toEqual([
    'Trajet vers Kittiwake Yard',
    'Retour de Kittiwake Yard',
  ]);
  expect(words[0]?.description).toBe(
    [
      'Partez au plus tard le vendredi 16 juillet 2027, 08:30 (Europe/Paris). Départ\u00a0: Paris.',
      'Train\u00a0: 2\u00a0h de porte à porte.',
      'Ce jour-là, l’heure du studio retarde de 1\u00a0h sur la vôtre.',
      'Une estimation\u00a0: ce que vous dites de votre trajet sur votre page compte davantage.',
    ].join('\n'),
  );
  const gone = entries({ contact: french, shown: { shown: false } });
  expect(buildFeed({ name: 'x', entries: gone, refreshHours: 6 })).toContain(
    'SUMMARY:Annulé\u00a0: Trajet vers Kittiwake Yard',
  );
});
