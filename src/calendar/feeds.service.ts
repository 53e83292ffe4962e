// Calendar feeds: behind a secret address, with an ETag that tells whether anything changed before
// anything is built.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Link } from '../accounts/accounts.schemas.js';
import { feedPath, LinksService, PUBLIC_FEED } from '../accounts/links.service.js';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { Together } from '../platform/together.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import { RoomService } from '../room/room.service.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { LANGUAGE_OF_DESK, type Language } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import { lastOf, type Version } from './conditional.calc.js';
import { FeedBuilder } from './feed-builder.service.js';
import { FeedMemory, type Written } from './feed-memory.service.js';
import type { FeedData } from './feed-plain.calc.js';
import {
  assistantEntry,
  CANCELLED_DAYS,
  DESK_FEEDS,
  type DeskFeed,
  FEED_KINDS,
  type FeedKind,
  MOST_ENTRIES,
  busyEntry,
  ownerEntry,
  WINDOW,
} from './feeds.calc.js';
import type { CalendarEntry } from './ics.calc.js';
import { SitterFeeds } from './sitter-feeds.service.js';
import { staffTeachingEntry } from './teaching-feeds.calc.js';
import { TeachingFeeds } from './teaching-feeds.service.js';
import { TasksService } from './tasks.service.js';

/** Raised whenever the text of feeds changes for the same facts. */
const FORMAT = 4;

/** Places gathered at once. */
const PORTION = 200;

/** What follows the studio's name in that of a calendar. */
const namesIn = (language: Language): Record<FeedKind, string> => ({
  owner: ': all',
  assistant: ': day sheets',
  sitter: '',
  tasks: ': tasks',
  busy: ': busy times',
  ...wordsFor(language).calendar.names,
});

const doorRow = z.object({
  studio_id: z.uuid(),
  link_id: z.uuid(),
  kind: z.enum(FEED_KINDS),
  subject_id: z.uuid(),
  revoked: z.boolean(),
  counter: z.bigint(),
  /** Milliseconds since 1970. */
  raised_at: z.number(),
});

const DOOR = `door.studio_id, door.link_id, door.kind, door.subject_id, door.revoked, door.counter,
  floor(extract(epoch from door.raised_at) * 1000)::float8 as raised_at`;

type DoorRow = z.output<typeof doorRow>;
const hashedDoor = doorRow.extend({ hash: z.string() });

/** An address: which studio's, and the hash of its secret in hexadecimal. */
interface Asked {
  slug: string;
  hash: string;
}

/** A feed at the owner's hand. */
export interface FeedLink {
  id: string;
  kind: DeskFeed;
  /** Tells it from others of its kind; '' for the first. */
  name: string;
  /** Whole address. */
  url: string;
  fetchedAt: Temporal.Instant | null;
  /** By what; '' before anything came. */
  fetchedBy: Link['fetchedBy'];
}

export interface FeedDoor extends Version {
  studioId: string;
  linkId: string;
  kind: FeedKind;
  subjectId: string;
  /** Asked for; one's own calendar is in one's own. */
  language: Language;
  /** The day that the feed's window goes by. */
  today: Temporal.PlainDate;
}

@Injectable()
export class FeedsService {
  /** Calendars come all at once: at the full hour, and after each change. */
  private readonly doors: Together<Asked, DoorRow | null>;
  /** What this process writes may differ from what the one before it wrote: its address may. */
  private readonly opened: Temporal.Instant;
  private day: { number: number; date: Temporal.PlainDate } | null = null;

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly sitters: SitterFeeds,
    private readonly tasks: TasksService,
    private readonly teaching: TeachingFeeds,
    private readonly builder: FeedBuilder,
    private readonly memory: FeedMemory,
  ) {
    this.doors = new Together((asked) => this.allBehind(asked));
    this.opened = clock.now();
  }

  /**
   * Opens the door of a feed in one statement. The ETag stands for the bytes: it changes with every
   * visible change, with the day of the window, and with the zone data.
   * @param language of the calendar that anybody may follow
   * @throws AppError not_found for an unknown address, link_expired for a revoked one
   */
  async door(slug: string, token: string, language: Language = LANGUAGE_OF_DESK): Promise<FeedDoor> {
    const row = await this.behind(slug, token);
    if (!row) throw new AppError('not_found', 'There is no calendar at this address.');
    if (row.revoked) throw new AppError('link_expired', 'This calendar link was ended by its owner.');
    const { link_id: linkId, counter, raised_at: raisedAt } = row;
    const now = this.clock.now();
    const today = this.dayOf(now);
    return {
      studioId: row.studio_id,
      linkId,
      kind: row.kind,
      subjectId: row.subject_id,
      language,
      etag: this.etag({ linkId, today, language }, counter),
      // at midnight something may have left the window
      changedAt: () =>
        lastOf([Temporal.Instant.fromEpochMilliseconds(raisedAt), startOf(today), this.opened], now),
      today,
    };
  }

  /** The date in UTC; reckoned once a day, since every calendar that comes asks for it. */
  private dayOf(at: Temporal.Instant): Temporal.PlainDate {
    const number = Math.floor(at.epochMilliseconds / 86_400_000);
    if (this.day?.number !== number)
      this.day = { number, date: Temporal.PlainDate.from('1970-01-01').add({ days: number }) };
    return this.day.date;
  }

  private behind(slug: string, token: string) {
    if (token === PUBLIC_FEED)
      return this.db
        .callDoors(doorRow, 'public feed door', `select ${DOOR} from plateday_public_feed_door($1) as door`, [
          slug,
        ])
        .then(([row]) => row ?? null);
    return looksLikeToken(token) ? this.doors.ask({ slug, hash: hashOf(token).toString('hex') }) : null;
  }

  /** The doors behind these addresses, in one statement for each studio. */
  private async allBehind(asked: Asked[]): Promise<(DoorRow | null)[]> {
    const doors = new Map<string, DoorRow>();
    const slugs = new Set(asked.map(({ slug }) => slug));
    const ofStudio = async (slug: string) => {
      const hashes = asked.filter((one) => one.slug === slug).map(({ hash }) => Buffer.from(hash, 'hex'));
      const found = await this.db.callDoors(
        hashedDoor,
        'feed doors',
        `select encode(door.secret_hash, 'hex') as hash, ${DOOR} from plateday_feed_doors($1, $2) as door`,
        [slug, hashes],
      );
      for (const { hash, ...door } of found) doors.set(`${slug} ${hash}`, door);
    };
    await Promise.all([...slugs].map(ofStudio));
    return asked.map(({ slug, hash }) => doors.get(`${slug} ${hash}`) ?? null);
  }

  /**
   * The feed's text and the ETag that stands for it; equal ETags mean equal bytes. An act committed since the door
   * was opened is in both or in neither, since counter and entries are read as they stood at one moment.
   */
  text(door: FeedDoor): Promise<Written> {
    return this.memory.once(door.etag, async () => {
      const { etag, feed } = await this.gather(door);
      return { etag, text: await this.builder.build(feed) };
    });
  }

  private gather(door: FeedDoor): Promise<{ etag: string; feed: FeedData }> {
    return this.db.atOneMoment(door.studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { language = door.language, entries } = await this.entries(tx, studio, door);
      const feed = { name: `${studio.name}${namesIn(language)[door.kind]}`, entries, refreshHours: 6 };
      return { etag: this.etag(door, studio.calendarCounter), feed };
    });
  }

  /** The feeds at the owner's hand, for the owner's page, the oldest first. */
  async ofAccount(studio: Studio, accountId: string): Promise<FeedLink[]> {
    const links = await this.db.inStudio(studio.id, (tx) => this.links.feeds(tx, accountId));
    return links.flatMap((link) => {
      const kind = DESK_FEEDS.find((one) => one === link.kind);
      const url = `${this.config.publicUrl}${feedPath(studio.slug, this.links.token(link))}`;
      const { id, name, fetchedAt, fetchedBy } = link;
      return kind ? [{ id, kind, name, url, fetchedAt, fetchedBy }] : [];
    });
  }

  /** Where anybody follows the teaching days that are open to all. */
  publicUrl(slug: string): string {
    return `${this.config.publicUrl}${feedPath(slug, PUBLIC_FEED)}`;
  }

  private etag(door: Pick<FeedDoor, 'linkId' | 'today' | 'language'>, counter: bigint): string {
    const { linkId, today, language } = door;
    const parts = [FORMAT, linkId, counter, today, language, zoneDataVersion, this.config.publicUrl];
    return createHash('sha256').update(parts.join('\n')).digest('base64url').slice(0, 27);
  }

  private async entries(
    tx: Tx,
    studio: Studio,
    door: FeedDoor,
  ): Promise<{ language?: Language; entries: CalendarEntry[] }> {
    const { today } = door;
    const base = `${this.config.publicUrl}/s/${studio.slug}`;
    if (door.kind === 'tasks')
      return { entries: await this.tasks.entries(tx, studio, today, `${base}/desk`) };
    const window = {
      from: startOf(today.subtract({ days: WINDOW.daysBack })),
      until: startOf(today.add({ months: WINDOW.monthsAhead })),
      cancelledSince: startOf(today.subtract({ days: CANCELLED_DAYS })),
    };
    if (door.kind === 'workshops')
      return { entries: await this.teaching.published(tx, studio, window, base, door.language) };
    if (door.kind === 'student') return this.teaching.own(tx, studio, door.subjectId, window, base);
    if (door.kind === 'sitter')
      return { entries: await this.sitters.own(tx, studio, door.subjectId, window, base) };
    const places = await this.room.between(tx, window.from, window.until, window.cancelledSince);
    if (door.kind === 'busy') return { entries: places.flatMap((place) => busyEntry(place) ?? []) };
    const entries: CalendarEntry[] = [];
    for (let from = 0; from < Math.min(places.length, MOST_ENTRIES); from += PORTION)
      entries.push(...(await this.ofPlaces(tx, studio, door.kind, places.slice(from, from + PORTION))));
    return { entries };
  }

  /** The entries of some of a feed's places: a portion, so that a long feed keeps no other request waiting. */
  private async ofPlaces(
    tx: Tx,
    studio: Studio,
    kind: 'owner' | 'assistant',
    places: Occupancy[],
  ): Promise<CalendarEntry[]> {
    const ids = places.map((place) => place.id);
    return this.ofStaff(tx, studio, kind, places, await this.views.byOccupancies(tx, studio, ids));
  }

  /** All that takes the room, for owner or assistant. */
  private async ofStaff(
    tx: Tx,
    studio: Studio,
    kind: 'owner' | 'assistant',
    places: Occupancy[],
    views: ReadonlyMap<string, SittingView>,
  ): Promise<CalendarEntry[]> {
    const base = `${this.config.publicUrl}/s/${studio.slug}`;
    const taught = places.filter((place) => place.kind === 'teaching');
    const days = await this.teaching.days(
      tx,
      taught.map(({ heldFor }) => heldFor),
    );
    const entry = kind === 'owner' ? ownerEntry : assistantEntry;
    return places.map((place) => {
      const view = views.get(place.id);
      const day = days.get(place.heldFor);
      const sheet = `${base}/desk/days/${place.wallStart.toPlainDate().toString()}`;
      if (day) {
        const url = kind === 'owner' ? `${base}/desk/teaching/${day.session.id}` : sheet;
        return staffTeachingEntry(place, day, studio, url, kind);
      }
      const own = view && (kind === 'owner' ? `${base}/desk/requests/${view.sitting.id}` : sheet);
      return entry(place, view, studio, own ?? base);
    });
  }
}

/** The window moves once a day, at midnight UTC for all studios alike, so that a day has one ETag. */
const startOf = (date: Temporal.PlainDate) => Temporal.Instant.from(`${date.toString()}T00:00:00Z`);
