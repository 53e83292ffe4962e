// The waiting list of sittings: who is on it and why in that order, who could be asked for a place, how long the wait
// may be; and the acts of putting a request on it, marking it, and going back on it.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { dayBounds } from '../lib/zoned-time.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { journeyGlance } from '../travel/journey-glance.calc.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { type Expiry, noticeNeeded, offerExpiry } from '../waiting/expiry.calc.js';
import type { PassOn } from '../waiting/pass-on.calc.js';
import { rank, type Waiter } from '../waiting/rank.calc.js';
import type { WaitingRules } from '../waiting/rules.schemas.js';
import { acceptedShare, expectedWait, givenBackShare, placesToCome } from '../waiting/wait.calc.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { FreedService, noticeOf } from './freed.service.js';
import {
  type FreedForWho,
  type FreedPlace,
  type Listed,
  type LiveOffer,
  marksForm,
  type Standing,
} from './list.schemas.js';
import { monthsOfPlaces } from './months-ahead.calc.js';
import { PlacesService } from './places.service.js';
import { type Sitting, type SittingView, suitsOn } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { type BehindLink, SittingViews } from './views.service.js';

/** What a contact's own page shows. */
export interface OwnPage extends BehindLink {
  /** The offer that can be answered now; null also where one has run out and nobody has let it lapse yet. */
  offer: Offer | null;
  standing: Standing | null;
}

@Injectable()
export class ListService {
  private readonly store = new SittingsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
    private readonly places: PlacesService,
    private readonly views: SittingViews,
    private readonly freed: FreedService,
  ) {}

  /** Puts a request, or a sitting the studio called off, on the list. @throws AppError wrong_state */
  async wait(studioId: string, who: Account, sittingId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { sitting, lapsed } = await this.places.lock(tx, sittingId);
      const change = { message: '', occupancyId: null };
      await this.places.turn(tx, sitting, {
        event: 'wait',
        who: who.name,
        change,
        tell: 'waiting',
        undoable: 'wait',
      });
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Puts somebody back whose offers ran out, with the first date of asking. @throws AppError wrong_state */
  async reopen(studioId: string, by: { token: string } | { who: Account; sittingId: string }): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const id = 'who' in by ? by.sittingId : (await this.links.open(tx, 'place', by.token)).subjectId;
      const { sitting, lapsed } = await this.places.lock(tx, id);
      const who = 'who' in by ? by.who.name : 'contact';
      const change = { offersUnanswered: 0 };
      await this.places.turn(tx, sitting, { event: 'reopen', who, change, tell: 'waiting' });
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Notes the owner's marks, each with its reason; what changed is a line of history.
   * @param check is asked about the marks as they stand before they are overwritten
   * @throws AppError bad_input, not_found
   */
  async mark(
    studioId: string,
    who: Account,
    sittingId: string,
    input: unknown,
    check: (stands: Sitting['marks']) => void = () => {},
  ): Promise<void> {
    const marks = readInput(marksForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const sitting = await this.store.byId(tx, sittingId, true);
      if (!sitting) throw new AppError('not_found', 'This request is not known here.');
      check(sitting.marks);
      const changed = (['priority', 'hardship', 'noticeDays'] as const).filter(
        (name) => sitting.marks[name] !== marks[name],
      );
      if (changed.length === 0) return;
      await this.store.setMarks(tx, sittingId, marks);
      await this.places.noteAct(tx, sitting, 'mark', sitting.turns, who.name);
      const note = changed.map((name) => `${name}: ${sitting.marks[name] ?? ''} -> ${marks[name] ?? ''}`);
      const about = { aboutKind: 'sitting', aboutId: sittingId, event: 'mark', note: note.join('; ') };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  rules(studioId: string): Promise<WaitingRules> {
    return this.db.inStudio(studioId, (tx) => this.waiting.rules(tx));
  }

  /** How many wait. */
  waitingCount(tx: Tx): Promise<number> {
    return this.store.countIn(tx, 'waiting');
  }

  /** Those who wait, in order. */
  async listed(tx: Tx, studio: Studio, rules: WaitingRules): Promise<Listed[]> {
    const views = await this.views.inStates(tx, studio, ['waiting']);
    return this.order(views, rules, await this.studioDays(tx, studio));
  }

  /** The list as it stands and as another rule would order it, the same people in both. */
  preview(studioId: string, rules: WaitingRules): Promise<{ now: Listed[]; after: Listed[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const views = await this.views.inStates(tx, studio, ['waiting']);
      const days = await this.studioDays(tx, studio);
      const now = this.order(views, await this.waiting.rules(tx), days);
      return { now, after: this.order(views, rules, days) };
    });
  }

  /** Everything the owner's page of the list shows. */
  page(studioId: string): Promise<{
    rules: WaitingRules;
    listed: Listed[];
    offers: LiveOffer[];
    freed: FreedPlace[];
    ranOut: SittingView[];
    now: Temporal.Instant;
  }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const rules = await this.waiting.rules(tx);
      const listed = await this.listed(tx, studio, rules);
      const others = await this.views.inStates(tx, studio, ['offered', 'lapsed']);
      const open = await this.waiting.unanswered(tx);
      const freed = await this.freed.of(tx, studio, rules, () => Promise.resolve(listed));
      const offers = open.flatMap((offer) => {
        const view = others.find(({ sitting }) => sitting.id === offer.forId && sitting.state === 'offered');
        return view ? [{ view, offer }] : [];
      });
      const ranOut = others.filter(({ sitting }) => sitting.state === 'lapsed');
      return { rules, listed, offers, freed, ranOut, now: this.clock.now() };
    });
  }

  /** What the contact's own page shows of the list and of an offer. @throws AppError not_found, link_expired */
  behindLink(studioId: string, token: string): Promise<OwnPage> {
    return this.db.inStudio(studioId, async (tx) => {
      const found = await this.views.behind(tx, token);
      const { sitting } = found.view;
      const offer = sitting.state === 'offered' ? await this.waiting.openFor(tx, sitting.id) : null;
      const open = offer && Temporal.Instant.compare(this.clock.now(), offer.expiresAt) < 0;
      const standing = sitting.state === 'waiting' ? await this.standing(tx, found.studio, sitting.id) : null;
      return { ...found, offer: open ? offer : null, standing };
    });
  }

  /** Who could be asked for a place, the next first. */
  async candidates(tx: Tx, studio: Studio, wallStart: Temporal.PlainDateTime): Promise<PassOn> {
    const rules = await this.waiting.rules(tx);
    const listed = await this.listed(tx, studio, rules);
    const [found] = await this.freed.candidates(tx, studio, rules, listed, [wallStart]);
    return found ?? { order: [], notAsked: [] };
  }

  /** Places that came free and that somebody who waits could be asked for, in order of time. */
  async freedFor(tx: Tx, studio: Studio, waiting: SittingView[]): Promise<FreedForWho[]> {
    if (waiting.length === 0) return [];
    const rules = await this.waiting.rules(tx);
    const listed = async () => this.order(waiting, rules, await this.studioDays(tx, studio));
    return (await this.freed.of(tx, studio, rules, listed)).flatMap(({ wallStart, candidates, byRule }) => {
      const first = waiting.find(({ sitting }) => sitting.id === candidates.order[0]);
      const others = candidates.order.length - 1;
      return first ? [{ wallStart, first, others, byRule, mode: rules.mode }] : [];
    });
  }

  /** Until when an offer of a place to a sitting would last, by the rule and how far they come. */
  async expiryFor(tx: Tx, studio: Studio, sitting: Sitting, startsAt: Temporal.Instant): Promise<Expiry> {
    const { life, notice } = await this.waiting.rules(tx);
    const { home, plan } = await this.people.contact(tx, sitting.contactId);
    const farAway = home && journeyGlance(home, studio, plan).farAway;
    const noticeDays = noticeNeeded(farAway, sitting.marks.noticeDays, notice);
    return offerExpiry({ zone: studio.zone, now: this.clock.now(), startsAt, noticeDays, life });
  }

  /** Where a sitting stands on the list and how long the wait may be; null when it is not on it. */
  async standing(tx: Tx, studio: Studio, sittingId: string): Promise<Standing | null> {
    const rules = await this.waiting.rules(tx);
    const listed = await this.listed(tx, studio, rules);
    const position = listed.find(({ view }) => view.sitting.id === sittingId)?.ranked.position;
    if (position === undefined) return null;
    const today = this.room.today(studio);
    const { from, until } = this.room.bookable(studio);
    const days = await this.room.days(tx, studio, { from, until }, 1);
    const end = dayBounds(studio.zone, until).end;
    const taken = await this.room.between(tx, this.clock.now(), end, end);
    const given = taken
      .filter((one) => one.holds && one.kind === 'sitting' && !one.tentative)
      .map((one) => one.wallStart.toPlainDate());
    const months = monthsOfPlaces(today, until, days, given);
    const seen = await this.waiting.experience(tx);
    return {
      position,
      of: listed.length,
      wait: expectedWait(position, placesToCome(months, seen)),
      months: months.length,
      open: months.reduce((sum, month) => sum + month.open, 0),
      given: given.length,
      acceptedShare: acceptedShare(seen),
      givenBackShare: givenBackShare(seen),
    };
  }

  private order(views: SittingView[], rules: WaitingRules, days: Temporal.PlainDate[]): Listed[] {
    const longest = Math.max(...Object.values(rules.notice));
    const waiters = views.map((view): Waiter => {
      const { sitting, kind } = view;
      return {
        id: sitting.id,
        askedAt: sitting.askedAt,
        returnOwed: sitting.returnOwed,
        daysThatSuit:
          days.length === 0 ? 0 : days.filter((day) => suitsOn(sitting.suits, day)).length / days.length,
        noticeDays: noticeOf(view, rules),
        longestNoticeDays: longest,
        series: kind?.keepsPlate === 'series',
        priority: sitting.marks.priority,
        hardship: sitting.marks.hardship,
      };
    });
    const byId = new Map(views.map((view) => [view.sitting.id, view]));
    return rank(waiters, rules.points, this.clock.now()).flatMap((ranked) => {
      const view = byId.get(ranked.id);
      return view ? [{ view, ranked }] : [];
    });
  }

  /** The days of the rhythm for which places can be asked. */
  private async studioDays(tx: Tx, studio: Studio): Promise<Temporal.PlainDate[]> {
    return (await this.room.days(tx, studio, this.room.bookable(studio), 1)).map((day) => day.date);
  }
}
