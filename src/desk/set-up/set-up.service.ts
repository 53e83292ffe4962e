// The steps from an empty studio to its first sitting. What is done is read from what is there, so that each step can be
// left and taken up again, in any order.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../../accounts/accounts.schemas.js';
import { LinksService } from '../../accounts/links.service.js';
import { lightWindow } from '../../daylight/window.calc.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { Clock } from '../../platform/clock.js';
import { Config } from '../../platform/config.js';
import { editAlone } from '../../platform/db/alone.js';
import { Db } from '../../platform/db/db.js';
import { historyOf, recordHistory } from '../../platform/db/history.js';
import type { Tx } from '../../platform/db/tx.js';
import { readInput } from '../../platform/input.js';
import { AppError } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { Mailer } from '../../platform/mailer.js';
import { RHYTHM_DEFAULTS } from '../../room/rules.schemas.js';
import { RoomService } from '../../room/room.service.js';
import { SittingViews } from '../../sittings/views.service.js';
import { BathsService } from '../../stock/baths.service.js';
import { StockService } from '../../stock/stock.service.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { StudiosService } from '../../studios/studios.service.js';
import { type Done, profileOf, sampleDays } from './set-up.calc.js';
import { profileForm, rhythmForm } from './set-up.schemas.js';

const MAIL_TESTED = 'tested the mail';

export interface SampleDay {
  date: Temporal.PlainDate;
  /** Wall times; null where the sun stays too low. */
  light: { from: Temporal.PlainDateTime; until: Temporal.PlainDateTime } | null;
  /** Starts that are open, and how many there are; null as long as there is no rhythm. */
  open: { starts: Temporal.PlainDateTime[]; of: number } | null;
}

export interface MailTest {
  to: string;
  /** Null where the mail went; else what the mail server said. */
  failure: string | null;
  /** Where the files of letters are, when no mail server is set. */
  folder: string | null;
}

@Injectable()
export class SetUpService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly mailer: Mailer,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly baths: BathsService,
    private readonly views: SittingViews,
  ) {}

  /** Which steps are done. */
  done(studioId: string, account: Account): Promise<Done> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const rules = await this.room.rules(tx);
      const sizes = await this.stock.plateSizes(tx);
      const history = await historyOf(tx, studioId);
      return {
        rhythm: rules.rhythms.length > 0,
        kinds: rules.kinds.length > 0,
        shelf: sizes.length > 0,
        bath: (await this.baths.list(tx)).length > 0,
        words: studio.welcome !== '',
        mail: history.some(({ event }) => event === MAIL_TESTED),
        calendar: (await this.links.find(tx, 'feed', account.id, 'owner')) !== null,
        first: await this.views.anyConfirmed(tx),
      };
    });
  }

  /** The light, and what is open in it, on the studio's weekday in each quarter of the year to come. */
  days(studioId: string): Promise<{ studio: Studio; weekday: number | null; days: SampleDay[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { rhythms } = await this.room.rules(tx);
      const weekday = rhythms[0]?.weekday ?? null;
      const today = instantToWall(studio.zone, this.clock.now()).toPlainDate();
      const days: SampleDay[] = [];
      for (const date of sampleDays(today, weekday ?? 5))
        days.push(await this.sample(tx, studio, date, weekday !== null));
      return { studio, weekday, days };
    });
  }

  /** Enters the first weekday, from today on. @throws AppError bad_input; changed_meanwhile where there is one by now */
  async beginRhythm(studioId: string, who: Account, input: unknown): Promise<void> {
    const { weekday, first, sittings, apart, windowKind } = readInput(rhythmForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'first rhythm');
      if ((await this.room.rules(tx)).rhythms.length > 0)
        throw new AppError('changed_meanwhile', undefined, [
          { field: '', message: 'Meanwhile somebody else began the rhythm that is told below.' },
        ]);
      const studio = await this.studios.load(tx);
      const today = instantToWall(studio.zone, this.clock.now()).toPlainDate();
      await this.studios.saveLightAndBooking(tx, { ...studio, windowKind });
      await this.room.enterRhythm(tx, {
        ...RHYTHM_DEFAULTS,
        weekday,
        starts: Array.from({ length: sittings }, (_, at) => first + at * apart),
        mostSittings: sittings,
        mostSittingsWithHelper: sittings,
        effectiveFrom: today,
        effectiveUntil: null,
      });
      await this.note(tx, who, 'began the rhythm');
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Says what visitors read. @throws AppError bad_input, changed_meanwhile */
  async saveProfile(studioId: string, who: Account, input: Record<string, unknown>): Promise<void> {
    const profile = readInput(profileForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      refuseChanged(input, profileOf(await this.studios.lock(tx)));
      await this.studios.saveProfile(tx, profile);
      await this.note(tx, who, 'changed what visitors read');
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Sends the owner a letter now, past the outbox, and tells how it went. */
  async testMail(studio: Studio, who: Account): Promise<MailTest> {
    const id = `${studio.id}.${this.clock.now().epochMilliseconds}.test@plateday.invalid`;
    const text = 'This letter was sent by Plateday, to see whether letters arrive. They do.';
    let failure: string | null = null;
    try {
      await this.mailer.send({
        from: { name: studio.name, address: this.config.mailFrom },
        to: { name: who.name, address: who.email },
        subject: `Letters of ${studio.name} arrive`,
        text,
        html: `<p>${text}</p>`,
        messageId: `<${id}>`,
      });
    } catch (error) {
      failure = (error as Error).message;
    }
    await this.db.inStudio(studio.id, (tx) =>
      this.note(tx, who, failure === null ? MAIL_TESTED : 'tested the mail in vain'),
    );
    return { to: who.email, failure, folder: this.config.smtpUrl ? null : `${this.config.home}/mail` };
  }

  private async sample(
    tx: Tx,
    studio: Studio,
    date: Temporal.PlainDate,
    rhythm: boolean,
  ): Promise<SampleDay> {
    const window = lightWindow(studio, date, studio.lightFloorDegrees);
    const light = window && {
      from: instantToWall(studio.zone, window.start),
      until: instantToWall(studio.zone, window.end),
    };
    if (!rhythm) return { date, light, open: null };
    const [day] = await this.room.days(tx, studio, { from: date, until: date }, 1);
    const openings = day?.openings ?? [];
    const starts = openings.filter(({ closed }) => closed === null).map(({ wallStart }) => wallStart);
    return { date, light, open: { starts, of: openings.length } };
  }

  private note(tx: Tx, who: Account, event: string): Promise<void> {
    return recordHistory(tx, this.clock, {
      who: who.name,
      aboutKind: 'settings',
      aboutId: tx.studioId,
      event,
    });
  }
}
