// Puts letters about teaching in the outbox, and says how one reads. Somebody without e-mail is told through the studio.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { buildInvitation } from '../calendar/ics.calc.js';
import { signUpRevision } from '../calendar/teaching-feeds.calc.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import type { Tx } from '../platform/db/tx.js';
import type { JobPayload } from '../platform/jobs/registry.js';
import type { Message } from '../platform/mailer.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingUndo } from '../teaching/undo.service.js';
import { partsWithTimes } from '../teaching/words.calc.js';
import { type OwnView, TeachingViews } from '../teaching/views.service.js';
import { wordsFor } from '../words/words-for.js';
import { passOn, studioFacts } from './letter-facts.calc.js';
import { type Letter, type TeachingLetter, teachingLetter } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Posting } from './posting.service.js';
import { isNear, wentMeanwhile } from './teaching-calls.calc.js';
import { teachingInvitation, teachingLetterIn } from './teaching-letters.calc.js';

/** What the owner hears of as well. */
const TO_OWNER: TeachingLetter['change'][] = ['asked', 'signed', 'waiting', 'withdrawn', 'released'];
/** How they hear of it who were not told while it was typed in. */
const HEARS = { email: 'by mail', telephone: 'by telephone', letter: 'by letter' } as const;
/** What a letter does to the calendars of who had, or has, a place. */
const INVITES: Partial<Record<TeachingLetter['change'], 'REQUEST' | 'CANCEL'>> = {
  signed: 'REQUEST',
  changed: 'REQUEST',
  released: 'CANCEL',
  'called off': 'CANCEL',
};

@Injectable()
export class TeachingLetters {
  private readonly store = new MailStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly posting: Posting,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly views: TeachingViews,
    private readonly undo: TeachingUndo,
  ) {}

  /** Nobody is told that they have, or are offered, what went again meanwhile, nor how its day changed. */
  async aboutChange(tx: Tx, changed: JobPayload<'teaching.changed'>): Promise<void> {
    const { signUpId, change, sequence, toldBy } = changed;
    if (await this.undo.isUndone(tx, signUpId, sequence)) return;
    const view = await this.views.own(tx, signUpId);
    if (!view || wentMeanwhile(change, view.signUp.state)) return;
    const studio = await this.studios.load(tx);
    const snapshot = await this.snapshot(tx, studio, view, change);
    if (!snapshot) return;
    const { reachBy } = view.contact;
    const byMail = reachBy === 'email';
    const hand = {
      byHand: byMail ? ('' as const) : reachBy,
      telephoneNow: view.offer?.byTelephone === true || this.isTooNear(snapshot),
    };
    await this.posting.post(
      tx,
      signUpId,
      sequence,
      'teaching',
      byMail ? view.contact : studio,
      snapshot,
      hand,
    );
    // told on the telephone while it was typed in: then it is on no list
    const told = reachBy === 'telephone' && toldBy !== undefined;
    if (told) await this.tick(tx, signUpId, sequence, toldBy);
    if (!TO_OWNER.includes(change)) return;
    const toOwner = { ...snapshot, passOn: '', hears: told ? 'told already' : HEARS[reachBy] };
    await this.posting.post(tx, signUpId, sequence, 'owner: teaching', studio, toOwner);
  }

  /** What a letter about a sign-up tells, fixed at this moment; null once their page has run out. */
  async snapshot(
    tx: Tx,
    studio: Studio,
    view: OwnView,
    change: TeachingLetter['change'],
  ): Promise<TeachingLetter | null> {
    const link = await this.links.find(tx, 'place', view.signUp.id);
    return (
      link && {
        ...about(view),
        studio: studioFacts(studio),
        change,
        language: view.contact.language,
        passOn: view.contact.reachBy === 'email' ? '' : passOn(view),
        linkId: link.id,
        open: [],
        leaveBy: null,
        homeZone: null,
      }
    );
  }

  /** How a letter reads; null once its page has run out. */
  async letter(tx: Tx, mail: MailRow): Promise<Letter | null> {
    const told = teachingLetter.parse(mail.snapshot);
    const base = `${this.config.publicUrl}/s/${told.studio.slug}`;
    if (mail.kind === 'owner: teaching') return teachingLetterIn(told, `${base}/desk/teaching`, true);
    const link = await this.links.byId(tx, told.linkId);
    return link && teachingLetterIn(told, `${base}/student/${this.links.token(link)}`, false);
  }

  /** Nobody is told after all that they have, wait for or are offered what went meanwhile, nor how its day changed. */
  async isOvertaken(tx: Tx, mail: MailRow): Promise<boolean> {
    const { change } = teachingLetter.parse(mail.snapshot);
    const view = await this.views.own(tx, mail.about_id);
    return !view || wentMeanwhile(change, view.signUp.state);
  }

  /**
   * The calendar part: asked to come once they have a place or it has changed, cancelled when it went. None for a
   * letter that the studio passes on, and none about a day they never had.
   */
  invitation(mail: MailRow, studio: { name: string }): Message['invitation'] | null {
    const told = teachingLetter.parse(mail.snapshot);
    const method = INVITES[told.change];
    if (!method || !told.place || !told.hadPlace || told.passOn !== '' || mail.kind !== 'teaching')
      return null;
    const content = buildInvitation({
      method,
      entry: teachingInvitation(told, told.place, method),
      organizer: { name: studio.name, email: this.config.mailFrom },
      attendee: { name: mail.recipient_name, email: mail.recipient },
    });
    return { method, content };
  }

  /** A day that is changed or called off so shortly before that a letter by mail may come too late. */
  private isTooNear({ change, place }: TeachingLetter): boolean {
    if (!place || (change !== 'changed' && change !== 'called off')) return false;
    return isNear(place, null, this.clock.now());
  }

  /** A letter as it is printed and posted; null once its page has run out. */
  async onPaper(tx: Tx, mail: MailRow): Promise<Letter | null> {
    const told = teachingLetter.parse(mail.snapshot);
    const link = await this.links.byId(tx, told.linkId);
    const page = `${this.config.publicUrl}/s/${told.studio.slug}/student`;
    return link && teachingLetterIn({ ...told, passOn: '' }, `${page}/${this.links.token(link)}`, false);
  }

  private async tick(tx: Tx, signUpId: string, sequence: number, who: string): Promise<void> {
    const mails = await this.store.lockTurn(tx, signUpId, sequence);
    const ids = mails.flatMap(({ kind, mail_id }) => (kind === 'teaching' ? [mail_id] : []));
    await this.store.tell(tx, signUpId, ids, this.clock.now(), who);
    await this.store.drop(tx, ids, 'Told on the telephone while it was typed in.');
  }
}

function about({ signUp, contact, students, course, day, offer }: OwnView) {
  const revision = day && signUpRevision(signUp, day.place);
  const place = day &&
    revision && {
      uid: signUp.id,
      sequence: revision.sequence,
      zone: day.place.zone,
      wallStart: day.place.wallStart.toString(),
      wallEnd: day.place.wallEnd.toString(),
      startsAt: day.place.startsAt.toString(),
      endsAt: day.place.endsAt.toString(),
      revisedAt: revision.revisedAt.toString(),
      createdAt: day.place.createdAt.toString(),
    };
  return {
    contactName: contact.name,
    course: course.name,
    students: students.map(({ name }) => name),
    place,
    wantedOn: signUp.wantedOn?.toString() ?? null,
    hadPlace: signUp.firmAt !== null,
    parts: day ? partsWithTimes(course.parts, day.place.wallStart, wordsFor(contact.language)) : [],
    message: signUp.message,
    openUntil: offer?.expiresAt.toString() ?? null,
    bring: course.bring,
    wear: course.wear,
  };
}
