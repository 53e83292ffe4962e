// Turns what happened into letters in the outbox, and a letter's row into a message ready to send.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { VNode } from 'preact';
import { SIGN_IN_LINK_MINUTES } from '../accounts/accounts.schemas.js';
import { AccountsService } from '../accounts/accounts.service.js';
import { INVITATION_DAYS } from '../accounts/invitations.service.js';
import { LinksService } from '../accounts/links.service.js';
import { buildInvitation } from '../calendar/ics.calc.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import type { Tx } from '../platform/db/tx.js';
import { renderDocument } from '../platform/html/shell.js';
import type { JobPayload } from '../platform/jobs/registry.js';
import type { Message } from '../platform/mailer.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { DiaryService } from '../sittings/diary.service.js';
import { UndoService } from '../sittings/undo.service.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { dayLetterIn, STALE_HOURS } from './day-letter.calc.js';
import { dayLetter } from './day-letter.schemas.js';
import { invitationEntry, passOn, sittingSnapshot, studioFacts } from './letter-facts.calc.js';
import { invitedLetterIn, letterText, signInLetterIn, sittingLetterIn } from './letters.calc.js';
import { LetterPage } from './letters.pages.js';
import {
  isAboutSitting,
  isToStudents,
  type Letter,
  type LetterKind,
  signInLetter,
  sittingLetter,
} from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Posting } from './posting.service.js';
import { StopsService } from './stops.service.js';
import { TeachingLetters } from './teaching-letters.service.js';

type Change = JobPayload<'place.changed'>;

/** Letters that take a confirmed day out of calendars again; without a place in them there was none. */
const GIVEN_BACK: LetterKind[] = ['released', 'another day', 'called off', 'called off for good'];
const GIVEN: LetterKind[] = ['confirmed', 'moved'];

/** What the owner hears of it, beside what the contact does; null for nothing. */
function ownerKindOf({ change, occupancyId }: Change): LetterKind | null {
  if (change === 'asked') return 'owner: asked';
  if (['refused', 'lapsed', 'run out'].includes(change)) return 'owner: not taken';
  if (['withdrawn', 'released'].includes(change)) return 'owner: given up';
  return change === 'another day' && occupancyId ? 'owner: given up' : null;
}

@Injectable()
export class Composing {
  private readonly store = new MailStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly posting: Posting,
    private readonly studios: StudiosService,
    private readonly accounts: AccountsService,
    private readonly links: LinksService,
    private readonly views: SittingViews,
    private readonly undo: UndoService,
    private readonly diary: DiaryService,
    private readonly waiting: WaitingService,
    private readonly teaching: TeachingLetters,
    private readonly stops: StopsService,
  ) {}

  /**
   * Puts the letters about a change in the outbox. A place given back meanwhile is confirmed or offered to nobody,
   * whoever has gone on from the list is not told that they wait, and nobody is told of what was undone. Whoever is
   * moved before they heard of their place hears of the last day only. Somebody without e-mail is told through the studio, and
   * by hand: see telephone.service.ts.
   */
  async aboutChange(tx: Tx, change: Change): Promise<void> {
    if (await this.undo.isUndone(tx, change.sittingId, change.sequence)) return;
    const studio = await this.studios.load(tx);
    const view = await this.views.byId(tx, studio, change.sittingId);
    if (['confirmed', 'offered', 'waiting'].includes(change.change) && view.sitting.state !== change.change)
      return;
    const given = GIVEN.includes(change.change) && view.sitting.state === 'confirmed';
    if (given && (await this.undo.wentOn(tx, view.sitting, change.sequence))) return; // moved again: that is told
    const link = await this.links.find(tx, 'place', change.sittingId);
    if (!link) return; // the page has run out, long after the day: whatever there was to tell is past
    const byMail = view.contact.reachBy === 'email';
    const to = byMail ? view.contact : studio;
    const place = await this.placeOf(tx, change, view.place);
    const offer = change.change === 'offered' ? await this.waiting.openFor(tx, change.sittingId) : null;
    const openUntil = offer?.expiresAt.toString() ?? null;
    const about = sittingSnapshot(studio, { ...view, place }, link.id, byMail ? '' : passOn(view));
    const news = await this.newsOf(tx, change, place);
    if (!news) return;
    const snapshot = { ...about, openUntil, was: news.was };
    const telephoneNow = change.telephone === true || offer?.byTelephone === true;
    const hand = {
      byHand: view.contact.reachBy === 'email' ? ('' as const) : view.contact.reachBy,
      telephoneNow,
    };
    await this.posting.post(tx, change.sittingId, change.sequence, news.kind, to, snapshot, hand);
    const ownerKind = offer?.byTelephone && byMail ? 'owner: to telephone' : ownerKindOf(change);
    if (ownerKind)
      await this.posting.post(tx, change.sittingId, change.sequence, ownerKind, studio, {
        ...snapshot,
        passOn: '',
      });
  }

  /** The place a change is about; null for none. */
  private async placeOf(tx: Tx, change: Change, now: Occupancy | null): Promise<Occupancy | null> {
    const { occupancyId } = change;
    if (occupancyId) return occupancyId === now?.id ? now : this.views.place(tx, occupancyId);
    return ['confirmed', 'released', 'offered'].includes(change.change) ? now : null;
  }

  /**
   * As what they are told of a change, and from which day on; null where they know already. Whoever is moved before they
   * heard of any place hears of a yes, whoever heard of one is moved from that; who was brought in with a place knows of it.
   */
  private async newsOf(
    tx: Tx,
    { change: kind, sequence, sittingId, ...change }: Change,
    place: Occupancy | null,
  ): Promise<{ kind: LetterKind; was: string | null } | null> {
    const was = change.was ?? null;
    if (kind !== 'moved') return { kind, was };
    // locked: one that is being sent with what was so before the move counts as heard
    const written = (await this.store.lockAbout(tx, sittingId)).sort((a, b) => a.sequence - b.sequence);
    const given = written.filter((one) => GIVEN.includes(one.kind));
    if (given.some((one) => one.sequence === sequence)) return null; // this job runs for the second time
    const lost = written.findLast((one) => GIVEN_BACK.includes(one.kind) && one.state !== 'dropped');
    const known = given.findLast(({ attempts, told_at: told }) => attempts > 0 || told !== null);
    const isKnown = known !== undefined && known.sequence > (lost?.sequence ?? 0);
    const promised = isKnown || lost ? null : await this.diary.promised(tx, sittingId);
    if (!isKnown && promised === null) return { kind: 'confirmed', was: null };
    const day = promised ?? dayOf(known) ?? was;
    return day !== null && place?.wallStart.equals(day) ? null : { kind, was: day };
  }

  async signIn(tx: Tx, linkId: string): Promise<void> {
    const link = await this.links.byId(tx, linkId);
    const account = link && (await this.accounts.byId(tx, link.subjectId));
    if (!account) return;
    const studio = await this.studios.load(tx);
    const snapshot = { studio: studioFacts(studio), name: account.name, linkId };
    await this.posting.post(tx, linkId, 0, 'sign-in', account, snapshot);
  }

  /** The message of a row; null when there is no use in sending it any more. */
  async message(tx: Tx, mail: MailRow): Promise<Message | null> {
    const studio = await this.studios.load(tx);
    const letter = await this.letter(tx, mail);
    if (!letter || (await this.isOvertaken(tx, studio, mail))) return null;
    const alone = mail.kind === 'owner: day'; // each day's is a thread of its own
    const first = alone ? null : await this.store.firstMessageId(tx, mail.about_id, mail.recipient);
    const invitation = this.invitation(mail, studio);
    const stopAt = await this.stops.addressFor(tx, studio, mail);
    return {
      from: { name: studio.name, address: this.config.mailFrom },
      to: { name: mail.recipient_name, address: mail.recipient },
      replyTo: studio.email,
      subject: letter.subject,
      text: letterText(letter),
      html: renderDocument(LetterPage({ letter }) as VNode),
      messageId: mail.message_id,
      ...(first && first !== mail.message_id ? { references: [first] } : {}),
      ...(stopAt ? { stopAt } : {}),
      ...(invitation ? { invitation } : {}),
    };
  }

  /** A letter as it reads, for the owner's page as well. */
  async letter(tx: Tx, mail: MailRow): Promise<Letter | null> {
    if (isBlank(mail)) return null;
    if (mail.kind === 'sign-in') {
      const about = signInLetter.parse(mail.snapshot);
      const link = await this.links.byId(tx, about.linkId);
      const over = !link?.expiresAt || Temporal.Instant.compare(link.expiresAt, this.clock.now()) <= 0;
      if (over || link.usedAt || link.revokedAt) return null;
      const home = `${this.config.publicUrl}/s/${about.studio.slug}`;
      return link.purpose === 'invitation'
        ? invitedLetterIn(about, `${home}/join/${this.links.token(link)}`, INVITATION_DAYS)
        : signInLetterIn(about, `${home}/sign-in/${this.links.token(link)}`, SIGN_IN_LINK_MINUTES);
    }
    if (mail.kind === 'owner: day') {
      const about = dayLetter.parse(mail.snapshot);
      return dayLetterIn(about, `${this.config.publicUrl}/s/${about.studio.slug}/desk`);
    }
    if (!isAboutSitting(mail.kind)) return this.teaching.letter(tx, mail);
    const about = sittingLetter.parse(mail.snapshot);
    const base = `${this.config.publicUrl}/s/${about.studio.slug}`;
    if (mail.kind.startsWith('owner'))
      return sittingLetterIn(mail.kind, about, `${base}/desk/requests/${mail.about_id}`);
    const link = await this.links.byId(tx, about.linkId);
    return link && sittingLetterIn(mail.kind, about, `${base}/place/${this.links.token(link)}`);
  }

  /** A letter as it is printed and posted; null once its page has run out. */
  async onPaper(tx: Tx, mail: MailRow): Promise<Letter | null> {
    if (isBlank(mail)) return null;
    if (isToStudents(mail.kind)) return this.teaching.onPaper(tx, mail);
    if (!isAboutSitting(mail.kind) || mail.kind.startsWith('owner')) return null;
    const about = sittingLetter.parse(mail.snapshot);
    const link = await this.links.byId(tx, about.linkId);
    const page = `${this.config.publicUrl}/s/${about.studio.slug}/place`;
    return (
      link &&
      sittingLetterIn(mail.kind, { ...about, passOn: '', onPaper: true }, `${page}/${this.links.token(link)}`)
    );
  }

  /** A place given back or moved meanwhile, and an offer that is over, are not told of; of reminders reminding.service.ts knows. */
  private async isOvertaken(tx: Tx, studio: Studio, mail: MailRow): Promise<boolean> {
    if (isToStudents(mail.kind)) return this.teaching.isOvertaken(tx, mail);
    if (mail.kind === 'owner: day') return this.isOlderThan(mail, STALE_HOURS);
    const isOffered = mail.kind === 'offered' || mail.kind === 'owner: to telephone';
    if (!isOffered && !GIVEN.includes(mail.kind)) return false;
    const { sitting, place } = await this.views.byId(tx, studio, mail.about_id);
    if (isOffered) return sitting.state !== 'offered' || sitting.turns !== mail.sequence;
    const told = sittingLetter.parse(mail.snapshot).place;
    if (told && place && told.wallStart !== place.wallStart.toString()) return true;
    // who was not told of the new day would not know what is called off; who gave it back themselves, knows
    return mail.kind === 'confirmed' ? sitting.state !== 'confirmed' : sitting.state === 'released';
  }

  private isOlderThan({ created_at }: MailRow, hours: number): boolean {
    return Temporal.Instant.compare(this.clock.now(), created_at.add({ hours })) > 0;
  }

  /** None for a letter that the studio passes on: its own calendar has the place already. */
  private invitation(mail: MailRow, studio: Studio): Message['invitation'] | null {
    if (isToStudents(mail.kind)) return this.teaching.invitation(mail, studio);
    const method = GIVEN.includes(mail.kind) ? 'REQUEST' : GIVEN_BACK.includes(mail.kind) ? 'CANCEL' : null;
    if (!method) return null;
    const about = sittingLetter.parse(mail.snapshot);
    if (!about.place || about.passOn !== '') return null;
    const content = buildInvitation({
      method,
      entry: invitationEntry(about, about.place, method),
      organizer: { name: studio.name, email: this.config.mailFrom },
      attendee: { name: mail.recipient_name, email: mail.recipient },
    });
    return { method, content };
  }
}

/** The start that a letter tells; null where it tells of none any more. */
const dayOf = (mail: MailRow | undefined): string | null =>
  !mail || isBlank(mail) ? null : (sittingLetter.parse(mail.snapshot).place?.wallStart ?? null);

/** Its words are erased; see privacy/. */
const isBlank = ({ snapshot }: MailRow) => Object.keys(snapshot as object).length === 0;
