// The owner's acts on templates and teaching days: making, copying, opening, calling off, ending.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { type Holding, HoldingService } from '../room/holding.service.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { RecipesService } from '../stock/recipes.service.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Course, course, minutesOf } from './course.schemas.js';
import { bottleOf, demonstrationNeeds, isCyanide } from './estimate.calc.js';
import { holdingSafety, type SafetyWording } from './safety.calc.js';
import { type Locked, SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { hasPlaces, nextOfSession, nextOfSignUp, type SessionEvent } from './states.calc.js';
import { callOffForm, safetyForm, type Session, type Template } from './teaching.schemas.js';

type Who = { name: string };

type Check = (stands: SafetyWording) => void;

@Injectable()
export class SessionsService {
  private readonly store = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly holding: HoldingService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly seats: SeatsService,
    private readonly recipes: RecipesService,
  ) {}

  /** Enters a template, or changes one; days made from it stay as they are. @throws AppError bad_input */
  async saveTemplate(
    studioId: string,
    who: Who,
    id: string | null,
    input: unknown,
    check: (course: Course) => void = () => {},
  ): Promise<Template> {
    const said = readInput(course, input);
    return this.db.inStudio(studioId, async (tx) => {
      await this.check(tx, said);
      const known = (await this.store.templates(tx, true)).find((one) => one.id === id);
      if (id !== null && !known) throw new AppError('not_found', 'This template is not known here.');
      if (known) check(known.course);
      const template = {
        id: known?.id ?? this.random.id(),
        course: said,
        archived: known?.archived ?? false,
      };
      await this.store.saveTemplate(tx, template, this.clock.now());
      await this.note(tx, who, template.id, known ? 'template changed' : 'template made', said.name);
      return template;
    });
  }

  /** A new day of a template, as a draft that holds the room. @throws AppError bad_input, not_an_opening, place_taken */
  async make(
    studioId: string,
    who: Who,
    templateId: string,
    wallStart: Temporal.PlainDateTime,
    meant = false,
  ): Promise<Session> {
    return this.db.inStudio(studioId, async (tx) => {
      const template = (await this.store.templates(tx)).find((one) => one.id === templateId);
      if (!template) throw new AppError('not_found', 'This template is not known here.');
      const studio = await this.studios.load(tx);
      const made = await this.enter(tx, studio, template.id, template.course, { wallStart, meant });
      await this.note(tx, who, made.id, 'made', wallStart.toString({ smallestUnit: 'minute' }));
      await this.studios.raiseCalendarCounter(tx);
      return made;
    });
  }

  /** The same day once more, as it is taught on that one, on another date. @throws as `make` */
  async copy(
    studioId: string,
    who: Who,
    sessionId: string,
    wallStart: Temporal.PlainDateTime,
    meant = false,
  ): Promise<Session> {
    return this.db.inStudio(studioId, async (tx) => {
      const { studio, session } = await this.seats.lock(tx, sessionId);
      const made = await this.enter(tx, studio, session.templateId, session.course, { wallStart, meant });
      const changed = { ...made, places: session.places, least: session.least };
      await this.store.save(tx, changed);
      await this.note(tx, who, made.id, 'copied', wallStart.toString({ smallestUnit: 'minute' }));
      await this.studios.raiseCalendarCounter(tx);
      return changed;
    });
  }

  /** Enters a draft, in the caller's transaction. @throws as `make` */
  async enter(
    tx: Tx,
    studio: Studio,
    templateId: string,
    said: Course,
    { wallStart, meant }: Pick<Holding, 'wallStart' | 'meant'>,
    only: { places: number } | null = null,
  ): Promise<Session> {
    const id = this.random.id();
    const title = `Teaching: ${said.name}`.slice(0, 120);
    const asked = { heldFor: id, title, wallStart, minutes: minutesOf(said), meant };
    const place = await this.holding.take(tx, studio, asked);
    const session: Session = {
      id,
      templateId,
      course: said,
      state: 'draft',
      occupancyId: place.id,
      places: only?.places ?? said.most,
      taken: 0,
      least: only ? 1 : said.least,
      decideOn: wallStart.toPlainDate().subtract({ days: said.decideDays }),
      private: only !== null,
      secondAdult: '',
      goesAheadAt: null,
      madeAt: this.clock.now(),
      sequence: 0,
      revisedAt: this.clock.now(),
      openedAt: null,
      freedAt: null,
    };
    await this.store.insert(tx, session, this.clock.now());
    return session;
  }

  /** Lets people sign up; the teacher's demonstration is set aside. @throws AppError wrong_state, short_of_stock */
  async open(studioId: string, who: Who, sessionId: string): Promise<void> {
    await this.act(studioId, who, sessionId, 'open', (tx, locked) => this.prepare(tx, locked));
  }

  /** What must be so before a day opens, and what it takes besides its students. */
  async prepare(tx: Tx, { studio, session, place }: Locked): Promise<void> {
    await this.checkCyanide(tx, session);
    const needs = demonstrationNeeds(session.course, await this.seats.shelf(tx, studio));
    await this.days.reserve(tx, studio, session.id, needs, place.wallStart.toPlainDate());
    await this.jobs.enqueue(
      tx,
      'teaching.ended',
      { sessionId: session.id },
      { key: session.id, runAt: place.endsAt },
    );
  }

  /** Back to a draft. @throws AppError wrong_state also while somebody has signed up or waits */
  async close(studioId: string, who: Who, sessionId: string): Promise<void> {
    await this.act(studioId, who, sessionId, 'close', async (tx, { studio, session, place }) => {
      const all = await this.signUps.ofSessions(tx, [session.id]);
      if (all.some(({ state }) => nextOfSignUp(state, 'call_off')))
        throw new AppError('wrong_state', 'People have signed up; a day like that is called off.');
      await this.days.release(tx, studio, session.id, place.wallStart.toPlainDate());
    });
  }

  /** The day is not held: room and stock are free, and everybody is told. @throws AppError wrong_state, bad_input */
  async callOff(studioId: string, who: Who, sessionId: string, message: string): Promise<void> {
    const { message: words } = readInput(callOffForm, { message });
    await this.act(studioId, who, sessionId, 'call_off', async (tx, { studio, session, place }) => {
      const concerned = (await this.signUps.ofSessions(tx, [session.id])).filter(({ state }) =>
        nextOfSignUp(state, 'call_off'),
      );
      const held: string[] = [session.id];
      for (const signUp of concerned) {
        await this.seats.settle(tx, signUp, 'called off', this.clock.now(), who.name);
        const students = await this.signUps.students(tx, [signUp.id]);
        if (hasPlaces(signUp.state)) {
          held.push(...students.map(({ id }) => id));
          await this.store.seat(tx, session.id, -students.length);
        }
        const turn = {
          event: 'call_off',
          who: who.name,
          change: { message: words },
          tell: 'called off',
        } as const;
        await this.seats.turn(tx, signUp, turn);
      }
      await this.room.giveBack(tx, session.occupancyId, false);
      await this.days.releaseAll(tx, studio, held, place.wallStart.toPlainDate());
    });
  }

  /** The day was held. @throws AppError wrong_state before it has begun */
  async end(studioId: string, who: Who, sessionId: string): Promise<void> {
    await this.act(studioId, who, sessionId, 'end', async (tx, { session, place }) => {
      if (!this.room.begun(place)) throw new AppError('wrong_state', 'This day has not begun yet.');
      await this.signUps.eraseEmergency(tx, session.id);
    });
  }

  /** Erases whom to ring in an emergency, once a day is over; one that was moved meanwhile is looked at again. */
  async forget(studioId: string, sessionId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { place, lapsed } = await this.seats.lock(tx, sessionId);
      if (place.endsAt.epochMilliseconds > this.clock.now().epochMilliseconds)
        await this.jobs.enqueue(tx, 'teaching.ended', { sessionId }, { key: sessionId, runAt: place.endsAt });
      else await this.signUps.eraseEmergency(tx, sessionId);
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Follows the wording of safety with another: who agreed to the old one is asked again. @throws AppError bad_input */
  async saveSafety(studioId: string, who: Who, input: string, check: Check = () => {}): Promise<void> {
    const { wording } = readInput(safetyForm, { wording: input });
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'safety');
      const before = holdingSafety(await this.store.wordings(tx));
      check(before);
      if (before.wording === wording) return;
      const version = before.version + 1;
      await this.store.insertWording(tx, { version, wording }, who.name, this.clock.now());
      await this.note(tx, who, studioId, 'safety wording', `version ${version}`);
    });
  }

  private async act(
    studioId: string,
    who: Who,
    sessionId: string,
    event: SessionEvent,
    act: (tx: Tx, locked: Locked) => Promise<void>,
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const locked = await this.seats.lock(tx, sessionId);
      const state = nextOfSession(locked.session.state, event);
      if (!state) throw new AppError('wrong_state', 'This day has changed in the meantime.');
      await this.store.setState(tx, sessionId, state);
      if (state === 'open') await this.store.setOpened(tx, sessionId, this.clock.now());
      await this.seats.revise(tx, sessionId);
      await act(tx, locked);
      await this.note(tx, who, sessionId, event);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Plate sizes and bottles of a course are the studio's. */
  private async check(tx: Tx, said: Course): Promise<void> {
    const sizes = await this.stock.plateSizes(tx);
    const items = await this.stock.items(tx);
    const wrong = (field: 'plates' | 'demonstration') =>
      said[field].flatMap(({ plateSizeId }, at) =>
        sizes.some(({ id }) => id === plateSizeId)
          ? []
          : [{ field: `${field}/${at}/plateSizeId`, message: 'The studio has no plates of this size.' }],
      );
    const bottles = Object.entries(said.uses as Record<string, string>).flatMap(([kind, of]) =>
      of === 'usual' || of === 'none' || items.some((item) => item.id === of && item.kind === kind)
        ? []
        : [{ field: `uses/${kind}`, message: 'Please choose one of the bottles.' }],
    );
    const problems = [...wrong('plates'), ...wrong('demonstration'), ...bottles];
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  }

  /** With cyanide on the bench: nobody under 18, and a second adult named. */
  async checkCyanide(tx: Tx, session: Session): Promise<void> {
    const fixer = bottleOf('fixer', session.course, await this.stock.items(tx));
    const [brought] = fixer ? await this.recipes.brought(tx, [fixer]) : [];
    if (!fixer || !(isCyanide(fixer) || brought?.has.includes('cyanide'))) return;
    if (session.course.leastAge < 18)
      throw new AppError('wrong_state', 'With a cyanide fixer on the bench nobody may be under 18.');
    if (session.secondAdult === '')
      throw new AppError('wrong_state', 'With a cyanide fixer on the bench a second trained adult is named.');
  }

  private note(tx: Tx, who: Who, aboutId: string, event: string, note = ''): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'teaching', aboutId, event, note });
  }
}
