// The people of a simulated year: who comes when, from where, how they are reached, and what becomes of their place. Drawn
// by chance of a fixed seed, and entered by plain SQL with the job that tells of their yes, as the act itself would.
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { hashOf } from '../../src/platform/security/tokens.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

export type ActKind = 'move' | 'call off' | 'give up' | 'stop reminders';
export interface PlannedAct {
  at: Temporal.Instant;
  kind: ActKind;
  /** It fails at its last statement, so that nothing of it may be left. */
  fails: boolean;
}
export interface YearPerson {
  sittingId: string;
  contactId: string;
  occupancyId: string;
  linkId: string;
  token: string;
  email: string;
  reachBy: 'email' | 'telephone' | 'letter';
  home: { name: string; lat: number; lon: number; zone: string };
  wall: Temporal.PlainDateTime;
  /** When they get the yes. */
  since: Temporal.Instant;
  acts: PlannedAct[];
}

/** Homes in both hemispheres, over both changes of the clock, beside the date line and at half an hour; near York most. */
const HOMES = [
  { name: 'York', lat: 53.96, lon: -1.08, zone: 'Europe/London' },
  { name: 'Whitby', lat: 54.49, lon: -0.61, zone: 'Europe/London' },
  { name: 'Bergen', lat: 60.39, lon: 5.32, zone: 'Europe/Oslo' },
  { name: 'Athens', lat: 37.98, lon: 23.73, zone: 'Europe/Athens' },
  { name: 'New York', lat: 40.71, lon: -74.01, zone: 'America/New_York' },
  { name: 'San Diego', lat: 32.72, lon: -117.16, zone: 'America/Los_Angeles' },
  { name: 'Mumbai', lat: 19.07, lon: 72.88, zone: 'Asia/Kolkata' },
  { name: 'Tokyo', lat: 35.69, lon: 139.69, zone: 'Asia/Tokyo' },
  { name: 'Sydney', lat: -33.87, lon: 151.21, zone: 'Australia/Sydney' },
  { name: 'Auckland', lat: -36.85, lon: 174.76, zone: 'Pacific/Auckland' },
];

/** Chance of a seed: mulberry32, public domain. */
export function chanceOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const instantAt = (wall: Temporal.PlainDateTime, zone: string): Temporal.Instant => {
  const answer = wallToInstant(zone, wall, 'earlier');
  if (!answer.ok) throw new Error(`There is no ${wall} in ${zone}.`);
  return answer.instant;
};

/** Seven a day on every day but Fridays, which are for those who are moved. */
function* slots(first: Temporal.PlainDate, days: number) {
  for (let day = 0; day < days; day++) {
    const date = first.add({ days: day });
    if (date.dayOfWeek === 5) continue;
    for (let slot = 0; slot < 7; slot++) yield date.toPlainDateTime({ hour: 8 }).add({ minutes: 75 * slot });
  }
}

/** So many people whose days lie in the days after `from`; of the acts so many fail. */
export function drawPeople(
  house: TestHouse,
  o: { from: Temporal.PlainDate; days: number; count: number; seed: number; fails: number },
): YearPerson[] {
  const { from, count, seed } = o;
  const chance = chanceOf(seed);
  const among = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  const all = [...slots(from.add({ days: 10 }), o.days - 10)];
  const links = house.app.get(LinksService);
  const random = new SystemRandom();
  return Array.from({ length: count }, (_, n): YearPerson => {
    const wall = all[Math.floor((n / count) * all.length)] as Temporal.PlainDateTime;
    const start = instantAt(wall, 'Europe/London');
    const began = instantAt(from.toPlainDateTime(), 'Europe/London');
    const lead = among([0.6, 2, 5, 9, 20, 40, 95]) * (0.7 + 0.6 * chance());
    const since = start.subtract({ seconds: Math.round(lead * 86_400) });
    const linkId = random.id();
    const person: YearPerson = {
      sittingId: random.id(),
      contactId: random.id(),
      occupancyId: random.id(),
      linkId,
      token: links.token({ purpose: 'place', id: linkId, generation: 1 }),
      email: `person-${seed}-${n}@post.example`,
      reachBy: chance() < 0.92 ? 'email' : among(['telephone', 'letter'] as const),
      home: chance() < 0.4 ? among(HOMES.slice(0, 2)) : among(HOMES),
      wall,
      since: Temporal.Instant.compare(since, began) < 0 ? began : since,
      acts: [],
    };
    person.acts = actsOf(person, start, o.fails, chance, among);
    return person;
  });
}

/** At any moment between the yes and the hour. */
function actsOf(
  { since }: YearPerson,
  start: Temporal.Instant,
  failing: number,
  chance: () => number,
  among: <T>(list: readonly T[]) => T,
): PlannedAct[] {
  const acts: PlannedAct[] = [];
  const span = start.epochMilliseconds - since.epochMilliseconds;
  const draw = (kind: ActKind, fails: boolean) => {
    const share = 0.02 + 0.96 * chance();
    acts.push({ at: since.add({ milliseconds: Math.round(span * share) }), kind, fails });
  };
  if (chance() < failing) draw(among(['move', 'call off', 'give up'] as const), true);
  if (chance() < 0.12) draw('move', false);
  if (chance() < 0.16) draw(among(['call off', 'give up'] as const), false);
  if (chance() < 0.04) draw('stop reminders', false);
  return acts.sort((a, b) => Temporal.Instant.compare(a.at, b.at));
}

/** Gives them their places, at the house's clock, in one transaction with the jobs that tell of it. */
export async function enterPeople(
  house: TestHouse,
  studio: TestStudio,
  people: readonly YearPerson[],
): Promise<void> {
  const now = house.clock.now().toString();
  const rows = people.map((one) => ({
    sitting: one.sittingId,
    contact: one.contactId,
    place: one.occupancyId,
    link: one.linkId,
    hash: hashOf(one.token).toString('hex'),
    email: one.reachBy === 'email' ? one.email : '',
    telephone: one.reachBy === 'telephone' ? '01632 960188' : '',
    postal: one.reachBy === 'letter' ? '4 Chandlery Row, Hull' : '',
    reach: one.reachBy,
    ...one.home,
    wall: one.wall.toString(),
    wallEnd: one.wall.add({ minutes: 75 }).toString(),
    startsAt: instantAt(one.wall, 'Europe/London').toString(),
    endsAt: instantAt(one.wall.add({ minutes: 75 }), 'Europe/London').toString(),
    name: `Person ${one.email.split('@')[0]}`,
    town: one.home.name,
  }));
  const sql = `with r as (select * from jsonb_to_recordset($2::jsonb) as r (sitting uuid, contact uuid, place uuid, link uuid,
      hash text, email text, telephone text, postal text, reach text, name text, town text, lat float8, lon float8, zone text,
      wall timestamp, "wallEnd" timestamp, "startsAt" timestamptz, "endsAt" timestamptz)),
    contacts as (insert into contact (studio_id, contact_id, name, reach_by, email, telephone, postal_address, home_name,
        home_latitude, home_longitude, home_zone, created_at)
      select $1, contact, name, reach, email, telephone, postal, town, lat, lon, zone, $3 from r),
    places as (insert into occupancy (studio_id, occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end,
        starts_at, ends_at, during, uid, revised_at, created_at, plates)
      select $1, place, 'room', 'sitting', sitting, true, 'Europe/London', wall, "wallEnd", "startsAt", "endsAt",
        tstzrange("startsAt", "endsAt"), place, $3, $3, 1 from r),
    sittings as (insert into sitting (studio_id, sitting_id, contact_id, state, asked_at, decided_at, any_day_from,
        any_day_until, turns, occupancy_id)
      select $1, sitting, contact, 'confirmed', $3, $3, '2027-01-01', '2029-12-31', 1, place from r),
    links as (insert into link (studio_id, link_id, purpose, subject_id, token_hash, created_at)
      select $1, link, 'place', sitting, decode(hash, 'hex'), $3 from r),
    plates as (insert into plate (studio_id, plate_id, sitting_id, position, plate_size_id)
      select $1, gen_random_uuid(), sitting, 1, $4 from r)
    select plateday_queue.enqueue_all(array_agg('place.changed'::text), array_agg(jsonb_build_object('sittingId', sitting,
      'change', 'confirmed', 'sequence', 1, 'occupancyId', place)), array_agg($3::timestamptz),
      array_agg('place.changed:' || sitting || ':1')) from r`;
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(sql, [studio.id, JSON.stringify(rows), now, studio.sizes.whole.id]),
  );
}
