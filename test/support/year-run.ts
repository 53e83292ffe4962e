// A year of a studio's mail on a stopped clock: people come, are moved, called off, give up and change their mind, workers
// die, and the mail server is as mean as it can be. What really happened is kept beside, for whoever judges.
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { type Mailer, SmtpMailer } from '../../src/platform/mailer.js';
import type { TestHouse } from './house.js';
import { instead } from './instead.js';
import { type Fate, type Handed, meanMailServer } from './mean-mail.js';
import { foundTestStudio, openStarts, type TestStudio } from './studio.js';
import { happen, type Happened, type Life, order, type Scene, tellByHand } from './year-acts.js';
import { type ActKind, chanceOf, drawPeople, enterPeople } from './year-people.js';
import { YearWorker } from './year-worker.js';

/** How long it is, how many come, and how mean the world is to them. */
export interface Plot {
  slug: string;
  seed: number;
  days: number;
  count: number;
  /** The mail server takes nothing for so many hours, and again after so many. */
  out: { hours: number; every: number };
  /** Of its messages so many are taken without an answer; of the acts so many fail at their last statement. */
  cut: number;
  fails: number;
  /** Of the mail jobs so many are done by two at once. */
  twice: number;
  /** The house looks at its queue so often. */
  hours: number;
}
/** What a year has, and a season in which what is rare happens all the time. */
export const YEAR = {
  days: 360,
  out: { hours: 9, every: 557 },
  cut: 0.06,
  fails: 0.12,
  twice: 0.02,
};
export const BAD_SEASON = {
  days: 75,
  out: { hours: 14, every: 31 },
  cut: 0.2,
  fails: 0.4,
  twice: 0.2,
  hours: 2,
};

export interface Year extends Pick<Plot, 'hours'> {
  studio: TestStudio;
  lives: Life[];
  /** What the mail server was handed, when, and what it answered. */
  handed: (Handed & { fate: Fate; at: Temporal.Instant; order: number })[];
  /** Message-IDs that were taken while nobody was left to hear it. */
  unheard: string[];
  /** The most attempts of one letter that were under way at once. */
  doubled: number;
  deaths: Map<string, number>;
}

/** What PostgreSQL does of itself many times in days that pass here within a second. */
const TIDY_DAYS = 30;
const TIDY =
  'vacuum analyze graphile_worker._private_jobs, mail, reminder, sitting, occupancy, contact, link, plate';
const inOrder = Temporal.Instant.compare;

/** What becomes of a message, by who it is to and how often they were written to: the same in each run of a seed. */
function fatesOf({ seed, out, cut }: Plot, now: () => Temporal.Instant): (message: Handed) => Fate {
  const times = new Map<string, number>();
  return ({ to }) => {
    const n = (times.get(to) ?? 0) + 1;
    times.set(to, n);
    if ((now().epochMilliseconds / 3_600_000) % out.every < out.hours) return 451;
    const hash = [...`${to} ${n}`].reduce((sum, char) => Math.imul(sum, 31) + char.charCodeAt(0), seed);
    const drawn = chanceOf(hash)();
    if (drawn < cut) return 'take and cut';
    if (drawn < cut + 0.08) return 451;
    if (drawn < cut + 0.095) return 550;
    return drawn < cut + 0.105 ? 'stall' : 'take';
  };
}

/** Lives it from the house's clock on. */
export async function liveYear(house: TestHouse, plot: Plot): Promise<Year> {
  const handed: Year['handed'] = [];
  const givenUp = new Map<string, AbortController>();
  const fate = fatesOf(plot, () => house.clock.now());
  const server = await meanMailServer((message) => {
    const what = fate(message);
    handed.push({ ...message, fate: what, at: house.clock.now(), order: order() });
    const attempt = givenUp.get(message.messageId); // this one: there may be another by then
    if (what === 'stall') setTimeout(() => attempt?.abort(), 10); // its 45 seconds are over
    return what;
  });
  const mailer = new SmtpMailer(server.url);
  const chance = chanceOf(plot.seed + 1);
  const superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
  const living = await settle(house, plot, superuser);
  const { studio, lives } = living;
  const worker = new YearWorker(house, studio.id, chance, plot.twice);
  const send: Mailer['send'] = async (message, signal) => {
    const up = new AbortController();
    givenUp.set(message.messageId, up);
    await mailer.send(message, AbortSignal.any(signal ? [signal, up.signal] : [up.signal]));
  };
  const sendAsBefore = instead(house.mail, 'send', () => worker.mortal(send));
  try {
    await live(living, worker, chance, plot);
  } finally {
    sendAsBefore();
    mailer.close();
    await server.close();
    await worker.close();
    await superuser.end();
  }
  const { unheard, deaths } = worker;
  return { hours: plot.hours, studio, lives, handed, unheard, doubled: server.doubled, deaths };
}

/** A studio that is lived with: who is still to come, and what is still to happen. */
interface Living extends Scene {
  lives: Life[];
  coming: Life[];
  acts: { life: Life; at: Temporal.Instant; kind: ActKind; fails: boolean }[];
}

async function settle(house: TestHouse, plot: Plot, superuser: pg.Client): Promise<Living> {
  const from = Temporal.PlainDate.from(house.clock.now().toString().slice(0, 10));
  const much = 9_000_000_000n;
  const shelf = { wholeGlass: 90_000n, collodion: much, developer: much, fixer: much };
  const studio = await foundTestStudio(house, { slug: plot.slug, shelf });
  const until = from.add({ days: plot.days }).toString();
  const open = await openStarts(house, studio, { from: from.toString(), until });
  const people = drawPeople(house, { ...plot, from });
  const lives = people.map((person): Life => ({ person, happened: [] }));
  const acts = lives.flatMap((life) => life.person.acts.map((act) => ({ life, ...act })));
  return {
    house,
    superuser,
    studio,
    lives,
    coming: [...lives].sort((a, b) => inOrder(a.person.since, b.person.since)),
    acts: acts.sort((a, b) => inOrder(a.at, b.at)),
    free: open.map((one) => Temporal.PlainDateTime.from(one)),
  };
}

/** From one moment in which anything happens to the next. */
async function live(living: Living, worker: YearWorker, chance: () => number, plot: Plot): Promise<void> {
  const { house, coming, acts } = living;
  const tickMs = plot.hours * 3_600_000;
  const end = house.clock.now().add({ hours: 24 * (plot.days + 30) });
  let tidied = house.clock.now();
  for (;;) {
    const times = [coming[0]?.person.since, acts[0]?.at, await worker.next()].flatMap((at) => at ?? []);
    const next = times.sort(inOrder)[0];
    if (!next || inOrder(next, end) > 0) break;
    const ms = Math.ceil(next.epochMilliseconds / tickMs) * tickMs;
    const now = Temporal.Instant.fromEpochMilliseconds(Math.max(ms, house.clock.now().epochMilliseconds));
    house.clock.set(now.toString());
    if (inOrder(now, tidied.add({ hours: 24 * TIDY_DAYS })) > 0) {
      await living.superuser.query(TIDY);
      tidied = now;
    }
    await comeAndAct(living);
    await worker.work();
    if (worker.failed > 0 && chance() < 0.25) await goWrong(living, chance());
    if (worker.done > 0) await tellByHand(living);
  }
  house.clock.set(end.toString());
  await worker.work();
  await tellByHand(living);
}

/** Whoever comes now gets their yes, and what is to happen by now happens. */
async function comeAndAct({ coming, acts, ...scene }: Living): Promise<void> {
  const { house, studio } = scene;
  const now = house.clock.now();
  const due = <T>(list: T[], at: (one: T) => Temporal.Instant): T[] => {
    const first = list.findIndex((one) => inOrder(at(one), now) > 0);
    return list.splice(0, first < 0 ? list.length : first);
  };
  const arrived = due(coming, (life) => life.person.since);
  const people = arrived.map((life) => life.person);
  if (people.length > 0) await enterPeople(house, studio, people);
  for (const { happened, person } of arrived)
    happened.push({ at: now, kind: 'confirmed', failed: false, wall: person.wall, order: order() });
  for (const { life, kind, fails } of due(acts, (act) => act.at)) await happen(scene, life, kind, fails);
}

/** What is likeliest to go wrong happens most: a place goes while its letter waits for the mail server. */
async function goWrong({ lives, ...scene }: Living, drawn: number): Promise<void> {
  const id = await oneThatWaits(scene.house, scene.studio);
  const life = lives.find(({ person }) => person.sittingId === id);
  const kind = (['call off', 'give up', 'move'] as const)[Math.floor(drawn * 3)] ?? 'move';
  if (life) await happen(scene, life, kind, false);
}

/** The sitting of a letter that the mail server did not take just now, for the first time. */
async function oneThatWaits(house: TestHouse, studio: TestStudio): Promise<string | null> {
  const found = await house.db.inStudio(studio.id, (tx) =>
    tx.many(
      z.object({ about_id: z.uuid() }),
      `select about_id from mail where studio_id = $1 and state = 'waiting' and attempts = 1 and by_hand = ''
         and kind not like 'owner:%' order by created_at desc, mail_id limit 1`,
      [tx.studioId],
    ),
  );
  return found[0]?.about_id ?? null;
}
export type { Happened, Life };
