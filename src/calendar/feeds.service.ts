// Calendar feeds behind their doors: what is gathered for each, and the text of it.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Link } from '../accounts/accounts.schemas.js';
import { feedPath, LinksService, PUBLIC_FEED } from '../accounts/links.service.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { RoomService } from '../room/room.service.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Language } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import { type FeedDoor, FeedDoors } from './feed-doors.service.js';
import { FeedBuilder } from './feed-builder.service.js';
import { FeedMemory, type Written } from './feed-memory.service.js';
import type { FeedData } from './feed-plain.calc.js';
import {
  assistantEntry,
  CANCELLED_DAYS,
  DESK_FEEDS,
  type DeskFeed,
  type FeedKind,
  MOST_ENTRIES,
  busyEntry,
  ownerEntry,
  startOf,
  WINDOW,
} from './feeds.calc.js';
import type { CalendarEntry } from './ics.calc.js';
import { SitterFeeds } from './sitter-feeds.service.js';
import { staffTeachingEntry } from './teaching-feeds.calc.js';
import { TeachingFeeds } from './teaching-feeds.service.js';
import { TasksService } from './tasks.service.js';

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

@Injectable()
export class FeedsService {
  constructor(
    private readonly db: Db,
    private readonly doors: FeedDoors,
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
  ) {}

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
      return { etag: this.doors.etag(door, studio.calendarCounter), feed };
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
