// Entering who wants to learn: signing up for a day, asking for a day of one's own.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { once, requestKey } from '../platform/idempotency.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { LINK_DAYS_WITHOUT_A_DAY, SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { oneToOneBody, type SignUpBody, signUpBody } from './sign-up.schemas.js';
import { SignUpsStore } from './sign-ups.store.js';
import type { SignUp, Student } from './teaching.schemas.js';

const made = z.object({ signUpId: z.uuid(), linkId: z.uuid() });
type Made = z.output<typeof made>;

/** Places there are, or the waiting list. */
const FULL =
  'There are not so many places left on that day. You can go on its waiting list and are asked when places come free.';

type Entering = Pick<SignUp, 'templateId' | 'sessionId' | 'state' | 'wantedOn' | 'follows'>;

@Injectable()
export class SignUpsService {
  private readonly sessions = new SessionsStore();
  private readonly store = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly seats: SeatsService,
  ) {}

  /**
   * Signs one or several students up for a day: places and stock at once, or the waiting list where they said so. Who
   * waits already goes first. `typedBy` is who types it in for somebody on the telephone. The same key and request again gives the same answer and enters nothing.
   * @throws AppError bad_input, place_taken where there are not so many places, wrong_state, short_of_stock
   */
  async signUp(
    studioId: string,
    sessionId: string,
    input: unknown,
    key: string,
    typedBy?: string,
  ): Promise<{ signUpId: string; token: string }> {
    const body = readInput(signUpBody, input);
    return this.keyed(studioId, 'sign up', key, { sessionId, input }, async (tx) => {
      const locked = await this.seats.lock(tx, sessionId);
      const { session } = locked;
      if (session.private || (session.state !== 'open' && session.state !== 'full'))
        throw new AppError('wrong_state', 'Nobody can sign up for this day now.');
      if (this.room.begun(locked.place)) throw new AppError('wrong_state', 'This day has begun already.');
      await this.checkSizes(tx, body);
      const others = await this.store.ofSessions(tx, [sessionId]);
      const queue = others.some(({ state }) => state === 'waiting' || state === 'offered');
      const fits = session.taken + body.students.length <= session.places && !queue;
      if (!fits && !body.orWait) throw new AppError('place_taken', FULL);
      const about = { templateId: session.templateId, sessionId, wantedOn: null, follows: null };
      const state = fits ? ('signed' as const) : ('waiting' as const);
      const entered = await this.enter(tx, body, { ...about, state }, typedBy);
      if (fits) {
        await this.seats.take(tx, locked, entered.students);
        await this.seats.firm(tx, entered.signUp, locked);
      } else if (session.taken < session.places)
        await this.seats.passOn(tx, sessionId, typedBy !== undefined);
      await this.seats.revise(tx, sessionId);
      if (typedBy !== undefined) await this.store.setUndo(tx, entered.signUpId, 'withdrawn');
      await this.seats.tell(tx, entered.signUpId, state, 0, {
        toldBy: typedBy,
        later: typedBy !== undefined,
      });
      await this.studios.raiseCalendarCounter(tx);
      return entered;
    });
  }

  /**
   * Asks for teaching one to one on a day; the owner answers.
   * @throws AppError bad_input, wrong_state where this is not taught one to one
   */
  async askOneToOne(
    studioId: string,
    templateId: string,
    input: unknown,
    key: string,
  ): Promise<{ signUpId: string; token: string }> {
    const body = readInput(oneToOneBody, input);
    return this.keyed(studioId, 'ask to learn', key, { templateId, input }, async (tx) => {
      const studio = await this.studios.load(tx);
      const template = (await this.sessions.templates(tx)).find(({ id }) => id === templateId);
      if (!template || template.archived || !template.course.oneToOne)
        throw new AppError('wrong_state', 'This is not taught one to one.');
      const problems: FieldProblem[] = this.room
        .dayProblems(studio, { kind: 'these', days: [body.day] })
        .map((one) => ({ ...one, field: 'day' }));
      if (template.course.secondDay && !body.cameBefore)
        problems.push({ field: 'cameBefore', message: 'This is a second day, for who came here before.' });
      if (body.students.length > template.course.most)
        problems.push({ field: 'students', message: 'There is no room for so many people on such a day.' });
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      await this.checkSizes(tx, body);
      const about = {
        templateId,
        sessionId: null,
        state: 'requested',
        wantedOn: body.day,
        follows: null,
      } as const;
      const entered = await this.enter(tx, body, about);
      await this.seats.tell(tx, entered.signUpId, 'asked', 0);
      return entered;
    });
  }

  private async keyed(
    studioId: string,
    name: string,
    key: string,
    request: unknown,
    act: (tx: Tx) => Promise<Made>,
  ): Promise<{ signUpId: string; token: string }> {
    const good = readInput(z.object({ key: requestKey }), { key }).key;
    return this.db.inStudio(studioId, async (tx) => {
      const done = await once(tx, this.clock, { name, key: good, request }, made, async () => {
        const { signUpId, linkId } = await act(tx);
        return { signUpId, linkId };
      });
      const link = await this.links.byId(tx, done.linkId);
      if (!link) throw new AppError('not_found');
      return { signUpId: done.signUpId, token: this.links.token(link) };
    });
  }

  private async checkSizes(tx: Tx, { students }: Pick<SignUpBody, 'students'>): Promise<void> {
    const sizes = await this.stock.plateSizes(tx);
    const problems = students.flatMap(({ plateSizeId }, at) =>
      plateSizeId === null || sizes.some(({ id }) => id === plateSizeId)
        ? []
        : [{ field: `students/${at}/plateSizeId`, message: 'The studio has no plates of this size.' }],
    );
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  }

  private async enter(
    tx: Tx,
    body: Omit<SignUpBody, 'orWait'>,
    about: Entering,
    who = 'contact',
  ): Promise<Made & { signUp: SignUp; students: Student[] }> {
    const { name, reachBy, email, telephone, postalAddress, language } = body;
    const { contact } = await this.people.enter(
      tx,
      { name, reachBy, email, telephone, postalAddress, language, home: null },
      [],
    );
    const signUp: SignUp = {
      id: this.random.id(),
      ...about,
      contactId: contact.id,
      askedAt: this.clock.now(),
      anything: body.anything,
      message: '',
      deposit: 'none',
      depositAt: null,
      offersUnanswered: 0,
      turns: 0,
      revisedAt: this.clock.now(),
      firmAt: null,
      undoTo: null,
      undone: [],
    };
    const students = body.students.map((one) => ({
      ...one,
      id: this.random.id(),
      signUpId: signUp.id,
      gear: {},
      access: '',
      emergency: { name: '', telephone: '' },
      safetyVersion: null,
      safetyAt: null,
    }));
    await this.store.insert(tx, signUp, students);
    const expires = this.clock.now().add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
    const link = await this.links.make(tx, 'place', signUp.id, expires);
    await recordHistory(tx, this.clock, {
      who,
      aboutKind: 'sign-up',
      aboutId: signUp.id,
      event: about.state,
    });
    return { signUpId: signUp.id, linkId: link.id, signUp, students };
  }
}
