// Loads the demo studio through the same services that its people use, so that nothing in it could not
// have happened. Runs once on an empty database.
import type { INestApplicationContext } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { AccountsService } from '../src/accounts/accounts.service.js';
import { LinksService } from '../src/accounts/links.service.js';
import { instantToWall } from '../src/lib/zoned-time.js';
import type { Tx } from '../src/platform/db/tx.js';
import type { Platform } from '../src/platform/platform.module.js';
import { RoomService } from '../src/room/room.service.js';
import { DecisionsService } from '../src/sittings/decisions.service.js';
import { RequestsService } from '../src/sittings/requests.service.js';
import { STATES } from '../src/sittings/states.calc.js';
import { ListService } from '../src/sittings/list.service.js';
import { OffersService } from '../src/sittings/offers.service.js';
import { SittingViews } from '../src/sittings/views.service.js';
import type { Studio } from '../src/studios/studios.schemas.js';
import { StudiosService } from '../src/studios/studios.service.js';
import { Gazetteer } from '../src/travel/gazetteer.service.js';
import { daysWrittenDown } from './actuals.js';
import { beginSeries, listForArchive } from './archive.js';
import { bathHistory, prepareDays } from './baths.js';
import { exposureNotes } from './exposures.js';
import { formulaHistory } from './formulas.js';
import {
  ASSISTANT,
  EXTRA_SATURDAY,
  HELPER,
  KINDS,
  OWNER,
  RHYTHM,
  ROOF,
  STORIES,
  type Story,
  STUDIO,
  SUMMER_CLOSURE,
} from './kittiwake-yard.js';
import { journeysOfSitters } from './journeys.js';
import { PAST_STORIES, pastFridays, putOff } from './past-fridays.js';
import { platesAfter } from './plates.js';
import { fillShelf, type Sizes } from './shelf.js';
import { shelfHistory } from './shelf-history.js';
import { pastClass } from './past-class.js';
import { teach } from './teaching.js';
import type { StoryClock } from './story-clock.js';

type Kinds = Record<keyof typeof KINDS, string>;

interface Told {
  at: Temporal.Instant;
  act: () => Promise<void>;
}

const HISTORY_WEEKS = 32;
const ALL_STORIES = [...STORIES, ...PAST_STORIES];

/** @returns the studio's id */
export async function loadKittiwakeYard(
  app: INestApplicationContext,
  platform: Platform,
  clock: StoryClock,
): Promise<string> {
  const studioId = platform.random.id();
  const present = clock.now();
  const today = instantToWall(STUDIO.zone, present).toPlainDate();
  const friday = today.add({ days: (5 - today.dayOfWeek + 7) % 7 });
  const ago = (weeks: number) => present.subtract({ hours: weeks * 168 });
  try {
    clock.tell(ago(HISTORY_WEEKS));
    const { owner, sizes, kinds } = await found(app, platform, studioId, { today, friday });
    const told = ALL_STORIES.flatMap((story) =>
      tellStory(app, platform, { studioId, owner, sizes, kinds, story, friday, ago }),
    );
    told.push(...shelfHistory(app, { studioId, owner, today }));
    told.push(...formulaHistory(app, { studioId, owner, today }));
    told.push(...exposureNotes(app, platform.random, { studioId, owner, friday }));
    told.push(...daysWrittenDown(app, platform.db, { studioId, owner, sizes, friday }));
    told.push(...pastClass(app, platform.random, { studioId, owner, sizes, friday }));
    told.push(...bathHistory(app, platform.random, { studioId, owner, sizes, friday }));
    told.push(putOff(app, { studioId, owner, friday }));
    for (const event of told.sort((a, b) => Temporal.Instant.compare(a.at, b.at))) {
      clock.tell(event.at);
      await event.act();
    }
    await pastFridays(app, platform.random, (at) => clock.tell(at), { studioId, owner });
    const seriesId = await beginSeries(app, { studioId, owner });
    await platesAfter(app, (at) => clock.tell(at), { studioId, owner, today, seriesId });
    await listForArchive(app, { studioId, owner });
    clock.tell(null);
    await journeysOfSitters(app, platform.db, studioId);
    await closeForTheRoof(app, platform, { studioId, friday });
    await teach(app, platform.random, { studioId, owner, sizes, friday });
    await prepareDays(app, { studioId, owner, sizes });
  } finally {
    clock.tell(null);
  }
  return studioId;
}

/**
 * Whether the demo studio is there, with all of its stories.
 * @throws Error when its loading was cut off
 */
export async function isLoaded(app: INestApplicationContext, platform: Platform): Promise<boolean> {
  const studio = await platform.db.studioAt(STUDIO.slug);
  if (!studio) return false;
  const { views } = await app.get(SittingViews).list(studio.studioId, [...STATES]);
  if (views.length < ALL_STORIES.length)
    throw new Error(
      'The demo was stopped while it was loading. Start it again with: npm run demo -- --fresh',
    );
  return true;
}

async function found(
  app: INestApplicationContext,
  platform: Platform,
  studioId: string,
  { today, friday }: { today: Temporal.PlainDate; friday: Temporal.PlainDate },
) {
  return platform.db.inStudio(studioId, async (tx) => {
    await app.get(StudiosService).found(tx, { id: studioId, ...STUDIO });
    const owner = await app.get(AccountsService).create(tx, OWNER);
    await app.get(AccountsService).create(tx, ASSISTANT);
    await app.get(LinksService).ensure(tx, 'feed', owner.id, 'owner');
    await app.get(LinksService).ensure(tx, 'feed', owner.id, 'tasks');
    await app.get(LinksService).ensure(tx, 'feed', owner.id, 'assistant');
    const room = app.get(RoomService);
    const effectiveFrom = today.subtract({ weeks: HISTORY_WEEKS });
    await room.enterRhythm(tx, { ...RHYTHM, effectiveFrom, effectiveUntil: null });
    const kinds = {} as Kinds;
    for (const [name, kind] of Object.entries(KINDS))
      kinds[name as keyof Kinds] = await room.enterKind(tx, { ...kind, weekdays: [...kind.weekdays] });
    const away = HELPER.awayWeeks.map((week) => friday.add({ weeks: week }).toString());
    await room.enterAttendance(tx, { helper: { weekdays: HELPER.weekdays, also: [], away } });
    await otherDays(room, tx, await app.get(StudiosService).load(tx), { today, friday });
    const sizes = await fillShelf(app, tx, today);
    return { owner, sizes, kinds };
  });
}

/** The summer closure and a Saturday of its own. */
async function otherDays(
  room: RoomService,
  tx: Tx,
  studio: Studio,
  { today, friday }: { today: Temporal.PlainDate; friday: Temporal.PlainDate },
): Promise<void> {
  const { month, from, until, title } = SUMMER_CLOSURE;
  const year =
    today.month > month || (today.month === month && today.day > until) ? today.year + 1 : today.year;
  const august = (day: number) => Temporal.PlainDate.from({ year, month, day });
  await room.close(tx, studio, { from: august(from), until: august(until) }, title);
  const saturday = friday.add({ weeks: EXTRA_SATURDAY.week, days: 1 });
  const once = { effectiveFrom: saturday, effectiveUntil: saturday };
  await room.enterRhythm(tx, { ...RHYTHM, weekday: 6, starts: EXTRA_SATURDAY.starts, heldBack: 0, ...once });
}

/** The owner closes a day that somebody has: they keep their place until another is agreed on. */
function closeForTheRoof(
  app: INestApplicationContext,
  { db }: Platform,
  { studioId, friday }: Pick<Setting, 'studioId' | 'friday'>,
): Promise<void> {
  const day = friday.add({ weeks: ROOF.week });
  return db.inStudio(studioId, async (tx) => {
    const studio = await app.get(StudiosService).load(tx);
    await app.get(RoomService).close(tx, studio, { from: day, until: day }, ROOF.title);
  });
}

interface Setting {
  studioId: string;
  owner: Account;
  sizes: Sizes;
  kinds: Kinds;
  story: Story;
  /** The Friday of this week. */
  friday: Temporal.PlainDate;
  ago: (weeks: number) => Temporal.Instant;
}

/** What happened in one person's story, each event at its time; later events need what earlier ones made. */
function tellStory(app: INestApplicationContext, platform: Platform, setting: Setting): Told[] {
  const { story, ago, studioId, owner } = setting;
  const asked = app.get(RequestsService);
  const decided = app.get(DecisionsService);
  let made = { sittingId: '', token: '' };
  const ask: Told = {
    at: ago(story.askedWeeksAgo),
    act: async () => {
      made = await asked.ask(studioId, requestOf(app, setting), `demo request ${ALL_STORIES.indexOf(story)}`);
    },
  };
  const answer = (act: () => Promise<void>): Told => ({
    at: ago(story.askedWeeksAgo).add({ hours: 40 }),
    act,
  });
  const { outcome } = story;
  if (outcome.kind === 'declined')
    return [ask, answer(() => decided.decline(studioId, owner, made.sittingId, outcome.message))];
  if (outcome.kind === 'withdrawn') return [ask, answer(() => asked.giveUp(studioId, made.token))];
  if (outcome.kind === 'waiting') return [ask];
  if (outcome.kind === 'on list' || outcome.kind === 'offered' || outcome.kind === 'ran out')
    return [ask, ...onTheList(app, platform, setting, () => made.sittingId)];
  const approve = answer(async () => {
    const start = await openStart(app, platform, setting, outcome);
    await decided.approve(studioId, owner, made.sittingId, start);
  });
  if (outcome.kind === 'confirmed') return [ask, approve];
  return [ask, approve, { at: ago(story.askedWeeksAgo - 8), act: () => asked.giveUp(studioId, made.token) }];
}

/** Put on the list two days after asking, then marked, offered a place lately, or offered two and never heard of. */
function onTheList(
  app: INestApplicationContext,
  platform: Platform,
  setting: Setting,
  sittingId: () => string,
): Told[] {
  const { story, ago, studioId, owner } = setting;
  const { outcome } = story;
  const list = app.get(ListService);
  const offers = app.get(OffersService);
  const put = ago(story.askedWeeksAgo).add({ hours: 48 });
  const listed: Told = { at: put, act: () => list.wait(studioId, owner, sittingId()) };
  if (outcome.kind === 'on list') {
    const { priority = '', hardship = '' } = outcome;
    const mark = () => list.mark(studioId, owner, sittingId(), { priority, hardship, noticeDays: '' });
    return [listed, { at: put.add({ hours: 1 }), act: mark }];
  }
  if (outcome.kind !== 'offered' && outcome.kind !== 'ran out') return [listed];
  const offer = async () =>
    offers.make(studioId, owner, sittingId(), await openStart(app, platform, setting, outcome));
  if (outcome.kind === 'offered')
    return [listed, { at: ago(0).subtract({ hours: outcome.hoursAgo ?? 48 }), act: offer }];
  const over = () => offers.lapse(studioId, platform.random.id());
  return [listed, { at: ago(8), act: offer }, { at: ago(5), act: offer }, { at: ago(2), act: over }];
}

function requestOf(app: INestApplicationContext, { story, sizes, kinds, friday }: Setting): unknown {
  const home = app.get(Gazetteer).search(story.home, 1)[0];
  if (!home) throw new Error(`The demo's place ${story.home} is not in the gazetteer.`);
  const sitters = story.sitters ?? [story.name];
  const plates = story.plates ?? [['whole', ...sitters.keys()]];
  const letters = story.name
    .normalize('NFD')
    .replace(/[^A-Za-z ]/g, '')
    .toLowerCase()
    .replace(/ /g, '.');
  return {
    name: story.name,
    reachBy: story.reach ?? 'email',
    email: story.reach ? '' : `${letters}@post.example`,
    telephone: story.reach === 'telephone' ? '01632 960188' : '',
    postalAddress: story.reach === 'letter' ? `${story.name}, 4 Chandlery Row, ${home.name}` : '',
    sitters,
    plates: plates.map(([size, ...on]) => ({ plateSizeId: sizes[size], sitters: on })),
    bands: story.bands ?? [],
    kindId: kinds[story.kind ?? 'portrait'],
    homeId: home.id,
    suits: {
      kind: 'any',
      from: friday.add({ weeks: story.suits[0] }).toString(),
      until: friday.add({ weeks: story.suits[1] }).toString(),
    },
    hopes: story.hopes,
    anything: story.anything ?? '',
    access: story.access ?? '',
    brings: story.brings ?? '',
    guardian: story.guardian ?? null,
  };
}

/** The wished start, or, where the season's light does not allow it, the nearest open one that suits. */
async function openStart(
  app: INestApplicationContext,
  platform: Platform,
  { story, friday, studioId, kinds }: Setting,
  wish: { week: number; start: number },
): Promise<Temporal.PlainDateTime> {
  const wished = friday
    .add({ weeks: wish.week })
    .toPlainDateTime()
    .add({ minutes: RHYTHM.starts[wish.start] ?? 0 });
  const range = { from: friday.add({ weeks: story.suits[0] }), until: friday.add({ weeks: story.suits[1] }) };
  const plates = story.plates ?? [['whole', ...(story.sitters ?? [story.name]).keys()]];
  const sitters = new Set(plates.flatMap(([, ...on]) => on)).size;
  const asked = { plates: plates.length, sitters, kindId: kinds[story.kind ?? 'portrait'] };
  const days = await platform.db.inStudio(studioId, async (tx) =>
    app.get(RoomService).days(tx, await app.get(StudiosService).load(tx), range, asked),
  );
  const distance = (start: Temporal.PlainDateTime) => Math.abs(start.since(wished).total('minutes'));
  const open = days.flatMap((day) =>
    day.openings.filter((one) => one.closed === null).map((one) => one.wallStart),
  );
  const nearest = open.sort((a, b) => distance(a) - distance(b))[0];
  if (!nearest) throw new Error(`No open place suits ${story.name} of the demo.`);
  return nearest;
}
