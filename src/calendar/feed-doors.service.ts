// The doors of calendar feeds: behind a secret address, with an ETag that tells whether anything changed before anything is
// built.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { PUBLIC_FEED } from '../accounts/links.service.js';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { Together } from '../platform/together.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import { LANGUAGE_OF_DESK, type Language } from '../words/languages.js';
import { lastOf, type Version } from './conditional.calc.js';
import { FEED_KINDS, type FeedKind, startOf } from './feeds.calc.js';

/** Raised whenever the text of feeds changes for the same facts. */
const FORMAT = 4;

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
export class FeedDoors {
  /** Calendars come all at once: at the full hour, and after each change. */
  private readonly doors: Together<Asked, DoorRow | null>;
  /** What this process writes may differ from what the one before it wrote: its address may. */
  private readonly opened: Temporal.Instant;
  private day: { number: number; date: Temporal.PlainDate } | null = null;

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
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

  /** Stands for the bytes of a feed. */
  etag(door: Pick<FeedDoor, 'linkId' | 'today' | 'language'>, counter: bigint): string {
    const { linkId, today, language } = door;
    const parts = [FORMAT, linkId, counter, today, language, zoneDataVersion, this.config.publicUrl];
    return createHash('sha256').update(parts.join('\n')).digest('base64url').slice(0, 27);
  }
}
