// What pages and letters show of teaching: the days people can sign up for, one day with who has, a sign-up with its
// day, and how the shelf stands with a day. It changes nothing.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import type { Item, PlateSize } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { AfterViews, type OwnAfter } from './after-views.service.js';
import { holdingSafety, type SafetyWording } from './safety.calc.js';
import { type DayOnShelf, DayShelfService } from './day-shelf.service.js';
import type { DayView, OwnView, SignUpView } from './day-views.schemas.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { SESSION_STATES } from './states.calc.js';
import type { Session, SignUp, Template } from './teaching.schemas.js';

/** Days that are over stay among the owner's for so long. Assumption. */
const SHOWN_DAYS_BACK = 60;

export type { DayView, OwnView, SignUpView };

export interface SessionView extends DayView {
  /** Its hour has come. */
  begun: boolean;
  signUps: SignUpView[];
  shelf: DayOnShelf;
  history: HistoryLine[];
}

@Injectable()
export class TeachingViews {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly waiting: WaitingService,
    private readonly shelf: DayShelfService,
    private readonly after: AfterViews,
  ) {}

  /** The days to come that people can sign up or wait for, and what is taught one to one. */
  async open(studioId: string): Promise<{ days: DayView[]; oneToOne: Template[]; sizes: PlateSize[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const sessions = await this.sessions.inStates(tx, ['open', 'full'], this.clock.now());
      const days = await this.withPlaces(
        tx,
        sessions.filter((one) => !one.private),
      );
      const templates = await this.sessions.templates(tx);
      return {
        days: days.filter(({ place }) => !this.room.begun(place)),
        oneToOne: templates.filter((one) => one.course.oneToOne && !one.archived),
        sizes: await this.stock.plateSizes(tx),
      };
    });
  }

  /** All that the owner has: templates, days, and who asks to learn one to one. */
  async all(studioId: string) {
    return this.db.inStudio(studioId, async (tx) => {
      const since = this.clock.now().subtract({ hours: 24 * SHOWN_DAYS_BACK });
      const sessions = await this.sessions.inStates(tx, [...SESSION_STATES], since);
      const requested = await this.views(tx, await this.signUps.requested(tx));
      const waiting = (
        await this.signUps.ofSessions(
          tx,
          sessions.map(({ id }) => id),
        )
      ).filter(({ state }) => state === 'waiting');
      return {
        templates: await this.sessions.templates(tx),
        days: await this.withPlaces(tx, sessions),
        requested,
        waiting,
        undoable: await this.views(tx, await this.signUps.undoableWithoutDay(tx, this.lately())),
        safety: holdingSafety(await this.sessions.wordings(tx)),
      };
    });
  }

  async template(studioId: string, id: string | null) {
    return this.db.inStudio(studioId, async (tx) => {
      const template = (await this.sessions.templates(tx)).find((one) => one.id === id) ?? null;
      if (id !== null && !template) throw new AppError('not_found', 'This template is not known here.');
      const items: Item[] = (await this.stock.items(tx)).filter((one) => !one.archived);
      return { template, sizes: await this.stock.plateSizes(tx), items };
    });
  }

  /** The day that a sign-up is for. @throws AppError not_found where there is none */
  async dayOf(studioId: string, signUpId: string): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      const signUp = await this.signUps.byId(tx, signUpId);
      if (!signUp?.sessionId) throw new AppError('not_found', 'This sign-up is not known here.');
      return signUp.sessionId;
    });
  }

  /** The secret of the page of a sign-up, to fill it in with them. @throws AppError link_expired once it has run out */
  async tokenOf(studioId: string, signUpId: string): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.find(tx, 'place', signUpId);
      if (!link) throw new AppError('link_expired');
      return this.links.token(link);
    });
  }

  /** A day as the owner sees it. @throws AppError not_found */
  async session(
    studioId: string,
    sessionId: string,
  ): Promise<SessionView & { sizes: PlateSize[]; safety: SafetyWording }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const session = await this.sessions.byId(tx, sessionId, false);
      const [day] = session ? await this.withPlaces(tx, [session]) : [];
      if (!day) throw new AppError('not_found', 'This teaching day is not known here.');
      const signUps = await this.views(tx, await this.signUps.ofSessions(tx, [sessionId]));
      return {
        ...day,
        begun: this.room.begun(day.place),
        signUps,
        shelf: await this.shelf.of(tx, studio, day, signUps),
        history: await historyOf(tx, sessionId),
        sizes: await this.stock.plateSizes(tx),
        safety: holdingSafety(await this.sessions.wordings(tx)),
      };
    });
  }

  /** A sign-up by the secret of its page. @throws AppError not_found, link_expired */
  async behindLink(
    studioId: string,
    token: string,
  ): Promise<
    OwnView & { safety: SafetyWording; sizes: PlateSize[]; after: OwnAfter | null; feedToken: string | null }
  > {
    return this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.open(tx, 'place', token);
      const view = await this.own(tx, link.subjectId);
      if (!view) throw new AppError('not_found', 'This link is not known here.');
      const safety = holdingSafety(await this.sessions.wordings(tx));
      const after = await this.after.own(tx, view);
      const feed = await this.links.find(tx, 'feed', view.contact.id, 'student');
      const feedToken = feed && this.links.token(feed);
      return { ...view, safety, sizes: await this.stock.plateSizes(tx), after, feedToken };
    });
  }

  /** A sign-up with its day, or null. */
  async own(tx: Tx, signUpId: string): Promise<OwnView | null> {
    return (await this.owns(tx, [signUpId])).get(signUpId) ?? null;
  }

  /** The same. @throws AppError not_found where there is none */
  async known(tx: Tx, signUpId: string): Promise<OwnView> {
    const view = await this.own(tx, signUpId);
    if (!view) throw new AppError('not_found', 'This sign-up is not known here.');
    return view;
  }

  /** Some sign-ups with their days, by id. The same number of statements however many. */
  async owns(tx: Tx, signUpIds: string[]): Promise<Map<string, OwnView>> {
    if (signUpIds.length === 0) return new Map();
    const signUps = await this.signUps.byIds(tx, signUpIds);
    const ids = signUps.flatMap(({ sessionId }) => sessionId ?? []);
    const days = await this.withPlaces(tx, await this.sessions.byIds(tx, ids));
    const templates = signUps.length === ids.length ? [] : await this.sessions.templates(tx);
    const now = this.clock.now().epochMilliseconds;
    const offers = await this.waiting.unanswered(tx, signUpIds);
    return new Map(
      (await this.views(tx, signUps)).flatMap((view): [string, OwnView][] => {
        const { signUp } = view;
        const day = days.find(({ session }) => session.id === signUp.sessionId) ?? null;
        const course = day?.session.course ?? templates.find(({ id }) => id === signUp.templateId)?.course;
        const open = signUp.state === 'offered' ? offers.find(({ forId }) => forId === signUp.id) : undefined;
        const offer = open && open.expiresAt.epochMilliseconds > now ? open : null;
        return course ? [[signUp.id, { ...view, course, day, offer }]] : [];
      }),
    );
  }

  /** The wording of safety that holds. */
  async safety(tx: Tx): Promise<SafetyWording> {
    return holdingSafety(await this.sessions.wordings(tx));
  }

  /** An undo is shown for so long. */
  private lately() {
    return this.clock.now().subtract({ hours: 24 });
  }

  begun(place: Occupancy): boolean {
    return this.room.begun(place);
  }

  private async withPlaces(tx: Tx, sessions: Session[]): Promise<DayView[]> {
    const places = await this.room.byIds(
      tx,
      sessions.map(({ occupancyId }) => occupancyId),
    );
    return sessions.flatMap((session) => {
      const place = places.find(({ id }) => id === session.occupancyId);
      return place ? [{ session, place }] : [];
    });
  }

  private async views(tx: Tx, signUps: SignUp[]): Promise<SignUpView[]> {
    const contacts = await this.people.contacts(
      tx,
      signUps.map(({ contactId }) => contactId),
    );
    const students = await this.signUps.students(
      tx,
      signUps.map(({ id }) => id),
    );
    return signUps.flatMap((signUp) => {
      const contact = contacts.get(signUp.contactId);
      const own = students.filter(({ signUpId }) => signUpId === signUp.id);
      return contact ? [{ signUp, contact, students: own }] : [];
    });
  }
}
