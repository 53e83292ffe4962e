// What there is to remind somebody of: a sitting, or a day of teaching. Both give the same facts to plan from, and each
// writes its own letter.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import type { Tx } from '../platform/db/tx.js';
import type { Contact } from '../people/people.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { OwnView } from '../teaching/day-views.schemas.js';
import { TeachingViews } from '../teaching/views.service.js';
import type { Spot } from '../travel/journey.calc.js';
import { comingOf } from './coming.calc.js';
import { passOn, sittingSnapshot } from './letter-facts.calc.js';
import type { ReminderFacts } from './reminder-plan.calc.js';
import type { ReminderKind, Tells } from './reminder-rules.schemas.js';
import type { Of, ReminderRow } from './reminders.store.js';
import { Posting } from './posting.service.js';
import { TeachingLetters } from './teaching-letters.service.js';
import { openPoints } from './teaching-missing.calc.js';

export interface Reminded {
  contact: Contact;
  /** Grows with each move. */
  turns: number;
  /** Null where there is nothing to remind of: no place that is firm. */
  facts: ReminderFacts | null;
  /** Puts the letter in the outbox. @returns its id; null where their page has run out, or it is there already */
  write: (kind: ReminderKind, tells: readonly Tells[]) => Promise<string | null>;
}

@Injectable()
export class RemindedService {
  constructor(
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly sittings: SittingViews,
    private readonly teaching: TeachingViews,
    private readonly posting: Posting,
    private readonly letters: TeachingLetters,
  ) {}

  /** As it stands now. @throws AppError not_found */
  async load(tx: Tx, of: Of): Promise<Reminded> {
    const studio = await this.studios.load(tx);
    if ('sittingId' in of) return this.sitting(tx, studio, of.sittingId);
    return this.signUp(tx, studio, await this.teaching.known(tx, of.signUpId));
  }

  private async sitting(tx: Tx, studio: Studio, sittingId: string): Promise<Reminded> {
    const view = await this.sittings.byId(tx, studio, sittingId);
    const { contact, sitting } = view;
    const facts = sittingFacts(view, studio);
    const write: Reminded['write'] = async (kind) => {
      const link = await this.links.find(tx, 'place', sittingId);
      if (!link) return null;
      const snapshot = {
        ...sittingSnapshot(studio, view, link.id, contact.reachBy === 'email' ? '' : passOn(view)),
        leaveBy: facts?.coming?.leaveBy?.toString() ?? null,
        homeZone: facts?.coming?.zone ?? null,
      };
      const { to, hand } = reached(contact, studio);
      return this.posting.post(tx, sittingId, sitting.turns, `reminder: ${kind}`, to, snapshot, hand);
    };
    return { contact, turns: sitting.turns, facts, write };
  }

  private async signUp(tx: Tx, studio: Studio, view: OwnView): Promise<Reminded> {
    const { contact, signUp } = view;
    const facts = teachingFacts(view, studio);
    const write: Reminded['write'] = async (kind, tells) => {
      const open = openPoints(view, await this.teaching.safety(tx), tells);
      const told = await this.letters.snapshot(tx, studio, view, `reminder: ${kind}`);
      if (!told) return null;
      const snapshot = {
        ...told,
        open,
        leaveBy: facts?.coming?.leaveBy?.toString() ?? null,
        homeZone: facts?.coming?.zone ?? null,
      };
      const { to, hand } = reached(contact, studio);
      return this.posting.post(tx, signUp.id, signUp.turns, `teaching reminder: ${kind}`, to, snapshot, hand);
    };
    return { contact, turns: signUp.turns, facts, write };
  }
}

/** To them, or to the studio for whoever has no e-mail, to be told by hand. */
function reached(contact: Contact, studio: Studio) {
  const { reachBy } = contact;
  return reachBy === 'email'
    ? { to: contact, hand: { byHand: '' as const, telephoneNow: false } }
    : { to: studio, hand: { byHand: reachBy, telephoneNow: false } };
}

/** What a reminder row is of. */
export function ofRow({ sitting_id, sign_up_id }: ReminderRow): Of {
  if (sitting_id !== null) return { sittingId: sitting_id };
  if (sign_up_id !== null) return { signUpId: sign_up_id };
  throw new Error('A reminder is of a sitting or of a sign-up.');
}

function sittingFacts({ sitting, place, contact }: SittingView, studio: Spot): ReminderFacts | null {
  if (sitting.state !== 'confirmed' || !place?.holds) return null;
  const since = sitting.decidedAt ?? sitting.askedAt;
  return { forDay: 'sitting', place, since, coming: comingOf(contact, studio, place) };
}

function teachingFacts({ signUp, day, contact }: OwnView, studio: Spot): ReminderFacts | null {
  if (signUp.state !== 'signed' || !day?.place.holds) return null;
  const { place } = day;
  return { forDay: 'teaching', place, since: signUp.revisedAt, coming: comingOf(contact, studio, place) };
}
