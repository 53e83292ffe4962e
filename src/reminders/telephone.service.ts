// Telling people by hand: whom to telephone or write to, ticking that it is done, and the letters to print. And
// whether anybody was told of a turn of a sitting, for whoever wants to undo it.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { Composing } from './composing.service.js';
import type { Letter } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import { type ToTell, toTell } from './telephone.calc.js';

/** What was ticked so many days ago can still be seen, and taken back. */
const TOLD_DAYS = 7;

/** What was told to one person at one moment. */
export interface ToldTo {
  view: SittingView;
  at: Temporal.Instant;
  who: string;
  mails: MailRow[];
}

export interface PrintedLetter {
  entry: ToTell;
  letter: Letter;
}

@Injectable()
export class TelephoneService {
  private readonly store = new MailStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly views: SittingViews,
    private readonly composing: Composing,
  ) {}

  /** Whom to tell what, the most pressing first. The same number of statements however many. */
  async toTell(tx: Tx, studio: Studio): Promise<ToTell[]> {
    const untold = await this.store.untold(tx);
    const ids = [...new Set(untold.map((mail) => mail.about_id))];
    const views = byId(await this.views.byIds(tx, studio, ids));
    return toTell(untold, views, await this.store.newest(tx, ids), this.clock.now());
  }

  /** What mail could not bring to the studio itself, or as a link to sign in with. */
  parkedAtHome(tx: Tx): Promise<MailRow[]> {
    return this.store.parkedAtHome(tx);
  }

  list(studioId: string): Promise<{ entries: ToTell[]; told: ToldTo[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const entries = await this.toTell(tx, studio);
      const since = this.clock.now().subtract({ hours: 24 * TOLD_DAYS });
      const mails = await this.store.told(tx, since);
      const views = byId(await this.views.byIds(tx, studio, [...new Set(mails.map((one) => one.about_id))]));
      return { entries, told: toldTo(mails, views) };
    });
  }

  /** The letters to print for those who are written to, in the order of the list. */
  letters(studioId: string): Promise<PrintedLetter[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const entries = (await this.toTell(tx, await this.studios.load(tx))).filter(
        (one) => one.way === 'letter',
      );
      const letters: PrintedLetter[] = [];
      for (const entry of entries) {
        const letter = await this.composing.onPaper(tx, entry.mail);
        if (letter) letters.push({ entry, letter });
      }
      return letters;
    });
  }

  /**
   * Ticks that somebody was told what stood on the list; what came since stays on it.
   * @throws AppError wrong_state when all of it was ticked before
   */
  async tell(studioId: string, who: Account, sittingId: string, mailIds: string[]): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.store.tell(tx, sittingId, mailIds, this.clock.now(), who.name)) === 0)
        throw new AppError('wrong_state', 'This was ticked already.');
      await this.record(tx, who, sittingId, 'told');
    });
  }

  /** Takes a tick back. @throws AppError wrong_state when there is none */
  async untell(studioId: string, who: Account, sittingId: string, mailIds: string[]): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.store.untell(tx, sittingId, mailIds)) === 0)
        throw new AppError('wrong_state', 'There is no tick to take back.');
      await this.record(tx, who, sittingId, 'not_told');
    });
  }

  /** Whether somebody was told of a turn of a sitting, and when: by mail that went or is on its way, or by hand. */
  async wasTold(tx: Tx, sittingId: string, turns: number): Promise<boolean> {
    return (await this.store.lockTurn(tx, sittingId, turns)).some(isTold);
  }

  /** Lets the letters of a turn go nowhere. @returns false where somebody was told: then nothing is changed */
  async drop(tx: Tx, sittingId: string, turns: number): Promise<boolean> {
    const mails = await this.store.lockTurn(tx, sittingId, turns);
    if (mails.some(isTold)) return false;
    await this.store.drop(
      tx,
      mails.map((one) => one.mail_id),
      'Undone before anybody was told.',
    );
    return true;
  }

  private record(tx: Tx, who: Account, sittingId: string, event: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'sitting', aboutId: sittingId, event });
  }
}

/** A letter to the studio tells nobody; one that is to be passed on tells them once it is ticked. */
const isTold = ({ kind, state, by_hand, told_at }: MailRow): boolean =>
  told_at !== null ||
  (by_hand === '' && !kind.startsWith('owner:') && (state === 'sent' || state === 'sending'));

const byId = (views: SittingView[]) => new Map(views.map((view) => [view.sitting.id, view]));

function toldTo(mails: readonly MailRow[], views: ReadonlyMap<string, SittingView>): ToldTo[] {
  const groups = new Map<string, ToldTo>();
  for (const mail of mails) {
    const view = views.get(mail.about_id);
    if (!view || !mail.told_at) continue;
    const key = `${mail.about_id} ${mail.told_at}`;
    const group = groups.get(key) ?? { view, at: mail.told_at, who: mail.told_by, mails: [] };
    group.mails.push(mail);
    groups.set(key, group);
  }
  return [...groups.values()];
}
