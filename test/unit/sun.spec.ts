// Rise, set, altitude and azimuth against published tables. Events are matched to the nearest one in absolute
// time, never by the date of their label: a set may come before the rise of "its" UTC day.
import { readFileSync } from 'node:fs';
import { getTimes } from 'suncalc';
import { Temporal } from 'temporal-polyfill';
import { type Place, sunAt, sunTimes } from '../../src/daylight/sun.calc.js';
import { instantToWall } from '../../src/lib/zoned-time.js';

const MINUTE = 60_000;
const instant = (text: string) => Temporal.Instant.from(text);
const day = (text: string) => Temporal.PlainDate.from(text);
const golden = (name: string) => readFileSync(new URL(`../golden/sun/${name}`, import.meta.url), 'utf8');

interface Event {
  what: 'rise' | 'set';
  at: number;
}

/** All risings and settings of civil days from..until at a place. */
function eventsOf(place: Place, from: string, until: string): Event[] {
  const events: Event[] = [];
  for (let date = day(from); date.until(day(until)).days >= 0; date = date.add({ days: 1 })) {
    const { sunrise, sunset } = sunTimes(place, date);
    if (sunrise) events.push({ what: 'rise', at: sunrise.epochMilliseconds });
    if (sunset) events.push({ what: 'set', at: sunset.epochMilliseconds });
  }
  return events;
}

/** Seconds to the nearest event of the same kind. */
function missBy(events: Event[], wanted: Event): number {
  const gaps = events.filter(({ what }) => what === wanted.what).map(({ at }) => Math.abs(at - wanted.at));
  return Math.min(...gaps) / 1000;
}

const textOf = ({ what, at }: Event) => `${what} ${new Date(at).toISOString()}`;

/** One table of the year: four digits at fixed columns, twelve months of rise and set. */
function usnoTables(): { place: Place; published: Event[]; days: Set<string> }[] {
  const [, ...tables] = golden('usno-2019.txt').split('\n= ');
  return tables.map((table) => {
    const [head = '', ...rows] = table.split('\n');
    const [lat, lon, zone = ''] = (head.split('| ')[1] ?? '').split(' ');
    const published: Event[] = [];
    const days = new Set<string>();
    for (const row of rows.filter((line) => line.trim())) {
      for (let month = 0; month < 12; month++) {
        const label = `2019-${String(month + 1).padStart(2, '0')}-${row.slice(0, 2)}`;
        (['rise', 'set'] as const).forEach((what, second) => {
          const digits = row.slice(4 + month * 11 + second * 5, 8 + month * 11 + second * 5);
          if (!/^\d{4}$/.test(digits)) return;
          days.add(label);
          published.push({ what, at: Date.parse(`${label}T${digits.slice(0, 2)}:${digits.slice(2)}:00Z`) });
        });
      }
    }
    return { place: { lat: Number(lat), lon: Number(lon), zone }, published, days };
  });
}

describe('rise and set of the U. S. Naval Observatory for 2019', () => {
  const tables = usnoTables();

  it('are read whole', () => {
    expect(tables.map(({ published }) => published.length)).toEqual([208, 730, 204]);
  });

  it.each(tables)('are met within 60 seconds at $place.lat, $place.lon', ({ place, published }) => {
    const ours = eventsOf(place, '2018-12-31', '2020-01-01');
    const missed = published.filter((event) => !(missBy(ours, event) <= 60));
    expect(missed.map(textOf)).toEqual([]);
  });

  it.each(tables.slice(0, 2))(
    'hold every event of ours at $place.lat, $place.lon',
    ({ place, published }) => {
      const inYear = ({ at }: Event) =>
        at >= Date.UTC(2019, 0, 1) - 30_000 && at < Date.UTC(2020, 0, 1) - 30_000;
      const ours = eventsOf(place, '2018-12-31', '2020-01-01').filter(inYear);
      expect(ours.filter((event) => missBy(published, event) > 60).map(textOf)).toEqual([]);
      expect(ours).toHaveLength(published.length);
    },
  );

  it('leave out the days without any, which have a name for it', () => {
    const [north] = tables;
    if (!north) throw new Error('no table');
    const states = new Map<string, number>();
    for (let date = day('2019-01-01'); date.year === 2019; date = date.add({ days: 1 })) {
      const { state } = sunTimes(north.place, date);
      states.set(state, (states.get(state) ?? 0) + 1);
      const expected = north.days.has(date.toString());
      // the polar day of the table begins after the rise of 13 April and ends with the set of 30 August
      expect([date.toString(), state === 'rises or sets']).toEqual([date.toString(), expected]);
    }
    expect(sunTimes(north.place, day('2019-04-13'))).toMatchObject({ sunset: null, state: 'rises or sets' });
    expect(sunTimes(north.place, day('2019-08-30'))).toMatchObject({ sunrise: null, state: 'rises or sets' });
    expect(sunTimes(north.place, day('2019-06-21'))).toMatchObject({ sunrise: null, state: 'up all day' });
    expect(sunTimes(north.place, day('2019-12-21'))).toMatchObject({ sunset: null, state: 'down all day' });
    expect(states.get('down all day')).toBe(51 + 71);
  });
});

describe('rise and set of other tables, to the minute', () => {
  // USNO "one day" service of 2026-06-17, as kept in github.com/mourner/suncalc, test/fixtures.json. Reykjavik's
  // midsummer set and Buenos Aires's are labelled with the UTC day in which they fall.
  it.each([
    ['Stockholm', 59.32938, 18.06871, '2026-03-20', '04:50', '17:02'],
    ['Stockholm', 59.32938, 18.06871, '2026-06-21', '01:31', '20:08'],
    ['Stockholm', 59.32938, 18.06871, '2026-09-23', '04:34', '16:45'],
    ['Stockholm', 59.32938, 18.06871, '2026-12-21', '07:43', '13:48'],
    ['Reykjavik', 64.13548, -21.89541, '2026-03-20', '07:28', '19:43'],
    ['Reykjavik', 64.13548, -21.89541, '2026-06-21', '02:55', '00:03'],
    ['Reykjavik', 64.13548, -21.89541, '2026-12-21', '11:22', '15:29'],
    ['Kyiv', 50.45466, 30.5238, '2026-06-21', '01:46', '18:13'],
    ['Kyiv', 50.45466, 30.5238, '2026-12-21', '05:56', '13:56'],
    ['Lima', -12.04318, -77.02824, '2026-12-21', '10:41', '23:31'],
    ['Buenos Aires', -34.61315, -58.37723, '2026-03-20', '09:57', '22:05'],
    ['Buenos Aires', -34.61315, -58.37723, '2026-06-21', '11:00', '20:50'],
    ['Buenos Aires', -34.61315, -58.37723, '2026-12-21', '08:37', '23:06'],
    // USNO, as kept in github.com/pvlib/pvlib-python, test_solarposition.py (local minutes turned to UTC)
    ['Golden', 39.742476, -105.1786, '2015-01-02', '14:22', '23:48'],
    ['39 N 105 W', 39, -105, '2015-04-02', '12:43', '01:24'],
    ['Beijing', 39.917, 116.383, '2015-01-01', '23:36', '09:00'],
    ['Beijing', 39.917, 116.383, '2015-08-01', '21:13', '11:28'],
    // timeanddate.com, as kept in github.com/sffjunkie/astral, test_sun_utc.py
    ['London', 51.5, -0.1333, '2015-12-25', '08:05', '15:55'],
  ])('%s (%d, %d) on %s: %s and %s within 60 seconds', (_, lat, lon, date, rise, set) => {
    const nextDay = day(date).add({ days: 1 }).toString();
    const ours = eventsOf({ lat, lon, zone: 'UTC' }, day(date).subtract({ days: 2 }).toString(), nextDay);
    expect(missBy(ours, { what: 'rise', at: Date.parse(`${date}T${rise}:00Z`) })).toBeLessThanOrEqual(60);
    const sets = [date, nextDay].map((label) => Date.parse(`${label}T${set}:00Z`));
    const nearest = Math.min(...sets.map((at) => missBy(ours, { what: 'set', at })));
    expect(nearest).toBeLessThanOrEqual(60);
  });

  it('Wellington on 2020-02-11: 06:38:42 and 20:31:00 on its clocks (astral, 60 seconds)', () => {
    const times = sunTimes({ lat: -41.33, lon: 174.7667, zone: 'Pacific/Auckland' }, day('2020-02-11'));
    const clock = (at: Temporal.Instant | null) => at && instantToWall('Pacific/Auckland', at);
    for (const [ours, theirs] of [
      [clock(times.sunrise), '2020-02-11T06:38:42'],
      [clock(times.sunset), '2020-02-11T20:31:00'],
    ] as const) {
      expect(Math.abs(ours?.until(theirs).total('seconds') ?? Infinity)).toBeLessThanOrEqual(60);
    }
  });
});

describe('rise and set of the Solar Position Algorithm (NREL/TP-560-34302), to the second', () => {
  // As kept in github.com/pvlib/pvlib-python, test_spa.py and test_solarposition.py.
  it.each([
    [-35, 0, 'UTC', '1996-07-05', '1996-07-05T07:08:15Z', '1996-07-05T17:01:04Z'],
    [-35, 0, 'UTC', '2004-12-04', '2004-12-04T04:38:57Z', '2004-12-04T19:02:02Z'],
    [35, 0, 'UTC', '1994-01-02', '1994-01-02T07:08:12Z', '1994-01-02T16:59:55Z'],
    [39.742476, -105.1786, 'America/Denver', '2015-01-02', '2015-01-02T14:21:55Z', '2015-01-02T23:47:43Z'],
  ])('%d, %d (%s) on %s within 3 seconds', (lat, lon, zone, date, rise, set) => {
    const { sunrise, sunset } = sunTimes({ lat, lon, zone }, day(date));
    expect(Math.abs(sunrise?.until(rise).total('seconds') ?? Infinity)).toBeLessThanOrEqual(3);
    expect(Math.abs(sunset?.until(set).total('seconds') ?? Infinity)).toBeLessThanOrEqual(3);
  });

  it('has a set printed under 2 August 2015 at Golden that belongs to 1 August', () => {
    // printed 19:13:58 MST with the rise of 2 August, but reckoned for the UTC day: it is 02:13:58Z
    const place = { lat: 39.742476, lon: -105.1786, zone: 'America/Denver' };
    const [first, second] = [sunTimes(place, day('2015-08-01')), sunTimes(place, day('2015-08-02'))];
    expect(Math.abs(first.sunset?.until('2015-08-02T02:13:58Z').total('seconds') ?? 99)).toBeLessThanOrEqual(
      3,
    );
    expect(
      Math.abs(second.sunrise?.until('2015-08-02T12:00:27Z').total('seconds') ?? 99),
    ).toBeLessThanOrEqual(3);
    expect(second.sunset?.toString()).toMatch(/^2015-08-03T02:1[23]/);
  });
});

describe('altitude and azimuth of JPL Horizons', () => {
  const rows = golden('horizons-2026.txt')
    .split('\n')
    .filter((line) => line && !line.startsWith('#'))
    .map((line) => {
      const [lat, lon, at = '', azimuth, altitude] = line.split(' ');
      const place = { lat: Number(lat), lon: Number(lon), zone: 'UTC' };
      return { place, at, azimuth: Number(azimuth), altitude: Number(altitude) };
    });

  it('are met within 0.02 degrees above 5 degrees', () => {
    const high = rows.filter(({ altitude }) => altitude > 5);
    expect(high.length).toBeGreaterThan(22);
    for (const { place, at, azimuth, altitude } of high) {
      const ours = sunAt(place, instant(at));
      expect([at, Math.abs(ours.altitude - altitude) <= 0.02]).toEqual([at, true]);
      const sideways = Math.abs(ours.azimuth - azimuth) * Math.cos((altitude * Math.PI) / 180);
      expect([at, sideways <= 0.02]).toEqual([at, true]);
    }
  });

  it('are met within 0.15 degrees at the horizon, where refraction is uncertain', () => {
    for (const { place, at, altitude } of rows) {
      expect(Math.abs(sunAt(place, instant(at)).altitude - altitude)).toBeLessThanOrEqual(0.15);
    }
  });
});

describe('the civil day', () => {
  const easternFlorida = { lat: 29, lon: -81, zone: 'America/New_York' };
  /** Minutes by which our events miss the published times of the clocks. */
  const missed = (place: Place, date: string, rise: string, set: string) => {
    const { sunrise, sunset } = sunTimes(place, day(date));
    const miss = (at: Temporal.Instant | null, time: string) =>
      at ? Math.abs(instantToWall(place.zone, at).until(`${date}T${time}`).total('minutes')) : Infinity;
    return Math.max(miss(sunrise, rise), miss(sunset, set));
  };

  it('jumps by an hour on the clocks, and by a minute in the sky, when clocks go forward or back', () => {
    // USNO 2019, 29 N 81 W: 11:41-23:29Z on 9 March, 11:40-23:29Z on 10 March, 11:38-22:37Z on 3 November
    expect(missed(easternFlorida, '2019-03-09', '06:41', '18:29')).toBeLessThanOrEqual(1);
    expect(missed(easternFlorida, '2019-03-10', '07:40', '19:29')).toBeLessThanOrEqual(1);
    expect(missed(easternFlorida, '2019-11-02', '07:37', '18:37')).toBeLessThanOrEqual(1);
    expect(missed(easternFlorida, '2019-11-03', '06:38', '17:37')).toBeLessThanOrEqual(1);
    // USNO 2019, 60 N 0 E: 05:33-18:38Z on 30 March, 05:29-18:41Z on 31 March, 07:08-16:18Z on 27 October
    const shetland = { lat: 60, lon: 0, zone: 'Europe/London' };
    expect(missed(shetland, '2019-03-30', '05:33', '18:38')).toBeLessThanOrEqual(1);
    expect(missed(shetland, '2019-03-31', '06:29', '19:41')).toBeLessThanOrEqual(1);
    expect(missed(shetland, '2019-10-27', '07:08', '16:18')).toBeLessThanOrEqual(1);
  });

  it('at Melbourne starts on the UTC day before (USNO 2026: set 09:46Z and rise 19:04Z on 3 January)', () => {
    const melbourne = { lat: -37.814, lon: 144.96332, zone: 'Australia/Melbourne' };
    const { sunset } = sunTimes(melbourne, day('2026-01-03'));
    const { sunrise } = sunTimes(melbourne, day('2026-01-04'));
    expect(Math.abs(sunset?.until('2026-01-03T09:46Z').total('minutes') ?? 9)).toBeLessThanOrEqual(1);
    expect(Math.abs(sunrise?.until('2026-01-03T19:04Z').total('minutes') ?? 9)).toBeLessThanOrEqual(1);
  });

  it.each([
    ['Pacific/Kiritimati', 1.87, -157.4],
    ['Pacific/Pago_Pago', -14.28, -170.7],
    ['Pacific/Chatham', -43.95, -176.55],
    ['Asia/Shanghai', 39.47, 75.99],
    ['Europe/Madrid', 42.88, -8.54],
    ['Atlantic/Reykjavik', 64.13548, -21.89541],
    ['America/Anchorage', 61.2, -149.9],
  ])('is the one on the clocks of %s, on every day of a year', (zone, lat, lon) => {
    for (let date = day('2026-01-01'); date.year === 2026; date = date.add({ days: 1 })) {
      const { solarNoon, sunrise, sunset } = sunTimes({ lat, lon, zone }, date);
      expect(instantToWall(zone, solarNoon).toPlainDate().toString()).toBe(date.toString());
      const [rise, set] = [sunrise?.epochMilliseconds ?? 0, sunset?.epochMilliseconds ?? 0];
      expect(rise < solarNoon.epochMilliseconds && solarNoon.epochMilliseconds < set).toBe(true);
    }
  });

  it('ends after midnight at Reykjavik in high summer', () => {
    const { sunset } = sunTimes(
      { lat: 64.13548, lon: -21.89541, zone: 'Atlantic/Reykjavik' },
      day('2026-06-20'),
    );
    expect(sunset?.round('minute').toString()).toBe('2026-06-21T00:03:00Z');
  });

  it('has the rise and set that suncalc gives, whose refraction at the horizon is taken as known', () => {
    for (const [lat, date] of [
      [54.49, '2027-03-12'],
      [0, '2027-06-21'],
      [-37, '2028-02-29'],
    ] as const) {
      const ours = sunTimes({ lat, lon: 0, zone: 'UTC' }, day(date));
      const theirs = getTimes(new Date(Date.parse(date) + 720 * MINUTE), lat, 0);
      expect(Math.abs((ours.sunrise?.epochMilliseconds ?? 0) - Number(theirs.sunrise))).toBeLessThan(1000);
      expect(Math.abs((ours.sunset?.epochMilliseconds ?? 0) - Number(theirs.sunset))).toBeLessThan(1000);
    }
  });
});
