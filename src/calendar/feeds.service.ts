// Calendar feeds: behind a secret address, with an ETag that tells whether anything changed before
// anything is built.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { feedPath, LinksService } from '../accounts/links.service.js';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import { RoomService } from '../room/room.service.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import {
  CANCELLED_DAYS,
  type FeedKind,
  MOST_ENTRIES,
  ownerEntry,
  sitterEntry,
  WINDOW,
} from './feeds.calc.js';
import { buildFeed, type CalendarEntry } from './ics.calc.js';
import { TasksService } from './tasks.service.js';

/** Raised whenever the text of feeds changes for the same facts. */
const FORMAT = 1;

const NAMES: Record<FeedKind, string> = { owner: ': all', sitter: '', tasks: ': tasks' };

const doorRow = z.object({
  studio_id: z.uuid(),
  link_id: z.uuid(),
  kind: z.enum(['owner', 'sitter', 'tasks']),
  subject_id: z.uuid(),
  revoked: z.boolean(),
  counter: z.bigint(),
});

export interface FeedLink {
  /** Whole address. */
  url: string;
  fetchedAt: Temporal.Instant | null;
}

export interface FeedDoor {
  studioId: string;
  linkId: string;
  kind: FeedKind;
  subjectId: string;
  etag: string;
  /** The day that the feed's window goes by. */
  today: Temporal.PlainDate;
}

@Injectable()
export class FeedsService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly tasks: TasksService,
  ) {}

  /**
   * Opens the door of a feed in one statement. The ETag stands for the bytes: it changes with every
   * visible change, with the day of the window, and with the zone data.
   * @throws AppError not_found for an unknown address, link_expired for a revoked one
   */
  async door(slug: string, token: string): Promise<FeedDoor> {
    const sql = 'select * from plateday_feed_door($1, $2)';
    const row = looksLikeToken(token) ? await this.db.callDoor(doorRow, sql, [slug, hashOf(token)]) : null;
    if (!row) throw new AppError('not_found', 'There is no calendar at this address.');
    if (row.revoked) throw new AppError('link_expired', 'This calendar link was ended by its owner.');
    const { link_id: linkId, counter } = row;
    const today = this.today();
    return {
      studioId: row.studio_id,
      linkId,
      kind: row.kind,
      subjectId: row.subject_id,
      etag: this.etag(linkId, counter, today),
      today,
    };
  }

  /**
   * The feed's text and the ETag that stands for it; equal ETags mean equal bytes. An act committed since the door
   * was opened is in both or in neither, since counter and entries are read as they stood at one moment.
   */
  async text(door: FeedDoor): Promise<{ etag: string; text: string }> {
    return this.db.atOneMoment(door.studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const entries = await this.entries(tx, studio, door);
      const name = `${studio.name}${NAMES[door.kind]}`;
      const text = buildFeed({ name, entries: entries.slice(0, MOST_ENTRIES), refreshHours: 6 });
      return { etag: this.etag(door.linkId, studio.calendarCounter, door.today), text };
    });
  }

  /** The owner's feed and the one of tasks, for the owner's page; null where there is none. */
  async ofAccount(studio: Studio, accountId: string): Promise<Record<'owner' | 'tasks', FeedLink | null>> {
    return this.db.inStudio(studio.id, async (tx) => {
      const found = async (kind: FeedKind): Promise<FeedLink | null> => {
        const link = await this.links.find(tx, 'feed', accountId, kind);
        if (!link) return null;
        const path = feedPath(studio.slug, this.links.token(link));
        return { url: `${this.config.publicUrl}${path}`, fetchedAt: link.fetchedAt };
      };
      return { owner: await found('owner'), tasks: await found('tasks') };
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
    const places = await this.room.between(
      tx,
      startOf(today.subtract({ days: WINDOW.daysBack })),
      startOf(today.add({ months: WINDOW.monthsAhead })),
      startOf(today.subtract({ days: CANCELLED_DAYS })),
      door.kind === 'sitter' ? await this.views.idsOf(tx, door.subjectId) : null,
    );
    const views = await this.views.byOccupancies(
      tx,
      studio,
      places.map((place) => place.id),
    );
    if (door.kind === 'owner')
      return places.map((place) => {
        const view = views.get(place.id);
        return ownerEntry(place, view, studio, view ? `${base}/desk/requests/${view.sitting.id}` : base);
      });
    return places.flatMap((place) => {
      const view = views.get(place.id);
      return (view && sitterEntry(place, view, studio, base)) ?? [];
    });
  }

  /** The window moves once a day, at midnight UTC for all studios alike, so that a day has one ETag. */
  private today(): Temporal.PlainDate {
    return Temporal.PlainDate.from(this.clock.now().toString().slice(0, 10));
  }
}

const startOf = (date: Temporal.PlainDate) => Temporal.Instant.from(`${date.toString()}T00:00:00Z`);
