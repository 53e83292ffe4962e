// Calendar feeds: behind a secret address, with an ETag that tells whether anything changed before
// anything is built.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { feedPath, LinksService, PUBLIC_FEED } from '../accounts/links.service.js';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import { RoomService } from '../room/room.service.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { lastOf, type Version } from './conditional.calc.js';
import { FeedBuilder } from './feed-builder.service.js';
import { FeedMemory, type Written } from './feed-memory.service.js';
import type { FeedData } from './feed-plain.calc.js';
import {
  assistantEntry,
  CANCELLED_DAYS,
  FEED_KINDS,
  type FeedKind,
  MOST_ENTRIES,
  ownerEntry,
  sitterEntry,
  WINDOW,
} from './feeds.calc.js';
import type { CalendarEntry } from './ics.calc.js';
import { staffTeachingEntry } from './teaching-feeds.calc.js';
import { TeachingFeeds } from './teaching-feeds.service.js';
import { TasksService } from './tasks.service.js';

/** Raised whenever the text of feeds changes for the same facts. */
const FORMAT = 2;

/** Places gathered at once. */
const PORTION = 200;

const NAMES: Record<FeedKind, string> = {
  owner: ': all',
  assistant: ': day sheets',
  sitter: '',
  student: ': your teaching days',
  tasks: ': tasks',
  workshops: ': teaching days',
};

/** The feeds at the owner's hand. */
export const DESK_FEEDS = ['owner', 'tasks', 'assistant'] as const;
export type DeskFeed = (typeof DESK_FEEDS)[number];

const doorRow = z.object({
  studio_id: z.uuid(),
  link_id: z.uuid(),
  kind: z.enum(FEED_KINDS),
  subject_id: z.uuid(),
  revoked: z.boolean(),
  counter: z.bigint(),
  raised_at: instant,
});

export interface FeedLink {
  /** Whole address. */
  url: string;
  fetchedAt: Temporal.Instant | null;
}

export interface FeedDoor extends Version {
  studioId: string;
  linkId: string;
  kind: FeedKind;
  subjectId: string;
  /** The day that the feed's window goes by. */
  today: Temporal.PlainDate;
}

@Injectable()
export class FeedsService {
  /** What this process writes may differ from what the one before it wrote: its address may. */
  private readonly opened: Temporal.Instant;

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly tasks: TasksService,
    private readonly teaching: TeachingFeeds,
    private readonly builder: FeedBuilder,
    private readonly memory: FeedMemory,
  ) {
    this.opened = clock.now();
  }

  /**
   * Opens the door of a feed in one statement. The ETag stands for the bytes: it changes with every
   * visible change, with the day of the window, and with the zone data.
   * @throws AppError not_found for an unknown address, link_expired for a revoked one
   */
  async door(slug: string, token: string): Promise<FeedDoor> {
    const row = await this.behind(slug, token);
    if (!row) throw new AppError('not_found', 'There is no calendar at this address.');
    if (row.revoked) throw new AppError('link_expired', 'This calendar link was ended by its owner.');
    const { link_id: linkId, counter, raised_at: raisedAt } = row;
    const now = this.clock.now();
    const today = dayOf(now);
    return {
      studioId: row.studio_id,
      linkId,
      kind: row.kind,
      subjectId: row.subject_id,
      etag: this.etag(linkId, counter, today),
      // at midnight something may have left the window
      changedAt: () => lastOf([raisedAt, startOf(today), this.opened], now),
      today,
    };
  }

  private behind(slug: string, token: string) {
    if (token === PUBLIC_FEED)
      return this.db.callDoor(doorRow, 'select * from plateday_public_feed_door($1)', [slug]);
    const sql = 'select * from plateday_feed_door($1, $2)';
    return looksLikeToken(token) ? this.db.callDoor(doorRow, sql, [slug, hashOf(token)]) : null;
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
      const entries = await this.entries(tx, studio, door);
      const feed = { name: `${studio.name}${NAMES[door.kind]}`, entries, refreshHours: 6 };
      return { etag: this.etag(door.linkId, studio.calendarCounter, door.today), feed };
    });
  }

  /** The feeds at the owner's hand, for the owner's page; null where there is none. */
  async ofAccount(studio: Studio, accountId: string): Promise<Record<DeskFeed, FeedLink | null>> {
    return this.db.inStudio(studio.id, async (tx) => {
      const found = async (kind: DeskFeed): Promise<FeedLink | null> => {
        const link = await this.links.find(tx, 'feed', accountId, kind);
        if (!link) return null;
        const path = feedPath(studio.slug, this.links.token(link));
        return { url: `${this.config.publicUrl}${path}`, fetchedAt: link.fetchedAt };
      };
      return {
        owner: await found('owner'),
        tasks: await found('tasks'),
        assistant: await found('assistant'),
      };
    });
  }

  private etag(linkId: string, counter: bigint, today: Temporal.PlainDate): string {
    const parts = [FORMAT, linkId, counter, today, zoneDataVersion, this.config.publicUrl];
    return createHash('sha256').update(parts.join('\n')).digest('base64url').slice(0, 27);
  }

  private async entries(tx: Tx, studio: Studio, door: FeedDoor): Promise<CalendarEntry[]> {
    const { today } = door;
    const base = `${this.config.publicUrl}/s/${studio.slug}`;
    if (door.kind === 'tasks') return this.tasks.entries(tx, studio, today, `${base}/desk`);
    const window = {
      from: startOf(today.subtract({ days: WINDOW.daysBack })),
      until: startOf(today.add({ months: WINDOW.monthsAhead })),
      cancelledSince: startOf(today.subtract({ days: CANCELLED_DAYS })),
    };
    if (door.kind === 'workshops') return this.teaching.published(tx, studio, window, base);
    if (door.kind === 'student') return this.teaching.own(tx, studio, door.subjectId, window, base);
    const whose = door.kind === 'sitter' ? await this.views.idsOf(tx, door.subjectId) : null;
    const places = await this.room.between(tx, window.from, window.until, window.cancelledSince, whose);
    const entries: CalendarEntry[] = [];
    for (let from = 0; from < Math.min(places.length, MOST_ENTRIES); from += PORTION)
      entries.push(...(await this.ofPlaces(tx, studio, door.kind, places.slice(from, from + PORTION))));
    return entries;
  }

  /** The entries of some of a feed's places: a portion, so that a long feed keeps no other request waiting. */
  private async ofPlaces(
    tx: Tx,
    studio: Studio,
    kind: 'owner' | 'assistant' | 'sitter',
    places: Occupancy[],
  ): Promise<CalendarEntry[]> {
    const base = `${this.config.publicUrl}/s/${studio.slug}`;
    const ids = places.map((place) => place.id);
    const views = await this.views.byOccupancies(tx, studio, ids);
    if (kind !== 'sitter') return this.ofStaff(tx, studio, kind, places, views);
    return places.flatMap((place) => {
      const view = views.get(place.id);
      return (view && sitterEntry(place, view, studio, base)) ?? [];
    });
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
const dayOf = (at: Temporal.Instant) => Temporal.PlainDate.from(at.toString().slice(0, 10));

const startOf = (date: Temporal.PlainDate) => Temporal.Instant.from(`${date.toString()}T00:00:00Z`);
