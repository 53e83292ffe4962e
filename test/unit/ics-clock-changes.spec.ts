// Two independent readers must find our instants again around every change of clocks: ical.js obeys the embedded
// VTIMEZONE, node-ical goes by the name of the zone and Node's own zone data, which is older than ours.
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { Temporal } from 'temporal-polyfill';
import { buildFeed, type CalendarEntry } from '../../src/calendar/ics.calc.js';
import { instantToWall, transitions, wallToInstant } from '../../src/lib/zoned-time.js';
import { anEntry, at } from '../support/calendar-entries.js';

const ZONES = [
  'Europe/London',
  'America/Vancouver',
  'Africa/Casablanca',
  'Australia/Lord_Howe',
  'America/Santiago',
];
const YEARS = [2025, 2026, 2027, 2028, 2030];
/** Minutes from the change to the start of an entry, both sides, inside and outside of a repeated hour. */
const AROUND = [-1440, -91, -61, -60, -31, -30, -1, 0, 1, 29, 30, 31, 59, 60, 61, 1440, 40_000];

/** Entries around every change that begins in the year, 40 minutes long. */
function entriesAround(zone: string, year: number): CalendarEntry[] {
  const changes = transitions(zone, at(`${year}-01-01T00:00:00Z`), at(`${year + 1}-01-01T00:00:00Z`));
  const bases = [at(`${year}-06-15T11:00:00Z`), ...changes.map((change) => change.at)];
  return bases.flatMap((base, i) =>
    AROUND.map((minutes) => {
      const startInstant = base.add({ minutes });
      const endInstant = startInstant.add({ minutes: 40 });
      return anEntry({
        uid: `${zone}/${year}/${i}/${minutes}`,
        zone,
        startInstant,
        endInstant,
        start: instantToWall(zone, startInstant),
        end: instantToWall(zone, endInstant),
      });
    }),
  );
}

const feedOf = (entries: CalendarEntry[]) => buildFeed({ name: 'Changes', refreshHours: 6, entries });
const ourTimes = (entries: CalendarEntry[]) =>
  new Map(entries.map((entry) => [entry.uid, [entry.startInstant, entry.endInstant].map(String)]));
const instantOf = (date: Date) => String(Temporal.Instant.fromEpochMilliseconds(date.getTime()));

/** Whether Node's own zone data gives both wall times of the entry the same readings as ours. */
function nodeKnows({ zone, start, end }: CalendarEntry): boolean {
  return [start, end].every((wall) =>
    (['earlier', 'later'] as const).every((disambiguation) => {
      const ours = wallToInstant(zone, wall, disambiguation);
      return ours.ok && ours.instant.equals(wall.toZonedDateTime(zone, { disambiguation }).toInstant());
    }),
  );
}

function timesByEmbeddedRules(text: string): Map<string, string[]> {
  const root = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return new Map(
    root.getAllSubcomponents('vevent').map((component) => {
      const { uid, startDate, endDate } = new ICAL.Event(component);
      return [uid, [startDate, endDate].map((time) => instantOf(time.toJSDate()))];
    }),
  );
}

function timesByZoneName(text: string): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const item of Object.values(nodeIcal.sync.parseICS(text))) {
    if (item?.type !== 'VEVENT') continue;
    found.set(String(item.uid), [instantOf(item.start), instantOf(item.end as Date)]);
  }
  return found;
}

describe.each(ZONES)('around every change of clocks in %s', (zone) => {
  test.each(YEARS)('%i: a reader who obeys the embedded rules finds our instants', (year) => {
    const entries = entriesAround(zone, year);
    expect(timesByEmbeddedRules(feedOf(entries))).toEqual(ourTimes(entries));
  });

  test('a feed over all years at once: a reader who obeys the embedded rules finds our instants', () => {
    const entries = YEARS.flatMap((year) => entriesAround(zone, year));
    expect(timesByEmbeddedRules(feedOf(entries))).toEqual(ourTimes(entries));
  });

  test('a reader who goes by the zone’s name finds our instants, where its zone data is no older', () => {
    const entries = YEARS.flatMap((year) => entriesAround(zone, year));
    const known = entries.filter((entry) => nodeKnows(entry));
    const found = timesByZoneName(feedOf(known));
    expect(found).toEqual(ourTimes(known));
    expect(known.length).toBeGreaterThan(entries.length / 3);
  });
});

test('ical.js does obey the embedded rules: with wrong ones it finds wrong instants', () => {
  const summer = anEntry();
  const wrong = feedOf([summer]).replaceAll('TZOFFSETTO:+0100', 'TZOFFSETTO:+0300');
  expect(timesByEmbeddedRules(wrong).get(summer.uid)?.[0]).toBe('2027-07-16T07:00:00Z');
});

test('node-ical does go by the zone’s name: with wrong rules it still finds our instants', () => {
  const summer = anEntry();
  const wrong = feedOf([summer]).replaceAll('TZOFFSETTO:+0100', 'TZOFFSETTO:+0300');
  expect(timesByZoneName(wrong)).toEqual(ourTimes([summer]));
});
