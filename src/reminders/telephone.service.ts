// Telling people by hand: whom to telephone or write to, ticking that it is done, and the letters to print. And
// whether anybody was told of a turn of a sitting, for whoever wants to undo it.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import type { Contact } from '../people/people.schemas.js';
import { AppError } from '../platform/problems.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingViews } from '../teaching/views.service.js';
import { Composing } from './composing.service.js';
import { aboutKindOf, isToStudents, type Letter } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Surprises } from './surprises.service.js';
import { openPoints } from './teaching-missing.calc.js';
import { type TeachingToTell, teachingToTell } from './teaching-calls.calc.js';
import { type ToTell, toTell } from './telephone.calc.js';

/** What was ticked so many days ago can still be seen, and taken back. */
const TOLD_DAYS = 7;

/** What was told to one person at one moment. */
export interface ToldTo {
  /** The sitting or sign-up it was about. */
  aboutId: string;
  contact: Contact;
  at: Temporal.Instant;
  who: string;
  mails: MailRow[];
}

export interface PrintedLetter {
  contact: Contact;
  mail: MailRow;
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
    private readonly teaching: TeachingViews,
    private readonly composing: Composing,
    private readonly surprises: Surprises,
  ) {}

  /** Whom to tell what, the most pressing first. The same number of statements however many. */
  async toTell(tx: Tx, studio: Studio): Promise<ToTell[]> {
    const untold = await this.surprises.without(tx, await this.store.untold(tx));
    const ids = [...new Set(untold.map((mail) => mail.about_id))];
    const views = byId(await this.views.byIds(tx, studio, ids));
    return toTell(untold, views, await this.store.newest(tx, ids), this.clock.now());
  }

  /** The same about teaching. */
  async teachingToTell(tx: Tx): Promise<TeachingToTell[]> {
    const untold = (await this.store.untold(tx)).filter(({ kind }) => isToStudents(kind));
    const ids = [...new Set(untold.map((mail) => mail.about_id))];
    const views = await this.teaching.owns(tx, ids);
    const entries = teachingToTell(untold, views, await this.store.newest(tx, ids), this.clock.now());
    if (entries.every(({ about }) => about.open.length === 0)) return entries;
    // what they have told meanwhile is not asked for once more
    const safety = await this.teaching.safety(tx);
    return entries.map((one) => {
      const tells = one.about.open.map((point) => point.tells);
      return { ...one, about: { ...one.about, open: openPoints(one.view, safety, tells) } };
    });
  }

  /** What mail could not bring to the studio itself, or as a link to sign in with. */
  parkedAtHome(tx: Tx): Promise<MailRow[]> {
    return this.store.parkedAtHome(tx);
  }

  list(studioId: string): Promise<{ entries: ToTell[]; teaching: TeachingToTell[]; told: ToldTo[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const entries = await this.toTell(tx, studio);
      const teaching = await this.teachingToTell(tx);
      const since = this.clock.now().subtract({ hours: 24 * TOLD_DAYS });
      const mails = await this.store.told(tx, since);
      const ids = [...new Set(mails.map((one) => one.about_id))];
      const sitters = byId(await this.views.byIds(tx, studio, ids));
      const students = await this.teaching.owns(tx, ids);
      return {
        entries,
        teaching,
        told: toldTo(mails, (id) => (sitters.get(id) ?? students.get(id))?.contact),
      };
    });
  }

  /** The letters to print for those who are written to, in the order of the list. */
  letters(studioId: string): Promise<PrintedLetter[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const sittings = await this.toTell(tx, await this.studios.load(tx));
      const entries = [...sittings, ...(await this.teachingToTell(tx))].filter((one) => one.way === 'letter');
      const letters: PrintedLetter[] = [];
      for (const { mail, view } of entries) {
        const letter = await this.composing.onPaper(tx, mail);
        if (letter) letters.push({ contact: view.contact, mail, letter });
      }
      return letters;
    });
  }

  /**
   * Ticks that somebody was told what stood on the list; what came since stays on it.
   * @throws AppError wrong_state when all of it was ticked before
   */
  async tell(studioId: string, who: Account, aboutId: string, mailIds: string[]): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.store.tell(tx, aboutId, mailIds, this.clock.now(), who.name)) === 0)
        throw new AppError('wrong_state', 'This was ticked already.');
      await this.record(tx, who, aboutId, 'told', mailIds);
    });
  }

  /** Takes a tick back. @throws AppError wrong_state when there is none */
  async untell(studioId: string, who: Account, aboutId: string, mailIds: string[]): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.store.untell(tx, aboutId, mailIds)) === 0)
        throw new AppError('wrong_state', 'There is no tick to take back.');
      await this.record(tx, who, aboutId, 'not_told', mailIds);
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

  private async record(
    tx: Tx,
    who: Account,
    aboutId: string,
    event: string,
    [mailId = '']: string[],
  ): Promise<void> {
    const mail = await this.store.byId(tx, mailId);
    const aboutKind = mail && mail.kind !== 'sign-in' ? aboutKindOf(mail.kind) : 'sitting';
    await recordHistory(tx, this.clock, { who: who.name, aboutKind, aboutId, event });
  }
}

/** A letter to the studio tells nobody; one that is to be passed on tells them once it is ticked. */
const isTold = ({ kind, state, by_hand, told_at }: MailRow): boolean =>
  told_at !== null ||
  (by_hand === '' && !kind.startsWith('owner:') && (state === 'sent' || state === 'sending'));

const byId = (views: SittingView[]) => new Map(views.map((view) => [view.sitting.id, view]));

function toldTo(mails: readonly MailRow[], contactOf: (aboutId: string) => Contact | undefined): ToldTo[] {
  const groups = new Map<string, ToldTo>();
  for (const mail of mails) {
    const contact = contactOf(mail.about_id);
    if (!contact || !mail.told_at) continue;
    const key = `${mail.about_id} ${mail.told_at}`;
    const group = groups.get(key) ?? {
      aboutId: mail.about_id,
      contact,
      at: mail.told_at,
      who: mail.told_by,
      mails: [],
    };
    group.mails.push(mail);
    groups.set(key, group);
  }
  return [...groups.values()];
}
